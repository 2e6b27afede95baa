package fair_test

import (
	"math/big"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel/fair"
)

var products = []string{"heron", "avocet", "curlew", "snipe"}

func drawCents(t *rapid.T, name string, from, to int64) quoin.Amount {
	return quoin.AmountOf(rapid.Int64Range(from, to).Draw(t, name), 2)
}

func drawRate(t *rapid.T, name string, from, to int64) quoin.Rate {
	return quoin.AmountOf(rapid.Int64Range(from, to).Draw(t, name), 3).Share(quoin.AmountOf(1, 0))
}

func drawFair(t *rapid.T) fair.Fair {
	f := fair.Fair{
		ID: "market", Stand: drawCents(t, "stand", 0, 100_000), Jury: drawCents(t, "jury", 0, 5_000), Travel: drawCents(t, "travel", 0, 20_000),
		Helper: drawCents(t, "helper", 0, 30_000), Commission: drawRate(t, "commission", 0, 400),
		CommissionOf: rapid.SampledFrom([]fair.Base{"", fair.Sales, fair.Net}).Draw(t, "of"),
		Prints:       quoin.FactorOf(rapid.Int64Range(1, 400).Draw(t, "prints")).Over(factor("3")), OpportunityCost: drawCents(t, "opportunity_cost", 0, 50_000),
	}
	if rapid.Bool().Draw(t, "juried") {
		f.Chance = quoin.Some(drawRate(t, "chance", 1, 1000))
	}
	if rapid.Bool().Draw(t, "away") {
		f.Nights, f.Night = rapid.Int64Range(1, 9).Draw(t, "nights"), drawCents(t, "night", 0, 20_000)
	}
	if rapid.Bool().Draw(t, "displayed") {
		f.Display, f.DisplayFairs = drawCents(t, "display", 0, 90_000), quoin.FactorOf(rapid.Int64Range(1, 40).Draw(t, "fairs"))
	}
	if f.Commission.Sign() > 0 && rapid.Bool().Draw(t, "minimum") {
		f.CommissionAtLeast = drawCents(t, "at least", 0, 40_000)
	}
	if rapid.Bool().Draw(t, "counted") {
		f.Hours, f.HourWorth = quoin.FactorOf(rapid.Int64Range(1, 90).Draw(t, "hours")), drawCents(t, "hour worth", 0, 3_000)
	}
	for range rapid.IntRange(0, 3).Draw(t, "others") {
		f.Other = append(f.Other, fair.Cost{Name: "other", Amount: drawCents(t, "other", 0, 9_000)})
	}
	left := int64(1000)
	n := rapid.IntRange(1, len(products)).Draw(t, "products")
	for i, p := range products[:n] {
		share := left
		if i < n-1 {
			share = rapid.Int64Range(1, left-int64(n-1-i)).Draw(t, "share")
		}
		left -= share
		f.Mix = append(f.Mix, fair.Share{Product: p, Share: quoin.AmountOf(share, 3).Share(quoin.AmountOf(1, 0))})
	}
	return f
}

func drawPrints(t *rapid.T) []fair.Print {
	out := make([]fair.Print, len(products))
	for i, p := range products {
		price := drawCents(t, "price", 0, 20_000)
		revenue := price.Over(factor("1.21"))
		out[i] = fair.Print{Product: p, Price: price, Revenue: revenue, Kept: revenue.Sub(drawCents(t, "goods", 0, 5_000))}
	}
	return out
}

func rat(s string) *big.Rat {
	r, _ := new(big.Rat).SetString(s)
	return r
}

func add(x, y *big.Rat) *big.Rat { return new(big.Rat).Add(x, y) }
func sub(x, y *big.Rat) *big.Rat { return new(big.Rat).Sub(x, y) }
func mul(x, y *big.Rat) *big.Rat { return new(big.Rat).Mul(x, y) }
func quo(x, y *big.Rat) *big.Rat { return new(big.Rat).Quo(x, y) }

