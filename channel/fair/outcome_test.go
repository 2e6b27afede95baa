package fair_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel/fair"
)

func amount(s string) quoin.Amount { return quoin.MustAmount(s) }
func rate(s string) quoin.Rate     { return quoin.MustRate(s) }
func factor(s string) quoin.Factor { return quoin.MustFactor(s) }

// autumn is a weekend fair of a linocut artist of marsh birds; all fees and
// prices invented. Fixed: 180 + 15 ÷ 0.6 + 46 + 65 + 60 + 240 ÷ 12 + 4 = 400.
func autumn() fair.Fair {
	return fair.Fair{
		ID: "autumn", Name: "autumn fair", Stand: amount("180.00"), Jury: amount("15.00"), Chance: quoin.Some(rate("60%")),
		Travel: amount("46.00"), Nights: 1, Night: amount("65.00"), Helper: amount("60.00"),
		Display: amount("240.00"), DisplayFairs: factor("12"), Other: []fair.Cost{{Name: "insurance", Amount: amount("4.00")}},
		Commission: rate("10%"), CommissionOf: fair.Net, CommissionAtLeast: amount("75.00"),
		Mix:    []fair.Share{{Product: "heron", Share: rate("60%")}, {Product: "avocet", Share: rate("40%")}},
		Prints: factor("32"), Cash: quoin.Some(rate("40%")),
		Hours: factor("24"), HourWorth: amount("9.00"), OpportunityCost: amount("200.00"),
	}
}

// prints have 21% tax in their prices. At the mix of autumn a print sells for
// 36.30, of it 30.00 revenue, and keeps 23.00.
func prints() []fair.Print {
	return []fair.Print{
		{Product: "avocet", Price: amount("18.15"), Revenue: amount("15.00"), Kept: amount("11.00")},
		{Product: "heron", Price: amount("48.40"), Revenue: amount("40.00"), Kept: amount("31.00")},
		{Product: "curlew", Price: amount("90.00"), Revenue: amount("74.38"), Kept: amount("50.00")}, // not in the mix
	}
}

func mustPlan(t *testing.T, f fair.Fair, prints []fair.Print) fair.Outcome {
	t.Helper()
	o, err := f.Outcome(prints)
	if err != nil {
		t.Fatal(err)
	}
	return o
}

// line writes an outcome as one line: money to the cent, prints to 4 places.
func line(o fair.Outcome) string {
	volume := func(v quoin.Optional[fair.Volume]) string {
		if v, ok := v.Get(); ok {
			return fmt.Sprintf("%.4f (%s)", v.Prints, v.Whole)
		}
		return "none"
	}
	why := make([]string, len(o.Reasons))
	for i, r := range o.Reasons {
		why[i] = string(r)
	}
	return strings.Join([]string{
		fmt.Sprintf("%.2f", o.Fixed), fmt.Sprintf("%.2f", o.Sales), fmt.Sprintf("%.2f", o.Commission), fmt.Sprintf("%.2f", o.Result),
		volume(o.BreakEven), volume(o.Needed), string(o.Verdict) + " " + strings.Join(why, " "),
	}, " | ")
}

// Worked out by hand from the figures above.
func TestPlan(t *testing.T) {
	for _, c := range []struct {
		what   string
		change func(*fair.Fair)
		want   string // fixed | sales | commission | result | break-even | needed | verdict
	}{
		// 32 × 36.30; 10% of 960; 736 − 400 − 96. By rate 400 ÷ 20 = 20, under
		// the minimum 475 ÷ 23. Asked 24 × 9 = 216: 616 ÷ 20, 691 ÷ 23.
		{"as it is", func(f *fair.Fair) {}, "400.00 | 1161.60 | 96.00 | 240.00 | 20.6522 (21) | 30.8000 (31) | go "},
		// 116.16 is 10% of 1,161.60; 616 ÷ (23 − 3.63) = 31.8018.
		{"commission with tax", func(f *fair.Fair) { f.CommissionOf = "" }, "400.00 | 1161.60 | 116.16 | 219.84 | 20.6522 (21) | 31.8018 (32) | go "},
		{"without a minimum", func(f *fair.Fair) { f.CommissionAtLeast = quoin.Amount{} }, "400.00 | 1161.60 | 96.00 | 240.00 | 20.0000 (20) | 30.8000 (31) | go "},
		// 525 ÷ 23 and 741 ÷ 23; the minimum holds to 41.67 prints.
		{"a high minimum", func(f *fair.Fair) { f.CommissionAtLeast = amount("125") }, "400.00 | 1161.60 | 125.00 | 211.00 | 22.8261 (23) | 32.2174 (33) | stay below_hours"},
		// 690 − 400 − 90 = 200: as much as otherwise, less than the hours ask.
		{"30 prints", func(f *fair.Fair) { f.Prints = factor("30") }, "400.00 | 1089.00 | 90.00 | 200.00 | 20.6522 (21) | 30.8000 (31) | stay below_hours"},
		{"20 prints", func(f *fair.Fair) { f.Prints = factor("20") }, "400.00 | 726.00 | 75.00 | -15.00 | 20.6522 (21) | 30.8000 (31) | stay loss below_opportunity_cost below_hours"},
		{"nothing asked", func(f *fair.Fair) { f.HourWorth, f.OpportunityCost = quoin.Amount{}, quoin.Amount{} }, "400.00 | 1161.60 | 96.00 | 240.00 | 20.6522 (21) | 20.6522 (21) | go "},
		// 641 ÷ 20, of it 241 asked.
		{"better elsewhere", func(f *fair.Fair) { f.OpportunityCost = amount("241") }, "400.00 | 1161.60 | 96.00 | 240.00 | 20.6522 (21) | 32.0500 (33) | stay below_opportunity_cost"},
		// 30.00 × 80% is more than the 23.00 that a print keeps.
		{"commission takes all", func(f *fair.Fair) { f.Commission = rate("80%") }, "400.00 | 1161.60 | 768.00 | -432.00 | none | none | stay loss below_opportunity_cost below_hours"},
		// The application fee of 15 once: 390, and 390 + 75 over 23 = 20.2174.
		{"accepted always", func(f *fair.Fair) { f.Chance = quoin.Optional[quoin.Rate]{} }, "390.00 | 1161.60 | 96.00 | 250.00 | 20.2174 (21) | 30.3000 (31) | go "},
		{"for nothing", func(f *fair.Fair) { *f = fair.Fair{Mix: f.Mix, Prints: f.Prints} }, "0.00 | 1161.60 | 0.00 | 736.00 | 0.0000 (0) | 0.0000 (0) | go "},
	} {
		f := autumn()
		c.change(&f)
		if got := line(mustPlan(t, f, prints())); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.what, got, c.want)
		}
	}
}

