package buy_test

import (
	"encoding/json"
	"fmt"
	"math/big"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/cost/buy"
	"example.com/quoin/internal/problemtest"
)

func amount(s string) quoin.Amount     { return quoin.MustAmount(s) }
func factor(s string) quoin.Factor     { return quoin.MustFactor(s) }
func quantity(s string) quoin.Quantity { return quoin.MustQuantity(s) }

// Paper for 60.00 and 5 kg, ink for 30.00 and 1 kg, tape for 10.00 and 2 kg.
func TestPurchases(t *testing.T) {
	lines := []buy.PurchaseLine{
		{Supply: "paper", Quantity: quantity("50 sheet"), Price: amount("60.00"), Weight: quantity("5 kg"), Volume: quantity("9 l")},
		{Supply: "ink", Quantity: quantity("2 sheet"), Price: amount("30.00"), Weight: quantity("1000 g"), Volume: quantity("0.5 l")},
		{Supply: "tape", Quantity: quantity("8 sheet"), Price: amount("10.00"), Weight: quantity("2 kg"), Volume: quantity("500 ml")},
	}
	for _, c := range []struct {
		what   string
		shared []buy.SharedCost
		tax    string
		want   []string
	}{
		{"freight by value", []buy.SharedCost{{Name: "freight", Amount: amount("10.00")}}, "0%", []string{"66.00", "33.00", "11.00"}},
		{"by weight", []buy.SharedCost{{Name: "freight", Amount: amount("8.00"), By: buy.ByWeight}}, "0%", []string{"65.00", "31.00", "12.00"}},
		{"by volume", []buy.SharedCost{{Name: "freight", Amount: amount("20.00"), By: buy.ByVolume}}, "0%", []string{"78.00", "31.00", "11.00"}},
		{"by count", []buy.SharedCost{{Name: "freight", Amount: amount("6.00"), By: buy.ByCount}}, "0%", []string{"65.00", "30.20", "10.80"}},
		{"equally, a cent left for the first", []buy.SharedCost{{Name: "freight", Amount: amount("10.00"), By: buy.Equally}}, "0%", []string{"63.34", "33.33", "13.33"}},
		{"to the ink alone", []buy.SharedCost{{Name: "duty", Amount: amount("4.00"), Line: "ink"}}, "0%", []string{"60.00", "34.00", "10.00"}},
		{"a discount above the price, with freight", []buy.SharedCost{{Name: "discount", Amount: amount("12.00"), Discount: true, Line: "tape"}, {Name: "freight", Amount: amount("9.00"), By: buy.Equally}}, "0%", []string{"63.00", "33.00", "1.00"}},
		{"no freight", []buy.SharedCost{{Name: "freight"}}, "0%", []string{"60.00", "30.00", "10.00"}},
		{"a discount by value", []buy.SharedCost{{Name: "discount", Amount: amount("5.00"), Discount: true}}, "0%", []string{"57.00", "28.50", "9.50"}},
		{"tax that stays, on freight too", []buy.SharedCost{{Name: "freight", Amount: amount("10.00")}}, "20%", []string{"79.20", "39.60", "13.20"}},
		{"both, and both ways", []buy.SharedCost{{Name: "freight", Amount: amount("8.00"), By: buy.ByWeight}, {Name: "discount", Amount: amount("10.00"), Discount: true}}, "10%", []string{"64.90", "30.80", "12.10"}},
	} {
		landed, err := buy.Purchase{Lines: lines, Shared: c.shared, Tax: quoin.MustRate(c.tax)}.Landed(2)
		if err != nil {
			t.Errorf("%s: %v", c.what, err)
			continue
		}
		for i, l := range landed {
			if !l.Amount.Equal(amount(c.want[i])) {
				t.Errorf("%s: %s lands for %s, want %s", c.what, l.Supply, l.Amount, c.want[i])
			}
			sum := l.Price.Add(l.Tax)
			for _, share := range l.Shares {
				sum = sum.Add(share)
			}
			if !sum.Equal(l.Amount) {
				t.Errorf("%s: price, shares and tax of %s sum to %s, not %s", c.what, l.Supply, sum, l.Amount)
			}
		}
	}
}

