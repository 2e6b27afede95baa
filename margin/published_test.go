package margin_test

import (
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
)

// Every wanted value in the published tests of this package was published by
// the source beside it. "From memory" marks a source that was not at hand when
// it was written down, "common practice" a sum that anyone can do again.

const (
	contemporary62 = "OpenStax Contemporary Mathematics 6.2"
	marketing9     = "OpenStax Principles of Marketing ch. 9"
	marketing12    = "OpenStax Principles of Marketing ch. 12"
	marketing17    = "OpenStax Principles of Marketing ch. 17"
	financial61    = "OpenStax Principles of Accounting vol. 1, Financial, 6.1"
	financial63    = "OpenStax Principles of Accounting vol. 1, Financial, 6.3"
	finance192     = "OpenStax Principles of Finance 19.2"
	managerial31   = "OpenStax Principles of Accounting vol. 2, Managerial, 3.1"
	managerial32   = "OpenStax Principles of Accounting vol. 2, Managerial, 3.2"
	managerial33   = "OpenStax Principles of Accounting vol. 2, Managerial, 3.3"
	managerial34   = "OpenStax Principles of Accounting vol. 2, Managerial, 3.4"
	managerial35   = "OpenStax Principles of Accounting vol. 2, Managerial, 3.5"
	brechner7      = "Brechner, Contemporary Mathematics for Business and Consumers ch. 7"
	monash         = "Monash University marketing dictionary, keystone markup"
)

// unprinted stands in a table where the source gives no value.
const unprinted = ""

var publishedIn = quoin.MustCurrency("USD")

func TestPublishedMarkups(t *testing.T) {
	for _, c := range []struct {
		cost   string
		markup string // on cost
		places int    // to which the percentage was printed
		price  string
		source string
	}{
		{"62.00", "15%", 0, "71.30", contemporary62},
		{"750", "45%", 0, "1087.50", contemporary62},
		{"90", "15%", 0, "103.50", contemporary62},
		{"480", "75%", 0, "840", contemporary62},
		{"8.85", "20%", 0, "10.62", contemporary62},
		{"25.00", "18%", 0, "29.50", contemporary62},
		{"5.20", "90.38%", 2, "9.90", contemporary62},
		{"50", "50%", 0, "75", marketing17},
		{"10", "100%", 0, "20", monash},
	} {
		cost, markup, price := quoin.MustAmount(c.cost), quoin.MustRate(c.markup), quoin.MustAmount(c.price)
		if got, ok := margin.Markup(cost, price); !ok || got.Round(c.places).String() != c.markup {
			t.Errorf("%s: %s to %s is a mark-up of %s, want %s", c.source, c.cost, c.price, got, c.markup)
		}
		if got := margin.PriceForMarkup(cost, markup).Round(2, quoin.HalfUp); !got.Equal(price) {
			t.Errorf("%s: %s and %s on it: %s, want %s", c.source, c.cost, c.markup, got, c.price)
		}
		if got := price.Over(markup.OnePlus()).Round(2, quoin.HalfUp); !got.Equal(cost) {
			t.Errorf("%s: %s without its %s: %s, want %s", c.source, c.price, c.markup, got, c.cost)
		}
	}
	if got := quoin.MustAmount("62.00").Part(quoin.MustRate("15%")); !got.Equal(quoin.MustAmount("9.30")) {
		t.Errorf("%s: 15%% of 62.00 is %s, want 9.30", contemporary62, got)
	}
	if got := quoin.MustAmount("750").Part(quoin.MustRate("45%")); !got.Equal(quoin.MustAmount("337.50")) {
		t.Errorf("%s: 45%% of 750 is %s, want 337.50", contemporary62, got)
	}
}

func TestPublishedMargins(t *testing.T) {
	for _, c := range []struct{ cost, price, margin, source string }{
		{"3.50", "6.25", "44%", marketing9},
		{"10", "20", "50%", monash},
		{"20", "100", "80%", managerial31},
		{"150", "400", "62.5%", managerial32},
	} {
		cost, price := quoin.MustAmount(c.cost), quoin.MustAmount(c.price)
		if got, ok := margin.Margin(cost, price); !ok || got.String() != c.margin {
			t.Errorf("%s: %s at %s leaves %s, want %s", c.source, c.cost, c.price, got, c.margin)
		}
		if got, ok := margin.PriceForMargin(cost, quoin.MustRate(c.margin)); !ok || !got.Equal(price) {
			t.Errorf("%s: %s for a margin of %s: %s, want %s", c.source, c.cost, c.margin, got, c.price)
		}
	}
}

