package rule_test

import (
	"encoding/json"
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/internal/problemtest"
	"example.com/quoin/margin"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/rule"
)

func allowsAll(it rule.Item, _ []rule.Offer) (rule.Set, error)           { return rule.All(it.Grid), nil }
func judgesNothing(rule.Item, []rule.Offer, quoin.Amount) []rule.Verdict { return nil }

func TestRuleCheck(t *testing.T) {
	rate, factor := quoin.MustRate, quoin.MustFactor
	tooMany := make([]quoin.Amount, 1001)
	var none *rule.SizeRatio
	for _, c := range []struct {
		what string
		rule rule.Rule
		want string
	}{
		{"sound", rule.Rule{ID: "a", Kind: floor(5)}, ""},
		{"the defaults", rule.Rule{ID: "a", Strength: rule.Must, Kind: rule.Contribution{AtLeast: amount("1"), AskedOf: rule.Average}}, ""},
		{"left out", rule.Rule{ID: "a", Kind: rule.Contribution{}}, "missing_field at_least"},
		{"no id", rule.Rule{Kind: floor(5)}, "missing_field id"},
		{"no kind", rule.Rule{ID: "a"}, "missing_field rule"},
		{"a kind by pointer", rule.Rule{ID: "a", Kind: &rule.SizeRatio{}}, "wrong_type rule"},
		{"a pointer to nothing", rule.Rule{ID: "a", Kind: none}, "wrong_type rule"},
		{"an own rule by pointer", rule.Rule{ID: "a", Kind: &rule.Custom{}}, "wrong_type rule"},
		{"a kind around one of ours", rule.Rule{ID: "a", Kind: struct{ rule.Price }{}}, "wrong_type rule"},
		{"strength", rule.Rule{ID: "a", Strength: "musst", Kind: floor(5)}, "unknown_word strength"},
		{"scope", rule.Rule{ID: "a", Kind: rule.Contribution{AtLeast: amount("0"), AskedOf: "wurst"}}, "unknown_word asked_of"},
		{"scope of a gross margin", rule.Rule{ID: "a", Kind: rule.GrossMargin{AtLeast: rate("5%"), AskedOf: "wurst"}}, "unknown_word asked_of"},
		{"scope of a net margin", rule.Rule{ID: "a", Kind: rule.NetMargin{AtLeast: rate("5%"), AskedOf: "wurst"}}, "unknown_word asked_of"},
		{"order", rule.Rule{ID: "a", Kind: rule.SizeRatio{Order: "sized"}}, "unknown_word order"},
		{"all at once", rule.Rule{Strength: "musst", Kind: rule.NetMargin{AtLeast: rate("101%"), AskedOf: "wurst"}}, "unknown_word strength, out_of_range at_least, unknown_word asked_of, missing_field id"},
		{"a bound below zero", rule.Rule{ID: "a", Kind: floor(-1)}, "out_of_range at_least"},
		{"a ceiling below zero", rule.Rule{ID: "a", Kind: ceiling(-1)}, "out_of_range at_most"},
		{"a multiple below zero", rule.Rule{ID: "a", Kind: rule.CostMultiple{AtLeast: factor("-0.1")}}, "out_of_range at_least"},
		{"a margin above all", rule.Rule{ID: "a", Kind: rule.GrossMargin{AtLeast: rate("100.1%")}}, "out_of_range at_least"},
		{"a margin of all", rule.Rule{ID: "a", Kind: rule.GrossMargin{AtLeast: rate("100%")}}, ""},
		{"a contribution below zero", rule.Rule{ID: "a", Kind: rule.Contribution{AtLeast: amount("-0.01")}}, "out_of_range at_least"},
		{"a move below zero", rule.Rule{ID: "a", Kind: rule.MaxChange{AtMost: rate("-1%")}}, "out_of_range at_most"},
		{"a move of more than all", rule.Rule{ID: "a", Kind: rule.MaxChange{AtMost: rate("300%")}}, ""},
		{"a step below zero", rule.Rule{ID: "a", Kind: rule.SizeRatio{AtLeast: quoin.Some(factor("-1")), AtMost: quoin.Some(factor("-1"))}}, "out_of_range at_least, out_of_range at_most"},
		{"no endings", rule.Rule{ID: "a", Kind: rule.Ending{}}, "missing_field ends_in"},
		{"too many endings", rule.Rule{ID: "a", Kind: rule.Ending{EndsIn: tooMany}}, "too_many ends_in"},
		{"an ending below zero", rule.Rule{ID: "a", Kind: rule.Ending{EndsIn: []quoin.Amount{{}, amount("-0.5")}}}, "out_of_range ends_in[1]"},
		{"a modulus below zero", rule.Rule{ID: "a", Kind: rule.Ending{EndsIn: []quoin.Amount{{}}, Every: amount("-1")}}, "out_of_range every"},
		{"quantiles", rule.Rule{ID: "a", Kind: rule.Market{FromQuantile: rate("-1%"), ToQuantile: rate("101%")}}, "out_of_range from_quantile, out_of_range to_quantile"},
		{
			"numbers of comparables",
			rule.Rule{ID: "a", Kind: rule.Market{FromQuantile: rate("0%"), ToQuantile: rate("100%"), MinSold: quoin.Some[int64](-1), MinSales: quoin.Some[int64](0), MinVenues: quoin.Some[int64](0)}},
			"out_of_range min_sold, out_of_range min_sales, out_of_range min_venues",
		},
		{"a basis", rule.Rule{ID: "a", Kind: rule.Market{FromQuantile: rate("0%"), ToQuantile: rate("100%"), Basis: &comparables.Basis{Tax: rate("-1%"), Exponent: quoin.Some(factor("10.1"))}}}, "out_of_range basis.tax, out_of_range basis.exponent"},
		{"a basis at its bound", rule.Rule{ID: "a", Kind: rule.Market{FromQuantile: rate("0%"), ToQuantile: rate("100%"), Basis: &comparables.Basis{Exponent: quoin.Some(factor("-10"))}}}, ""},
		{"designs beside products", rule.Rule{ID: "a", Products: []string{"x"}, Designs: []string{"y"}, Kind: floor(5)}, "rival_fields designs"},
		{"a size twice", rule.Rule{ID: "a", Products: []string{"x", "y", "x"}, Kind: rule.SizeRatio{}}, "duplicate_id products[2]"},
		{"an own rule of nothing", rule.Rule{ID: "a", Kind: rule.Custom{}}, "bad_custom_rule rule"},
		{"an own rule that does not judge", rule.Rule{ID: "a", Kind: rule.Custom{Name: "mine", Allowed: allowsAll}}, "bad_custom_rule rule"},
		{"an own rule by the name of another kind", rule.Rule{ID: "a", Kind: rule.Custom{Name: "size_ratio", Allowed: allowsAll, Judge: judgesNothing}}, "bad_custom_rule rule"},
		{"an own rule", rule.Rule{ID: "a", Kind: rule.Custom{Name: "mine", Allowed: allowsAll, Judge: judgesNothing}}, ""},
	} {
		err := c.rule.Check()
		if got := problemtest.Listed(err); got != c.want {
			t.Errorf("%s: %q, want %q", c.what, got, c.want)
		}
	}
}

