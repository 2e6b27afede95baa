package fair_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel/fair"
)

// one is a fair that sells one product, with nothing but fixed costs.
func one(fixed, prints string) fair.Fair {
	return fair.Fair{Stand: amount(fixed), Mix: []fair.Share{{Product: "print", Share: rate("100%")}}, Prints: factor(prints)}
}

func sold(price, variable string) []fair.Print {
	p := amount(price)
	return []fair.Print{{Product: "print", Price: p, Revenue: p, Kept: p.Sub(amount(variable))}}
}

// OpenStax, Principles of Accounting, vol. 2 Managerial, 3.1 to 3.3 and 3.5:
// one product, its income at a volume, and its break-even.
func TestPublishedBreakEven(t *testing.T) {
	for _, c := range []struct {
		price, variable, fixed, units  string
		income, breakEven, breakEvenIn string // "" where not published
	}{
		{"100", "20", "23000", "500", "17000", "", ""},
		{"100", "20", "23000", "750", "37000", "", ""},
		{"100", "20", "18000", "175", "-4000", "225", "22500"},
		{"100", "20", "18000", "300", "6000", "225", "22500"},
		{"25", "15.50", "700", "100", "250", "", ""},
		{"25", "15.50", "700", "200", "1200", "", ""},
		{"500", "300", "100000", "1", "-99800", "500", ""},
		{"500", "300", "100000", "501", "200", "500", ""},
		{"3.75", "1.50", "2475", "1500", "900", "1100", "4125"},
		{"4.25", "1.50", "2475", "1500", "1650", "900", "3825"},
		{"3.75", "1.55", "2475", "1500", "825", "1125", "4218.75"},
		{"3.75", "1.45", "2875", "1500", "575", "1250", "4687.50"},
		{"3.95", "1.45", "2875", "1500", "875", "1150", "4542.50"},
		{"90", "40", "85000", "2500", "40000", "1700", "153000"},
		{"90", "40", "95000", "2500", "30000", "1900", "171000"},
	} {
		o := mustPlan(t, one(c.fixed, c.units), sold(c.price, c.variable))
		if !o.Result.Equal(amount(c.income)) {
			t.Errorf("%+v: income %s", c, o.Result)
		}
		b, ok := o.BreakEven.Get()
		if c.breakEven != "" && (!ok || !b.Prints.Equal(factor(c.breakEven))) {
			t.Errorf("%+v: break-even %s", c, b.Prints)
		}
		if c.breakEvenIn != "" && !b.Sales.Equal(amount(c.breakEvenIn)) {
			t.Errorf("%+v: break-even sales %s", c, b.Sales)
		}
	}
}

// The same, 3.4: a mix of 5:3:2, in shares.
func TestPublishedMixAsAFair(t *testing.T) {
	f := fair.Fair{Stand: amount("145000"), Prints: factor("50000"), Mix: []fair.Share{
		{Product: "a", Share: rate("50%")}, {Product: "b", Share: rate("30%")}, {Product: "c", Share: rate("20%")},
	}}
	o := mustPlan(t, f, []fair.Print{
		{Product: "a", Price: amount("6.25"), Revenue: amount("6.25"), Kept: amount("3.00")},
		{Product: "b", Price: amount("7.75"), Revenue: amount("7.75"), Kept: amount("3.25")},
		{Product: "c", Price: amount("9.25"), Revenue: amount("9.25"), Kept: amount("3.00")},
	})
	b, ok := o.BreakEven.Get()
	if !ok || !o.Average.Kept.Equal(amount("3.075")) {
		t.Fatalf("kept %s, break-even %v", o.Average.Kept, ok)
	}
	for i, want := range []string{"23577", "14146", "9431"} {
		if !b.ByProduct[i].Nearest.Equal(factor(want)) {
			t.Errorf("%s: %s, want %s", b.ByProduct[i].Product, b.ByProduct[i].Nearest, want)
		}
	}
}

// The same, 3.5: margin of safety.
func TestPublishedSafety(t *testing.T) {
	if s, ok := mustPlan(t, one("85000", "2500"), sold("90", "40")).Safety.Get(); !ok || !s.Equal(rate("32%")) {
		t.Errorf("safety of the plan %s, want 32%%", s)
	}
}

// Common practice, worked out by hand: expenses 800, goods 40% of sales.
func TestFairOfTheTrade(t *testing.T) {
	b, ok := mustPlan(t, one("800", "80"), sold("10", "4")).BreakEven.Get()
	if got := b.Sales.Round(2, quoin.HalfUp).String(); !ok || got != "1333.33" {
		t.Errorf("break-even sales %s, want 1333.33", got)
	}
	if o := mustPlan(t, one("800", "80"), sold("10", "4")); !o.Result.Equal(amount("-320")) { // 480 − 800
		t.Errorf("800 sold leaves %s, want -320", o.Result)
	}
}