func TestPublishedStatement(t *testing.T) {
	sale := plainSale("3.50")
	sale.FixedCost, sale.Overhead = quoin.MustAmount("0.50"), quoin.MustAmount("0.75")
	st := sale.At(quoin.MustAmount("6.25"))
	if got, ok := st.GrossMargin(); !ok || got.String() != "44%" {
		t.Errorf("%s: gross margin %s, want 44%%", marketing9, got)
	}
	if got, ok := st.NetMargin(); !ok || got.String() != "24%" {
		t.Errorf("%s: net margin %s, want 24%%", marketing9, got)
	}
}

// plainSale is a sale without fees, tax or postage of goods at a cost.
func plainSale(goods string) margin.Sale {
	return margin.NewSale(channel.Channel{}.Terms(publishedIn), margin.Goods{PerItem: quoin.MustAmount(goods)})
}

func TestPublishedDiscounts(t *testing.T) {
	for _, c := range []struct{ list, discount, off, net, source string }{
		{"75.80", "25%", "18.95", "56.85", contemporary62},
		{"80", "30%", "24", "56", contemporary62},
		{"1200", "25%", unprinted, "900", contemporary62},
		{"240", "30%", unprinted, "168", contemporary62},
		{"500", "10%", unprinted, "450", contemporary62},
		{"360", "75%", unprinted, "90", contemporary62},
		{"210", "10%", unprinted, "189", contemporary62},
		{"1600", "2%", "32", "1568", financial61},
		{"4020", "5%", "201", "3819", financial63},
		{"10500", "2%", unprinted, "10290", finance192},
	} {
		list, net, discount := quoin.MustAmount(c.list), quoin.MustAmount(c.net), quoin.MustRate(c.discount)
		terms := channel.Channel{TradeDiscount: []quoin.Rate{discount}}.Terms(publishedIn)
		if got := terms.Settle(0, list).Unit; !got.Equal(net) {
			t.Errorf("%s: %s less %s is %s, want %s", c.source, c.list, c.discount, got, c.net)
		}
		if got := list.Part(discount); c.off != unprinted && !got.Equal(quoin.MustAmount(c.off)) {
			t.Errorf("%s: %s of %s is %s, want %s", c.source, c.discount, c.list, got, c.off)
		}
		if got := list.Sub(net).Share(list); !got.Equal(discount) {
			t.Errorf("%s: from %s to %s is %s, want %s", c.source, c.list, c.net, got, c.discount)
		}
		if got := net.Over(discount.Complement()); !got.Equal(list) {
			t.Errorf("%s: %s after %s was %s, want %s", c.source, c.net, c.discount, got, c.list)
		}
	}
}

// Discounts in series are taken one after the other: what is left of 1, and
// the one discount it equals, to five places.
func TestPublishedSeriesDiscounts(t *testing.T) {
	for _, c := range []struct {
		series    []string
		left, off string
		source    string
	}{
		{[]string{"35%", "15%", "7.5%"}, "0.51106", "0.48894", brechner7 + " (from memory)"},
		{[]string{"35%", "20%", "15%"}, "0.44200", unprinted, brechner7},
	} {
		var discounts []quoin.Rate
		left := quoin.FactorOf(1)
		for _, d := range c.series {
			discounts = append(discounts, quoin.MustRate(d))
			left = left.Times(quoin.MustRate(d).Complement())
		}
		if got := left.Round(5, quoin.HalfUp); !got.Equal(quoin.MustFactor(c.left)) {
			t.Errorf("%s: %v leave %s, want %s", c.source, c.series, got, c.left)
		}
		if got := left.Rate().Complement().Round(5, quoin.HalfUp).String(); c.off != unprinted && got != c.off {
			t.Errorf("%s: %v are one discount of %s, want %s", c.source, c.series, got, c.off)
		}
		// On a list price of 1,000 the cents hold all five places.
		terms := channel.Channel{TradeDiscount: discounts}.Terms(publishedIn)
		want := quoin.AmountOf(1000, 0).Times(quoin.MustFactor(c.left))
		if got := terms.Settle(0, quoin.AmountOf(1000, 0)).Unit; !got.Equal(want) {
			t.Errorf("%s: 1000 less %v is %s, want %s", c.source, c.series, got, want)
		}
	}
}