// A misspelt word is refused by the same problem, whichever door it comes through.
func TestWordsOfBothDoors(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{`{"id": "a", "rule": "contribution", "at_least": "1", "asked_of": "wurst"}`, "asked_of"},
		{`{"id": "a", "rule": "size_ratio", "order": "sise"}`, "order"},
		{`{"id": "a", "rule": "price", "strength": "prefers"}`, "strength"},
	} {
		var read rule.Rule
		doors := [2]quoin.Problem{}
		if ps, ok := json.Unmarshal([]byte(c.text), &read).(quoin.Problems); ok {
			doors[0] = ps[0]
		}
		made := map[string]rule.Rule{
			"asked_of": {ID: "a", Kind: rule.Contribution{AtLeast: amount("1"), AskedOf: "wurst"}},
			"order":    {ID: "a", Kind: rule.SizeRatio{Order: "sise"}},
			"strength": {ID: "a", Kind: rule.Price{}, Strength: "prefers"},
		}[c.want]
		doors[1] = made.Check().(quoin.Problems)[0]
		doors[1].Path = doors[0].Path // which JSON by itself does not know
		if fmt.Sprint(doors[0]) != fmt.Sprint(doors[1]) || doors[0].Near == "" {
			t.Errorf("%s: %v, and %v", c.want, doors[0], doors[1])
		}
	}
}

