package rule_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
	"example.com/quoin/margin/rule"
)

func TestWhatAnOwnRuleLacks(t *testing.T) {
	for _, c := range []struct {
		kind rule.Custom
		want string
	}{
		{rule.Custom{}, "without a name and Allowed and Judge"},
		{rule.Custom{Allowed: allowsAll, Judge: judgesNothing}, "without a name"},
		{rule.Custom{Name: "mine", Judge: judgesNothing}, "without Allowed"},
		{rule.Custom{Name: "mine", Allowed: allowsAll}, "without Judge"},
	} {
		ps, ok := rule.Rule{ID: "a", Kind: c.kind}.Check().(quoin.Problems)
		if !ok || !strings.HasSuffix(ps[0].Found, c.want) {
			t.Errorf("%v, want %q", ps, c.want)
		}
	}
}

// In a shop an order in ten pays a fee of half: 10.00 keeps 9.50 on average, and 5.00 where it is paid.
func oneInTen() (rule.Item, *rule.CompiledChannel) {
	shop := channel.Channel{ID: "shop", Fees: []channel.Fee{{Rate: quoin.MustRate("50%"), Share: quoin.Some(quoin.MustRate("10%"))}}}
	terms := shop.Terms(quoin.MustCurrency("EUR"))
	it := rule.NewItem("print", exampleGrid())
	shelf := rule.CompileChannel(terms, it.Grid)
	it.Offers = []rule.Offer{shelf.Offer(margin.NewSale(terms, margin.Goods{}))}
	return it, shelf
}

func TestRulesOfTheWorstCaseAreBorne(t *testing.T) {
	it, _ := oneInTen()
	keeps := func(in rule.Scope) rule.Rule {
		return rule.Rule{ID: "on " + string(in), Kind: rule.Contribution{AtLeast: amount("9.50"), AskedOf: in}}
	}
	elsewhere := keepsFive()
	elsewhere.Channels = []string{"fair"}
	for _, c := range []struct {
		rules []rule.Rule
		price string
		want  string // what does not hold, and whether anything is asked
	}{
		{[]rule.Rule{keeps(rule.Average), keeps(rule.Worst)}, "9.00", "[on average on worst] true"},
		{[]rule.Rule{keeps(rule.Average), keeps(rule.Worst)}, "10.00", "[on worst] true"},
		{[]rule.Rule{keeps(rule.Worst), keeps(rule.Average)}, "10.00", "[on worst] true"},
		{[]rule.Rule{keeps(rule.Worst)}, "19.00", "[] true"},
		{[]rule.Rule{priceAtMost("most", "30.00")}, "19.00", "[] false"},
	} {
		d, err := rule.CheckedItems{Items: []rule.Item{it}, Rules: append(c.rules, elsewhere)}.Decide(rule.Least)
		if err != nil {
			t.Fatal(err)
		}
		broken, asked := d.Bears(0, "shop", it.Offers[0].Sale, amount(c.price), nil)
		if got := fmt.Sprint(broken, asked); got != c.want || d.Asks(0, "shop") != asked || !d.Asks(0, "fair") {
			t.Errorf("at %s: %s, want %s", c.price, got, c.want)
		}
	}
	if (rule.Decision{}).Asks(0, "shop") {
		t.Error("a decision of nothing asks for something")
	}
}

// A plan serves a rule of the worst case. 9.403 are to stay: of 9.90 stay 9.90 − 4.95 ÷ 10 = 9.405 on
// average, and of 9.89 9.395; where the fee is paid, of 18.82 stay 9.41, and of 18.81 9.40.
func TestPlanOfTheWorstCase(t *testing.T) {
	it, shelf := oneInTen()
	sale := it.Offers[0].Sale
	for in, want := range map[rule.Scope]string{rule.Average: "9.90", rule.Worst: "18.82"} {
		rules := []rule.Rule{{ID: "keeps", Kind: rule.Contribution{AtLeast: amount("9.403"), AskedOf: in}}}
		bare := sale
		bare.Goods = nil
		plan, ok := rule.NewPlan(rules, []*rule.CompiledChannel{shelf}, []margin.Sale{bare}, it.Grid, rule.Least)
		one := rule.PlannedItem{Goods: []rule.PlannedGoods{{Sold: true, PerItem: sale.GoodsPerItem(), Orders: sale.Goods}}}
		one.ID = it.ID
		if !ok || !plan.Decide(&one) || !one.Price.Equal(amount(want)) {
			t.Errorf("%s: %t, %s, want %s", in, ok, one.Price, want)
		}
	}
}

// An offer that goes by another name keeps it.
func TestOfferKeepsItsName(t *testing.T) {
	it, _ := oneInTen()
	o := it.Offers[0]
	o.Channel = "stall"
	if got := o.With(o.Sale).Channel; got != "stall" {
		t.Error(got)
	}
}

