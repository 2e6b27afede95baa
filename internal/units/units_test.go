package units_test

import (
	"math/big"
	"testing"

	"example.com/quoin/internal/units"
)

func rat(s string) *big.Rat {
	r, ok := new(big.Rat).SetString(s)
	if !ok {
		panic(s)
	}
	return r
}

func size(t *testing.T, unit string) *big.Rat {
	t.Helper()
	m, ok := units.Of(unit)
	if !ok {
		t.Fatalf("no unit %s", unit)
	}
	return m.Size.Rat()
}

// The factors are those of NIST Handbook 44, Appendix C, and of NIST SP 811, Appendix B.8, both from
// memory; imperial measures are those of the UK Units of Measurement Regulations 1995, from memory.
// All of these are exact. Beside each stands the definition that it follows from, which is worked
// out here: one unit is so many of another.
func TestSizes(t *testing.T) {
	for _, c := range []struct {
		unit, dimension, size string // in mm, cm2, ml, g or s
		of, times, definition string // it is so many of that unit
	}{
		{"mm", "length", "1", "mm", "1", ""},
		{"cm", "length", "10", "mm", "10", ""},
		{"m", "length", "1000", "cm", "100", ""},
		{"in", "length", "25.4", "cm", "2.54", "international yard and pound, 1959"},
		{"ft", "length", "304.8", "in", "12", ""},
		{"yd", "length", "914.4", "ft", "3", "0.9144 m, 1959"},
		{"cm2", "area", "1", "cm2", "1", ""},
		{"m2", "area", "10000", "cm2", "10000", "100 cm squared"},
		{"in2", "area", "6.4516", "cm2", "6.4516", "2.54 cm squared"},
		{"ft2", "area", "929.0304", "in2", "144", "12 in squared"},
		{"yd2", "area", "8361.2736", "ft2", "9", "3 ft squared"},
		{"ml", "volume", "1", "ml", "1", ""},
		{"l", "volume", "1000", "ml", "1000", ""},
		{"us_fl_oz", "volume", "29.5735295625", "ml", "3785.411784/128", "a 128th of a gallon of 231 cubic inches"},
		{"imp_fl_oz", "volume", "28.4130625", "l", "4.54609/160", "a 160th of a gallon of 4.54609 l"},
		{"g", "mass", "1", "g", "1", ""},
		{"kg", "mass", "1000", "g", "1000", ""},
		{"lb", "mass", "453.59237", "kg", "0.45359237", "international yard and pound, 1959"},
		{"oz", "mass", "28.349523125", "lb", "1/16", ""},
		{"s", "time", "1", "s", "1", ""},
		{"min", "time", "60", "s", "60", ""},
		{"h", "time", "3600", "min", "60", ""},
		{"gsm", "gsm", "1", "gsm", "1", ""},
	} {
		m, ok := units.Of(c.unit)
		if !ok || m.Dimension != c.dimension {
			t.Errorf("%s is no %s", c.unit, c.dimension)
			continue
		}
		if got := m.Size.Rat(); got.Cmp(rat(c.size)) != 0 {
			t.Errorf("%s is %s, want %s", c.unit, got.FloatString(12), c.size)
		}
		if defined := new(big.Rat).Mul(ratio(c.times), size(t, c.of)); defined.Cmp(rat(c.size)) != 0 {
			t.Errorf("%s %s is %s of the smallest unit, %s %s", c.times, c.of, defined.FloatString(12), c.size, c.definition)
		}
	}
	if n := len(units.Dimension("")); n != 23 {
		t.Errorf("%d units, and 23 stand here", n)
	}
	// 231 cubic inches of 2.54 cm each.
	inch := rat("2.54")
	gallon := new(big.Rat).Mul(rat("231"), new(big.Rat).Mul(inch, new(big.Rat).Mul(inch, inch)))
	if gallon.Cmp(rat("3785.411784")) != 0 {
		t.Errorf("a US gallon is %s ml", gallon.FloatString(9))
	}
}