func TestPurchasesRefused(t *testing.T) {
	lines := []buy.PurchaseLine{{Supply: "paper", Quantity: quantity("50 sheet"), Price: amount("6.00"), Volume: quantity("1 l")}, {Supply: "ink", Quantity: quantity("80 ml"), Price: amount("0")}}
	for what, c := range map[string]struct {
		shared buy.SharedCost
		code   quoin.Code
		path   string
	}{
		"no weights":             {buy.SharedCost{Amount: amount("5.00"), By: buy.ByWeight}, buy.NothingToShareBy, "lines[0].weight lines[1].weight"},
		"one without a volume":   {buy.SharedCost{Amount: amount("5.00"), By: buy.ByVolume}, buy.NothingToShareBy, "lines[1].volume"},
		"nothing it could be by": {buy.SharedCost{Amount: amount("5.00"), Line: "ink"}, buy.NothingToShareBy, "shared[0].by"},
		"both ways":              {buy.SharedCost{Amount: amount("5.00"), By: buy.Equally, Line: "paper"}, quoin.RivalFields, "shared[0].line"},
		"half a cent":            {buy.SharedCost{Amount: amount("1.005")}, quoin.NotSplittable, "shared[0].amount"},
		"two units":              {buy.SharedCost{Amount: amount("5.00"), By: buy.ByCount}, buy.NothingToShareBy, "shared[0].by"},
		"no such line":           {buy.SharedCost{Amount: amount("5.00"), Line: "tape"}, buy.UnknownLine, "shared[0].line"},
		"more than all":          {buy.SharedCost{Amount: amount("6.01"), Discount: true}, buy.DiscountTooBig, "lines[0].price"},
	} {
		got, err := buy.Purchase{Lines: lines, Shared: []buy.SharedCost{c.shared}}.Landed(2)
		ps, _ := err.(quoin.Problems)
		if want := 1 + strings.Count(c.path, " "); len(ps) != want || got != nil {
			t.Errorf("%s: %v, want %d problems", what, err, want)
			continue
		}
		for i, path := range strings.Fields(c.path) {
			if ps[i].Code != c.code || ps[i].Path != path {
				t.Errorf("%s: %v, want %s at %s", what, err, c.code, path)
			}
		}
	}
}

// Whatever is shared by whatever, the lines sum to the invoice, to the cent.
func TestPurchasesSumToTheInvoice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var p buy.Purchase
		sum := new(big.Rat)
		for i := range rapid.IntRange(1, 6).Draw(t, "lines") {
			price := quoin.AmountOf(rapid.Int64Range(1, 99_999).Draw(t, "price"), 2)
			p.Lines = append(p.Lines, buy.PurchaseLine{Supply: fmt.Sprint(i), Quantity: quantity("3 sheet"), Price: price, Weight: quantity("7 g"), Volume: quantity("2 l")})
			sum.Add(sum, price.Rat())
		}
		for range rapid.IntRange(0, 3).Draw(t, "shared") {
			s := buy.SharedCost{Amount: quoin.AmountOf(rapid.Int64Range(0, 9999).Draw(t, "amount"), 2)}
			s.By = rapid.SampledFrom([]buy.By{"", buy.ByValue, buy.ByWeight, buy.ByVolume, buy.ByCount, buy.Equally}).Draw(t, "by")
			p.Shared = append(p.Shared, s)
			sum.Add(sum, s.Amount.Rat())
		}
		landed, err := p.Landed(2)
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range landed {
			sum.Sub(sum, l.Amount.Rat())
		}
		if sum.Sign() != 0 {
			t.Fatalf("%s is lost or won", sum.FloatString(2))
		}
	})
}

func steps(pairs ...string) []buy.PriceBreak {
	var out []buy.PriceBreak
	for i := 0; i < len(pairs); i += 2 {
		out = append(out, buy.PriceBreak{From: factor(pairs[i]).Rat().Num().Int64(), Each: amount(pairs[i+1])})
	}
	return out
}

