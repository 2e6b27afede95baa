package quoin

import (
	"cmp"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/quoin/internal/decimal"
	"example.com/quoin/internal/prose"
)

// mixed is a number as people write lengths: a decimal, a fraction, or a whole number and a
// fraction.
type mixed struct {
	d    decimal.Decimal
	over uint16 // what d is a fraction of, where it is no finite decimal
}

// mostFraction bounds both parts of a fraction.
const mostFraction = 999

// vulgar are fractions of one character.
var vulgar = map[rune][2]uint16{
	'½': {1, 2}, '⅓': {1, 3}, '⅔': {2, 3}, '¼': {1, 4}, '¾': {3, 4}, '⅛': {1, 8}, '⅜': {3, 8}, '⅝': {5, 8}, '⅞': {7, 8},
}

// readMixed reads the number that a text begins with, and returns what follows it.
func (f *form) readMixed(s string) (m mixed, rest string, err error) {
	head, rest := cutNumeral(s)
	whole := strings.TrimPrefix(head, "-")
	if top, over, after, ok := cutFraction(whole, rest); ok {
		if strings.HasPrefix(rest, "/") {
			whole = ""
		}
		if m, ok = join(whole, top, over, strings.HasPrefix(head, "-")); ok && endsNumber(after) {
			return m, after, nil
		}
	} else if head != "" && endsNumber(rest) {
		return m, rest, f.read(&m.d, head, false)
	}
	number, _, _ := strings.Cut(s, " ")
	if err := f.read(&m.d, number, false); err != nil {
		return m, "", err
	}
	return m, "", f.refusal(strings.Clone(s[:min(len(s), mostKept)]), len(s), decimal.NotANumber)
}

// cutNumeral cuts a minus, digits and points off the front of a text.
func cutNumeral(s string) (head, rest string) {
	n := len(s) - len(strings.TrimPrefix(s, "-"))
	for n < len(s) && (s[n] >= '0' && s[n] <= '9' || s[n] == '.') {
		n++
	}
	return s[:n], s[n:]
}

// endsNumber reports whether a number may end where this follows.
func endsNumber(rest string) bool {
	r, _ := utf8.DecodeRuneInString(rest)
	return rest == "" || r == ' ' || unicode.IsLetter(r)
}

// cutFraction cuts a fraction off the front of what follows a whole number, which is its upper
// part where a stroke follows; false where there is none.
func cutFraction(whole, rest string) (top, over uint16, after string, ok bool) {
	if below, stroke := strings.CutPrefix(rest, "/"); stroke {
		digits, after := cutNumeral(below)
		return small(whole), small(digits), after, true
	}
	text := strings.TrimLeft(rest, " ")
	if r, n := utf8.DecodeRuneInString(text); vulgar[r] != [2]uint16{} {
		return vulgar[r][0], vulgar[r][1], text[n:], true
	}
	digits, below := cutNumeral(text)
	below, stroke := strings.CutPrefix(below, "/")
	if !stroke || text == rest { // no space before it
		return 0, 0, "", false
	}
	under, after := cutNumeral(below)
	return small(digits), small(under), after, true
}

// small is a number from 1 to 999 without zeros before it; 0 where a text is none.
func small(digits string) uint16 {
	n, err := strconv.ParseUint(digits, 10, 16)
	if err != nil || n > mostFraction || strconv.FormatUint(n, 10) != digits {
		return 0
	}
	return uint16(n)
}

// join is whole + top ÷ over; false where that is no number as people write it.
func join(whole string, top, over uint16, negative bool) (m mixed, ok bool) {
	d, fault := decimal.Parse(cmp.Or(whole, "0"), quantityForm.whole, 0, false)
	if fault != decimal.OK || top == 0 || over == 0 || whole != "" && top >= over {
		return mixed{}, false
	}
	below := decimal.New(int64(over), 0)
	if d = d.Mul(below).Add(decimal.New(int64(top), 0)); negative {
		d = d.Neg()
	}
	if m.d = d.Quo(below); !m.d.Exact() {
		m.over = over
	}
	return m, true
}

// append writes m behind b, as readMixed reads it.
func (m mixed) append(b []byte) []byte {
	if m.over == 0 {
		return m.d.Trim().Append(b)
	}
	n, _ := m.d.Mul(decimal.New(int64(m.over), 0)).Round(0, decimal.HalfEven).Units(0)
	if n < 0 {
		b, n = append(b, '-'), -n
	}
	if whole := n / int64(m.over); whole > 0 {
		b = append(strconv.AppendInt(b, whole, 10), ' ')
	}
	b = append(strconv.AppendInt(b, n%int64(m.over), 10), '/')
	return strconv.AppendInt(b, int64(m.over), 10)
}

// isFraction reports whether m is the quotient that its fraction comes to.
func (m mixed) isFraction() bool {
	back, rest, err := quantityForm.readMixed(string(m.append(nil)))
	return err == nil && rest == "" && back.over == m.over && back.d.Rat().Cmp(m.d.Rat()) == 0
}

// twoNumbers says that a second number follows where a unit should.
func twoNumbers(s, rest string) (Problem, bool) {
	second, after := cutNumeral(rest)
	if second == "" || second == "-" || after != "" && after[0] != ' ' && after[0] != '/' {
		return Problem{}, false
	}
	s = strings.TrimSpace(s)
	first := strings.TrimSpace(s[:len(s)-len(rest)])
	return Problem{
		Code: Ambiguous, Severity: Fault, Found: prose.Quoted(s), Wanted: "one number, " + first + " or " + second,
		Remedy: "write one of them and a unit, such as \"8 1/2 in\"",
	}, true
}
