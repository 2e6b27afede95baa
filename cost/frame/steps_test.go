package frame_test

import (
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost/cut"
	"example.com/quoin/cost/frame"
	"example.com/quoin/internal/problemtest"
)

func TestSteps(t *testing.T) {
	at, product := quoin.InList("bill", 1).Inside("moulding"), quoin.InList("products", 0)
	m := frame.Moulding{Glass: quoin.MustSize("300 x 400 mm"), Width: q("2 cm"), Rabbet: q("5 mm"), Allowance: q("6 mm")}
	for what, c := range map[string]struct {
		explain func(*quoin.Trail) quoin.Operand
		want    string
	}{
		// 2 × 700 + 8 × 20 − 8 × 5 + 6
		"a length": {func(t *quoin.Trail) quoin.Operand { return m.Explain(t, at, product.Field("frame")) }, `
moulding_length bill[1].moulding: weighted width 300 mm @products[0].frame, times 2x, height 400 mm @products[0].frame, times 2x, moulding width 20 mm @bill[1].moulding.width, times 8x, rabbet minus 5 mm @bill[1].moulding.rabbet, times 8x, allowance 6 mm @bill[1].moulding.allowance, times 1x = 1526x
`},
		"the least that is sold": {func(t *quoin.Trail) quoin.Operand {
			m := m
			m.Least = q("2 m")
			return m.Explain(t, at, product.Field("frame"))
		}, `
moulding_length bill[1].moulding: weighted width 300 mm @products[0].frame, times 2x, height 400 mm @products[0].frame, times 2x, moulding width 20 mm @bill[1].moulding.width, times 8x, rabbet minus 5 mm @bill[1].moulding.rabbet, times 8x, allowance 6 mm @bill[1].moulding.allowance, times 1x = 1526x
moulding_sold bill[1].moulding: greatest moulding_length 1526x #1, least 2000 mm @bill[1].moulding.least = 2000x
`},
		"sticks for one": {func(t *quoin.Trail) quoin.Operand { return m.ExplainSticks(t, at, cut.Sticks{Sticks: 2}) }, `
per_frame bill[1].moulding: quotient sticks 2x, frames cut together 1x @bill[1].moulding.together ? = 2x
`},
		"sticks for one, as is said": {func(t *quoin.Trail) quoin.Operand {
			m := m
			m.Together = 1
			return m.ExplainSticks(t, at, cut.Sticks{Sticks: 2})
		}, `
per_frame bill[1].moulding: quotient sticks 2x, frames cut together 1x @bill[1].moulding.together = 2x
`},
		"sticks for eight": {func(t *quoin.Trail) quoin.Operand {
			m := m
			m.Together = 8
			return m.ExplainSticks(t, at, cut.Sticks{Sticks: 6})
		}, `
per_frame bill[1].moulding: quotient sticks 6x, frames cut together 8x @bill[1].moulding.together = 0.75x
`},
		"united inches": {func(t *quoin.Trail) quoin.Operand {
			return frame.United{Size: quoin.MustSize("8 x 10 in")}.Explain(t, at, product.Field("mat"))
		}, `
width_and_height bill[1].moulding: sum width 203.2 mm @products[0].mat, height 254 mm @products[0].mat = 457.2x
united_inches bill[1].moulding: quotient width_and_height 457.2x #1, mm in 1 in 25.4x = 18x
`},
		"whole united inches": {func(t *quoin.Trail) quoin.Operand {
			return frame.United{Size: quoin.MustSize("200 x 257.2 mm"), WholeUp: true}.Explain(t, at, product.Field("mat"))
		}, `
width_and_height bill[1].moulding: sum width 200 mm @products[0].mat, height 257.2 mm @products[0].mat = 457.2x
united_inches bill[1].moulding: quotient width_and_height 457.2x #1, mm in 1 in 25.4x = 18x, up to 0: 18x
`},
	} {
		trail := quoin.NewTrail(4)
		c.explain(trail)
		if got := problemtest.Steps(trail.Steps()); got != strings.TrimPrefix(c.want, "\n") {
			t.Errorf("%s:\n%s\nwant%s", what, got, c.want)
		}
	}
}

// A frame of 300 × 400 mm, of a moulding that shows 15 mm beyond the glass on each side.
func TestSidesOfAFrame(t *testing.T) {
	m := frame.Moulding{Glass: quoin.MustSize("300 x 400 mm"), Width: q("20 mm"), Rabbet: q("5 mm"), Together: 3}
	rails, err := m.Rails()
	if err != nil || len(rails) != 2 || rails[0].String() != "rail: length 430 mm, count 6" || rails[1].String() != "rail: length 330 mm, count 6" {
		t.Errorf("%v, %v", rails, err)
	}
	if outside, err := m.Outside(); err != nil || outside.String() != "330 x 430 mm" {
		t.Errorf("%s outside, %v", outside, err)
	}
	// The lengths of 1,520 mm for each frame; 6 × 430 and 6 × 330 out of sticks of 1 m: two of 430, or
	// three of 330, or one of each to a stick.
	if per, sticks, err := m.PerFrame(cut.Stick{Length: q("1 m")}); err != nil || sticks.Sticks != 5 || !per.Equal(quoin.FactorOf(5).Over(quoin.FactorOf(3))) {
		t.Errorf("%s of a stick, %d sticks, %v, want 5 for three", per, sticks.Sticks, err)
	}
	for least, want := range map[string]string{"0 m": "1520 mm", "1.52 m": "1520 mm", "1519 mm": "1520 mm", "1521 mm": "1521 mm"} {
		m.Least = q(least)
		if got, err := m.Length(); err != nil || got.String() != want {
			t.Errorf("of at least %s: %s, %v, want %s", least, got, err, want)
		}
	}
}