func TestPublishedBreakEven(t *testing.T) {
	for _, c := range []struct {
		price, variable, fixed, target string
		units, sales                   string
		source                         string
	}{
		{"100", "20", "18000", "0", "225", "22500", managerial32},
		{"400", "150", "14000", "0", "56", unprinted, managerial32},
		{"400", "150", "14000", "10000", "96", "38400", managerial32},
		{"500", "300", "100000", "0", "500", unprinted, managerial32},
		{"500", "300", "100000", "50000", "750", unprinted, managerial32},
		{"3.75", "1.50", "2475", "0", "1100", "4125", managerial33},
		{"4.25", "1.50", "2475", "0", "900", "3825", managerial33},
		{"3.75", "1.55", "2475", "0", "1125", "4218.75", managerial33},
		{"3.75", "1.45", "2875", "0", "1250", "4687.50", managerial33},
		{"3.95", "1.45", "2875", "0", "1150", "4542.50", managerial33},
		{"90", "40", "85000", "0", "1700", "153000", managerial35},
		{"90", "40", "95000", "0", "1900", "171000", managerial35},
		{"2.00", "1.50", "20000", "0", "40000", unprinted, marketing12},
	} {
		price := quoin.MustAmount(c.price)
		contribution := price.Sub(quoin.MustAmount(c.variable))
		units, ok := margin.BreakEven(quoin.MustAmount(c.fixed), quoin.MustAmount(c.target), contribution)
		if !ok || !units.Equal(quoin.MustFactor(c.units)) {
			t.Errorf("%s: %s units at %s, want %s", c.source, units, c.price, c.units)
		}
		if got := price.Times(units); c.sales != unprinted && !got.Equal(quoin.MustAmount(c.sales)) {
			t.Errorf("%s: sales of %s at %s, want %s", c.source, got, c.price, c.sales)
		}
	}
}

// What a number of units contributes, and what is left when fixed costs have
// been spread over them.
func TestPublishedIncomes(t *testing.T) {
	for _, c := range []struct {
		price, variable, fixed string
		units                  int64
		contribution, income   string
		source                 string
	}{
		{"100", "20", "0", 1, "80", unprinted, managerial31},
		{"75", "15", "0", 1, "60", unprinted, managerial31},
		{"100", "20", "23000", 500, "40000", "17000", managerial31},
		{"100", "20", "23000", 750, "60000", "37000", managerial31},
		{"100", "20", "18000", 175, unprinted, "-4000", managerial32},
		{"100", "20", "18000", 300, unprinted, "6000", managerial32},
		{"25", "15.50", "700", 100, unprinted, "250", managerial31},
		{"25", "15.50", "700", 200, unprinted, "1200", managerial31},
		{"500", "300", "100000", 1, unprinted, "-99800", managerial32},
		{"500", "300", "100000", 501, unprinted, "200", managerial32},
		{"3.75", "1.50", "2475", 1500, unprinted, "900", managerial33},
		{"4.25", "1.50", "2475", 1500, unprinted, "1650", managerial33},
		{"3.75", "1.55", "2475", 1500, unprinted, "825", managerial33},
		{"3.75", "1.45", "2875", 1500, unprinted, "575", managerial33},
		{"3.95", "1.45", "2875", 1500, unprinted, "875", managerial33},
		{"9.50", "6.00", "0", 1, "3.50", unprinted, managerial34},
	} {
		sale := plainSale(c.variable)
		overhead, err := channel.FixedCost{Cost: quoin.MustAmount(c.fixed), Items: quoin.FactorOf(c.units)}.PerItem()
		if err != nil {
			t.Fatal(err)
		}
		sale.Overhead = overhead
		st, units := sale.At(quoin.MustAmount(c.price)), quoin.FactorOf(c.units)
		if got := st.Contribution.Times(units); c.contribution != unprinted && !got.Equal(quoin.MustAmount(c.contribution)) {
			t.Errorf("%s: %d units contribute %s, want %s", c.source, c.units, got, c.contribution)
		}
		if got := st.Operating.Times(units); c.income != unprinted && !got.Equal(quoin.MustAmount(c.income)) {
			t.Errorf("%s: %d units leave %s, want %s", c.source, c.units, got, c.income)
		}
	}
}

