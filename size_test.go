package quoin_test

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/quoin"
)

func mmOf(t *testing.T, s quoin.Size) string {
	t.Helper()
	var sides []string
	for _, q := range []quoin.Quantity{s.Width(), s.Height()} {
		in, err := q.In("mm")
		if err != nil {
			t.Fatal(err)
		}
		sides = append(sides, fmt.Sprintf("%.0f", in.Number()))
	}
	return strings.Join(sides, "×")
}

// The published tables of ISO 216, ISO 269 and ASME Y14.1 (as printed in
// encyclopedic tables of paper sizes, mm); ISO 217 from memory.
func TestPublishedPaperSizes(t *testing.T) {
	for series, sizes := range map[string]string{
		"A%d":    "841×1189, 594×841, 420×594, 297×420, 210×297, 148×210, 105×148, 74×105, 52×74, 37×52, 26×37",
		"B%d":    "1000×1414, 707×1000, 500×707, 353×500, 250×353, 176×250, 125×176, 88×125, 62×88, 44×62, 31×44",
		"C%d":    "917×1297, 648×917, 458×648, 324×458, 229×324, 162×229, 114×162, 81×114, 57×81, 40×57, 28×40",
		"RA%d":   "860×1220, 610×860, 430×610, 305×430, 215×305",
		"SRA%d":  "900×1280, 640×900, 450×640, 320×450, 225×320",
		"ANSI A": "216×279", "ANSI B": "279×432", "ANSI C": "432×559", "ANSI D": "559×864", "ANSI E": "864×1118",
		"ANSI F": "711×1016", "Letter": "216×279", "Legal": "216×356", "A3+": "329×483", // the last two are common practice
		"2A0": "1189×1682", "4A0": "1682×2378",
	} {
		for n, want := range strings.Split(sizes, ", ") {
			name := series
			if strings.Contains(series, "%d") {
				name = fmt.Sprintf(series, n)
			}
			s, err := quoin.ParseSize(name)
			if err != nil || mmOf(t, s) != want {
				t.Errorf("%s is %s, %v, want %s", name, s, err, want)
			}
		}
	}
}

// The heads of the series follow from their definitions: sides of 1 to √2, A0 of 1 m² (ISO 216),
// RA0 of 1.05 and SRA0 of 1.15 m² in whole centimetres (ISO 217), C0 the geometric mean of A0 and
// B0, which is 1 m wide (ISO 269).
func TestSeriesByDefinition(t *testing.T) {
	mm := func(name string, area, unit float64) {
		w := math.Round(math.Sqrt(area/math.Sqrt2)/unit) * unit
		h := math.Round(math.Sqrt(area*math.Sqrt2)/unit) * unit
		if got, want := mmOf(t, quoin.MustSize(name)), fmt.Sprintf("%.0f×%.0f", w, h); got != want {
			t.Errorf("%s is %s, want %s", name, got, want)
		}
	}
	mm("A0", 1e6, 1)
	mm("B0", 1e6*math.Sqrt2, 1)
	mm("C0", 1e6*math.Sqrt(math.Sqrt2), 1)
	mm("RA0", 1.05e6, 10)
	mm("SRA0", 1.15e6, 10)
}

// ASME Y14.1: each size is two of the one before, and areas double.
func TestANSISizesDouble(t *testing.T) {
	for _, pair := range []string{"AB", "BC", "CD", "DE"} {
		small, large := quoin.MustSize("ANSI "+pair[:1]), quoin.MustSize("ANSI "+pair[1:])
		if twice := small.Area().Times(quoin.FactorOf(2)); !twice.Equal(large.Area()) {
			t.Errorf("two of %s have %s, one of %s has %s", small, twice, large, large.Area())
		}
	}
}

