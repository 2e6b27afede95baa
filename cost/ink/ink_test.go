package ink_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/cost/ink"
	"example.com/quoin/internal/problemtest"
)

func q(s string) quoin.Quantity { return quoin.MustQuantity(s) }

// A square metre of image at 10 ml, in round sizes, to be followed in the head.
func TestVolume(t *testing.T) {
	square := quoin.MustSize("1000 x 1000 mm")
	half := quoin.MustSize("500 x 200 mm") // a tenth of a square metre
	for _, c := range []struct {
		what string
		use  ink.Use
		want string
	}{
		{"a square metre", ink.Use{PerM2: q("10 ml"), Image: square}, "10 ml"},
		{"a tenth of one", ink.Use{PerM2: q("10 ml"), Image: half}, "1 ml"},
		{"and 60 ml a month over 40 prints", ink.Use{PerM2: q("10 ml"), Image: half, Upkeep: ink.Upkeep{PerMonth: q("60 ml"), PrintsPerMonth: quoin.FactorOf(40)}}, "2.5 ml"},
		{"and 4 ml a session over 8", ink.Use{PerM2: q("10 ml"), Image: half, Upkeep: ink.Upkeep{PerSession: q("4 ml"), PrintsPerSession: quoin.FactorOf(8)}}, "1.5 ml"},
		{"half of all ink for cleaning: divided, not added", ink.Use{PerM2: q("10 ml"), Image: half, Upkeep: ink.Upkeep{Share: quoin.MustRate("50%")}}, "2 ml"},
		{"three quarters of it", ink.Use{PerM2: q("0.01 l"), Image: half, Upkeep: ink.Upkeep{Share: quoin.MustRate("75%")}}, "4 ml"},
		{"a log: 12 ml over 1.5 m²", ink.Use{Image: half, Log: []ink.Job{{q("1 m2"), q("9 ml")}, {q("5000 cm2"), q("3 ml")}}}, "0.8 ml"},
		{"spent: 100 + 200 − 60 over 16 m²", ink.Use{Image: half, Spent: []ink.Period{{q("100 ml"), q("200 ml"), q("60 ml"), q("16 m2")}}}, "1.5 ml"},
	} {
		got, err := c.use.Volume()
		if err != nil || !got.Equal(q(c.want)) {
			t.Errorf("%s: %s, %v, want %s", c.what, got, err, c.want)
		}
	}
}

func TestRange(t *testing.T) {
	tenth := quoin.MustSize("500 x 200 mm")
	for _, c := range []struct {
		what              string
		use               ink.Use
		low, likely, high string
	}{
		{"8 to 16 ml", ink.Use{PerM2: q("12 ml"), PerM2Range: quoin.Between(q("8 ml"), q("16 ml")), Image: tenth}, "0.8 ml", "1.2 ml", "1.6 ml"},
		{
			"a share of 20% to 75%",
			ink.Use{PerM2: q("12 ml"), Image: tenth, Upkeep: ink.Upkeep{Share: quoin.MustRate("50%"), ShareRange: quoin.Between(quoin.MustRate("20%"), quoin.MustRate("75%"))}},
			"1.5 ml", "2.4 ml", "4.8 ml",
		},
		{"fewer prints take more", ink.Use{PerM2: q("10 ml"), Image: tenth, Upkeep: ink.Upkeep{
			PerMonth: q("60 ml"), PrintsPerMonth: quoin.FactorOf(40),
			PrintsPerMonthRange: quoin.Between(quoin.FactorOf(20), quoin.FactorOf(60)),
		}}, "2 ml", "2.5 ml", "4 ml"},
		{"the least and the greatest of a log", ink.Use{Image: tenth, Log: []ink.Job{{q("1 m2"), q("9 ml")}, {q("0.5 m2"), q("3 ml")}}}, "0.6 ml", "0.8 ml", "0.9 ml"},
		{"nothing unsure", ink.Use{PerM2: q("12 ml"), Image: tenth}, "1.2 ml", "1.2 ml", "1.2 ml"},
	} {
		likely, err := c.use.Volume()
		r, err2 := c.use.Range()
		if err != nil || err2 != nil || !likely.Equal(q(c.likely)) || !r.Low.Equal(q(c.low)) || !r.High.Equal(q(c.high)) {
			t.Errorf("%s: %s from %s to %s, %v, %v, want %s from %s to %s", c.what, likely, r.Low, r.High, err, err2, c.likely, c.low, c.high)
		}
	}
}

