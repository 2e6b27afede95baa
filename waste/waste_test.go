package waste_test

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/waste"
)

func amount(s string) quoin.Amount { return quoin.MustAmount(s) }
func factor(s string) quoin.Factor { return quoin.MustFactor(s) }

// Of 1000 started at printing 800 leave it, and 640 leave drying; what is cut
// is all good; and of those, 512 are packed.
var route = waste.Route{
	{ID: "print", Yield: quoin.MustRate("80%"), Recovery: amount("0.16")},
	{ID: "dry", Yield: quoin.MustRate("80%")},
	{ID: "cut", Recovery: amount("0.05")},
	{ID: "pack", Yield: quoin.MustRate("80%"), Recovery: amount("0.40")},
}

func TestStarts(t *testing.T) {
	for _, c := range []struct{ stage, starts string }{
		{"print", "1.953125"}, // 1000 ÷ 512
		{"dry", "1.5625"},     // 800 ÷ 512
		{"cut", "1.25"},       // 640 ÷ 512
		{"pack", "1.25"},
	} {
		if got, ok := route.Starts(c.stage); !ok || !got.Equal(factor(c.starts)) {
			t.Errorf("%s starts at %s for a good one, want %s", got, c.stage, c.starts)
		}
	}
	for _, r := range []waste.Route{route, nil, {}} {
		if got, ok := r.Starts("frame"); ok || !got.IsZero() {
			t.Errorf("a stage that %v does not have has %s starts", r, got)
		}
	}
	if got := route.Yield().String(); got != "51.2%" {
		t.Errorf("%s come out good, want 51.2%%", got)
	}
	if got := waste.Route(nil).Yield().String(); got != "100%" {
		t.Errorf("without stages %s come out good", got)
	}
	if route.First() != "print" || (waste.Route{}).First() != "" {
		t.Errorf("the first stages are %q and %q", route.First(), waste.Route{}.First())
	}
}

// 15% lost is made up by 17.647% more starts; 15% more would cover only 13.04%.
func TestYieldDividesAndOversMultiply(t *testing.T) {
	starts, _ := waste.Route{{ID: "print", Yield: quoin.MustRate("85%")}}.Starts("print")
	if got := starts.Round(5, quoin.HalfUp).String(); got != "1.17647" {
		t.Errorf("15%% lost takes %s starts, want 1.17647", got)
	}
	overs := waste.Allowance{Contingency: quoin.MustRate("15%")}.Apply(amount("100"))
	if lost := overs.Sub(amount("100")).Share(overs).Round(2).String(); lost != "13.04%" {
		t.Errorf("15%% more covers %s lost, want 13.04%%", lost)
	}
}

// A share lost of what is started, and the same share of what comes out.
func TestLossIsNamed(t *testing.T) {
	for _, c := range []struct {
		stage         waste.Stage
		yield, starts string
	}{
		{waste.Stage{LostOfStarted: quoin.MustRate("15%")}, "85%", "1.17647"},
		{waste.Stage{LostOfGood: quoin.MustRate("15%")}, "86.9565%", "1.15000"},
		{waste.Stage{LostOfStarted: quoin.MustRate("50%")}, "50%", "2.00000"},
		{waste.Stage{LostOfGood: quoin.MustRate("100%")}, "50%", "2.00000"},
		{waste.Stage{LostOfGood: quoin.MustRate("150%")}, "40%", "2.50000"},
		{waste.Stage{}, "100%", "1.00000"},
	} {
		c.stage.ID = "print"
		r := waste.Route{c.stage}
		starts, _ := r.Starts("print")
		if got := r.Yield().Round(4).String(); got != c.yield || !starts.Round(5, quoin.HalfUp).Equal(quoin.MustFactor(c.starts)) {
			t.Errorf("%+v yields %s and takes %s starts, want %s and %s", c.stage, got, starts, c.yield, c.starts)
		}
	}
}

// Of the spoiled, 40% are sold at 5.00 and the others cut into cards for 0.50.
func TestSeconds(t *testing.T) {
	s := waste.Stage{ID: "print", Yield: quoin.MustRate("80%"), Recovery: amount("0.50"), Seconds: waste.Seconds{Share: quoin.MustRate("40%"), Price: amount("5.00")}}
	if got := s.Recovers(); !got.Equal(amount("2.30")) { // 2.00 + 0.30
		t.Errorf("a spoiled piece recovers %s, want 2.30", got)
	}
	if got := (waste.Route{s}).Recovered(); !got.Equal(amount("0.575")) { // a quarter of a piece
		t.Errorf("%s is recovered for each good one, want 0.575", got)
	}
}