// resultAt is what n prints leave, in fractions, from the document itself.
func resultAt(f fair.Fair, prints []fair.Print, n *big.Rat) *big.Rat {
	kept, base := new(big.Rat), new(big.Rat)
	for _, s := range f.Mix {
		p := prints[slices.IndexFunc(prints, func(p fair.Print) bool { return p.Product == s.Product })]
		kept = add(kept, mul(p.Kept.Rat(), s.Share.Rat()))
		of := p.Price
		if f.CommissionOf == fair.Net {
			of = p.Revenue
		}
		base = add(base, mul(of.Rat(), s.Share.Rat()))
	}
	out := mul(kept, n)
	for _, a := range []quoin.Amount{f.Stand, f.Travel, f.Helper} {
		out = sub(out, a.Rat())
	}
	chance, given := f.Chance.Get()
	if !given {
		chance = rate("100%")
	}
	out = sub(out, quo(f.Jury.Rat(), chance.Rat()))
	out = sub(out, mul(f.Night.Rat(), new(big.Rat).SetInt64(f.Nights)))
	if f.Display.Sign() > 0 {
		out = sub(out, quo(f.Display.Rat(), f.DisplayFairs.Rat()))
	}
	for _, o := range f.Other {
		out = sub(out, o.Amount.Rat())
	}
	commission := mul(mul(base, n), f.Commission.Rat())
	if m := f.CommissionAtLeast.Rat(); m.Cmp(commission) > 0 {
		commission = m
	}
	return sub(out, commission)
}

// near reports whether two fractions agree to 12 places.
func near(x, y *big.Rat) bool {
	d := sub(x, y)
	return d.Abs(d).Cmp(rat("1e-12")) <= 0
}

// The result is what fractions make it; it is zero at the break-even, and what
// is asked at the volume needed; a thousandth of a print fewer is too few. Where
// there is no break-even, not even a million prints pay.
func TestResultAgainstFractions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, prints := drawFair(t), drawPrints(t)
		o, err := f.Outcome(prints)
		if err != nil {
			t.Fatal(err)
		}
		if want := resultAt(f, prints, f.Prints.Rat()); !near(o.Result.Rat(), want) {
			t.Fatalf("result %s, want %s", o.Result, want.FloatString(14))
		}
		for _, c := range []struct {
			what   string
			volume quoin.Optional[fair.Volume]
			asked  quoin.Amount
		}{{"break-even", o.BreakEven, quoin.Amount{}}, {"needed", o.Needed, o.Asked}} {
			v, ok := c.volume.Get()
			if !ok {
				if a, b := resultAt(f, prints, rat("1e6")), resultAt(f, prints, rat("1e7")); b.Cmp(a) > 0 {
					t.Fatalf("no %s, though more prints leave more: %s, %s", c.what, a.FloatString(4), b.FloatString(4))
				}
				continue
			}
			if got := resultAt(f, prints, v.Prints.Rat()); !near(got, c.asked.Rat()) {
				t.Fatalf("%s at %s leaves %s, want %s", c.what, v.Prints, got.FloatString(14), c.asked)
			}
			if got := resultAt(f, prints, sub(v.Prints.Rat(), rat("0.001"))); got.Cmp(c.asked.Rat()) >= 0 {
				t.Fatalf("%s at fewer than %s", c.what, v.Prints)
			}
			whole := v.Whole.Rat()
			if gap := sub(whole, v.Prints.Rat()); !whole.IsInt() || gap.Cmp(rat("-1e-12")) < 0 || gap.Cmp(rat("1")) >= 0 {
				t.Fatalf("%s up is %s", v.Prints, v.Whole)
			}
		}
	})
}

// The verdict is go exactly where the result comes up to what is asked.
func TestVerdictLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o, err := drawFair(t).Outcome(drawPrints(t))
		if err != nil {
			t.Fatal(err)
		}
		if pays := o.Result.Cmp(o.Asked) >= 0; pays != (o.Verdict == fair.Go) || pays != (len(o.Reasons) == 0) {
			t.Fatalf("%s against %s: %s, %v", o.Result, o.Asked, o.Verdict, o.Reasons)
		}
	})
}

func breakEven(t *rapid.T, f fair.Fair, prints []fair.Print) (fair.Outcome, quoin.Factor, bool) {
	o, err := f.Outcome(prints)
	if err != nil {
		t.Fatal(err)
	}
	v, ok := o.BreakEven.Get()
	return o, v.Prints, ok
}

// What costs more never lowers the break-even nor raises the result; a better
// chance never raises the fixed costs.
func TestDearerFairs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, prints := drawFair(t), drawPrints(t)
		f.Chance = quoin.Some(drawRate(t, "chance", 1, 999))
		o, n, ok := breakEven(t, f, prints)
		for what, change := range map[string]func(*fair.Fair){
			"dearer stand": func(f *fair.Fair) { f.Stand = f.Stand.Add(amount("7")) },
			"dearer jury":  func(f *fair.Fair) { f.Jury = f.Jury.Add(amount("7")) },
			"worse chance": func(f *fair.Fair) { c, _ := f.Chance.Get(); f.Chance = quoin.Some(c.Of(rate("50%"))) },
			"more taken":   func(f *fair.Fair) { f.Commission = f.Commission.Add(rate("1%")) },
			"a minimum": func(f *fair.Fair) {
				f.Commission, f.CommissionAtLeast = f.Commission.Add(rate("0.1%")), f.CommissionAtLeast.Add(amount("9"))
			},
		} {
			other := f
			change(&other)
			p, m, still := breakEven(t, other, prints)
			if p.Fixed.Cmp(o.Fixed) < 0 || p.Result.Cmp(o.Result) > 0 || still && (!ok || m.Cmp(n) < 0) {
				t.Fatalf("%s: %s at %s instead of %s at %s", what, p.Result, m, o.Result, n)
			}
		}
	})
}

