package rule_test

import (
	"fmt"
	"slices"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
	"example.com/quoin/margin/rule"
)

// twoChannels is a linocut with goods of 6.00 in an own shop that takes 10% and on
// a marketplace that takes 20%, each with 0.50 of what selling there costs. All
// fees are invented.
func twoChannels(t testing.TB, id string) rule.Item {
	t.Helper()
	g, err := quoin.NewGrid(quoin.MustAmount("0.01"), quoin.MustAmount("40.00"))
	if err != nil {
		t.Fatal(err)
	}
	var sales []margin.Sale
	for _, c := range []channel.Channel{
		{ID: "shop", Fees: []channel.Fee{{Name: "payment", Rate: quoin.MustRate("10%")}}},
		{ID: "market", Fees: []channel.Fee{{Name: "commission", Rate: quoin.MustRate("20%")}}},
	} {
		s := margin.NewSale(c.Terms(quoin.MustCurrency("EUR")), margin.GoodsOnDemand(quoin.MustAmount("6.00")))
		s.FixedCost = quoin.MustAmount("0.50")
		sales = append(sales, s)
	}
	return rule.NewItem(id, g, sales...)
}

func decideAlone(t testing.TB, items []rule.Item, rules ...rule.Rule) rule.Decision {
	t.Helper()
	d, err := rule.Decide(items, rules, rule.Least)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func keepsFive() rule.Rule {
	return rule.Rule{ID: "five are left", Kind: rule.Contribution{AtLeast: quoin.MustAmount("5.00")}}
}

func priceAtMost(id, most string) rule.Rule {
	return rule.Rule{ID: id, Kind: rule.Price{AtMost: quoin.Some(quoin.MustAmount(most))}}
}

// The least price of each channel, worked out by hand: in the shop 12.78 leaves
// 12.78 − 1.28 − 6.50 = 5.00 and 12.77, with 1.277 being 1.28, 4.99; on the
// marketplace 14.37 leaves 14.37 − 2.87 − 6.50 = 5.00, and 14.36 leaves 4.99.
func TestFloorOfOneChannel(t *testing.T) {
	endings := rule.Rule{ID: "fifty", Kind: rule.Ending{EndsIn: []quoin.Amount{quoin.MustAmount("0.50")}}}
	double := rule.Rule{ID: "twice", Products: []string{"small", "large"}, Kind: rule.SizeRatio{AtLeast: quoin.Some(quoin.MustFactor("2"))}}
	hopeless := rule.Rule{ID: "fifty are left", Strength: rule.Prefer, Kind: rule.Contribution{AtLeast: quoin.MustAmount("50.00")}}
	there := keepsFive()
	there.Channels = []string{"market"}
	for _, c := range []struct {
		what  string
		rules []rule.Rule
		want  string // least–greatest of the shop, of the marketplace
	}{
		{"five are left", []rule.Rule{keepsFive()}, "12.78–40.00 14.37–40.00"},
		{"in the marketplace only", []rule.Rule{there}, "0.01–40.00 14.37–40.00"},
		{"and endings", []rule.Rule{keepsFive(), endings}, "13.50–39.50 14.50–39.50"},
		{"up to 30.00", []rule.Rule{keepsFive(), priceAtMost("up to thirty", "30.00")}, "12.78–30.00 14.37–30.00"},
		{"a dropped preference asks nothing", []rule.Rule{keepsFive(), hopeless}, "12.78–40.00 14.37–40.00"},
		{"a step asks nothing", []rule.Rule{keepsFive(), double}, "12.78–40.00 14.37–40.00"},
		{"what only the shop can keep", []rule.Rule{keepsFive(), priceAtMost("up to thirteen", "13.00")}, "12.78–13.00 none"},
		{"nothing", nil, "0.01–40.00 0.01–40.00"},
		// Three times 6.00.
		{"a multiple", []rule.Rule{{ID: "thrice", Kind: rule.CostMultiple{AtLeast: quoin.MustFactor("3")}}}, "18.00–40.00 18.00–40.00"},
	} {
		d := decideAlone(t, []rule.Item{twoChannels(t, "small"), twoChannels(t, "large")}, c.rules...)
		for i, id := range []string{"small", "large"} {
			if got := floors(d, i); got != c.want {
				t.Errorf("%s: %s %s, want %s", c.what, id, got, c.want)
			}
		}
	}
}

func floors(d rule.Decision, i int) string {
	var out [2]string
	for j := range out {
		least, greatest, ok := d.Floor(i, j)
		out[j] = fmt.Sprintf("%.2f–%.2f", least, greatest)
		if !ok {
			out[j] = "none"
		}
	}
	return out[0] + " " + out[1]
}

// Asking what one channel would allow leaves the item as it was, with both.
func TestFloorChangesNothing(t *testing.T) {
	d := decideAlone(t, []rule.Item{twoChannels(t, "small")}, keepsFive())
	before, _ := d.Lower(0, d.Prices[0])
	d.Floor(0, 0)
	d.Floor(0, 1)
	after, _ := d.Lower(0, d.Prices[0])
	if fmt.Sprint(before) != fmt.Sprint(after) || len(after.By) != 1 || after.By[0].Channel != "market" {
		t.Errorf("%v, then %v", before, after)
	}
}

func TestAskedPrices(t *testing.T) {
	nineties := rule.Rule{ID: "ninety", Kind: rule.Ending{EndsIn: []quoin.Amount{quoin.MustAmount("0.90")}}}
	fives := rule.Rule{ID: "fives", Kind: rule.Ending{EndsIn: []quoin.Amount{quoin.MustAmount("0.00")}, Every: quoin.MustAmount("5.00")}}
	elsewhere := nineties
	elsewhere.Products = []string{"other"}
	dropped := nineties
	dropped.Strength = rule.Prefer
	for _, c := range []struct {
		what  string
		rules []rule.Rule
		p     string
		want  string
	}{
		{"no endings", nil, "12.34", "12.34"},
		{"between two prices", nil, "12.341", "12.35"},
		{"the next", []rule.Rule{nineties}, "12.34", "12.90"},
		{"itself", []rule.Rule{nineties}, "12.90", "12.90"},
		{"just past it", []rule.Rule{nineties}, "12.901", "13.90"},
		{"the last", []rule.Rule{nineties}, "39.90", "39.90"},
		{"none up to the limit", []rule.Rule{nineties}, "39.91", "40.90"},
		{"nothing", []rule.Rule{nineties}, "0", "0.90"},
		{"fives", []rule.Rule{fives}, "25.01", "30.00"},
		{"of another product", []rule.Rule{elsewhere}, "12.34", "12.34"},
		{"other rules are not asked", []rule.Rule{nineties, priceAtMost("up to ten", "10.00")}, "12.34", "12.90"},
		{"a dropped preference", []rule.Rule{fives, dropped}, "12.34", "15.00"},
	} {
		d := decideAlone(t, []rule.Item{twoChannels(t, "small"), twoChannels(t, "other")}, c.rules...)
		if got := d.Asked(0, quoin.MustAmount(c.p)); !got.Equal(quoin.MustAmount(c.want)) {
			t.Errorf("%s: %s becomes %s, want %s", c.what, c.p, got, c.want)
		}
	}
}

// Endings go on above the limit of 40.00; without any, what is asked is the next price
// step. Of prices that leave 2.50 of 5.00 and nothing of 0.75, 7.50 is the first, and every
// 15.00 from there: 52.50, 67.50 and so on.
func TestAskedAboveTheLimit(t *testing.T) {
	ending := func(id, of, modulus string) rule.Rule {
		return rule.Rule{ID: id, Kind: rule.Ending{EndsIn: []quoin.Amount{quoin.MustAmount(of)}, Every: quoin.MustAmount(modulus)}}
	}
	for _, c := range []struct {
		what  string
		rules []rule.Rule
		p     string
		want  string
	}{
		{"no endings", nil, "40.01", "40.01"},
		{"no endings, between two prices", nil, "52.001", "52.01"},
		{"whole", []rule.Rule{ending("whole", "0", "1")}, "40.01", "41.00"},
		{"whole as it is", []rule.Rule{ending("whole", "0", "1")}, "900000000000", "900000000000.00"},
		{"fives", []rule.Rule{ending("fives", "0", "5")}, "52.00", "55.00"},
		{"two rules", []rule.Rule{ending("of five", "2.50", "5"), ending("of three quarters", "0", "0.75")}, "52.51", "67.50"},
		{"two rules, not met up to the limit", []rule.Rule{ending("of five", "2.50", "5"), ending("of three quarters", "0", "0.75")}, "37.51", "52.50"},
		// 370.00 and 400.00 leave 10.00 of 30.00.
		{"round longer than the limit", []rule.Rule{ending("of thirty", "10", "30")}, "380.01", "400.00"},
	} {
		d := decideAlone(t, []rule.Item{twoChannels(t, "small")}, c.rules...)
		if got := d.Asked(0, quoin.MustAmount(c.p)); !got.Equal(quoin.MustAmount(c.want)) {
			t.Errorf("%s: %s becomes %s, want %s", c.what, c.p, got, c.want)
		}
	}
}

func TestRefused(t *testing.T) {
	whole := rule.Rule{ID: "whole", Kind: rule.Ending{EndsIn: []quoin.Amount{quoin.MustAmount("0.00")}}}
	near := rule.Rule{ID: "near today's", Kind: rule.MaxChange{AtMost: quoin.MustRate("10%")}}
	double := rule.Rule{ID: "twice", Products: []string{"small", "large"}, Kind: rule.SizeRatio{AtMost: quoin.Some(quoin.MustFactor("1.1"))}}
	hopeless := rule.Rule{ID: "fifty are left", Strength: rule.Prefer, Kind: rule.Contribution{AtLeast: quoin.MustAmount("50.00")}}
	ofOther := priceAtMost("the large one", "16.00")
	ofOther.Products = []string{"large"}
	rules := []rule.Rule{keepsFive(), priceAtMost("up to thirty", "30.00"), whole, near, double, hopeless, ofOther}
	small, large := twoChannels(t, "small"), twoChannels(t, "large")
	small.Today, large.Today = quoin.Some(quoin.MustAmount("15.00")), quoin.Some(quoin.MustAmount("15.00"))
	d := decideAlone(t, []rule.Item{small, large}, rules...)
	if !slices.Equal(d.Dropped, []string{"fifty are left"}) {
		t.Fatalf("dropped %q, conflict %q", d.Dropped, d.Conflict)
	}
	for _, c := range []struct {
		p    string
		want []string
	}{
		{"15.00", nil},
		{"29.00", nil}, // far from today's, and a step: neither is asked
		{"31.00", []string{"up to thirty"}},
		{"31.50", []string{"up to thirty", "whole"}},
		{"14.00", []string{"five are left"}}, // 14.00 − 2.80 − 6.50 = 4.70
		{"14.36", []string{"five are left", "whole"}},
		{"0", []string{"five are left"}},
		{"500000000000", []string{"up to thirty"}},
	} {
		if got := d.Refuse(0, quoin.MustAmount(c.p)); !slices.Equal(got, c.want) {
			t.Errorf("%s is refused by %q, want %q", c.p, got, c.want)
		}
	}
	if got := d.Refuse(1, quoin.MustAmount("17.00")); !slices.Equal(got, []string{"the large one"}) {
		t.Errorf("the large one at 17.00 is refused by %q", got)
	}
}

// A sale at 14.00 in the shop keeps 14.00 − 1.40 − 6.50 = 6.10; with 7% off,
// 13.02 − 1.30 − 6.50 = 5.22; with 9% off, 12.74 − 1.27 − 6.50 = 4.97.
func TestBorneDiscounts(t *testing.T) {
	off := func(promotion string) margin.Sale {
		c := channel.Channel{ID: "shop", Promotion: quoin.MustRate(promotion), Fees: []channel.Fee{{Name: "payment", Rate: quoin.MustRate("10%")}}}
		s := margin.NewSale(c.Terms(quoin.MustCurrency("EUR")), margin.GoodsOnDemand(quoin.MustAmount("6.00")))
		s.FixedCost = quoin.MustAmount("0.50")
		return s
	}
	worst := rule.Rule{ID: "at worst", Kind: rule.Contribution{AtLeast: quoin.MustAmount("5.00"), AskedOf: rule.Worst}}
	there := keepsFive()
	there.Channels = []string{"market"}
	other := keepsFive()
	other.Products = []string{"other"}
	dropped := rule.Rule{ID: "fifty are left", Strength: rule.Prefer, Kind: rule.Contribution{AtLeast: quoin.MustAmount("50.00")}}
	for _, c := range []struct {
		what         string
		rules        []rule.Rule
		off          string
		holds, asked bool
	}{
		{"nothing off", []rule.Rule{keepsFive()}, "0%", true, true},
		{"7% off", []rule.Rule{keepsFive()}, "7%", true, true},
		{"9% off", []rule.Rule{keepsFive()}, "9%", false, true},
		{"7% off, each kind of order", []rule.Rule{worst}, "7%", true, true},
		{"9% off, each kind of order", []rule.Rule{worst}, "9%", false, true},
		{"a rule of another channel", []rule.Rule{there}, "9%", true, false},
		{"a rule of another product", []rule.Rule{other}, "9%", true, false},
		{"a rule on prices alone", []rule.Rule{priceAtMost("up to ten", "10.00")}, "9%", true, false},
		{"a dropped preference", []rule.Rule{dropped}, "9%", true, false},
		{"two rules, one fails", []rule.Rule{{ID: "four", Kind: rule.Contribution{AtLeast: quoin.MustAmount("4.00")}}, keepsFive()}, "9%", false, true},
		// A multiple of goods asks for a list price, whatever is taken off it.
		{"a multiple", []rule.Rule{{ID: "twice", Kind: rule.CostMultiple{AtLeast: quoin.MustFactor("2")}}}, "90%", true, true},
	} {
		d := decideAlone(t, []rule.Item{twoChannels(t, "small"), twoChannels(t, "other")}, c.rules...)
		broken, asked := d.Bears(0, "shop", off(c.off), quoin.MustAmount("14.00"), nil)
		if holds := len(broken) == 0; holds != c.holds || asked != c.asked {
			t.Errorf("%s: holds %t, asked %t", c.what, holds, asked)
		}
	}
}

// Sold in the own shop alone, a print could cost 12.78; the marketplace asks for
// 14.37, and so both do.
func ExampleDecision_Floor() {
	g, _ := quoin.NewGrid(quoin.MustAmount("0.01"), quoin.MustAmount("40.00"))
	sold := func(id, fee string) margin.Sale {
		c := channel.Channel{ID: id, Fees: []channel.Fee{{Name: "fee", Rate: quoin.MustRate(fee)}}}
		return margin.NewSale(c.Terms(quoin.MustCurrency("EUR")), margin.GoodsOnDemand(quoin.MustAmount("6.50")))
	}
	d, err := rule.Decide([]rule.Item{rule.NewItem("bittern-a5", g, sold("shop", "10%"), sold("market", "20%"))}, []rule.Rule{keepsFive()}, rule.Least)
	if err != nil {
		fmt.Println(err)
		return
	}
	for j, id := range []string{"shop", "market"} {
		least, _, _ := d.Floor(0, j)
		fmt.Printf("%s %.2f\n", id, least)
	}
	fmt.Printf("both %.2f\n", d.Prices[0])
	// Output:
	// shop 12.78
	// market 14.37
	// both 14.37
}

// A step of an edition at 1.15 times 14.37, 16.5255, becomes the next whole price;
// a rule on the price refuses it.
func ExampleDecision_Asked() {
	g, _ := quoin.NewGrid(quoin.MustAmount("0.01"), quoin.MustAmount("40.00"))
	d, err := rule.Decide([]rule.Item{rule.NewItem("bittern-a5", g)}, []rule.Rule{
		{ID: "whole", Kind: rule.Ending{EndsIn: []quoin.Amount{quoin.MustAmount("0")}}},
		priceAtMost("small prints stay small", "16.00"),
	}, rule.Greatest)
	if err != nil {
		fmt.Println(err)
		return
	}
	p := d.Asked(0, quoin.MustAmount("14.37").Times(quoin.MustFactor("1.15")))
	fmt.Println(p, d.Refuse(0, p))
	// Output: 17.00 [small prints stay small]
}
