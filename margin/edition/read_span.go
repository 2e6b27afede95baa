package edition

import (
	"strconv"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
)

// UnmarshalText reads what String writes. The error is a Problem.
func (s *Span) UnmarshalText(text []byte) error {
	from, to, ranged := strings.Cut(string(text), "–")
	if !ranged {
		to = from
	}
	first, err := strconv.ParseInt(from, 10, 64)
	last, err2 := strconv.ParseInt(to, 10, 64)
	if err != nil || err2 != nil {
		return quoin.Problem{Code: quoin.NotANumber, Severity: quoin.Fault, Found: prose.Quoted(string(text)), Wanted: "a number, or numbers such as 21–50"}
	}
	*s = Span{first, last}
	return nil
}