func TestInkRefused(t *testing.T) {
	image := quoin.MustSize("A4")
	for what, c := range map[string]struct {
		use  ink.Use
		code quoin.Code
		path string
	}{
		"a page yield":             {ink.Use{RatedPages: 4500, Image: image}, ink.RatedPageYield, "rated_pages"},
		"no image":                 {ink.Use{PerM2: q("12 ml")}, ink.MissingImage, "image"},
		"a month without prints":   {ink.Use{PerM2: q("12 ml"), Image: image, Upkeep: ink.Upkeep{PerMonth: q("30 ml")}}, ink.MissingPrints, "upkeep.prints_per_month"},
		"a session without":        {ink.Use{PerM2: q("12 ml"), Image: image, Upkeep: ink.Upkeep{PerSession: q("3 ml")}}, ink.MissingPrints, "upkeep.prints_per_session"},
		"more left than there was": {ink.Use{Image: image, Spent: []ink.Period{{Bought: q("50 ml"), Closing: q("60 ml"), Area: q("2 m2")}}}, ink.NegativeInk, "spent"},
		"no ink":                   {ink.Use{Image: image}, quoin.MissingField, "per_m2"},
		"grams of ink":             {ink.Use{PerM2: q("12 g"), Image: image}, quoin.UnitMismatch, "per_m2"},
		"a log of grams":           {ink.Use{Image: image, Log: []ink.Job{{q("1 m2"), q("9 g")}}}, quoin.UnitMismatch, "log[0].volume"},
		"metres printed":           {ink.Use{Image: image, Spent: []ink.Period{{Bought: q("9 ml"), Area: q("3 m")}}}, quoin.UnitMismatch, "spent[0].area"},
		"all of it upkeep":         {ink.Use{PerM2: q("12 ml"), Image: image, Upkeep: ink.Upkeep{Share: quoin.MustRate("100%")}}, quoin.OutOfRange, "upkeep.share"},
		"nothing printed":          {ink.Use{Image: image, Log: []ink.Job{{Volume: q("5 ml")}}}, quoin.MissingField, "log[0].area"},
	} {
		_, err := c.use.Volume()
		_, err2 := c.use.Range()
		p := problemtest.Only(err)
		if p.Code != c.code || p.Path != c.path || err2 == nil || p.Wanted == "" {
			t.Errorf("%s: %v, %v, want %s at %s", what, err, err2, c.code, c.path)
		}
	}
}

// Common practice: 8 to 16 ml a square metre, extremes 3 and 22.
func TestPlausible(t *testing.T) {
	for perM2, unlikely := range map[string]bool{"2.9 ml": true, "3 ml": false, "12 ml": false, "22 ml": false, "22.1 ml": true, "0.12 l": true} {
		p, got := ink.Use{PerM2: q(perM2)}.Plausible()
		if got != unlikely || got && (p.Code != ink.UnlikelyInk || p.Severity != quoin.Warning) {
			t.Errorf("%s: %v", perM2, p)
		}
	}
}

func drawUse(t *rapid.T) ink.Use {
	ml := func(name string, from int) quoin.Quantity {
		return q(fmt.Sprintf("%d.%d ml", rapid.IntRange(from, 40).Draw(t, name), rapid.IntRange(0, 9).Draw(t, name)))
	}
	u := ink.Use{Image: quoin.MustSize(rapid.SampledFrom([]string{"A5", "A3", "16 x 20 in"}).Draw(t, "image"))}
	switch rapid.IntRange(0, 2).Draw(t, "given as") {
	case 0:
		u.PerM2 = ml("per m2", 1)
		u.PerM2Range = quoin.Between(u.PerM2.Times(quoin.MustFactor("0.7")), u.PerM2.Times(quoin.MustFactor("1.4")))
	case 1:
		for range rapid.IntRange(1, 4).Draw(t, "jobs") {
			u.Log = append(u.Log, ink.Job{Area: q("0.7 m2"), Volume: ml("job", 0)})
		}
	case 2:
		u.Spent = []ink.Period{{Opening: ml("opening", 0), Bought: q("70 ml"), Closing: ml("closing", 0), Area: q("9 m2")}}
	}
	if rapid.Bool().Draw(t, "upkeep") {
		u.Upkeep = ink.Upkeep{
			PerMonth: ml("month", 0), PrintsPerMonth: quoin.FactorOf(30), PrintsPerMonthRange: quoin.Between(quoin.FactorOf(12), quoin.FactorOf(45)),
			PerSession: ml("session", 0), PrintsPerSession: quoin.FactorOf(7), Share: quoin.MustRate("30%"),
			ShareRange: quoin.Between(quoin.MustRate("20%"), quoin.MustRate("45%")),
		}
	}
	return u
}

// What is likely lies in the range; what is explained is what is computed.
func TestInkLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := drawUse(t)
		likely, err := u.Volume()
		if err != nil {
			t.Fatal(err)
		}
		r, err := u.Range()
		if err != nil {
			t.Fatal(err)
		}
		if low, _ := r.Low.Cmp(likely); low > 0 {
			t.Fatalf("%s is below %s", likely, r.Low)
		}
		if high, _ := likely.Cmp(r.High); high > 0 {
			t.Fatalf("%s is above %s", likely, r.High)
		}
		trail := quoin.NewTrail(8)
		if got := u.Explain(trail, quoin.InList("products", 0).Inside("ink"), quoin.InList("products", 0).Field("image")); !got.Value.Factor().Equal(likely.Number()) {
			t.Fatalf("explained as %s, computed as %s", got.Value, likely)
		}
		if err := quoin.Replay(trail.Steps()); err != nil {
			t.Fatal(err)
		}
	})
}

func BenchmarkVolume(b *testing.B) {
	u := ink.Use{PerM2: q("12 ml"), Image: quoin.MustSize("A4"), Upkeep: ink.Upkeep{Share: quoin.MustRate("35%")}}
	for b.Loop() {
		if _, err := u.Volume(); err != nil {
			b.Fatal(err)
		}
	}
}