func TestItemCheck(t *testing.T) {
	eur := quoin.MustCurrency("EUR")
	grid, other := exampleGrid(), sizes(t, "x")[0].Grid
	terms := channel.Channel{ID: "fair"}.Terms(eur)
	sale := margin.NewSale(terms, margin.GoodsOnDemand(amount("4.00")))
	shelf := rule.CompileChannel(terms, grid)
	changed := shelf.Offer(sale)
	changed.Sale = sale.WithCheaperGoods(amount("1.00"))
	for _, c := range []struct {
		what string
		item rule.Item
		want string
	}{
		{"sound", rule.NewItem("a", grid, sale), ""},
		{"nothing", rule.Item{}, "missing_field id, missing_field grid"},
		{"an offer without a curve", rule.Item{ID: "a", Grid: grid, Offers: []rule.Offer{{Channel: "fair", Sale: sale}}}, "bad_offer offers[0]"},
		{"an offer of another grid", rule.Item{ID: "a", Grid: other, Offers: []rule.Offer{shelf.Offer(sale)}}, "other_grid offers[0]"},
		{"a sale that was changed", rule.Item{ID: "a", Grid: grid, Offers: []rule.Offer{changed}}, "bad_offer offers[0]"},
		{"another sale", rule.Item{ID: "a", Grid: grid, Offers: []rule.Offer{shelf.Offer(sale).With(sale.WithCheaperGoods(amount("1.00")))}}, ""},
		{"a channel twice", rule.NewItem("a", grid, sale, sale), "duplicate_id offers[1]"},
		{"a price below zero", rule.Item{ID: "a", Grid: grid, Today: quoin.Some(amount("-1"))}, "out_of_range today"},
		{"no end of ranges", rule.Item{ID: "a", Grid: grid, End: "middle"}, "unknown_word end"},
		{"an end of ranges", rule.Item{ID: "a", Grid: grid, End: rule.Dearest}, ""},
		{
			"comparables",
			rule.Item{ID: "a", Grid: grid, Comparables: []comparables.Record{{Venue: "stall", Price: amount("1")}, {Sold: -1, Tax: quoin.MustRate("101%"), Postage: amount("-1")}}},
			"out_of_range comparables[1].sold, out_of_range comparables[1].tax, out_of_range comparables[1].postage, missing_field comparables[1].venue, missing_field comparables[1].price",
		},
	} {
		if got := problemtest.Listed(c.item.Check()); got != c.want {
			t.Errorf("%s: %q, want %q", c.what, got, c.want)
		}
	}
}

