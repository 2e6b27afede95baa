// Package units is the table of measured units: how long, how wide or how heavy each is, and how
// people write it.
package units

import (
	"slices"
	"strings"
	"sync"

	"example.com/quoin/internal/decimal"
	"example.com/quoin/internal/prose"
)

// Measure is a measured unit.
type Measure struct {
	Unit      string
	Dimension string
	Size      decimal.Decimal // in the smallest unit of the dimension: mm, cm2, ml, g, s
	Spellings []string        // other ways to write it
}

// measures are all measured units. A foot is 0.3048 m and a pound 0.45359237 kg (international
// yard and pound, 1959). A US gallon is 231 cubic inches, and a fluid ounce the 128th part of it
// (NIST SP 811, B.8). An imperial gallon is 4.54609 l, and a fluid ounce the 160th part of it
// (UK Units of Measurement Regulations 1995, from memory).
var measures = []Measure{
	{"m", "length", decimal.New(1000, 0), []string{"metre", "metres", "meter", "meters"}},
	{"cm", "length", decimal.New(10, 0), []string{"centimetre", "centimetres", "centimeter", "centimeters"}},
	{"mm", "length", decimal.New(1, 0), []string{"millimetre", "millimetres", "millimeter", "millimeters"}},
	{"in", "length", decimal.New(254, -1), []string{"inch", "inches"}},
	{"ft", "length", decimal.New(3048, -1), []string{"foot", "feet"}},
	{"yd", "length", decimal.New(9144, -1), []string{"yard", "yards"}},
	{"m2", "area", decimal.New(10_000, 0), square("m²", "sq m", "metre", "metres", "meter", "meters")},
	{"cm2", "area", decimal.New(1, 0), square("cm²", "sq cm", "centimetre", "centimetres", "centimeter", "centimeters")},
	{"in2", "area", decimal.New(64516, -4), square("in²", "sq in", "inch", "inches")},
	{"ft2", "area", decimal.New(9290304, -4), square("ft²", "sq ft", "foot", "feet")},
	{"yd2", "area", decimal.New(83612736, -4), square("yd²", "sq yd", "yard", "yards")},
	{"l", "volume", decimal.New(1000, 0), []string{"L", "litre", "litres", "liter", "liters"}},
	{"ml", "volume", decimal.New(1, 0), []string{"mL", "millilitre", "millilitres", "milliliter", "milliliters"}},
	{"us_fl_oz", "volume", decimal.New(295735295625, -10), []string{"us fl oz", "US fl oz", "US fluid ounce", "US fluid ounces"}},
	{"imp_fl_oz", "volume", decimal.New(284130625, -7), []string{"imp fl oz", "UK fl oz", "imperial fluid ounce", "imperial fluid ounces"}},
	{"kg", "mass", decimal.New(1000, 0), []string{"kilogram", "kilograms", "kilo", "kilos"}},
	{"g", "mass", decimal.New(1, 0), []string{"gram", "grams", "gramme", "grammes"}},
	{"oz", "mass", decimal.New(28349523125, -9), []string{"ounce", "ounces"}},
	{"lb", "mass", decimal.New(45359237, -5), []string{"lbs", "pound", "pounds"}},
	{"h", "time", decimal.New(3600, 0), []string{"hr", "hrs", "hour", "hours"}},
	{"min", "time", decimal.New(60, 0), []string{"mins", "minute", "minutes"}},
	{"s", "time", decimal.New(1, 0), []string{"sec", "secs", "second", "seconds"}},
	{"gsm", "gsm", decimal.New(1, 0), []string{"g/m2", "g/m²"}},
}

func square(with2, sq string, words ...string) []string {
	out := []string{with2, sq}
	for _, w := range words {
		out = append(out, "square "+w)
	}
	return out
}

// spelled is the unit of each way to write it. It is made when it is first asked for, since it takes
// longer than all else that is made when a program starts.
var spelled = sync.OnceValue(func() map[string]*Measure {
	out := make(map[string]*Measure)
	for i := range measures {
		m := &measures[i]
		for _, s := range append([]string{m.Unit}, m.Spellings...) {
			out[s] = m
		}
	}
	return out
})

// Of returns the measured unit that a text says, however it is written; false where it is none.
func Of(text string) (*Measure, bool) {
	m, ok := spelled()[text]
	return m, ok
}

// Dimension returns the measured units of a dimension, and all of them if it is empty.
func Dimension(of string) (out []*Measure) {
	for i := range measures {
		if m := &measures[i]; of == "" || m.Dimension == of {
			out = append(out, m)
		}
	}
	return out
}

// Near returns the measured unit of a dimension, or of any if it is empty, that a misspelt word
// most likely means; empty where there is none.
func Near(word, dimension string) string {
	var names []string
	for _, m := range Dimension(dimension) {
		names = append(append(names, m.Unit), m.Spellings...)
	}
	if m, ok := spelled()[prose.Near(strings.ToLower(word), names)]; ok {
		return m.Unit
	}
	return ""
}

// FluidOunce reports whether a text says a fluid ounce, and not whose.
func FluidOunce(text string) bool {
	if len(text) == 0 || text[0] != 'f' && text[0] != 'F' {
		return false
	}
	switch strings.NewReplacer(".", "", "_", " ", "-", " ").Replace(strings.ToLower(text)) {
	case "fl oz", "floz", "fluid ounce", "fluid ounces":
		return true
	}
	return false
}

// Singular returns a counted word in its singular: sheets is sheet, boxes is box, copies is copy.
// A word that may be a singular itself, such as glass, lens or canvas, stays.
func Singular(word string) string {
	n := len(word)
	if n < 4 || word[n-1] != 's' || slices.Contains(singular, word) {
		return word
	}
	for i := range n {
		if word[i] < 'a' || word[i] > 'z' {
			return word
		}
	}
	switch {
	case strings.IndexByte("suia", word[n-2]) >= 0:
		return word
	case n > 4 && strings.HasSuffix(word, "ies"):
		return word[:n-3] + "y"
	case strings.HasSuffix(word, "ches"), strings.HasSuffix(word, "shes"), strings.HasSuffix(word, "sses"), strings.HasSuffix(word, "xes"):
		return word[:n-2]
	}
	return word[:n-1]
}

// singular are words of one that end like those of many.
var singular = []string{"gros", "lens", "means", "news", "series", "species"}
