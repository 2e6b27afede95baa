package quoin

import (
	"fmt"
	"slices"
	"unicode"

	"example.com/quoin/internal/decimal"
	"example.com/quoin/internal/prose"
	"example.com/quoin/internal/units"
)

// Unit is what a Quantity counts. Measured units convert exactly inside their dimension:
//
//	length  m cm mm in ft yd     1 in = 25.4 mm
//	area    m2 cm2 in2 ft2 yd2
//	volume  l ml us_fl_oz imp_fl_oz
//	mass    kg g oz lb           1 lb = 0.45359237 kg, 1 oz = 1/16 lb
//	time    h min s
//
// Lengths and masses are those of the international yard and pound of 1959; a US fluid ounce is
// 29.5735295625 ml, an imperial one 28.4130625 ml. They are read as people write them: inches,
// sq ft, gram, hours. Any other word, such as sheet or tube, is a unit that is counted. It can
// only be compared with itself; its plural is the same unit: sheets are sheet.
type Unit string

const longestUnit = 32

// Times returns so many of the unit: 0.125 of sheet is 0.125 sheet.
func (u Unit) Times(f Factor) Quantity { return quantityOf(f.d, u.canonical()) }

// Dimension returns length, area, volume, mass or time for a measured unit,
// and the unit's own word for a count unit.
func (u Unit) Dimension() string {
	if m, ok := units.Of(string(u)); ok {
		return m.Dimension
	}
	return string(u.canonical())
}

// Size returns how many of its dimension's smallest unit (mm, cm2, ml, g, s) a measured unit
// is, exactly, and 1 for a counted unit.
func (u Unit) Size() Factor { return Factor{u.size()} }

// canonical returns the one word for the unit: in for inches, sheet for sheets.
func (u Unit) canonical() Unit {
	if m, ok := units.Of(string(u)); ok {
		return Unit(m.Unit)
	}
	return Unit(units.Singular(string(u)))
}

// meets reports whether quantities of u and v, both canonical, can be compared: the same count
// unit, or measured units of one dimension.
func (u Unit) meets(v Unit) bool {
	if u == v {
		return true
	}
	a, measured := units.Of(string(u))
	b, too := units.Of(string(v))
	return measured && too && a.Dimension == b.Dimension
}

// size returns how many of the dimension's smallest unit u is.
func (u Unit) size() decimal.Decimal {
	if m, ok := units.Of(string(u)); ok {
		return m.Size
	}
	return one
}

// UnmarshalText reads a unit: letters first, then letters, digits, '-' or '_'; or a measured one
// as people write it, such as "sq ft". The error is a Problem.
func (u *Unit) UnmarshalText(text []byte) error {
	v, err := readUnit(string(text))
	if err != nil {
		return err
	}
	*u = v
	return nil
}

// readUnit returns the unit that a text says.
func readUnit(text string) (Unit, error) {
	if m, ok := units.Of(text); ok {
		return Unit(m.Unit), nil
	}
	if units.FluidOunce(text) {
		return "", Problem{
			Code: Ambiguous, Severity: Fault, Found: prose.Quoted(text), Wanted: "us_fl_oz, which is 29.5735 ml, or imp_fl_oz, which is 28.4131 ml",
			Remedy: "say whose fluid ounce it is, or give the volume in ml",
		}
	}
	if !Unit(text).wellFormed() {
		return "", Problem{Code: MissingUnit, Severity: Fault, Found: prose.Quoted(text), Wanted: "a unit such as print"}
	}
	return Unit(text).canonical(), nil
}

// wellFormed reports whether u is a word: letters first, then letters,
// digits, '-' or '_'.
func (u Unit) wellFormed() bool {
	if u == "" || len(u) > longestUnit {
		return false
	}
	for i, r := range string(u) {
		if !unicode.IsLetter(r) && (i == 0 || !unicode.IsDigit(r) && r != '-' && r != '_') {
			return false
		}
	}
	return true
}

// mismatch says that a quantity cannot be converted to a unit.
func mismatch(q Quantity, u Unit) Problem {
	p := Problem{Code: UnitMismatch, Severity: Fault, Found: prose.Quoted(q.String()), Wanted: fmt.Sprintf("a quantity in %s", u)}
	of, measured := units.Of(string(u))
	_, too := units.Of(string(q.unit))
	switch {
	case measured && of.Dimension != of.Unit:
		p.Wanted = fmt.Sprintf("a %s, such as one in %s", of.Dimension, u)
		if p.Near = units.Near(string(q.unit), of.Dimension); too {
			p.Near = ""
		}
	case !measured && too:
		if meant := units.Near(string(u), ""); meant != "" {
			p.Remedy = fmt.Sprintf("%s is a unit that is counted; if %s is meant, write %s there", u, meant, meant)
		}
	case !measured:
		p.Near = prose.Near(string(q.unit), []string{string(u)})
	}
	if measured && of.Dimension == "volume" && q.unit == "oz" {
		p.Remedy = "oz is a mass; a volume is in us_fl_oz, of 29.5735 ml, or imp_fl_oz, of 28.4131 ml"
	}
	return p
}

// Per says what something is counted by: item or order. If it is empty, the field that holds it
// says what that means.
type Per string

const (
	PerItem  Per = "item"  // once for each item sold
	PerOrder Per = "order" // once for each order, however many items it holds
)

// UnmarshalText reads item or order. The error is a Problem.
func (p *Per) UnmarshalText(text []byte) error {
	words := []Per{PerItem, PerOrder}
	if !slices.Contains(words, Per(text)) {
		return unknownWord(string(text), words)
	}
	*p = Per(text)
	return nil
}