// Several products sold in a fixed mix break even as one composite. The units
// here come from the composite before it is rounded, each to the nearest.
func TestPublishedSalesMix(t *testing.T) {
	mix := []struct{ of, price, variable, units string }{
		{"5", "6.25", "3.25", "23577"},
		{"3", "7.75", "4.50", "14146"},
		{"2", "9.25", "6.25", "9431"},
	}
	var price, variable quoin.Amount
	for _, p := range mix {
		price = price.Add(composite(p.of, p.price))
		variable = variable.Add(composite(p.of, p.variable))
	}
	if !price.Equal(quoin.MustAmount("73.00")) || !variable.Equal(quoin.MustAmount("42.25")) {
		t.Errorf("%s: a composite costs %s and sells at %s, want 42.25 and 73.00", managerial34, variable, price)
	}
	contribution := price.Sub(variable)
	if !contribution.Equal(quoin.MustAmount("30.75")) {
		t.Errorf("%s: a composite contributes %s, want 30.75", managerial34, contribution)
	}
	composites, ok := margin.BreakEven(quoin.MustAmount("145000"), quoin.Amount{}, contribution)
	if got := composites.Round(2, quoin.HalfUp).String(); !ok || got != "4715.45" {
		t.Errorf("%s: %s composites, want 4715.45", managerial34, got)
	}
	if got := composite("3 2 1", "7 4 6"); !got.Equal(quoin.MustAmount("35")) {
		t.Errorf("%s: a composite contributes %s, want 35", managerial34, got)
	}
	if got := composite("1 2", "25 28").Sub(composite("1 2", "11 7")); !got.Equal(quoin.MustAmount("56")) {
		t.Errorf("%s: a composite contributes %s, want 56", managerial34, got)
	}
	for _, p := range mix {
		if got := composites.Times(quoin.MustFactor(p.of)).Round(0, quoin.HalfUp).String(); got != p.units {
			t.Errorf("%s: %s units of the one at %s, want %s", managerial34, got, p.price, p.units)
		}
	}
}

// composite adds up amounts taken so many times each: "3 2 1" of "7 4 6" is 35.
func composite(of, amounts string) quoin.Amount {
	var sum quoin.Amount
	times := strings.Fields(of)
	for i, a := range strings.Fields(amounts) {
		sum = sum.Add(quoin.MustAmount(a).Times(quoin.MustFactor(times[i])))
	}
	return sum
}

func TestPublishedSafetyAndLeverage(t *testing.T) {
	amount := quoin.MustAmount
	sales := amount("90").Times(quoin.FactorOf(2500))
	safety := sales.Sub(amount("153000"))
	if !sales.Equal(amount("225000")) || !safety.Equal(amount("72000")) || safety.Share(sales).String() != "32%" {
		t.Errorf("%s: %s of %s is safe, %s, want 72000 of 225000, 32%%", managerial35, safety, sales, safety.Share(sales))
	}
	for _, c := range []struct {
		contribution, income string
		places               int
		leverage             string
		tenth                string // growth of income when sales grow by 10%
	}{
		{"148000", "85000", 2, "1.74", "17.4%"},
		{"210000", "85000", 2, "2.47", "24.7%"},
		{"61250", "24500", 1, "2.5", unprinted},
		{"78090", "13700", 1, "5.7", unprinted},
	} {
		got := amount(c.contribution).Ratio(amount(c.income)).Round(c.places, quoin.HalfUp)
		if got.String() != c.leverage {
			t.Errorf("%s: %s on %s is a leverage of %s, want %s", managerial35, c.contribution, c.income, got, c.leverage)
		}
		if got := got.Times(quoin.MustFactor("0.1")).Rate().String(); c.tenth != unprinted && got != c.tenth {
			t.Errorf("%s: 10%% more sales at a leverage of %s bring %s, want %s", managerial35, c.leverage, got, c.tenth)
		}
	}
}
