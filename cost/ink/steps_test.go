package ink_test

import (
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost/ink"
	"example.com/quoin/internal/problemtest"
)

func TestSteps(t *testing.T) {
	tenth := quoin.MustSize("500 x 200 mm")
	for what, c := range map[string]struct {
		use  ink.Use
		want string
	}{
		// 10 × 0.1 + 60 ÷ 40 + 4 ÷ 8 = 3, of which a half is for cleaning
		"upkeep of all kinds": {ink.Use{PerM2: q("0.01 l"), Image: tenth, Upkeep: ink.Upkeep{
			PerMonth: q("0.06 l"), PrintsPerMonth: quoin.FactorOf(40), PerSession: q("4 ml"), PrintsPerSession: quoin.FactorOf(8), Share: quoin.MustRate("50%"),
		}}, `
image_area bill[2].ink: quotient width 500 mm @image, height 200 mm @image, mm2 in 1 m2 1000000x = 0.1x
ink_on_paper bill[2].ink: product per m2 10 ml @bill[2].ink.per_m2, image_area 0.1x #1 = 1x
ink_upkeep bill[2].ink: quotient per_month 60 ml @bill[2].ink.upkeep.per_month, prints_per_month 40x @bill[2].ink.upkeep.prints_per_month = 1.5x
ink_upkeep bill[2].ink: quotient per_session 4 ml @bill[2].ink.upkeep.per_session, prints_per_session 8x @bill[2].ink.upkeep.prints_per_session = 0.5x
ink_of_print bill[2].ink: sum ink_on_paper 1x #2, ink_upkeep 1.5x #3, ink_upkeep 0.5x #4 = 3x
ink bill[2].ink: quotient ink_of_print 3x #5, share of upkeep one_minus 50% @bill[2].ink.upkeep.share = 6x
`},
		// (9 + 3) ÷ (1 + 0.5)
		"of a log": {ink.Use{Image: tenth, Log: []ink.Job{{q("1 m2"), q("9 ml")}, {q("5000 cm2"), q("3 ml")}}}, `
all_ink bill[2].ink: sum ink 9x @bill[2].ink.log[0].volume, ink 3x @bill[2].ink.log[1].volume = 12x
all_area bill[2].ink: sum area 1x @bill[2].ink.log[0].area, area 0.5x @bill[2].ink.log[1].area = 1.5x
ink_per_m2 bill[2].ink: quotient all_ink 12x #1, all_area 1.5x #2 = 8x
image_area bill[2].ink: quotient width 500 mm @image, height 200 mm @image, mm2 in 1 m2 1000000x = 0.1x
ink_on_paper bill[2].ink: product ink_per_m2 8x #3, image_area 0.1x #4 = 0.8x
ink_of_print bill[2].ink: sum ink_on_paper 0.8x #5 = 0.8x
ink bill[2].ink: quotient ink_of_print 0.8x #6, share of upkeep one_minus 0% @bill[2].ink.upkeep.share ? = 0.8x
`},
		// (100 + 200 − 60 + 10) ÷ (16 + 4)
		"of periods": {ink.Use{Image: tenth, Spent: []ink.Period{{q("0.1 l"), q("200 ml"), q("60 ml"), q("16 m2")}, {Bought: q("10 ml"), Area: q("4 m2")}}}, `
ink_used bill[2].ink.spent[0]: sum opening 100x @bill[2].ink.spent[0].opening, bought 200x @bill[2].ink.spent[0].bought, closing minus 60x @bill[2].ink.spent[0].closing = 240x
ink_used bill[2].ink.spent[1]: sum opening 0x @bill[2].ink.spent[1].opening, bought 10x @bill[2].ink.spent[1].bought, closing minus 0x @bill[2].ink.spent[1].closing = 10x
all_ink bill[2].ink: sum ink_used 240x #1, ink_used 10x #2 = 250x
all_area bill[2].ink: sum area 16x @bill[2].ink.spent[0].area, area 4x @bill[2].ink.spent[1].area = 20x
ink_per_m2 bill[2].ink: quotient all_ink 250x #3, all_area 20x #4 = 12.5x
image_area bill[2].ink: quotient width 500 mm @image, height 200 mm @image, mm2 in 1 m2 1000000x = 0.1x
ink_on_paper bill[2].ink: product ink_per_m2 12.5x #5, image_area 0.1x #6 = 1.25x
ink_of_print bill[2].ink: sum ink_on_paper 1.25x #7 = 1.25x
ink bill[2].ink: quotient ink_of_print 1.25x #8, share of upkeep one_minus 0% @bill[2].ink.upkeep.share ? = 1.25x
`},
	} {
		trail := quoin.NewTrail(16)
		got := c.use.Explain(trail, quoin.InList("bill", 2).Inside("ink"), quoin.InField("image"))
		if said := problemtest.Steps(trail.Steps()); said != strings.TrimPrefix(c.want, "\n") {
			t.Errorf("%s:\n%s\nwant%s", what, said, c.want)
		}
		if v, err := c.use.Volume(); err != nil || v.Unit() != "ml" || !v.Number().Equal(got.Value.Factor()) {
			t.Errorf("%s: %s computed, %v, %s explained", what, v, err, got.Value)
		}
	}
}

