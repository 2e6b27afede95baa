package fair_test

import (
	"fmt"
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

// The same, 3.2: a target profit.
func TestPublishedTargets(t *testing.T) {
	for _, c := range []struct{ kept, fixed, target, want string }{
		{"250", "14000", "0", "56"},
		{"250", "14000", "10000", "96"}, // 38,400 of sales at 400
		{"200", "100000", "50000", "750"},
	} {
		if n, ok := fair.PrintsFor(amount(c.fixed), amount(c.target), amount(c.kept)); !ok || !n.Equal(factor(c.want)) {
			t.Errorf("%+v: %s, %v", c, n, ok)
		}
	}
	if s, ok := fair.BreakEvenSales(amount("24000"), rate("62.5%")); !ok || !s.Equal(amount("38400")) {
		t.Errorf("sales for 14,000 and 10,000 at a ratio of .625: %s, want 38400", s)
	}
	f := one("14000", "60")
	f.Instead = amount("10000")
	if n, ok := mustPlan(t, f, sold("400", "150")).Needed.Get(); !ok || !n.Prints.Equal(factor("96")) || !n.Sales.Equal(amount("38400")) {
		t.Errorf("asked 10,000: %s prints, %s", n.Prints, n.Sales)
	}
}

// The same, 3.4: composites. Units are the nearest of the unrounded composites.
func TestPublishedMix(t *testing.T) {
	c := fair.Composite{
		{Product: "a", Units: factor("5"), Price: amount("6.25"), Kept: amount("3.00")}, // 6.25 − 3.25
		{Product: "b", Units: factor("3"), Price: amount("7.75"), Kept: amount("3.25")}, // 7.75 − 4.50
		{Product: "c", Units: factor("2"), Price: amount("9.25"), Kept: amount("3.00")}, // 9.25 − 6.25
	}
	if !c.Price().Equal(amount("73.00")) || !c.Kept().Equal(amount("30.75")) || !c.Price().Sub(c.Kept()).Equal(amount("42.25")) {
		t.Errorf("composite of %s that keeps %s, want 73.00 and 30.75", c.Price(), c.Kept())
	}
	n, ok := c.BreakEven(amount("145000"), quoin.Amount{})
	if got := n.Round(2, quoin.HalfUp).String(); !ok || got != "4715.45" {
		t.Errorf("%s composites, want 4715.45", got)
	}
	if got := fmt.Sprint(c.Units(n)); got != "[23577 14146 9431]" {
		t.Errorf("units %s, want [23577 14146 9431]", got)
	}
	// The other policy that is published: the composites rounded up first.
	if got := fmt.Sprint(c.Units(n.Round(0, quoin.Up))); got != "[23580 14148 9432]" {
		t.Errorf("units %s, want [23580 14148 9432]", got)
	}
	for _, c := range []struct {
		units, kept []string
		want        string
	}{
		{[]string{"3", "2", "1"}, []string{"7", "4", "6"}, "35"},
		{[]string{"1", "2"}, []string{"14", "21"}, "56"}, // 25 − 11, 28 − 7
	} {
		var comp fair.Composite
		for i := range c.units {
			comp = append(comp, fair.Portion{Units: factor(c.units[i]), Kept: amount(c.kept[i])})
		}
		if !comp.Kept().Equal(amount(c.want)) {
			t.Errorf("%+v: %s", c, comp.Kept())
		}
	}
}

// The mix of 5:3:2 above as a fair, in shares: ten units are one composite.
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

// The same, 3.5: margin of safety and operating leverage.
func TestPublishedSafetyAndLeverage(t *testing.T) {
	over, share, ok := fair.MarginOfSafety(amount("225000"), amount("153000"))
	if !ok || !over.Equal(amount("72000")) || !share.Equal(rate("32%")) {
		t.Errorf("%s, %s, want 72,000 and 32%%", over, share)
	}
	if s, ok := mustPlan(t, one("85000", "2500"), sold("90", "40")).Safety.Get(); !ok || !s.Equal(rate("32%")) {
		t.Errorf("safety of the plan %s, want 32%%", s)
	}
	for _, c := range []struct {
		contribution, income string
		places               int
		want                 string
	}{
		{"148000", "85000", 2, "1.74"}, {"210000", "85000", 2, "2.47"}, {"61250", "24500", 1, "2.5"}, {"78090", "13700", 1, "5.7"},
	} {
		l, ok := fair.OperatingLeverage(amount(c.contribution), amount(c.income))
		if got := l.Round(c.places, quoin.HalfUp).String(); !ok || got != c.want {
			t.Errorf("%s ÷ %s: %s, want %s", c.contribution, c.income, got, c.want)
		}
	}
}

// Common practice, worked out by hand: expenses 800, goods 40% of sales.
func TestFairOfTheTrade(t *testing.T) {
	s, ok := fair.BreakEvenSales(amount("800"), rate("60%"))
	if got := s.Round(2, quoin.HalfUp).String(); !ok || got != "1333.33" {
		t.Errorf("break-even sales %s, want 1333.33", got)
	}
	if o := mustPlan(t, one("800", "80"), sold("10", "4")); !o.Result.Equal(amount("-320")) { // 480 − 800
		t.Errorf("800 sold leaves %s, want -320", o.Result)
	}
}

func TestWhereNothingIsKept(t *testing.T) {
	if _, ok := fair.BreakEvenSales(amount("800"), quoin.Rate{}); ok {
		t.Error("break-even sales without a share kept")
	}
	if _, ok := fair.PrintsFor(amount("800"), quoin.Amount{}, amount("-1")); ok {
		t.Error("prints that lose break even")
	}
	if _, _, ok := fair.MarginOfSafety(quoin.Amount{}, amount("5")); ok {
		t.Error("safety of no sales")
	}
	if over, share, ok := fair.MarginOfSafety(amount("80"), amount("100")); !ok || !over.Equal(amount("-20")) || !share.Factor().Equal(factor("-0.25")) {
		t.Errorf("80 of 100: %s, %s", over, share)
	}
	if _, ok := fair.OperatingLeverage(amount("5"), quoin.Amount{}); ok {
		t.Error("leverage of no income")
	}
	if _, ok := (fair.Composite{}).BreakEven(amount("5"), quoin.Amount{}); ok {
		t.Error("an empty composite breaks even")
	}
}