// With the minimum that the rate just reaches at the break-even, in whole cents, both forms
// of the commission agree there, and a minimum a cent higher lifts it.
func TestMinimumJustReached(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, prints := drawFair(t), drawPrints(t)
		f.Commission, f.CommissionAtLeast = f.Commission.Add(rate("0.1%")), quoin.Amount{}
		o, n, ok := breakEven(t, f, prints)
		if !ok {
			t.Skip("no break-even")
		}
		base := o.Average.Price
		if f.CommissionOf == fair.Net {
			base = o.Average.Revenue
		}
		f.CommissionAtLeast = base.Times(n).Part(f.Commission).Round(2, quoin.Down)
		if _, m, ok := breakEven(t, f, prints); !ok || !m.Equal(n) {
			t.Fatalf("break-even %s with the minimum, %s without", m, n)
		}
		f.CommissionAtLeast = f.CommissionAtLeast.Add(amount("0.01"))
		if _, m, ok := breakEven(t, f, prints); !ok || m.Cmp(n) <= 0 {
			t.Fatalf("break-even %s with a higher minimum, %s without", m, n)
		}
	})
}

// The order of the mix, of other costs and of the prints changes nothing.
func TestOrderChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, prints := drawFair(t), drawPrints(t)
		o, n, ok := breakEven(t, f, prints)
		slices.Reverse(f.Mix)
		slices.Reverse(f.Other)
		slices.Reverse(prints)
		p, m, still := breakEven(t, f, prints)
		if !p.Fixed.Equal(o.Fixed) || !p.Result.Equal(o.Result) || !p.Sales.Equal(o.Sales) || ok != still || !m.Equal(n) {
			t.Fatalf("%s at %s instead of %s at %s", p.Result, m, o.Result, n)
		}
	})
}

// What is explained is what is computed, to the digit.
func TestExplained(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, prints := drawFair(t), drawPrints(t)
		o, err := f.Outcome(prints)
		if err != nil {
			t.Fatal(err)
		}
		given := make([]fair.PrintOperands, len(prints))
		for i, p := range prints {
			given[i] = p.Given(quoin.InList("products", i))
		}
		trail := quoin.NewTrail(32)
		x := f.Explain(trail, quoin.InList("fairs", 0), given)
		same := func(what string, got quoin.Operand, want quoin.Figure) {
			if got.Value.Rat().Cmp(want.Rat()) != 0 || got.Value.Kind() != want.Kind() {
				t.Fatalf("%s explained as %s, computed as %s", what, got.Value, want)
			}
		}
		same("fixed", x.Fixed, o.Fixed.Figure())
		same("price", x.Price, o.Average.Price.Figure())
		same("revenue", x.Revenue, o.Average.Revenue.Figure())
		same("kept", x.Kept, o.Average.Kept.Figure())
		same("sales", x.Sales, o.Sales.Figure())
		same("commission", x.Commission, o.Commission.Figure())
		same("result", x.Result, o.Result.Figure())
		same("asked", x.Asked, o.Asked.Figure())
		perHour, hours := x.PerHour.Get()
		brought, counted := o.PerHour.Get()
		b, some := x.BreakEven.Get()
		v, ok := o.BreakEven.Get()
		if hours != counted || some != ok {
			t.Fatalf("per hour %v and %v, break-even %v and %v", hours, counted, some, ok)
		}
		if hours {
			same("per hour", perHour, brought.Figure())
		}
		if some {
			sales, _ := x.BreakEvenSales.Get()
			needed, _ := x.Needed.Get()
			volume, _ := o.Needed.Get()
			same("break-even", b, v.Prints.Figure())
			same("break-even sales", sales, v.Sales.Figure())
			same("needed", needed, volume.Prints.Figure())
		}
		if err := quoin.Replay(trail.Steps()); err != nil {
			t.Fatal(err)
		}
	})
}