// Each end of a range is taken where it makes for less ink, or for more. A tenth of a square metre
// takes 1 ml at 10 a square metre, and upkeep 60 ÷ 40 and 4 ÷ 8.
func TestEachEndOfARange(t *testing.T) {
	use := func(change func(*ink.Use)) ink.Use {
		u := ink.Use{PerM2: q("10 ml"), Image: quoin.MustSize("500 x 200 mm"), Upkeep: ink.Upkeep{
			PerMonth: q("60 ml"), PrintsPerMonth: quoin.FactorOf(40), PerSession: q("4 ml"), PrintsPerSession: quoin.FactorOf(8),
		}}
		change(&u)
		return u
	}
	for what, c := range map[string]struct {
		use       ink.Use
		low, high string
	}{
		"on paper":          {use(func(u *ink.Use) { u.PerM2Range = quoin.Between(q("5 ml"), q("20 ml")) }), "2.5 ml", "4 ml"},
		"in a month":        {use(func(u *ink.Use) { u.Upkeep.PerMonthRange = quoin.Between(q("20 ml"), q("80 ml")) }), "2 ml", "3.5 ml"},
		"prints of a month": {use(func(u *ink.Use) { u.Upkeep.PrintsPerMonthRange = quoin.Between(quoin.FactorOf(30), quoin.FactorOf(60)) }), "2.5 ml", "3.5 ml"},
		"in a session":      {use(func(u *ink.Use) { u.Upkeep.PerSessionRange = quoin.Between(q("2 ml"), q("8 ml")) }), "2.75 ml", "3.5 ml"},
		"prints of one": {use(func(u *ink.Use) {
			u.Upkeep.PrintsPerSessionRange = quoin.Between(quoin.FactorOf(4), quoin.FactorOf(16))
		}), "2.75 ml", "3.5 ml"},
		"cleaning":           {use(func(u *ink.Use) { u.Upkeep.ShareRange = quoin.Between(quoin.MustRate("0%"), quoin.MustRate("50%")) }), "3 ml", "6 ml"},
		"nothing is unsure":  {use(func(*ink.Use) {}), "3 ml", "3 ml"},
		"on paper and a log": {ink.Use{Image: quoin.MustSize("500 x 200 mm"), Log: []ink.Job{{q("1 m2"), q("9 ml")}, {q("1 m2"), q("5 ml")}, {q("1 m2"), q("7 ml")}}}, "0.5 ml", "0.9 ml"},
	} {
		if r, err := c.use.Range(); err != nil || !r.Low.Equal(q(c.low)) || !r.High.Equal(q(c.high)) {
			t.Errorf("%s: %s to %s, %v, want %s to %s", what, r.Low, r.High, err, c.low, c.high)
		}
	}
}

func TestProblems(t *testing.T) {
	image := quoin.MustSize("A4")
	for what, c := range map[string]struct {
		use  ink.Use
		want string
	}{
		"a page yield": {
			ink.Use{RatedPages: 4500, Image: image},
			"fault rated_pages: found a page yield, wanted what a square metre of image takes, as per_m2, log or spent; " +
				"page yields rest on pages of text (ISO/IEC 24712), not on art; log a few jobs instead [rated_page_yield]",
		},
		"more left than there was": {
			ink.Use{Image: image, Spent: []ink.Period{{Bought: q("50 ml"), Closing: q("60 ml"), Area: q("2 m2")}}},
			"fault spent: found an entry that printed nothing, or used up less than nothing, wanted entries with an area and the ink it took; check opening and closing stock [negative_ink]",
		},
		"upkeep of no prints": {
			ink.Use{PerM2: q("12 ml"), Image: image, Upkeep: ink.Upkeep{PerMonth: q("30 ml"), PerSession: q("3 ml"), PrintsPerSession: quoin.FactorOf(2)}},
			"fault upkeep.prints_per_month: found an upkeep of 30 ml, wanted how many prints it is spread over [missing_prints]",
		},
		"no image, and no ink": {
			ink.Use{PerM2: q("0 ml")},
			"fault image: found no image, wanted the size of the image; give the product an image [missing_image]",
		},
		"upkeep of grams": {
			ink.Use{PerM2: q("12 ml"), Image: image, Upkeep: ink.Upkeep{PerMonth: q("30 g"), PrintsPerMonth: quoin.FactorOf(2)}},
			`fault upkeep.per_month: found "30 g", wanted a volume [unit_mismatch]`,
		},
		"a range that does not hold it": {
			ink.Use{PerM2: q("-1 ml"), Image: image},
			"fault per_m2: found -1 ml, wanted a value of at least 0 [out_of_range]",
		},
	} {
		v, err := c.use.Volume()
		if got := problemtest.Full(err); got != c.want || !v.IsZero() {
			t.Errorf("%s: %s of\n%s\nwant\n%s", what, v, got, c.want)
		}
		if r, err := c.use.Range(); err == nil || !r.IsZero() {
			t.Errorf("%s: between %s and %s", what, r.Low, r.High)
		}
	}
	// No ink at all is an answer, of which Plausible warns.
	if v, err := (ink.Use{PerM2: q("0 ml"), Image: image}).Volume(); err != nil || v.String() != "0 ml" {
		t.Errorf("no ink: %s, %v", v, err)
	}
	// A high end beyond what its field takes keeps the range, but not the volume, from being known.
	u := ink.Use{PerM2: q("12 ml"), Image: image, Upkeep: ink.Upkeep{Share: quoin.MustRate("50%"), ShareRange: quoin.Between(quoin.MustRate("20%"), quoin.MustRate("100%"))}}
	if r, err := u.Range(); err == nil {
		t.Errorf("all ink for cleaning: between %s and %s", r.Low, r.High)
	}
}