// Worked cases of the trade: 25.00 up to 20 and 20.00 from 21: 17 to 20 cost
// more than 21. 12.00 below 12 and 10.00 from 12: 11 cost more than 12, and 10
// the same.
func TestDominated(t *testing.T) {
	for _, c := range []struct {
		scale buy.Scale
		want  []buy.DominatedQuantities
	}{
		{buy.Scale{Steps: steps("1", "25.00", "21", "20.00")}, []buy.DominatedQuantities{{From: 17, To: 20, Instead: 21}}},
		{buy.Scale{Steps: steps("1", "12.00", "12", "10.00")}, []buy.DominatedQuantities{{From: 11, To: 11, Instead: 12}}},
		{buy.Scale{Steps: steps("1", "12.00", "12", "10.00"), Mode: buy.Incremental}, nil},
		{buy.Scale{Steps: steps("1", "2.00"), Freight: amount("9.00"), FreeFrom: quoin.Some(amount("50.00"))}, []buy.DominatedQuantities{{From: 21, To: 24, Instead: 25}}}, // 21 cost 51
		{buy.Scale{Steps: steps("1", "3.00", "10", "2.00", "15", "1.00")}, []buy.DominatedQuantities{{From: 6, To: 14, Instead: 15}}},                                      // 6 cost 18, 10 cost 20, 15 cost 15
		{buy.Scale{Steps: steps("1", "25.00", "21", "20.00"), Multiple: 3}, []buy.DominatedQuantities{{From: 18, To: 18, Instead: 21}}},
	} {
		if got := c.scale.Dominated(); !slices.Equal(got, c.want) {
			t.Errorf("%v: %v, want %v", c.scale, got, c.want)
		}
	}
}

func TestCheapest(t *testing.T) {
	for _, c := range []struct {
		what           string
		offer          buy.Offer
		quantity, left int64
		cost, bound    string
	}{
		{"18 are dearer than 21", buy.Offer{Scale: buy.Scale{Steps: steps("1", "25.00", "21", "20.00")}, Need: 18}, 21, 3, "420.00", "60.00"},
		{"16 are not", buy.Offer{Scale: buy.Scale{Steps: steps("1", "25.00", "21", "20.00")}, Need: 16}, 16, 0, "400.00", "0"},
		{"10 cost what 12 do", buy.Offer{Scale: buy.Scale{Steps: steps("1", "12.00", "12", "10.00")}, Need: 10}, 10, 0, "120.00", "0"},
		{"free freight", buy.Offer{Scale: buy.Scale{Steps: steps("1", "2.00"), Freight: amount("9.00"), FreeFrom: quoin.Some(amount("50.00"))}, Need: 22}, 25, 3, "50.00", "6.00"},
		{"a minimum", buy.Offer{Scale: buy.Scale{Steps: steps("1", "2.00"), Minimum: 10}, Need: 3}, 10, 7, "20.00", "14.00"},
	} {
		got, err := c.offer.Cheapest()
		if err != nil || got.Quantity != c.quantity || got.Left != c.left || !got.Cost.Equal(amount(c.cost)) || !got.Bound.Equal(amount(c.bound)) {
			t.Errorf("%s: %+v, %v, want %d for %s", c.what, got, err, c.quantity, c.cost)
		}
	}
	if _, err := (buy.Offer{Scale: buy.Scale{Steps: steps("2", "1.00")}, Need: 1}).Cheapest(); err == nil {
		t.Error("an offer from 2 on")
	}
}

func drawScale(t *rapid.T) buy.Scale {
	var s buy.Scale
	from := int64(1)
	for range rapid.IntRange(1, 4).Draw(t, "steps") {
		s.Steps = append(s.Steps, buy.PriceBreak{From: from, Each: quoin.AmountOf(rapid.Int64Range(1, 500).Draw(t, "each"), 2)})
		from += rapid.Int64Range(1, 30).Draw(t, "next")
	}
	s.Mode = rapid.SampledFrom([]buy.Mode{"", buy.AllUnits, buy.Incremental}).Draw(t, "mode")
	s.Freight = quoin.AmountOf(rapid.Int64Range(0, 1500).Draw(t, "freight"), 2)
	if rapid.Bool().Draw(t, "free") {
		s.FreeFrom = quoin.Some(quoin.AmountOf(rapid.Int64Range(1, 9000).Draw(t, "from"), 2))
	}
	if rapid.Bool().Draw(t, "bound") {
		s.Minimum, s.Multiple = rapid.Int64Range(1, 20).Draw(t, "minimum"), rapid.Int64Range(1, 9).Draw(t, "multiple")
	}
	return s
}

