package quoin

import (
	"slices"
	"unicode"

	"example.com/quoin/internal/decimal"
	"example.com/quoin/internal/prose"
)

// Unit is what a Quantity counts. Measured units convert exactly inside their dimension:
//
//	length  m cm mm in ft        1 in = 25.4 mm
//	area    m2 cm2 in2
//	volume  l ml
//	mass    kg g oz lb           1 lb = 0.45359237 kg, 1 oz = 1/16 lb
//	time    h min s
//
// These are the international yard and pound of 1959. Any other word, such as sheet or tube, is
// a unit that is counted. It can only be compared with itself.
type Unit string

const longestUnit = 32

type measure struct {
	dimension string
	size      decimal.Decimal // in the smallest unit of the dimension
}

var measures = map[Unit]measure{
	"m": {"length", decimal.New(1000, 0)}, "cm": {"length", decimal.New(10, 0)}, "mm": {"length", one},
	"in": {"length", decimal.New(254, -1)}, "ft": {"length", decimal.New(3048, -1)},
	"m2": {"area", decimal.New(10_000, 0)}, "cm2": {"area", one}, "in2": {"area", decimal.New(64516, -4)},
	"l": {"volume", decimal.New(1000, 0)}, "ml": {"volume", one},
	"kg": {"mass", decimal.New(1000, 0)}, "g": {"mass", one},
	"lb": {"mass", decimal.New(45359237, -5)}, "oz": {"mass", decimal.New(28349523125, -9)},
	"h": {"time", decimal.New(3600, 0)}, "min": {"time", decimal.New(60, 0)}, "s": {"time", one},
}

// Times returns so many of the unit: 0.125 of sheet is 0.125 sheet.
func (u Unit) Times(f Factor) Quantity { return Quantity{f.d, u} }

// Dimension returns length, area, volume, mass or time for a measured unit,
// and the unit's own word for a count unit.
func (u Unit) Dimension() string {
	if m, ok := measures[u]; ok {
		return m.dimension
	}
	return string(u)
}

// Size returns how many of its dimension's smallest unit (mm, cm2, ml, g, s) a measured unit
// is, exactly, and 1 for a counted unit.
func (u Unit) Size() Factor { return Factor{u.size()} }

// meets reports whether quantities of u and v can be compared: the same count
// unit, or measured units of one dimension.
func (u Unit) meets(v Unit) bool {
	a, measured := measures[u]
	b, too := measures[v]
	return u == v || measured && too && a.dimension == b.dimension
}

// size returns how many of the dimension's smallest unit u is.
func (u Unit) size() decimal.Decimal {
	if m, ok := measures[u]; ok {
		return m.size
	}
	return one
}

// UnmarshalText reads a unit: letters first, then letters, digits, '-' or '_'.
// The error is a Problem.
func (u *Unit) UnmarshalText(text []byte) error {
	v := Unit(text)
	if !v.wellFormed() {
		return Problem{Code: MissingUnit, Severity: Fault, Found: prose.Quoted(string(text)), Wanted: "a unit such as print"}
	}
	*u = v
	return nil
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