func TestSalvage(t *testing.T) {
	got := route.Salvage()
	for i, want := range []struct{ stage, spoiled, amount string }{
		{"print", "0.390625", "0.0625"}, // 200 of 512, at 0.16
		{"cut", "0", "0"},
		{"pack", "0.25", "0.10"}, // 128 of 512, at 0.40
	} {
		if len(got) != 3 || got[i].Stage != want.stage || !got[i].Spoiled.Equal(factor(want.spoiled)) || !got[i].Amount.Equal(amount(want.amount)) {
			t.Errorf("salvage %d is %v, want %v", i, got, want)
		}
	}
	if sum := route.Recovered(); !sum.Equal(amount("0.1625")) {
		t.Errorf("%s is recovered for each good one, want 0.1625", sum)
	}
	without := waste.Route{{ID: "print", Yield: quoin.MustRate("80%")}}
	if len(without.Salvage()) != 0 || !without.Recovered().IsZero() {
		t.Errorf("%v is recovered of nothing", without.Salvage())
	}
}

func TestAllowance(t *testing.T) {
	for _, c := range []struct{ contingency, loss, apply, resend string }{
		{"0", "0", "30.00", "30.00"},
		{"5%", "0", "31.50", "30.00"},
		{"0", "4%", "31.25", "31.25"},   // 30 ÷ 0.96
		{"20%", "4%", "37.50", "31.25"}, // 30 × 1.2 ÷ 0.96
		{"100%", "50%", "120.00", "60.00"},
		{"150%", "25%", "100.00", "40.00"},
	} {
		a := waste.Allowance{Contingency: quoin.MustRate(c.contingency), Loss: quoin.MustRate(c.loss)}
		if got := a.Apply(amount("30.00")); !got.Equal(amount(c.apply)) {
			t.Errorf("30.00 with %s and %s lost is %s, want %s", c.contingency, c.loss, got, c.apply)
		}
		if got := a.Resend(amount("30.00")); !got.Equal(amount(c.resend)) {
			t.Errorf("30.00 with %s lost is %s, want %s", c.loss, got, c.resend)
		}
	}
	if got := (waste.Allowance{Loss: quoin.MustRate("10%")}).Apply(amount("-9")); !got.Equal(amount("-10")) {
		t.Errorf("−9 with 10%% lost is %s, want −10", got)
	}
}

func drawRoute(t *rapid.T, name string, most int) waste.Route {
	var r waste.Route
	for i := range rapid.IntRange(0, most).Draw(t, name) {
		s := waste.Stage{ID: fmt.Sprintf("%s %d", name, i), Recovery: quoin.AmountOf(rapid.Int64Range(0, 500).Draw(t, "recovery"), 2)}
		percent := quoin.AmountOf(rapid.Int64Range(0, 100).Draw(t, "yield"), 2).Share(quoin.AmountOf(1, 0))
		switch rapid.IntRange(0, 2).Draw(t, "given as") {
		case 0:
			s.Yield = percent
		case 1:
			s.LostOfStarted = percent.Of(quoin.MustRate("99%"))
		case 2:
			s.LostOfGood = percent
		}
		if rapid.Bool().Draw(t, "has seconds") {
			s.Seconds = waste.Seconds{Share: percent, Price: amount("3.00")}
		}
		r = append(r, s)
	}
	return r
}

func TestStartsGiveBackWhatIsWanted(t *testing.T) { rapid.Check(t, startsGiveBackWhatIsWanted) }
func FuzzStartsGiveBackWhatIsWanted(f *testing.F) { f.Fuzz(rapid.MakeFuzz(startsGiveBackWhatIsWanted)) }

// startsGiveBackWhatIsWanted is law 4: dividing by a yield and losing that share gives back what is wanted,
// stage by stage as well as over the whole route.
func startsGiveBackWhatIsWanted(t *rapid.T) {
	r := drawRoute(t, "stage", 5)
	wanted := quoin.FactorOf(rapid.Int64Range(1, 1e4).Draw(t, "wanted"))
	for i, s := range r {
		starts, ok := r.Starts(s.ID)
		if !ok {
			t.Fatalf("%s is not on its route", s.ID)
		}
		left := wanted.Times(starts)
		for _, later := range r[i:] {
			left = left.Times(waste.Route{later}.Yield().Factor())
		}
		if !left.Equal(wanted) {
			t.Fatalf("%s starts at %s leave %s of the %s wanted", starts, s.ID, left, wanted)
		}
		if starts.Cmp(quoin.FactorOf(1)) < 0 {
			t.Fatalf("%s starts at %s are fewer than come out", starts, s.ID)
		}
	}
	if starts, ok := r.Starts(r.First()); ok && !starts.Times(r.Yield().Factor()).Equal(quoin.FactorOf(1)) {
		t.Fatalf("%s starts, of which %s are good, are not 1", starts, r.Yield())
	}
}

func TestRoutesCompose(t *testing.T) { rapid.Check(t, routesCompose) }
func FuzzRoutesCompose(f *testing.F) { f.Fuzz(rapid.MakeFuzz(routesCompose)) }