// Against trying every quantity.
func TestOffersAgainstEveryQuantity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawScale(t)
		const far = 10_081 // beyond where the cheapest goods ship free; 10,080 is sold in every multiple
		sold := func(n int64) bool { return n >= s.Minimum && n%max(s.Multiple, 1) == 0 }
		costs := make([]quoin.Amount, far)
		for n := range costs {
			costs[n] = s.Cost(int64(n))
		}
		offer := buy.Offer{Scale: s, Need: rapid.Int64Range(1, 120).Draw(t, "need")}
		got, err := offer.Cheapest()
		if err != nil {
			t.Fatal(err)
		}
		for n := offer.Need; n < far; n++ {
			if c := costs[n].Cmp(got.Cost); sold(n) && (c < 0 || c == 0 && n < got.Quantity) {
				t.Fatalf("%d of %+v cost %s, %d only %s", got.Quantity, s, got.Cost, n, s.Cost(n))
			}
		}
		trail := quoin.NewTrail(3)
		offer.Pack = quantity("50 sheet")
		price, held := offer.Explain(trail, quoin.InList("supplies", 0).Inside("offer"), got)
		paid, _ := price.Value.Amount()
		if !paid.Equal(got.Cost) || !held.Value.Factor().Equal(quoin.FactorOf(50*got.Quantity)) || quoin.Replay(trail.Steps()) != nil {
			t.Fatalf("explained as %s for %s of %+v", paid, held.Value, got)
		}
		dominated := s.Dominated()
		beyond := slices.Clone(costs) // the cheapest from there on that is sold
		for n := far - 2; n >= 0; n-- {
			if beyond[n+1].Cmp(beyond[n]) < 0 || !sold(int64(n)) {
				beyond[n] = beyond[n+1]
			}
		}
		for n := s.Sold(1); n < 120; n += max(s.Multiple, 1) {
			cheaper := beyond[n+1].Cmp(costs[n]) < 0
			listed := slices.ContainsFunc(dominated, func(d buy.DominatedQuantities) bool { return d.From <= n && n <= d.To })
			if listed != cheaper {
				t.Fatalf("%d of %+v: listed %t, a larger one is cheaper %t: %v", n, s, listed, cheaper, dominated)
			}
		}
	})
}

// Stevenson, Operations Management, from memory: tires, 9,600 a year, 75 an
// order, 16 to hold: 300 at a time, 32 orders, 4,800. Hospital cleanser, 816 a
// year, 12 an order, 4 to hold, at 20 (1–49), 18 (50–79), 17 (80–99), 16 (100
// on): totals of 14,968 for 70, 14,154 for 80 and 13,354 for 100.
func TestPublishedEconomicOrders(t *testing.T) {
	tires := buy.Economic(9600, amount("75"), amount("16"), buy.Scale{})
	if days := factor("288").Over(tires.Orders); !days.Equal(factor("9")) {
		t.Errorf("tires: every %s of 288 days, want 9", days)
	}
	if tires.Quantity != 300 || !tires.Orders.Equal(factor("32")) || !tires.Cost.Equal(amount("4800")) {
		t.Errorf("tires: %+v", tires)
	}
	scale := buy.Scale{Steps: steps("1", "20", "50", "18", "80", "17", "100", "16")}
	if got := buy.Economic(816, amount("12"), amount("4"), buy.Scale{}); got.Quantity != 70 {
		t.Errorf("cleanser without prices: %d, want 70", got.Quantity)
	}
	best := buy.Economic(816, amount("12"), amount("4"), scale)
	if best.Quantity != 100 || best.Cost.Round(0, quoin.HalfUp).String() != "13354" {
		t.Errorf("cleanser: %+v", best)
	}
	// By hand: 1,000 a year, 10 an order, 1 to hold, 10.00 each and 9.00 for those
	// from 100 on: an order of n costs 10 + 990 − 891 + 9n, so n is √(2000 × 109).
	steep := buy.Scale{Steps: steps("1", "10.00", "100", "9.00"), Mode: buy.Incremental}
	if got := buy.Economic(1000, amount("10"), amount("1"), steep); got.Quantity != 467 {
		t.Errorf("incremental: %+v, want 467", got)
	}
	for n, want := range map[string]string{"70": "14968", "80": "14154"} {
		one := buy.Scale{Steps: []buy.PriceBreak{{From: 1, Each: scale.Goods(factor(n).Rat().Num().Int64()).Over(factor(n))}}}
		total := one.Goods(816).Add(amount("12").Times(factor("816").Over(factor(n)))).Add(amount("2").Times(factor(n)))
		if got := total.Round(0, quoin.HalfUp).String(); got != want {
			t.Errorf("%s at a time: %s, want %s", n, got, want)
		}
	}
}

