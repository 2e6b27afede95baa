package pricelist_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel/fair"
	"example.com/quoin/channel/refund"
	"example.com/quoin/margin/pricelist"
)

// Two prints with goods of 4.00 and 8.00, at 20.00 and 35.00, at a fair that takes
// 2% of cards: 20.00 − 0.40 − 4.00 = 15.60 and 35.00 − 0.70 − 8.00 = 26.30 are kept
// there. What the channel's period adds, 2.00 an item, is left out. All invented.
const goingToAFair = `{
  "version": 1, "currency": "EUR", "price_limit": "60.00",
  "supplies": [{"id": "kit", "quantity": "10 kit", "price": "40.00"}],
  "products": [
    {"id": "warbler", "bill": [{"supply": "kit", "quantity": "1 kit"}]},
    {"id": "bittern", "bill": [{"supply": "kit", "quantity": "2 kit"}]}
  ],
  "channels": [{"id": "shelf"}, {"id": "fair", "fees": [{"name": "card reader", "rate": "2%"}], "fixed_cost": {"cost": "100.00", "items": 50}}],
  "fairs": [{
    "id": "harbour", "channel": "fair", "stand": "180.00", "jury": "15.00", "chance": "60%", "travel": "42.00", "nights": 2, "night": "60.00",
    "display": "360.00", "display_fairs": 12, "other": [{"name": "insurance", "amount": "13.00"}],
    "commission": "10%", "commission_at_least": "100.00", "mix": [{"product": "warbler", "share": "60%"}, {"product": "bittern", "share": "40%"}],
    "prints": 50, "cash": "30%", "hours": 20, "hour_worth": "18.00", "opportunity_cost": "300.00"
  }],
  "rules": [
    {"id": "warbler from", "rule": "price", "products": ["warbler"], "at_least": "20.00"},
    {"id": "bittern from", "rule": "price", "products": ["bittern"], "at_least": "35.00"}
  ]
}`

func TestWhatAFairComesTo(t *testing.T) {
	f := decidedShop(t, goingToAFair).Fairs[0]
	even, _ := f.BreakEven.Get()
	for _, c := range []struct{ what, got, want string }{
		// 180 + 15 ÷ 0.6 + 42 + 2 × 60 + 360 ÷ 12 + 13.
		{"fixed", fmt.Sprintf("%.2f", f.Fixed), "410.00"},
		// 0.6 × 15.60 + 0.4 × 26.30.
		{"kept of a print", fmt.Sprintf("%.4f", f.Average.Kept), "19.8800"},
		// 50 × (0.6 × 20 + 0.4 × 35).
		{"sales", fmt.Sprintf("%.2f", f.Sales), "1300.00"},
		{"cash", places(f.Cash, 2), "390.00"},
		{"commission", fmt.Sprintf("%.2f", f.Commission), "130.00"},
		// 50 × 19.88 − 410 − 130.
		{"result", fmt.Sprintf("%.2f", f.Result), "454.00"},
		{"an hour", places(f.PerHour, 2), "22.70"},
		{"hours' worth, asked", fmt.Sprintf("%.2f %.2f", f.HoursWorth, f.Asked), "360.00 360.00"},
		{"verdict", string(f.Verdict), "go"},
		// (410 + 100) ÷ 19.88, where 10% of 26.00 each are still below 100.00; × 26.00.
		{"break-even", fmt.Sprintf("%.6f %.0f %.6f", even.Prints, even.Whole, even.Sales), "25.653924 26 667.002012"},
		{"by product", fmt.Sprintf("%.0f %.0f", even.ByProduct[0].Nearest, even.ByProduct[1].Nearest), "15 10"},
		// (1300 − 667.002…) ÷ 1300.
		{"safety", places(f.Safety, 6), "0.486922"},
	} {
		if c.got != c.want {
			t.Errorf("%s: %s, want %s", c.what, c.got, c.want)
		}
	}
	steps := f.Steps.Steps()
	if err := quoin.Replay(steps); err != nil {
		t.Fatal(err)
	}
	results := quoin.Find(steps, func(s quoin.Step) bool { return s.Code == fair.StepResult })
	if len(results) != 1 || steps[results[0]-1].Value.Rat().Cmp(f.Result.Rat()) != 0 {
		t.Errorf("the result is explained by %v", results)
	}
}