// Of 12.00 with goods for 4.20 stay 7.80, which is 65%; of nothing paid there is no share, and it is
// told that nothing was paid.
func TestVerdictOfAMargin(t *testing.T) {
	for _, c := range []struct {
		promotion string
		got       quoin.Figure
		ok        bool
	}{{"0%", quoin.MustRate("65%").Figure(), true}, {"100%", amount("0.00").Figure(), false}} {
		terms := channel.Channel{ID: "fair", Promotion: quoin.MustRate(c.promotion)}.Terms(quoin.MustCurrency("EUR"))
		it := rule.NewItem("print", exampleGrid(), margin.NewSale(terms, margin.GoodsOnDemand(amount("4.20"))))
		v := rule.Rule{ID: "a", Kind: rule.GrossMargin{AtLeast: quoin.MustRate("65%")}}.Judge(it, amount("12.00"))
		if len(v) != 1 || v[0].OK != c.ok || !v[0].Got.Equal(c.got) || !v[0].Asked.Equal(quoin.MustRate("65%").Figure()) {
			t.Errorf("promotion of %s: %+v, want %s", c.promotion, v, c.got)
		}
	}
}

// Where income tax takes all, nothing is left of any price, and what is before it must not be below zero:
// goods of 4.20 and an overhead of 1.80 ask for 6.00.
func TestNetWhereTaxTakesAll(t *testing.T) {
	sale := margin.NewSale(channel.Channel{ID: "fair"}.Terms(quoin.MustCurrency("EUR")), margin.GoodsOnDemand(amount("4.20")))
	sale.Overhead, sale.IncomeTax = amount("1.80"), quoin.MustRate("100%")
	s, err := rule.Rule{ID: "a", Kind: rule.NetMargin{}}.Allowed(rule.NewItem("print", exampleGrid(), sale))
	if least, _ := s.Least(); err != nil || !least.Equal(amount("6.00")) || s.Len() != 3_401 { // 6.00 to 40.00
		t.Errorf("%v, %v", s, err)
	}
}

// It is an error of the program to ask for a rule or an item that there is not; of nothing there is none.
func TestPlacesThatThereAreNot(t *testing.T) {
	d, err := rule.Decide(sizes(t, "a5", "a4"), []rule.Rule{about("floor", floor(5))}, rule.Least)
	if err != nil {
		t.Fatal(err)
	}
	for want, ask := range map[string]func(){
		"quoin: rule 1 of a decision by 1":  func() { d.Allows(1, 0) },
		"quoin: rule -1 of a decision by 1": func() { d.Allows(-1, 0) },
		"quoin: item 2 of a decision of 2":  func() { d.Speaking(2) },
		"quoin: item -1 of a decision of 2": func() { d.Asked(-1, amount("5.00")) },
		"<nil>": func() {
			if s := (rule.Decision{}).Allows(3, 4); !s.IsEmpty() || (rule.Decision{}).Speaking(1) != nil {
				t.Error("a decision of nothing allows something")
			}
		},
	} {
		func() {
			defer func() {
				if got := fmt.Sprint(recover()); got != want {
					t.Errorf("%q, want %q", got, want)
				}
			}()
			ask()
		}()
	}
}

// Of the worst case each kind of order has a verdict: 19.00 keeps all, and 16.00 where the postage of
// 3.00 is paid. On average of 60% and 40% there is one, of no kind: 19.00 − 0.4 × 3.00 = 17.80.
func TestVerdictsOfKindsOfOrder(t *testing.T) {
	share := func(of string) quoin.Optional[quoin.Rate] { return quoin.Some(quoin.MustRate(of)) }
	shop := channel.Channel{ID: "shop", Orders: []channel.Order{{ID: "met", Share: share("60%")}, {ID: "sent", Share: share("40%"), Postage: amount("3.00")}}}
	it := rule.NewItem("print", exampleGrid(), margin.NewSale(shop.Terms(quoin.MustCurrency("EUR")), margin.Goods{}))
	for in, want := range map[rule.Scope]string{rule.Average: "0: 17.80 true;", rule.Worst: "1: 19.00 true; 2: 16.00 false;"} {
		var got []string
		for _, v := range (rule.Rule{ID: "a", Kind: rule.Contribution{AtLeast: amount("17.00"), AskedOf: in}}).Judge(it, amount("19.00")) {
			got = append(got, fmt.Sprintf("%d: %s %t;", v.Order, v.Got, v.OK))
		}
		if strings.Join(got, " ") != want {
			t.Errorf("%s: %s, want %s", in, got, want)
		}
	}
}

// Only the limit is the reason where every reason comes to it, and there is one.
func TestOnlyTheLimit(t *testing.T) {
	limit, other := rule.Refusal{AtLimit: true}, rule.Refusal{}
	for _, c := range []struct {
		because []rule.Refusal
		want    bool
	}{
		{nil, false}, {[]rule.Refusal{limit}, true}, {[]rule.Refusal{limit, other}, false}, {[]rule.Refusal{limit, {Because: []rule.Refusal{limit}}}, true}, {[]rule.Refusal{{Because: []rule.Refusal{other}}}, false},
	} {
		if got := (rule.Refusal{Because: c.because}).OnlyLimit(); got != c.want {
			t.Errorf("%+v: %t", c.because, got)
		}
	}
}