// Three receipts of a sheet: 100 at 2.00, 100 at 2.50, 100 at 3.00; 150 used in
// between.
func TestStocks(t *testing.T) {
	day := quoin.MustDate
	stock := buy.Stock{
		Unit: "sheet", Replacement: amount("3.20"),
		Received: []buy.Receipt{{day("2026-01-10"), quantity("100 sheet"), amount("200.00")}, {day("2026-02-10"), quantity("100 sheet"), amount("250.00")}, {day("2026-04-01"), quantity("100 sheet"), amount("300.00")}},
		Used:     []buy.Use{{day("2026-03-01"), quantity("150 sheet")}},
	}
	for _, c := range []struct {
		basis                       buy.Basis
		at                          string
		number, value, unit, issued string
	}{
		{buy.FirstIn, "2026-03-01", "50", "125.00", "2.50", "325.00"}, // 100 at 2.00 and 50 at 2.50
		{buy.FirstIn, "2026-04-01", "150", "425.00", "2.50", "325.00"},
		{buy.Average, "2026-02-28", "200", "450.00", "2.25", "0"},
		{buy.Average, "2026-03-01", "50", "112.50", "2.25", "337.50"},
		{buy.Average, "2026-12-31", "150", "412.50", "2.75", "337.50"},
		{buy.Last, "2026-02-28", "200", "500.00", "2.50", "0"},
		{buy.Last, "2026-04-01", "150", "450.00", "3.00", "375.00"},
		{buy.Replacement, "2026-04-01", "150", "480.00", "3.20", "480.00"},
	} {
		stock.Basis = c.basis
		got, err := stock.At(day(c.at))
		if err != nil || !got.Quantity.Equal(factor(c.number)) || !got.Value.Equal(amount(c.value)) || !got.Unit.Equal(amount(c.unit)) || !got.Issued.Equal(amount(c.issued)) {
			t.Errorf("%s on %s: %+v, %v, want %+v", c.basis, c.at, got, err, c)
		}
		trail := quoin.NewTrail(1)
		if each, _ := stock.Explain(trail, quoin.InField("stock"), got).Value.Amount(); !each.Equal(got.Unit) || quoin.Replay(trail.Steps()) != nil {
			t.Errorf("%s on %s: explained as %s", c.basis, c.at, each)
		}
	}
}

// What was received last still says what a unit costs when nothing is left.
func TestLastCostOfNothing(t *testing.T) {
	s := buy.Stock{
		Basis: buy.Last, Unit: "sheet", Received: []buy.Receipt{{quoin.MustDate("2026-01-10"), quantity("100 sheet"), amount("200.00")}},
		Used: []buy.Use{{quoin.MustDate("2026-02-10"), quantity("100 sheet")}},
	}
	got, err := s.At(quoin.MustDate("2026-03-01"))
	if err != nil || !got.Unit.Equal(amount("2.00")) || !got.Value.IsZero() || !got.Quantity.IsZero() {
		t.Errorf("%+v, %v", got, err)
	}
}