// Twenty prints bring 20 × 19.88 = 397.60, which costs 510.00 to sell: a loss, and
// less than the days and the hours are to bring.
func TestAFairToStayAwayFrom(t *testing.T) {
	f := decidedShop(t, strings.Replace(goingToAFair, `"prints": 50`, `"prints": 20`, 1)).Fairs[0]
	if got, want := fmt.Sprintf("%.2f %s %v", f.Result, f.Verdict, f.Reasons), "-112.40 stay [loss below_opportunity_cost below_hours]"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// A fair prices nothing: without it every price and statement is the same.
func TestFairsMoveNoPrice(t *testing.T) {
	with := decidedShop(t, goingToAFair)
	a, b, _ := strings.Cut(goingToAFair, `"fairs": [{`)
	_, b, _ = strings.Cut(b, "\n  }],\n")
	without := decidedShop(t, a+b)
	for i, p := range with.Products {
		if q := without.Products[i]; !p.Price.Equal(q.Price) || !p.Channels[1].Statement.Net.Equal(q.Channels[1].Statement.Net) {
			t.Errorf("%s: %s and %s", p.ID, p.Price, q.Price)
		}
	}
	if len(without.Fairs) != 0 {
		t.Errorf("%d fairs", len(without.Fairs))
	}
}

// Shops at home and abroad pay half of the list price. Abroad one dollar costs 0.80.
const soldToShops = `{
  "version": 1, "currency": "EUR", "price_limit": "60.00",
  "products": [{"id": "warbler", "name": "Reed warbler", "sheet": "A5"}, {"id": "bittern"}],
  "channels": [
    {"id": "buyers"},
    {"id": "home", "name": "Shops at home", "trade_discount": ["50%"], "tax": {"rate": "20%"}, "orders": [{"items": 12, "postage": "6.00"}],
     "trade": {"case": 6, "opening": "120.00", "reorder": "60.00", "freight": "added", "free_from": "150.00",
       "credit": {"days": 30, "interest": "8%", "early": "2%", "early_days": 10, "taken": "40%"}}},
    {"id": "abroad", "trade_discount": ["50%"], "foreign_currency": {"currency": "USD", "rate": "0.80"}, "trade": {"case": 6, "opening": "120.00"}},
    {"id": "no minimum", "trade_discount": ["50%"], "trade": {}}
  ],
  "rules": [
    {"id": "warbler from", "rule": "price", "products": ["warbler"], "at_least": "20.00"},
    {"id": "bittern from", "rule": "price", "products": ["bittern"], "at_least": "33.33"}
  ]
}`

func TestLineSheetsOfAnAnswer(t *testing.T) {
	sheets := decidedShop(t, soldToShops).LineSheets
	var got []string
	for _, s := range sheets {
		got = append(got, fmt.Sprintf("%s in %s, %.2f and %.2f, tax %s", s.Channel, s.Currency, s.Opening, s.Reorder, s.Tax))
		for _, l := range s.Lines {
			got = append(got, fmt.Sprintf("%s %.2f by %d, %d", l.Product, l.Trade, l.Case, l.Opening.Or(0)))
		}
		if s.Note != pricelist.Recommended {
			t.Errorf("%s: %q", s.Channel, s.Note)
		}
	}
	want := []string{
		"home in EUR, 120.00 and 60.00, tax 20%",
		"warbler 10.00 by 6, 12", // just two cases of 60.00
		"bittern 16.67 by 6, 12", // 16.665; a case is 100.02
		"abroad in USD, 120.00 and 0.00, tax 0%",
		"warbler 12.50 by 6, 12", // 10.00 ÷ 0.80; a case is 75.00
		"bittern 20.83 by 6, 6",  // 20.83125; a case is 124.98
		"no minimum in EUR, 0.00 and 0.00, tax 0%",
		"warbler 10.00 by 1, 0",
		"bittern 16.67 by 1, 0",
	}
	if a, b := strings.Join(got, "\n"), strings.Join(want, "\n"); a != b {
		t.Errorf("\n%s\nwant\n%s", a, b)
	}
	if l := sheets[0].Lines[0]; l.Name != "Reed warbler" || l.Size.String() != quoin.MustSize("A5").String() || !l.Recommended.Equal(quoin.MustAmount("20.00")) {
		t.Errorf("%+v", l)
	}
	if from, ok := sheets[0].FreeFrom.Get(); !ok || !from.Equal(quoin.MustAmount("150.00")) || sheets[0].Freight != "added" || sheets[0].Credit.Days != 30 {
		t.Errorf("terms: %+v", sheets[0])
	}
}

// What a shop abroad may ask is in its own currency, as all that stands on the
// sheet: 20.00 ÷ 0.80.
func TestRecommendedAbroad(t *testing.T) {
	l := decidedShop(t, soldToShops).LineSheets[1].Lines[0]
	if !l.Recommended.Equal(quoin.MustAmount("25.00")) {
		t.Errorf("%s recommended, want 25.00", l.Recommended)
	}
}

// 2/10, net 30 costs 37.24% a year simple and 44.59% compound, on 365 days (see
// channel.Credit). Channels without a discount for paying early are not listed.
func TestCreditsOfAnAnswer(t *testing.T) {
	credits := decidedShop(t, soldToShops).Credits
	if len(credits) != 1 {
		t.Fatalf("%d credits", len(credits))
	}
	c := credits[0]
	if got, want := fmt.Sprint(c.Channel, " ", c.Simple.Round(2), " ", c.Compound.Round(2), " ", c.Money), "home 37.24% 44.59% 8%"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// An order of two prints at 20.00 with shipping of 5.00, both with a tax of 25% in
// them: 45.00 are paid, 9.00 of it tax. The shop takes 10% of items and 0.30. All
// invented.
func refunding(after string) string {
	return `{"version": 1, "currency": "EUR", "price_limit": "60.00",
	  "supplies": [{"id": "kit", "quantity": "10 kit", "price": "30.00"}],
	  "products": [{"id": "card", "bill": [{"supply": "kit", "quantity": "1 kit"}]}],
	  "channels": [{"id": "shop", "tax": {"rate": "25%", "in_price": true, "on_shipping": true}, "orders": [{"items": 2, "shipping": "5.00", "postage": "4.50"}],
	    "fees": [{"name": "commission", "rate": "10%"}, {"name": "payment", "fixed": "0.30"}], "returns": ` + after + `}],
	  "rules": [{"id": "from", "rule": "price", "at_least": "20.00"}]}`
}

func refundOf(t testing.TB, after string) refund.Settlement {
	t.Helper()
	o := decidedShop(t, refunding(after)).Products[0].Channels[0].Orders
	if len(o) != 1 || o[0].Refund == nil {
		t.Fatalf("orders: %+v", o)
	}
	return *o[0].Refund
}

func settledAs(s refund.Settlement) string {
	return fmt.Sprintf("%.2f + %.2f + %.2f = %.2f; tax back %.2f, fees %.2f back %.2f kept, goods %.2f, postage %.2f: %.2f",
		s.Items, s.Shipping, s.Tax, s.Total, s.TaxBack, s.FeesBack, s.FeesKept, s.GoodsBack, s.Postage, s.Result)
}

func TestRefundOfAnOrder(t *testing.T) {
	for _, c := range []struct{ what, after, want string }{
		// 45.00 with 9.00 of tax in it, and the return of 4.00: −45 + 9 − 4. Fees were 4.00 and 0.30.
		{
			"all of it", `{"returned": "10%", "shipping": true, "postage": "4.00"}`,
			"40.00 + 5.00 + 0.00 = 45.00; tax back 9.00, fees 0.00 back 4.30 kept, goods 0.00, postage 4.00: -40.00",
		},
		// Tax of 40.00 × 0.25 ÷ 1.25; fees of 40 ÷ 45: 3.5555…, and 0.2666….
		{
			"without shipping", `{"returned": "10%"}`,
			"40.00 + 0.00 + 0.00 = 40.00; tax back 8.00, fees 0.00 back 3.83 kept, goods 0.00, postage 0.00: -32.00",
		},
		// Half of 40.00; tax of 4.00; fees of 20 ÷ 45: 1.7777…, and 0.1333….
		{
			"half of the price", `{"returned": "10%", "part": "50%"}`,
			"20.00 + 0.00 + 0.00 = 20.00; tax back 4.00, fees 0.00 back 1.91 kept, goods 0.00, postage 0.00: -16.00",
		},
	} {
		if got := settledAs(refundOf(t, c.after)); got != c.want {
			t.Errorf("%s:\n%s, want\n%s", c.what, got, c.want)
		}
	}
}

// What comes back with one order is of that order, not of an average one: half of a
// commission of 4.00, and half of goods of 6.00, whatever the share of orders that is
// returned. −45 + 9 + 2 + 3 − 4 = −35.
func TestWhatARefundBringsBack(t *testing.T) {
	for _, returned := range []string{"1%", "10%", "60%"} {
		got := settledAs(refundOf(t, `{"returned": "`+returned+`", "shipping": true, "postage": "4.00", "fees": "50%", "resold": "50%"}`))
		if want := "40.00 + 5.00 + 0.00 = 45.00; tax back 9.00, fees 2.00 back 2.30 kept, goods 3.00, postage 4.00: -35.00"; got != want {
			t.Errorf("%s returned:\n%s, want\n%s", returned, got, want)
		}
	}
}

// A shop on consignment that keeps 40% of 50.00 gives its 20.00 back with the price, so
// that the maker gives back 30.00.
func TestRefundOfAConsignment(t *testing.T) {
	a := decidedShop(t, `{"version": 1, "currency": "EUR", "price_limit": "60.00", "products": [{"id": "card"}],
		"channels": [{"id": "gallery", "consignment": {"commission": "40%"}, "returns": {"returned": "10%"}}],
		"rules": [{"id": "from", "rule": "price", "at_least": "50.00"}]}`)
	if r := a.Products[0].Channels[0].Orders[0].Refund; r == nil || !r.Result.Equal(quoin.MustAmount("-30.00")) {
		t.Errorf("%+v", r)
	}
}

// Without a word on refunds there is none, and orders that are worth nothing to
// tell apart are not listed.
func TestNoRefunds(t *testing.T) {
	for _, s := range decidedShop(t, soldToShops).Products[0].Channels {
		if (s.ID == "buyers") != (len(s.Orders) == 0) {
			t.Errorf("%s: %d orders", s.ID, len(s.Orders))
		}
		for _, o := range s.Orders {
			if o.Refund != nil {
				t.Errorf("%s: %+v", s.ID, o.Refund)
			}
		}
	}
}

// Twelve prints at trade price: 120.00, with 6.00 of freight added and 25.20 of tax on
// both on top. Early payment costs 2% of 151.20 on 40% of orders, 3.02 × 0.4 = 1.208, and
// waiting (0.4 × 10 + 0.6 × 30) × 8% ÷ 365 of it, 0.7290…. Freight is not taxed here, so the
// tax is 24.00 and the invoice 150.00: 3.00 × 0.4 = 1.20, and 150.00 × 22 × 0.08 ÷ 365 =
// 0.723287….
func TestOrderOfAShop(t *testing.T) {
	o := decidedShop(t, soldToShops).Products[0].Channels[1].Orders[0]
	var fees []string
	for _, f := range o.Fees {
		fees = append(fees, fmt.Sprintf("%s %.6f", f.Name, f.Amount))
	}
	got := fmt.Sprintf("%d at %.2f, paid %.2f, revenue %.2f, keeps %.6f; %s", o.Items, o.Unit, o.Paid, o.Revenue, o.Contribution, strings.Join(fees, ", "))
	// 126.00 − 6.00 − 1.20 − 0.723288.
	want := "12 at 10.00, paid 150.00, revenue 126.00, keeps 118.076712; early payment 1.200000, waiting for the money 0.723288"
	if got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// Going brings 454.00, which is more than the days would otherwise.
func ExampleFairResult() {
	answer, err := pricelist.Price([]byte(goingToAFair))
	if err != nil {
		fmt.Println(err)
		return
	}
	f := answer.Fairs[0]
	fmt.Printf("%s: %s, for %.2f of sales of %.2f\n", f.ID, f.Verdict, f.Result, f.Sales)
	even, _ := f.BreakEven.Get()
	fmt.Printf("even at %.0f prints\n", even.Whole)
	// Output:
	// harbour: go, for 454.00 of sales of 1300.00
	// even at 26 prints
}

// A first order of one print alone comes in whole cases of six.
func ExampleLineSheet() {
	answer, err := pricelist.Price([]byte(soldToShops))
	if err != nil {
		fmt.Println(err)
		return
	}
	s := answer.LineSheets[0]
	for _, l := range s.Lines {
		fmt.Printf("%s: %.2f %s, in cases of %d, first order %d\n", l.Product, l.Trade, s.Currency, l.Case, l.Opening.Or(0))
	}
	// Output:
	// warbler: 10.00 EUR, in cases of 6, first order 12
	// bittern: 16.67 EUR, in cases of 6, first order 12
}

// Both prints go back, and so does the tax; the fees stay with the shop's channel.
func ExampleOrderResult() {
	answer, err := pricelist.Price([]byte(refunding(`{"returned": "10%", "shipping": true, "postage": "4.00"}`)))
	if err != nil {
		fmt.Println(err)
		return
	}
	o := answer.Products[0].Channels[0].Orders[0]
	fmt.Printf("paid %.2f; given back %.2f, which costs %.2f beside fees of %.2f\n", o.Paid, o.Refund.Total, o.Refund.Result.Neg(), o.Refund.FeesKept)
	// Output: paid 45.00; given back 45.00, which costs 40.00 beside fees of 4.30
}

// A shop that is charged the postage of 4.00, by a tariff, is given it back too.
func TestRefundOfAddedFreight(t *testing.T) {
	o := decidedShop(t, `{"version": 1, "currency": "EUR", "price_limit": "60.00",
		"products": [{"id": "card", "sheet": "A5", "mass": "50 g", "packing": {"flat": []}}],
		"packings": [{"id": "flat", "inside": "A5", "holds": 5, "mass": "20 g", "outside": {"length": "23 cm", "width": "16 cm", "height": "1 cm"}}],
		"tariffs": [{"id": "post", "zones": [{"id": "home", "steps": [{"mass": "500 g", "price": "4.00"}]}]}],
		"channels": [{"id": "shops", "tariff": "post", "trade": {"freight": "added"}, "orders": [{"zone": "home"}], "returns": {"returned": "10%", "shipping": true}}],
		"rules": [{"id": "from", "rule": "price", "at_least": "20.00"}]}`).Products[0].Channels[0].Orders[0]
	if !o.Paid.Equal(quoin.MustAmount("24.00")) || o.Refund == nil || !o.Refund.Total.Equal(o.Paid) {
		t.Errorf("paid %s, given back %+v", o.Paid, o.Refund)
	}
}