func TestSizes(t *testing.T) {
	for _, c := range []struct{ text, written, area string }{
		{"297 x 420 mm", "297 x 420 mm", "1247.40 cm2"},
		{"297 mm × 42 cm", "297 mm x 42 cm", "1247.4 cm2"},
		{"8.5 x 11 in", "8.5 x 11 in", "603.2246 cm2"},
		{"24 in x 50 ft", "24 in x 50 ft", "92903.04 cm2"},
		{"A4", "210 x 297 mm", "623.70 cm2"},
		{"1x1 m", "1 x 1 m", "10000 cm2"},
		{"8x10 in", "8 x 10 in", "516.128 cm2"}, // 80 × 6.4516
		{"30x40cm", "30 x 40 cm", "1200 cm2"},
		{"30cmX400mm", "30 cm x 400 mm", "1200 cm2"},
		{"8 1/2 x 11 in", "8.5 x 11 in", "603.2246 cm2"},
		{"8½×11 inches", "8.5 x 11 in", "603.2246 cm2"},
		{"3 2/3 x 4 in", "3 2/3 x 4 in", "94.623466666667 cm2"},   // 14 2/3 × 6.4516
		{"1/3 ft x 2/3 yards", "1/3 ft x 2/3 yd", "619.3536 cm2"}, // 4 in × 24 in
		{" a4 ", "210 x 297 mm", "623.70 cm2"},
		{"Letter", "8.5 x 11 in", "603.2246 cm2"},
		{"LEGAL", "8.5 x 14 in", "767.7404 cm2"}, // 119 × 6.4516
		{"a3+", "329 x 483 mm", "1589.07 cm2"},
		{"ansi b", "11 x 17 in", "1206.4492 cm2"},
	} {
		s, err := quoin.ParseSize(c.text)
		if err != nil || s.String() != c.written || !s.Area().Equal(quoin.MustQuantity(c.area)) {
			t.Errorf("%s is %s of %s, %v, want %s of %s", c.text, s, s.Area(), err, c.written, c.area)
			continue
		}
		data, err := json.Marshal(s)
		var back quoin.Size
		if err != nil || json.Unmarshal(data, &back) != nil || !back.Equal(s) || back.String() != c.written {
			t.Errorf("%s is written %s and read as %s, %v", s, data, back, err)
		}
		if !s.Turned().Turned().Equal(s) || !s.Turned().Area().Equal(s.Area()) {
			t.Errorf("%s turned twice is %s", s, s.Turned().Turned())
		}
	}
}

func TestSizesRefused(t *testing.T) {
	for text, near := range map[string]string{
		"A11": "A1", "A04": "A0", "B-1": "", "297 x 420": "", "0 x 5 mm": "", "-3 x 5 mm": "", "3 kg x 5 mm": "",
		"3 x 5 kg": "", "x": "", "3 x 4 x 5 mm": "", "": "", "ANSI G": "ANSI A", "A": "", "RA5": "RA0", "leter": "Letter", "a44": "A4",
		"21,0 x 29,7 cm": "", "8 1/2 11 in": "", "8 1/2 x 11": "", "8-1/2 x 11 in": "", "3 x 4 fl oz": "", "8 in x": "",
		strings.Repeat("9", 200) + " x 5 mm": "",
	} {
		s, err := quoin.ParseSize(text)
		p, ok := err.(quoin.Problem)
		if !ok || p.Code != quoin.BadSize || !s.IsZero() || p.Wanted == "" || near != "" && p.Near == "" {
			t.Errorf("%q is read as %s, %v", text, s, err)
		}
	}
	if s, err := quoin.NewSize(quoin.MustQuantity("5 mm"), quoin.Quantity{}); err == nil {
		t.Errorf("a size without a height is %s", s)
	}
}

// A size that cannot be read says how to write it.
func TestSizesSayHow(t *testing.T) {
	for text, remedy := range map[string]string{
		"21,0 x 29,7 cm": "write a point, not a comma, before the fraction",
		"8 1/2 11 in":    "put an x between width and height: 8 1/2 x 11 in",
		"8 1/2 x 11":     "put the unit behind the height: 8 1/2 x 11 in",
	} {
		_, err := quoin.ParseSize(text)
		if p, _ := err.(quoin.Problem); p.Remedy != remedy {
			t.Errorf("%q: %v, want %s", text, err, remedy)
		}
	}
}

func TestSizesGrowAndFit(t *testing.T) {
	a4 := quoin.MustSize("A4")
	for by, want := range map[string]string{"3 mm": "216 x 303 mm", "-10 mm": "190 x 277 mm", "1 in": "260.8 x 347.8 mm", "0 mm": "210 x 297 mm"} {
		grown, err := a4.Grown(quoin.MustQuantity(by))
		if err != nil || !grown.Equal(quoin.MustSize(want)) {
			t.Errorf("%s grown by %s is %s, %v, want %s", a4, by, grown, err, want)
		}
	}
	for _, by := range []string{"-105 mm", "3 kg"} {
		if grown, err := a4.Grown(quoin.MustQuantity(by)); err == nil {
			t.Errorf("%s grown by %s is %s", a4, by, grown)
		}
	}
	for _, c := range []struct {
		small, large string
		fits         bool
	}{{"A5", "A4", true}, {"A4", "A4", true}, {"A4", "A5", false}, {"297 x 210 mm", "A4", false}, {"8.5 x 11 in", "A4", false}} {
		if quoin.MustSize(c.small).Fits(quoin.MustSize(c.large)) != c.fits {
			t.Errorf("%s in %s: not %t", c.small, c.large, c.fits)
		}
	}
}
