package quoin

import (
	"database/sql/driver"
	"fmt"
	"math/big"
	"strings"

	"example.com/quoin/internal/decimal"
	"example.com/quoin/internal/prose"
	"example.com/quoin/internal/units"
)

// Quantity is a number of some unit: "0.5 sheet", "14 in", "390 s". The zero value has no unit
// and means that none is given. Compare quantities with Equal and Cmp: 1 in and 25.4 mm are the
// same length. == would tell them apart, so it does not compile.
type Quantity struct {
	mixed
	unit Unit // canonical
}

// ParseQuantity reads a number, a space and a unit. The number has at most 12 digits before the
// point and 12 after it, or is a whole number and a fraction, whose parts have at most three
// digits: "8 1/2 in", "2/3 sheet". The space may be missing before a measured unit: "40cm". The
// error is a Problem.
func ParseQuantity(s string) (Quantity, error) { return quantityForm.readQuantity(s) }

func (f *form) readQuantity(s string) (Quantity, error) {
	if len(s) > f.longest() {
		return Quantity{}, f.read(new(decimal.Decimal), s, false)
	}
	number, rest, err := f.readMixed(strings.TrimSpace(s))
	if err != nil {
		return Quantity{}, refound(err, s)
	}
	unit := strings.TrimSpace(rest)
	if p, two := twoNumbers(s, unit); two {
		return Quantity{}, p
	}
	u, err := readUnit(unit)
	switch _, measured := units.Of(unit); {
	case err == nil && (measured || strings.HasPrefix(rest, " ")):
		return Quantity{number, u}, nil
	case err != nil && unit != "" && err.(Problem).Code == Ambiguous:
		return Quantity{}, refound(err, s)
	}
	p := Problem{
		Code: MissingUnit, Severity: Fault, Found: prose.Quoted(s), Wanted: f.what,
		Remedy: "put a space and a unit word after the number",
	}
	if rest != "" && rest[0] != ' ' {
		p.Code = NotANumber
	}
	return Quantity{}, p
}

// MustQuantity is ParseQuantity for literals in programs and tests; it panics
// where ParseQuantity errs.
func MustQuantity(s string) Quantity { return must("MustQuantity", ParseQuantity, s) }

// quantityOf returns so many of a canonical unit.
func quantityOf(d decimal.Decimal, u Unit) Quantity { return Quantity{mixed{d: d}, u} }

// Unit returns the unit, empty for the zero value.
func (q Quantity) Unit() Unit { return q.unit }

// Number returns the number in front of the unit.
func (q Quantity) Number() Factor { return Factor{q.d} }

// Times returns f × q, exactly.
func (q Quantity) Times(f Factor) Quantity { return quantityOf(q.d.Mul(f.d), q.unit) }

// In returns q in unit u, to 34 significant digits if the quotient does not end: 1 in is 25.4
// mm. The error is a Problem, if u is of another dimension.
func (q Quantity) In(u Unit) (Quantity, error) {
	u = u.canonical()
	if !q.unit.meets(u) {
		return Quantity{}, mismatch(q, u)
	}
	if q.unit == u {
		return q, nil
	}
	return quantityOf(q.d.Mul(q.unit.size()).Quo(u.size()), u), nil
}

// Ratio returns how many times p goes into q, after converting units, to 34 significant digits.
// The error is a Problem, if the dimensions differ or p is zero.
func (q Quantity) Ratio(p Quantity) (Factor, error) {
	if !q.unit.meets(p.unit) {
		return Factor{}, mismatch(q, p.unit)
	}
	if p.d.Sign() == 0 {
		return Factor{}, Problem{Code: NotANumber, Severity: Fault, Found: prose.Quoted(p.String()), Wanted: "a quantity above zero"}
	}
	return Factor{q.d.Mul(q.unit.size()).Quo(p.d.Mul(p.unit.size()))}, nil
}

// mm returns a length in millimetres, exactly.
func (q Quantity) mm() decimal.Decimal { return q.d.Mul(q.unit.size()) }

// Cmp compares quantities of one dimension. It errs if the dimensions differ.
func (q Quantity) Cmp(p Quantity) (int, error) {
	if q.unit == p.unit {
		return q.d.Cmp(p.d), nil
	}
	if !q.unit.meets(p.unit) {
		return 0, mismatch(q, p.unit)
	}
	return q.d.Mul(q.unit.size()).Cmp(p.d.Mul(p.unit.size())), nil
}

// Equal reports whether q and p are the same quantity: 1 in equals 25.4 mm.
func (q Quantity) Equal(p Quantity) bool {
	c, err := q.Cmp(p)
	return err == nil && c == 0
}