func TestProblems(t *testing.T) {
	a4 := quoin.MustSize("A4")
	for what, c := range map[string]struct {
		m    frame.Moulding
		want string
	}{
		"no glass": {frame.Moulding{Width: q("20 mm")}, "fault glass: found no size, wanted the size of the glass; give the product a frame [missing_glass]"},
		"all of it rabbet": {
			frame.Moulding{Glass: a4, Width: q("20 mm"), Rabbet: q("2 cm")},
			"fault rabbet: found 2 cm, wanted less than the width of 20 mm [rabbet_above_width]",
		},
		"no width": {frame.Moulding{Glass: a4, Rabbet: q("2 cm")}, "fault width: found nothing, wanted the field width [missing_field]"},
		"a rabbet below 0": {
			frame.Moulding{Glass: a4, Width: q("20 mm"), Rabbet: q("-1 mm")},
			"fault rabbet: found -1 mm, wanted a value of at least 0 [out_of_range]",
		},
		"fewer than no frames": {
			frame.Moulding{Glass: a4, Width: q("20 mm"), Together: -1},
			"fault together: found -1, wanted a value of at least 1 and at most 10000 [out_of_range]",
		},
		"grams of width": {frame.Moulding{Glass: a4, Width: q("20 g")}, "unit_mismatch width"},
		"of rabbet":      {frame.Moulding{Glass: a4, Width: q("20 mm"), Rabbet: q("2 g")}, "unit_mismatch rabbet"},
		"of allowance":   {frame.Moulding{Glass: a4, Width: q("20 mm"), Allowance: q("2 g")}, "unit_mismatch allowance"},
		"of least":       {frame.Moulding{Glass: a4, Width: q("20 mm"), Least: q("2 g")}, "unit_mismatch least"},
	} {
		length, err := c.m.Length()
		_, err2 := c.m.Rails()
		_, err3 := c.m.Outside()
		_, _, err4 := c.m.PerFrame(cut.Stick{Length: q("3 m")})
		for _, err := range []error{err, err2, err3, err4} {
			if got := problemtest.Full(err); got != c.want && problemtest.Listed(err) != c.want || !length.IsZero() {
				t.Errorf("%s: %s of\n%s\nwant\n%s", what, length, got, c.want)
			}
		}
	}
	if _, err := (frame.United{}).Inches(); problemtest.Full(err) != "fault size: found nothing, wanted the field size or of [missing_field]" {
		t.Error(err)
	}
}

func TestMatProblems(t *testing.T) {
	a4, grams := quoin.MustSize("A4"), q("5 g")
	for want, m := range map[string]frame.Mat{
		"unit_mismatch reveal":  {Image: a4, Reveal: grams},
		"unit_mismatch overlap": {Image: a4, Overlap: grams},
		"unit_mismatch top":     {Image: a4, Top: grams},
		"unit_mismatch sides":   {Image: a4, Sides: grams},
		"unit_mismatch bottom":  {Image: a4, Bottom: grams},
		"bad_size image":        {Image: a4, Overlap: q("105 mm")},
	} {
		opening, err := m.Opening()
		outside, err2 := m.Outside()
		if problemtest.Listed(err) != want || problemtest.Listed(err2) != want || !opening.IsZero() || !outside.IsZero() {
			t.Errorf("%s in %s, %v, %v, want %s", opening, outside, err, err2, want)
		}
	}
	// A mat whose borders leave nothing is no size either.
	m := frame.Mat{Image: a4, Top: q("-300 mm")}
	if outside, err := m.Outside(); problemtest.Only(err).Code != quoin.BadSize || !outside.IsZero() {
		t.Errorf("%s, %v", outside, err)
	}
}

// What is sound is not gone through field by field: a price list asks for it many times.
func TestSoundMouldingAllocatesNothing(t *testing.T) {
	plain := frame.Moulding{Glass: quoin.MustSize("A4"), Width: q("2 cm")}
	whole := plain
	whole.Rabbet, whole.Allowance, whole.Least, whole.Together = q("5 mm"), q("6 mm"), q("1 m"), 1
	thin := plain
	thin.Width, thin.Rabbet = q("5 mm"), q("4.5 mm")
	for _, m := range []frame.Moulding{plain, whole, thin} {
		if n := testing.AllocsPerRun(20, func() { _, _ = m.Length() }); n != 0 {
			t.Errorf("%v allocates %v times", m, n)
		}
	}
}
