package margin_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/cost"
	"example.com/quoin/internal/problemtest"
	"example.com/quoin/margin"
	"example.com/quoin/waste"
)

// soundRecipe is a print on a sheet of 1.20, of which a tenth is spoiled.
func soundRecipe() margin.Recipe {
	return margin.Recipe{
		Costs: map[string]cost.UnitCost{"paper": {Amount: quoin.MustAmount("1.20"), Unit: "sheet"}},
		Route: waste.Route{{ID: "press", Yield: quoin.MustRate("90%")}},
		Bill:  cost.Bill{{Supply: "paper", Quantity: quoin.MustQuantity("1 sheet"), Stage: "press"}},
	}
}

// TestRecipeCheck changes one thing of a sound recipe.
func TestRecipeCheck(t *testing.T) {
	rate := quoin.MustRate
	for name, c := range map[string]struct {
		change func(*margin.Recipe)
		want   string
	}{
		"nothing":               {func(*margin.Recipe) {}, ""},
		"a supply of no cost":   {func(r *margin.Recipe) { r.Bill[0].Supply = "papre" }, "unknown_id bill[0].supply"},
		"a stage not gone by":   {func(r *margin.Recipe) { r.Bill[0].Stage = "pres" }, "unknown_id bill[0].stage"},
		"no quantity":           {func(r *margin.Recipe) { r.Bill[0].Quantity = quoin.Quantity{} }, "missing_field bill[0].quantity"},
		"by weight":             {func(r *margin.Recipe) { r.Bill[0].Quantity = quoin.MustQuantity("90 g") }, "unit_mismatch bill[0].quantity"},
		"less than nothing":     {func(r *margin.Recipe) { r.Bill[0].Quantity = quoin.MustQuantity("-1 sheet") }, "out_of_range bill[0].quantity"},
		"a misspelt driver":     {func(r *margin.Recipe) { r.Bill[0].Per = "itme" }, "unknown_word bill[0].per"},
		"a run without prints":  {func(r *margin.Recipe) { r.Run.Tests = 3 }, "missing_field run.good"},
		"per run, and no run":   {func(r *margin.Recipe) { r.Bill[0].Per = cost.EachRun }, "missing_run bill[0].per, stray_stage bill[0].stage"},
		"a line of the packing": {func(r *margin.Recipe) { r.Packing = cost.Bill{{Supply: "paper"}} }, "missing_field packing[0].quantity"},
		"nothing comes out":     {func(r *margin.Recipe) { r.Route[0].Yield = rate("0%") }, "out_of_range route[0].yield"},
		"a stage twice":         {func(r *margin.Recipe) { r.Route = append(r.Route, r.Route[0]) }, "duplicate_id route[1].id"},
		"all lost in the post":  {func(r *margin.Recipe) { r.Allowance.Loss = rate("100%") }, "out_of_range loss"},
		"a reserve below 0":     {func(r *margin.Recipe) { r.Allowance.Contingency = rate("-5%") }, "out_of_range contingency"},
		"all comes back":        {func(r *margin.Recipe) { r.Back = rate("100%") }, "out_of_range back"},
		"shares of nothing":     {func(r *margin.Recipe) { r.Back, r.Allowance = rate("0%"), waste.Allowance{} }, ""},
		"a reserve of all": {func(r *margin.Recipe) {
			r.Allowance.Contingency, r.Allowance.Loss, r.Back, r.Parcels = rate("100%"), rate("99.9%"), rate("99.9%"), 3
		}, ""},
		"fewer than no parcels": {func(r *margin.Recipe) { r.Parcels = -1 }, "out_of_range parcels"},
		"two at once":           {func(r *margin.Recipe) { r.Back, r.Bill[0].Stage = rate("-1%"), "p" }, "unknown_id bill[0].stage, out_of_range back"},
	} {
		r := soundRecipe()
		c.change(&r)
		if got := problemtest.Listed(r.Check()); got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
		if c.want == "" {
			if _, err := r.Goods(); err != nil {
				t.Errorf("%s: %v", name, err)
			}
		}
	}
}

