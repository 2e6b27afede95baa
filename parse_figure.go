package quoin

import (
	"strings"

	"example.com/quoin/internal/decimal"
	"example.com/quoin/internal/prose"
)

const (
	figureForm = "a figure such as 17.50, 7.4%, 0.5 sheet or 3.5x"
	// longestFigure is in bytes. No figure of a document comes near it.
	longestFigure = 4096
	// cutSign stands before all digits of a number that went through a quotient.
	cutSign = "≈"
)

// UnmarshalText reads what MarshalText writes, of at most 4,096 bytes, and what stands
// in stored steps: with ≈ before it a number with all the digits of a quotient that had
// to be cut. The error is a Problem.
func (f *Figure) UnmarshalText(text []byte) error {
	read, ok := readFigure(string(text))
	if !ok {
		p := Problem{Code: NotANumber, Severity: Fault, Found: prose.Quoted(string(text)), Wanted: figureForm}
		if len(text) > longestFigure {
			p.Code, p.Wanted = TooLong, p.Wanted+", of at most 4096 bytes"
		}
		return p
	}
	*f = read
	return nil
}

func readFigure(s string) (f Figure, ok bool) {
	if len(s) > longestFigure {
		return f, false
	}
	s, cut := strings.CutPrefix(s, cutSign)
	switch number, unit, spaced := strings.Cut(s, " "); {
	case spaced:
		s, f.kind, f.unit = number, IsQuantity, Unit(unit)
		if !f.unit.wellFormed() {
			return f, false
		}
	case strings.HasSuffix(s, "%"):
		s, f.kind = strings.TrimSuffix(s, "%"), IsRate
	case strings.HasSuffix(s, "x"):
		s = strings.TrimSuffix(s, "x")
	default:
		f.kind = IsAmount
	}
	if f.d, ok = decimal.Written(s, longestFigure); !ok {
		return f, false
	}
	if cut {
		f.d, ok = f.d.AsCut()
	}
	if f.kind == IsRate {
		f.d = f.d.Shift(-2)
	}
	return f, ok
}

// digits writes f with all its digits, beginning with ≈ where a quotient was cut.
func (f Figure) digits() string {
	if f.d.Exact() {
		return f.written()
	}
	d := f.d
	if f.kind == IsRate {
		d = d.Shift(2)
	}
	text := cutSign + d.Digits()
	switch f.kind {
	case IsAmount:
		return text
	case IsRate:
		return text + "%"
	case IsQuantity:
		return text + " " + string(f.unit)
	}
	return text + "x"
}