func TestWarnings(t *testing.T) {
	const remedy = "; prints on paper commonly take 8 to 16, and 3 to 22 at the extremes; check the figure [ink_looks_unlikely] per_m2="
	for what, c := range map[string]struct {
		use  ink.Use
		want string
	}{
		"too little":                {ink.Use{PerM2: q("2.994 ml")}, "2.99 ml for a square metre of image" + remedy + "2.99"},
		"too much":                  {ink.Use{PerM2: q("0.120005 l")}, "120.01 ml for a square metre of image" + remedy + "120.01"},
		"too much of a log":         {ink.Use{Log: []ink.Job{{q("2 m2"), q("60 ml")}}}, "30 ml for a square metre of image" + remedy + "30"},
		"too much, with more wrong": {ink.Use{PerM2: q("120 ml"), Upkeep: ink.Upkeep{PerMonth: q("30 ml")}}, "120 ml for a square metre of image" + remedy + "120"},
		"too much in periods":       {ink.Use{Spent: []ink.Period{{Bought: q("60 ml"), Area: q("2 m2")}}}, "30 ml for a square metre of image" + remedy + "30"},
		"as is common":              {ink.Use{PerM2: q("12 ml")}, ""},
		"as is common, logged":      {ink.Use{Log: []ink.Job{{q("2 m2"), q("24 ml")}}}, ""},
		"a wrong log":               {ink.Use{Log: []ink.Job{{q("2 m"), q("60 ml")}}}, ""},
		"a page yield":              {ink.Use{RatedPages: 4500}, ""},
	} {
		p, unlikely := c.use.Plausible()
		got := ""
		if unlikely {
			got = problemtest.Full(p)
		}
		if c.want != "" {
			c.want = "warning per_m2: " + c.want
		}
		if got != c.want {
			t.Errorf("%s: %s, want %s", what, got, c.want)
		}
	}
}

// What is sound is not gone through field by field: a price list asks for it many times.
func TestSoundUsesAllocateNothing(t *testing.T) {
	plain := ink.Use{PerM2: q("12 ml"), Image: quoin.MustSize("A4")}
	monthly, session := plain, plain
	monthly.Upkeep = ink.Upkeep{PerMonth: q("60 ml"), PrintsPerMonth: quoin.MustFactor("0.5"), Share: quoin.MustRate("35%")}
	session.Upkeep = ink.Upkeep{PerSession: q("0.004 l"), PrintsPerSession: quoin.FactorOf(1)}
	for _, u := range []ink.Use{plain, monthly, session} {
		if n := testing.AllocsPerRun(20, func() { _, _ = u.Volume() }); n != 0 {
			t.Errorf("%v allocates %v times", u, n)
		}
	}
}

// The log goes before periods where both are given, which Check refuses.
func TestLogBeforePeriods(t *testing.T) {
	u := ink.Use{Log: []ink.Job{{q("1 m2"), q("9 ml")}}, Spent: []ink.Period{{Bought: q("50 ml"), Area: q("2 m2")}, {Bought: q("0 ml"), Area: q("2 m2")}}}
	if got := u.ExplainLikely(quoin.NewTrail(4), quoin.Path{}); got.Value.String() != "9" {
		t.Errorf("%s ml a square metre, want 9", got.Value)
	}
	// A period in which nothing was used up is one.
	u.Log = nil
	if got, err := u.Likely(); err != nil || got.PerM2.String() != "12.5 ml" || got.PerM2Range.Low.String() != "0 ml" || got.PerM2Range.High.String() != "25 ml" {
		t.Errorf("%v, %v", got, err)
	}
}