func TestPlanInDetail(t *testing.T) {
	o := mustPlan(t, autumn(), prints())
	b, _ := o.BreakEven.Get()
	perHour, _ := o.PerHour.Get()
	cash, _ := o.Cash.Get()
	safety, _ := o.Safety.Get()
	for _, c := range []struct{ what, got, want string }{
		{"average price", o.Average.Price.Round(2, quoin.HalfUp).String(), "36.30"},
		{"average revenue", o.Average.Revenue.Round(2, quoin.HalfUp).String(), "30.00"},
		{"average kept", o.Average.Kept.Round(2, quoin.HalfUp).String(), "23.00"},
		{"cash, 40% of 1,161.60", cash.Round(2, quoin.HalfUp).String(), "464.64"},
		{"an hour, 240 ÷ 24", perHour.Round(2, quoin.HalfUp).String(), "10.00"},
		{"hours, 24 × 9", o.HoursWorth.Round(2, quoin.HalfUp).String(), "216.00"},
		{"asked", o.Asked.Round(2, quoin.HalfUp).String(), "216.00"},
		{"sales at 475 ÷ 23", b.Sales.Round(2, quoin.HalfUp).String(), "749.67"},
		{"safety, 1 − 475 ÷ 23 ÷ 32", safety.Round(2).String(), "35.46%"},
		{"herons, 12.39", b.ByProduct[0].Product + " " + b.ByProduct[0].Nearest.String(), "heron 12"},
		{"avocets, 8.26", b.ByProduct[1].Product + " " + b.ByProduct[1].Nearest.String(), "avocet 8"},
	} {
		if c.got != c.want {
			t.Errorf("%s: %s, want %s", c.what, c.got, c.want)
		}
	}
}

// 50 prints are taken along, of which 32 are sold. A print costs 7.00 on average (0.6 × 9.00 + 0.4 ×
// 4.00), of it 2.00 own time: 50 × 5.00 = 250.00 are paid for goods. 32 × 23.00 = 736.00 and the
// goods of the prints sold, 224.00, came in; 400.00 and 96.00 went for the fair.
func TestResultInThree(t *testing.T) {
	costs := prints()
	costs[0].Goods, costs[0].OwnTime = amount("4.00"), amount("2.00")
	costs[1].Goods, costs[1].OwnTime = amount("9.00"), amount("2.00")
	f := autumn()
	for _, c := range []struct {
		taken string
		want  [3]string // cash, profit, stock left
	}{
		{"50", [3]string{"214.00", "240.00", "126.00"}}, // 214 + 126 − 50 × 2 = 240
		{"32", [3]string{"304.00", "240.00", "0.00"}},
		{"", [3]string{"304.00", "240.00", "0.00"}}, // as many as are sold
	} {
		if f.Taken = (quoin.Factor{}); c.taken != "" {
			f.Taken = factor(c.taken)
		}
		got := mustPlan(t, f, costs).InThree
		if !got.Cash.Equal(amount(c.want[0])) || !got.Profit.Equal(amount(c.want[1])) || !got.StockLeft.Equal(amount(c.want[2])) {
			t.Errorf("%s taken: %s, want %v", c.taken, got, c.want)
		}
	}
	f.Taken = factor("31")
	if err := f.Check(); err == nil || !strings.Contains(err.Error(), "at least the 32 prints that are sold") {
		t.Errorf("31 taken and 32 sold: %v", err)
	}
}

func TestNoneWhereNothingIsGiven(t *testing.T) {
	f := autumn()
	f.Hours, f.HourWorth, f.Cash = quoin.Factor{}, quoin.Amount{}, quoin.Optional[quoin.Rate]{}
	free := []fair.Print{{Product: "heron"}, {Product: "avocet"}}
	o := mustPlan(t, f, free)
	if !o.PerHour.IsZero() || !o.Cash.IsZero() || !o.BreakEven.IsZero() || !o.Needed.IsZero() || !o.Safety.IsZero() {
		t.Errorf("something of nothing: %+v", o)
	}
	if !o.Result.Equal(amount("-475")) { // fixed and the minimum
		t.Errorf("result %s, want -475", o.Result)
	}
}