// What is wrong with items and rules together is told at once, with where it stands.
func TestDecideRefuses(t *testing.T) {
	eur := quoin.MustCurrency("EUR")
	small := rule.NewItem("small", exampleGrid(), margin.NewSale(channel.Channel{ID: "fair"}.Terms(eur), margin.Goods{}))
	small.Design = "rail"
	other := sizes(t, "other")[0]
	for _, c := range []struct {
		what   string
		items  []rule.Item
		rules  []rule.Rule
		choose rule.Choice
		want   string
	}{
		{"sound", []rule.Item{small}, []rule.Rule{{ID: "a", Products: []string{"small"}, Channels: []string{"fair"}, Kind: floor(5)}, {ID: "b", Designs: []string{"rail"}, Kind: floor(5)}}, rule.Least, ""},
		{"nothing", nil, nil, "", ""},
		{
			"unknown names",
			[]rule.Item{small},
			[]rule.Rule{
				{ID: "a", Products: []string{"small", "smal"}, Channels: []string{"fare"}, Kind: floor(5)}, {ID: "b", Designs: []string{"", "reil"}, Kind: floor(5)},
			},
			"", "unknown_id rules[0].products[1], unknown_id rules[0].channels[0], unknown_id rules[1].designs[0], unknown_id rules[1].designs[1]",
		},
		{"ids twice", []rule.Item{small, small}, []rule.Rule{{ID: "a", Kind: floor(5)}, {ID: "a", Kind: floor(6)}}, "", "duplicate_id items[1].id, duplicate_id rules[1].id"},
		{"two grids", []rule.Item{small, other}, nil, "", "other_grid items[1].grid"},
		{"a choice", []rule.Item{small}, nil, "nearst", "unknown_word choose"},
		{"a lost ladder", []rule.Item{small}, []rule.Rule{{ID: "a", Kind: floor(5)}, {ID: "b", Kind: &rule.SizeRatio{}}}, "", "wrong_type rules[1].rule"},
		{
			"all of it",
			[]rule.Item{{ID: "x", Grid: exampleGrid(), Offers: []rule.Offer{{}}}},
			[]rule.Rule{{Kind: rule.Price{AtLeast: quoin.Some(amount("-1"))}}},
			"",
			"bad_offer items[0].offers[0], out_of_range rules[0].at_least, missing_field rules[0].id",
		},
	} {
		_, err := rule.Decide(c.items, c.rules, c.choose)
		if got := problemtest.Listed(err); got != c.want {
			t.Errorf("%s: %q, want %q", c.what, got, c.want)
		}
		if _, err := rule.Fit(c.items, c.rules); c.choose == "" && problemtest.Listed(err) != c.want {
			t.Errorf("%s: fit says %q, want %q", c.what, problemtest.Listed(err), c.want)
		}
	}
}

// However much is wrong, problems end.
func TestProblemsEnd(t *testing.T) {
	many := make([]string, 5_000)
	_, err := rule.Decide(sizes(t, "a4"), []rule.Rule{{ID: "a", Products: many, Kind: floor(5)}}, "")
	if ps, ok := err.(quoin.Problems); !ok || len(ps) != 1001 || ps[1000].Code != quoin.MoreProblems {
		t.Errorf("%d problems", len(ps))
	}
}

// A decision gives the reasons of what was decided, whatever became of items and rules.
func TestDecideKeepsNothing(t *testing.T) {
	g, err := quoin.NewGrid(quoin.AmountOf(1, 0), quoin.AmountOf(40, 0))
	if err != nil {
		t.Fatal(err)
	}
	rules := []rule.Rule{{ID: "floor", Kind: rule.Price{AtLeast: quoin.Some(quoin.MustAmount("12"))}, Products: []string{"heron"}}}
	items := []rule.Item{rule.NewItem("heron", g)}
	d, err := rule.Decide(items, rules, rule.Least)
	if err != nil {
		t.Fatal(err)
	}
	rules[0].Products[0], rules[0].ID, items[0].ID = "rail", "other", "rail"
	why, ok := d.Lower(0, d.Prices[0])
	if !ok || len(why.By) != 1 || why.By[0].Rule != "floor" || why.By[0].Product != "heron" {
		t.Errorf("not lower because of %v", why)
	}
}

// A kind that had another word before is told the one of now.
func TestOldWordsOfKinds(t *testing.T) {
	for old, now := range map[string]string{"step": "size_ratio", "move": "max_change"} {
		var r rule.Rule
		err := json.Unmarshal([]byte(`{"id": "a", "rule": "`+old+`"}`), &r)
		if ps, _ := err.(quoin.Problems); len(ps) != 1 || ps[0].Code != rule.UnknownRule || ps[0].Near != now {
			t.Errorf("%s: %v", old, err)
		}
	}
}
