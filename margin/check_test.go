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
		"an overhead below 0":  {func(s *margin.Sale) { s.Overhead = quoin.MustAmount("-1") }, "out_of_range overhead"},
		"a tax of everything+": {func(s *margin.Sale) { s.IncomeTax = quoin.MustRate("101%") }, "out_of_range income_tax"},
	} {
		s := margin.NewSale(terms, goods)
		c.change(&s)
		if got := problemtest.Listed(s.Check()); got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}