// OpenStax, Principles of Accounting, vol. 1 Financial, chapter 10 (from
// memory): 150 units at 21, 225 at 27 and 210 at 33, sold 120 of the first 150,
// then 180 after the second and 115 after the third; first in, first out leaves
// 170 at 33, 5,610.
func TestPublishedFirstIn(t *testing.T) {
	day := quoin.MustDate
	stock := buy.Stock{
		Basis: buy.FirstIn, Unit: "unit",
		Received: []buy.Receipt{{day("2026-07-01"), quantity("150 unit"), amount("3150")}, {day("2026-07-10"), quantity("225 unit"), amount("6075")}, {day("2026-07-20"), quantity("210 unit"), amount("6930")}},
		Used:     []buy.Use{{day("2026-07-05"), quantity("120 unit")}, {day("2026-07-15"), quantity("180 unit")}, {day("2026-07-25"), quantity("115 unit")}},
	}
	got, err := stock.At(day("2026-07-31"))
	if err != nil || !got.Value.Equal(amount("5610")) || !got.Issued.Equal(amount("10545")) || !got.Quantity.Equal(factor("170")) {
		t.Errorf("%+v, %v", got, err)
	}
}

func TestStocksRefused(t *testing.T) {
	day := quoin.MustDate
	in := []buy.Receipt{{day("2026-01-10"), quantity("100 sheet"), amount("200.00")}}
	for what, c := range map[string]struct {
		stock buy.Stock
		code  quoin.Code
		path  string
	}{
		"nothing yet":       {buy.Stock{Basis: buy.Last, Unit: "sheet"}, buy.NothingThere, "received"},
		"used too much":     {buy.Stock{Basis: buy.FirstIn, Unit: "sheet", Received: in, Used: []buy.Use{{day("2026-02-01"), quantity("101 sheet")}}}, buy.UsedTooMuch, "used[0].quantity"},
		"used before":       {buy.Stock{Basis: buy.Average, Unit: "sheet", Received: in, Used: []buy.Use{{day("2026-01-09"), quantity("1 sheet")}}}, buy.UsedTooMuch, "used[0].quantity"},
		"another unit":      {buy.Stock{Basis: buy.Average, Unit: "ml", Received: in}, quoin.UnitMismatch, "received[0]"},
		"all of it used":    {buy.Stock{Basis: buy.Average, Unit: "sheet", Received: in, Used: []buy.Use{{day("2026-01-10"), quantity("100 sheet")}}}, buy.NothingThere, "received"},
		"less than nothing": {buy.Stock{Basis: buy.Average, Unit: "sheet", Received: []buy.Receipt{{day("2026-01-10"), quantity("-1 sheet"), amount("0")}}}, quoin.OutOfRange, "received[0].quantity"},
	} {
		_, err := c.stock.At(day("2026-12-31"))
		if p := problemtest.Only(err); p.Code != c.code || p.Path != c.path {
			t.Errorf("%s: %v, want %s at %s", what, err, c.code, c.path)
		}
	}
}

// No entry of a later day changes a figure of an earlier one; what came in is
// what went out and what is left, in number and, by first in, in money.
func TestStockLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		date := func() quoin.Date {
			return quoin.MustDate(fmt.Sprintf("2026-%02d-%02d", rapid.IntRange(1, 6).Draw(t, "month"), rapid.IntRange(1, 28).Draw(t, "day")))
		}
		s := buy.Stock{Unit: "sheet", Basis: rapid.SampledFrom([]buy.Basis{buy.Last, buy.Average, buy.FirstIn}).Draw(t, "basis")}
		s.Received = []buy.Receipt{{quoin.MustDate("2026-01-01"), quantity("500 sheet"), amount("777.77")}}
		for range rapid.IntRange(0, 4).Draw(t, "receipts") {
			s.Received = append(s.Received, buy.Receipt{date(), quantity(fmt.Sprintf("%d sheet", rapid.IntRange(1, 99).Draw(t, "in"))), quoin.AmountOf(rapid.Int64Range(0, 9999).Draw(t, "cost"), 2)})
		}
		for range rapid.IntRange(0, 4).Draw(t, "uses") {
			s.Used = append(s.Used, buy.Use{date(), quantity(fmt.Sprintf("%d sheet", rapid.IntRange(1, 99).Draw(t, "out")))})
		}
		then := quoin.MustDate("2026-06-30")
		before, err := s.At(then)
		if err != nil {
			t.Fatal(err)
		}
		var in quoin.Factor
		var paid quoin.Amount
		for _, r := range s.Received {
			in, paid = in.Add(r.Quantity.Number()), paid.Add(r.Cost)
		}
		for _, u := range s.Used {
			in = in.Sub(u.Quantity.Number())
		}
		if !in.Equal(before.Quantity) || s.Basis != buy.Last && !paid.Equal(before.Value.Add(before.Issued)) {
			t.Fatalf("%s of %s are left, and %s of %s", before.Quantity, in, before.Value.Add(before.Issued), paid)
		}
		s.Received = append(s.Received, buy.Receipt{quoin.MustDate("2026-07-01"), quantity("5 sheet"), amount("900.00")})
		s.Used = append(s.Used, buy.Use{quoin.MustDate("2026-07-02"), quantity("3 sheet")})
		after, err := s.At(then)
		if err != nil || !after.Value.Equal(before.Value) || !after.Unit.Equal(before.Unit) || !after.Issued.Equal(before.Issued) {
			t.Fatalf("%+v became %+v, %v", before, after, err)
		}
	})
}