// Sign returns −1, 0 or +1.
func (q Quantity) Sign() int { return q.d.Sign() }

// IsZero reports whether q is the zero value, with neither number nor unit.
func (q Quantity) IsZero() bool { return q.unit == "" && q.d.Sign() == 0 }

// IsGiven reports whether q was read, built or computed, even as zero. It is false only for
// Quantity{}, such as a missing field.
func (q Quantity) IsGiven() bool { return q.unit != "" || q.d.Made() }

// Rat returns the number as a fraction. That of "3 2/3 in" is 11/3.
func (q Quantity) Rat() *big.Rat {
	if q.over == 0 {
		return q.d.Rat()
	}
	over := decimal.New(int64(q.over), 0)
	n, _ := q.d.Mul(over).Round(0, decimal.HalfEven).Units(0)
	return big.NewRat(n, int64(q.over))
}

// Float64 returns the nearest float, for drawing only: the number of "0.5 sheet" is 0.5. It is
// not exact, and sums of floats are not money. Beyond 10^308 it is infinite.
func (q Quantity) Float64() float64 {
	f, _ := q.d.Rat().Float64()
	return f
}

// String returns the number, a space and the unit. A decimal has no zeros at the end; a fraction
// that is no finite decimal is written as one: "3 2/3 in".
func (q Quantity) String() string {
	return string(q.append(nil))
}

// Format serves fmt: %v, %s and %q as String, %f the number alone.
func (q Quantity) Format(s fmt.State, verb rune) { format(s, verb, "Quantity", q.d, q.String()) }

// MarshalText returns String.
func (q Quantity) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// AppendText writes String behind b.
func (q Quantity) AppendText(b []byte) ([]byte, error) { return q.append(b), nil }

func (q Quantity) append(b []byte) []byte {
	b = q.mixed.append(b)
	if q.unit == "" {
		return b
	}
	return append(append(b, ' '), q.unit...)
}

// UnmarshalText reads back what MarshalText wrote: at most 1,000 digits before the point and
// 1,000 after it, more than any sum has. It reads "0" as no quantity. For what a person wrote,
// use ParseQuantity, which has closer bounds. The error is a Problem.
func (q *Quantity) UnmarshalText(text []byte) error {
	if string(text) == "0" {
		*q = Quantity{}
		return nil
	}
	stored := quantityForm.stored()
	return set(q, stored.readQuantity, string(text))
}

// MarshalBinary writes q with all its digits, also for gob. It comes back unchanged, even as a
// quotient that does not end.
func (q Quantity) MarshalBinary() ([]byte, error) { return q.AppendBinary(nil) }

// AppendBinary is MarshalBinary behind b.
func (q Quantity) AppendBinary(b []byte) ([]byte, error) {
	if q.over != 0 {
		b = append(b, fractionFollows, byte(q.over>>8), byte(q.over))
	}
	b = append(append(b, byte(len(q.unit))), q.unit...)
	return q.d.AppendBinary(b), nil
}

// fractionFollows is the first byte of a quantity that is written as a fraction. No unit is so
// long.
const fractionFollows = 0xff

// UnmarshalBinary reads what MarshalBinary wrote. The error is a Problem.
func (q *Quantity) UnmarshalBinary(data []byte) error {
	var unit Unit
	var over uint16
	if len(data) > 3 && data[0] == fractionFollows {
		over, data = uint16(data[1])<<8|uint16(data[2]), data[3:]
	}
	if len(data) > 0 {
		n := min(int(data[0]), len(data)-1)
		unit, data = Unit(data[1:1+n]), data[1+n:]
	}
	var d decimal.Decimal
	if err := quantityForm.setBinary(&d, data); err != nil {
		return err
	}
	if unit != "" && (!unit.wellFormed() || unit != unit.canonical()) || unit == "" && d.Sign() != 0 {
		return Problem{Code: MissingUnit, Severity: Fault, Found: prose.Quoted(string(unit)), Wanted: quantityForm.what}
	}
	read := Quantity{mixed{d, over}, unit}
	if over != 0 && !read.isFraction() {
		return Problem{Code: NotANumber, Severity: Fault, Found: prose.Quoted(d.String()), Wanted: "a fraction as MarshalBinary writes it"}
	}
	*q = read
	return nil
}

// Value stores q as text: "0.5 sheet".
func (q Quantity) Value() (driver.Value, error) { return q.String(), nil }

// Scan reads back what Value stored, from text columns. NULL is refused: an Optional
// takes it.
func (q *Quantity) Scan(src any) error { return scanText(src, quantityForm.what, q.UnmarshalText) }