// routesCompose: two routes in a row are one.
func routesCompose(t *rapid.T) {
	before, after := drawRoute(t, "before", 3), drawRoute(t, "after", 3)
	both := append(slices.Clone(before), after...)
	through := quoin.FactorOf(1) // starts of the second route's first stage
	if s, ok := after.Starts(after.First()); ok {
		through = s
	}
	for _, s := range before {
		alone, _ := before.Starts(s.ID)
		if got, ok := both.Starts(s.ID); !ok || !got.Equal(alone.Times(through)) {
			t.Fatalf("%s: %s starts in both, %s × %s in a row", s.ID, got, alone, through)
		}
	}
	for _, s := range after {
		alone, _ := after.Starts(s.ID)
		if got, ok := both.Starts(s.ID); !ok || !got.Equal(alone) {
			t.Fatalf("%s: %s starts in both, %s alone", s.ID, got, alone)
		}
	}
	if got := both.Yield(); !got.Equal(before.Yield().Of(after.Yield())) {
		t.Fatalf("%s of both come out good, of each %s and %s", got, before.Yield(), after.Yield())
	}
	// What the first route spoils is spoiled for each piece that the second takes.
	if got, want := both.Recovered(), before.Recovered().Times(through).Add(after.Recovered()); !got.Equal(want) {
		t.Fatalf("both recover %s, in a row %s", got, want)
	}
}

// All that was started and did not come out good was spoiled somewhere.
func TestSpoiledAndGoodAreAllStarted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRoute(t, "stage", 5)
		for i := range r {
			r[i].Recovery, r[i].Seconds = amount("1.00"), waste.Seconds{}
		}
		started := quoin.FactorOf(1)
		if s, ok := r.Starts(r.First()); ok {
			started = s
		}
		spoiled := started.Sub(quoin.FactorOf(1))
		if got := r.Recovered(); !got.Equal(amount("1.00").Times(spoiled)) {
			t.Fatalf("%s started for 1 good, and at 1.00 each %s recovered", started, got)
		}
		for _, s := range r.Salvage() {
			if s.Spoiled.Sign() < 0 || !s.Amount.Equal(amount("1.00").Times(s.Spoiled)) {
				t.Fatalf("%s: %s spoiled give back %s", s.Stage, s.Spoiled, s.Amount)
			}
		}
	})
}

// What arrives, of all that is made and sent, pays for what was wanted.
func TestAllowanceLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		percent := func(name string, most int64) quoin.Rate {
			return quoin.AmountOf(rapid.Int64Range(0, most).Draw(t, name), 2).Share(quoin.AmountOf(1, 0))
		}
		a := waste.Allowance{Contingency: percent("contingency", 300), Loss: percent("loss", 99)}
		cost := quoin.AmountOf(rapid.Int64Range(0, 1e8).Draw(t, "cost"), 2)
		if back := a.Resend(cost).Times(a.Loss.Complement()); !back.Equal(cost) {
			t.Fatalf("%s with %s lost leaves %s", cost, a.Loss, back)
		}
		alone := waste.Allowance{Contingency: a.Contingency}
		if got, want := a.Apply(cost), a.Resend(alone.Apply(cost)); !got.Equal(want) || !alone.Apply(cost).Sub(cost).Equal(cost.Part(a.Contingency)) {
			t.Fatalf("%s with %s and %s lost is %s, in two steps %s", cost, a.Contingency, a.Loss, got, want)
		}
	})
}

// What is explained is what is computed, and the explanation can be followed.
func TestWasteIsExplained(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRoute(t, "stage", 4)
		at := func(i int) quoin.Path { return quoin.InList("stages", i) }
		trail := quoin.NewTrail(16)
		starts := make([]quoin.Operand, len(r)+1)
		for i := range starts {
			starts[i] = r.ExplainStarts(trail, i, at)
			want := quoin.FactorOf(1)
			if i < len(r) {
				want, _ = r.Starts(r[i].ID)
			}
			if !starts[i].Value.Factor().Equal(want) {
				t.Fatalf("starts at stage %d are explained as %s, computed as %s", i, starts[i].Value, want)
			}
		}
		var sum quoin.Amount
		for i, s := range r {
			if s.Recovers().IsZero() {
				continue
			}
			back, ok := r.ExplainSalvage(trail, i, at, starts[i], starts[i+1]).Value.Amount()
			if !ok {
				t.Fatalf("what %s gives back is no money", s.ID)
			}
			sum = sum.Add(back)
		}
		if !sum.Equal(r.Recovered()) {
			t.Fatalf("%s explained, %s recovered", sum, r.Recovered())
		}
		if err := quoin.Replay(trail.Steps()); err != nil {
			t.Fatal(err)
		}
	})
}
