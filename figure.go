package quoin

import (
	"math/big"
	"strings"

	"example.com/quoin/internal/decimal"
	"example.com/quoin/internal/prose"
)

// Figure is a number in an explanation: an Amount, a Rate, a Factor, or the number of a
// Quantity with its unit. Compare figures with Equal: == would tell 17.5 from 17.50, so it does
// not compile.
type Figure struct {
	d    decimal.Decimal
	kind FigureKind
	unit Unit
}

// FigureKind says what type of number a Figure is.
type FigureKind string

const (
	IsFactor   FigureKind = ""         // a plain number; also of the zero value
	IsAmount   FigureKind = "amount"   // money
	IsRate     FigureKind = "rate"     // a share
	IsQuantity FigureKind = "quantity" // a number with a unit
)

// Figure returns a as a figure.
func (a Amount) Figure() Figure { return Figure{d: a.d, kind: IsAmount} }

// Figure returns r as a figure.
func (r Rate) Figure() Figure { return Figure{d: r.d, kind: IsRate} }

// Figure returns f as a figure.
func (f Factor) Figure() Figure { return Figure{d: f.d} }

// Figure returns q as a figure, or as a plain number if it has no unit.
func (q Quantity) Figure() Figure {
	if q.unit == "" {
		return Figure{d: q.d}
	}
	return Figure{d: q.d, kind: IsQuantity, unit: q.unit}
}

// Kind returns what type of number f is.
func (f Figure) Kind() FigureKind { return f.kind }

// Amount returns f as an amount, or false if it is not an amount.
func (f Figure) Amount() (Amount, bool) { return Amount{f.d}, f.kind == IsAmount }

// Factor returns the plain number of f, whatever its type.
func (f Figure) Factor() Factor { return Factor{f.d} }

// Equal reports whether f and g are the same number of the same type.
func (f Figure) Equal(g Figure) bool {
	return f.kind == g.kind && f.unit == g.unit && f.d.Cmp(g.d) == 0
}

// identical reports whether f and g are written alike at sight.
func (f *Figure) identical(g *Figure) bool {
	return f.kind == g.kind && f.unit == g.unit && f.d.Identical(&g.d)
}

// Rat returns f as a fraction.
func (f Figure) Rat() *big.Rat { return f.d.Rat() }

// String writes f as its type does. Numbers that came out of a quotient have 12 places.
func (f Figure) String() string {
	switch f.kind {
	case IsRate:
		return Rate{f.d}.String()
	case IsQuantity:
		return quantityOf(f.d, f.unit).String()
	case IsAmount:
		return f.d.String()
	}
	return f.d.Trim().String()
}

// Round writes f for a person: money with so many places, halves away from zero; rates, factors
// and quantities with at most five, without zeros at the end.
func (f Figure) Round(places int) string {
	switch f.kind {
	case IsAmount:
		return f.d.Round(places, decimal.HalfUp).String()
	case IsRate:
		return Rate{f.d.Round(5, decimal.HalfUp)}.String()
	}
	f.d = f.d.Round(5, decimal.HalfUp)
	return f.String()
}

// Long writes f so that a sum can be followed by hand. If f has at most eight places, it is
// String. Otherwise it is rounded to eight, without zeros at the end, and begins with ≈.
func (f Figure) Long() string {
	short, places := f, 8
	if f.kind == IsRate {
		places += 2 // those of a percentage
	}
	if short.d = f.d.Round(places, decimal.HalfUp).Trim(); short.d.Cmp(f.d) != 0 {
		return "≈" + short.String()
	}
	return f.String()
}

// MarshalText writes f so that its type can be read back: money as 17.50, a rate as 7.4%, a
// quantity as 0.5 sheet, a factor as 3.5x. Numbers that came out of a quotient are written with
// 12 places.
func (f Figure) MarshalText() ([]byte, error) { return f.AppendText(nil) }

// AppendText writes MarshalText behind b.
func (f Figure) AppendText(b []byte) ([]byte, error) {
	switch f.kind {
	case IsFactor:
		return append(f.d.Trim().Append(b), 'x'), nil
	case IsRate:
		return Rate{f.d}.AppendText(b)
	case IsQuantity:
		return quantityOf(f.d, f.unit).append(b), nil
	}
	return f.d.Append(b), nil
}

const (
	figureForm = "a figure such as 17.50, 7.4%, 0.5 sheet or 3.5x"
	// longestFigure is in bytes. No figure of a document comes near it.
	longestFigure = 4096
	// cutSign stands before all digits of a number that went through a quotient.
	cutSign = "≈"
)

// UnmarshalText reads what MarshalText writes, of at most 4,096 bytes, and what stands in
// stored steps: ≈ and a number with all digits of a quotient that does not end. The error is a
// Problem.
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

// digits writes f, of which a quotient was cut, with all its digits, beginning with ≈.
func (f Figure) digits() string {
	d := f.d
	if f.kind == IsRate {
		d = d.Shift(2)
	}
	text := cutSign + d.Trim().Digits() // as it is read back, without zeros behind
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