func TestDates(t *testing.T) {
	for text, ok := range map[string]bool{
		"2026-03-01": true, "2024-02-29": true, "2000-02-29": true, "2026-02-29": false, "1900-02-29": false, "2026-04-31": false, "2026-13-01": false,
		"2026-00-10": false, "26-03-01": false, "2026-3-01": false, "2026/03/01": false, "": false, "2026-03-00": false, "+026-03-01": false,
	} {
		d, err := quoin.ParseDate(text)
		if (err == nil) != ok || ok && d.String() != text {
			t.Errorf("%q is read as %s, %v", text, d, err)
		}
	}
	data, err := json.Marshal(quoin.MustDate("2026-03-01"))
	var back quoin.Date
	if err != nil || json.Unmarshal(data, &back) != nil || back.Cmp(quoin.MustDate("2026-03-01")) != 0 || string(data) != `"2026-03-01"` {
		t.Errorf("%s, %s, %v", data, back, err)
	}
	order := []string{"2025-12-31", "2026-01-01", "2026-01-02", "2026-02-01"}
	for i := range order[1:] {
		if quoin.MustDate(order[i]).Cmp(quoin.MustDate(order[i+1])) != -1 || quoin.MustDate(order[i+1]).Cmp(quoin.MustDate(order[i])) != 1 {
			t.Errorf("%s and %s are out of order", order[i], order[i+1])
		}
	}
}

// Against trying every quantity that is sold.
func TestEconomicAgainstEveryQuantity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawScale(t)
		demand := rapid.Int64Range(1, 500).Draw(t, "demand")
		setup, holding := quoin.AmountOf(rapid.Int64Range(1, 3000).Draw(t, "setup"), 2), quoin.AmountOf(rapid.Int64Range(20, 900).Draw(t, "holding"), 2)
		got := buy.Economic(demand, setup, holding, s)
		d := quoin.FactorOf(demand)
		for n := s.Sold(1); n < 400; n += max(s.Multiple, 1) {
			f := quoin.FactorOf(n)
			cost := setup.Add(s.Cost(n)).Times(d).Over(f).Add(holding.Times(f).Over(quoin.FactorOf(2)))
			if cost.Cmp(got.Cost) < 0 || n == got.Quantity && !cost.Equal(got.Cost) {
				t.Fatalf("%d of %+v cost %s a year, %d %s", got.Quantity, s, got.Cost, n, cost)
			}
		}
	})
}

func BenchmarkStock(b *testing.B) {
	s := buy.Stock{Basis: buy.FirstIn, Unit: "sheet"}
	for range 1000 {
		s.Received = append(s.Received, buy.Receipt{quoin.MustDate("2026-01-01"), quantity("3 sheet"), amount("7.00")})
		s.Used = append(s.Used, buy.Use{quoin.MustDate("2026-02-01"), quantity("2 sheet")})
	}
	for b.Loop() {
		if _, err := s.At(quoin.MustDate("2026-03-01")); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCheapest(b *testing.B) {
	o := buy.Offer{Scale: buy.Scale{Steps: steps("1", "25.00", "21", "20.00", "100", "18.00"), Freight: amount("9.00"), FreeFrom: quoin.Some(amount("500.00"))}, Need: 18}
	for b.Loop() {
		if _, err := o.Cheapest(); err != nil {
			b.Fatal(err)
		}
	}
}