func TestSaleCheck(t *testing.T) {
	terms := channel.Channel{ID: "web", Orders: []channel.Order{
		{Share: quoin.Some(quoin.MustRate("60%"))}, {Share: quoin.Some(quoin.MustRate("40%")), Items: 2},
	}}.Terms(quoin.MustCurrency("EUR"))
	goods, err := soundRecipe().Goods()
	if err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		change func(*margin.Sale)
		want   string
	}{
		"nothing":              {func(*margin.Sale) {}, ""},
		"no terms":             {func(s *margin.Sale) { *s = margin.Sale{} }, "missing_field terms"},
		"goods of one kind":    {func(s *margin.Sale) { s.Goods = s.Goods[:1] }, "out_of_range goods"},
		"goods of three":       {func(s *margin.Sale) { s.Goods = make([]margin.OrderGoods, 3) }, "out_of_range goods"},
		"a fixed cost below 0": {func(s *margin.Sale) { s.FixedCost = quoin.MustAmount("-0.01") }, "out_of_range fixed_cost"},
		"an overhead below 0":  {func(s *margin.Sale) { s.Overhead = quoin.MustAmount("-1") }, "out_of_range overhead"},
		"costs of nothing": {func(s *margin.Sale) {
			s.FixedCost, s.Overhead, s.IncomeTax = quoin.Amount{}, quoin.Amount{}, quoin.Rate{}
		}, ""},
		"costs above 1": {func(s *margin.Sale) {
			s.FixedCost, s.Overhead, s.IncomeTax = quoin.MustAmount("9"), quoin.MustAmount("7"), quoin.MustRate("100%")
		}, ""},
		"a tax below 0":        {func(s *margin.Sale) { s.IncomeTax = quoin.MustRate("-1%") }, "out_of_range income_tax"},
		"a tax of everything+": {func(s *margin.Sale) { s.IncomeTax = quoin.MustRate("101%") }, "out_of_range income_tax"},
	} {
		s := margin.NewSale(terms, goods)
		c.change(&s)
		if got := problemtest.Listed(s.Check()); got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}

// What is said in full: what was found, what is wanted, and what to do.
func TestChecksTold(t *testing.T) {
	r := soundRecipe()
	r.Route = append(r.Route, waste.Stage{ID: "pack"})
	r.Costs["tape"] = cost.UnitCost{Amount: quoin.MustAmount("0.10"), Unit: "m"}
	r.Bill = append(r.Bill, cost.BillLine{Supply: "papre", Quantity: quoin.MustQuantity("1 sheet"), Stage: "pres"})
	r.Packing = cost.Bill{{Supply: "paper"}, {Supply: "paper", Area: "image"}}
	r.Parcels, r.Allowance.Contingency, r.Allowance.Loss = -2, quoin.MustRate("-5%"), quoin.MustRate("100%")
	var s margin.Sale
	s.Goods, s.FixedCost, s.Overhead, s.IncomeTax = make([]margin.OrderGoods, 2), quoin.MustAmount("-1.50"), quoin.MustAmount("-0.20"), quoin.MustRate("101%")
	for what, c := range map[string]struct {
		err  error
		want string
	}{
		"recipe": {r.Check(), `fault bill[1].supply: found "papre", wanted the id of a supply in costs; did you mean paper? [unknown_id]
fault bill[1].stage: found "pres", wanted the id of a stage of the route; did you mean press? [unknown_id]
fault packing[0].quantity: found nothing, wanted the field quantity or cut or ink or moulding or width_plus_height or area [missing_field]
fault packing[1].quantity: found nothing, wanted the field quantity; it follows from what is cut, inked or framed: BillLine.Work fills it in [missing_field]
fault parcels: found -2, wanted zero or more [out_of_range]
fault contingency: found -5%, wanted a value of at least 0% [out_of_range]
fault loss: found 100%, wanted a value of at least 0% and below 100% [out_of_range]`},
		"sale": {s.Check(), `fault terms: found no kind of order, wanted the terms of a channel, as Channel.Terms makes them [missing_field]
fault goods: found 2 entries, wanted 0: one for each kind of order of the terms [out_of_range]
fault fixed_cost: found -1.50, wanted a value of at least 0 [out_of_range]
fault overhead: found -0.20, wanted a value of at least 0 [out_of_range]
fault income_tax: found 101%, wanted a value of at least 0% and at most 100% [out_of_range]`},
	} {
		if got := problemtest.Told(c.err); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", what, got, c.want)
		}
	}
}