// ratio is a number, or one over another.
func ratio(s string) *big.Rat {
	for i := range s {
		if s[i] == '/' {
			return new(big.Rat).Quo(rat(s[:i]), rat(s[i+1:]))
		}
	}
	return rat(s)
}

// Each way to write a unit says one unit.
func TestSpellings(t *testing.T) {
	known := make(map[string]string)
	for _, m := range units.Dimension("") {
		for _, s := range append([]string{m.Unit}, m.Spellings...) {
			if of, twice := known[s]; twice {
				t.Errorf("%q says %s and %s", s, of, m.Unit)
			}
			known[s] = m.Unit
			if got, ok := units.Of(s); !ok || got.Unit != m.Unit {
				t.Errorf("%q says %v, want %s", s, got, m.Unit)
			}
		}
	}
	for _, c := range []struct{ text, unit string }{
		{"inches", "in"},
		{"feet", "ft"},
		{"cm²", "cm2"},
		{"sq ft", "ft2"},
		{"square inch", "in2"},
		{"square yards", "yd2"},
		{"litres", "l"},
		{"mL", "ml"},
		{"US fl oz", "us_fl_oz"},
		{"UK fl oz", "imp_fl_oz"},
		{"grammes", "g"},
		{"lbs", "lb"},
		{"hrs", "h"},
		{"g/m²", "gsm"},
		{"sheet", ""},
		{"fl oz", ""},
		{"IN", ""},
		{"", ""},
	} {
		got := ""
		if m, ok := units.Of(c.text); ok {
			got = m.Unit
		}
		if got != c.unit {
			t.Errorf("%q is %q, want %q", c.text, got, c.unit)
		}
	}
}

func TestDimension(t *testing.T) {
	for dimension, want := range map[string]int{"length": 6, "area": 5, "volume": 4, "mass": 4, "time": 3, "gsm": 1, "temperature": 0} {
		if got := units.Dimension(dimension); len(got) != want {
			t.Errorf("%d units of %s, want %d", len(got), dimension, want)
		}
	}
}

func TestNearUnits(t *testing.T) {
	for _, c := range []struct{ word, dimension, want string }{
		{"metrs", "", "m"}, {"Gramms", "mass", "g"}, {"poundz", "", "lb"}, {"mililitre", "volume", "ml"}, {"mililitre", "mass", ""}, {"envelope", "", ""},
	} {
		if got := units.Near(c.word, c.dimension); got != c.want {
			t.Errorf("%q of %q is near %q, want %q", c.word, c.dimension, got, c.want)
		}
	}
}

// A fluid ounce by itself is one of two.
func TestFluidOunce(t *testing.T) {
	for text, want := range map[string]bool{
		"fl oz": true, "fl. oz.": true, "fl_oz": true, "FL OZ": true, "floz": true, "Fluid ounce": true, "fluid-ounces": true,
		"us fl oz": false, "oz": false, "floor": false, "": false,
	} {
		if got := units.FluidOunce(text); got != want {
			t.Errorf("%q: %t", text, got)
		}
	}
}

func TestSingular(t *testing.T) {
	for _, c := range []struct{ word, one string }{
		{"sheets", "sheet"},
		{"boxes", "box"},
		{"copies", "copy"},
		{"batches", "batch"},
		{"brushes", "brush"},
		{"glasses", "glass"},
		{"tubes", "tube"},
		{"glass", "glass"},
		{"lens", "lens"},
		{"canvas", "canvas"},
		{"gros", "gros"},
		{"series", "series"},
		{"species", "species"},
		{"news", "news"},
		{"means", "means"},
		{"chassis", "chassis"},
		{"bus", "bus"},
		{"sheet", "sheet"},
		{"pcs", "pcs"},
		{"Sheets", "Sheets"},
		{"m2s", "m2s"},
		{"ties", "tie"},
		{"", ""},
	} {
		if got := units.Singular(c.word); got != c.one {
			t.Errorf("one of %q is %q, want %q", c.word, got, c.one)
		}
	}
}
