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

// fullRecipe is what fullInputs take, with orders in two parcels.
func fullRecipe(t *testing.T) margin.Recipe {
	t.Helper()
	in := fullInputs()
	costs, err := cost.UnitCosts(in.Supplies)
	if err != nil {
		t.Fatal(err)
	}
	return margin.Recipe{
		Costs: costs, Route: in.Stages, Bill: in.Bill, Packing: in.Packing, Parcels: 2, Run: in.Run,
		Allowance: waste.Allowance{Contingency: in.Contingency, Loss: in.Channel.LostParcels}, Back: in.Channel.Back(),
	}
}

// figures compares amounts with how they are written, one after the other.
func figures(t *testing.T, what string, want string, amounts ...quoin.Amount) {
	t.Helper()
	got := ""
	for i, a := range amounts {
		if i > 0 {
			got += " "
		}
		got += a.Figure().Long()
	}
	if got != want {
		t.Errorf("%s: %s, want %s", what, got, want)
	}
}

// Every part of the goods, by hand; the ledger of the same print says where each comes from.
func TestGoodsInParts(t *testing.T) {
	for what, change := range map[string]func(*margin.Recipe){
		"compiled for it":  func(*margin.Recipe) {},
		"compiled by many": func(r *margin.Recipe) { r.Course, r.Route = r.Route.Compile(), nil },
	} {
		r := fullRecipe(t)
		change(&r)
		g, err := r.Goods()
		if err != nil {
			t.Fatal(err)
		}
		of := func(charges []cost.Charge) (out []quoin.Amount) {
			for _, c := range charges {
				out = append(out, c.Amount)
			}
			return out
		}
		parts := func(l margin.Labour) []quoin.Amount { return []quoin.Amount{l.PerItem, l.PerOrder, l.Made} }
		// 0.5 × 2.5; 0.1 h × 18.00 × 2.5; 0.05 h × 20.00 × 2; 0.05 h × 18.00
		figures(t, what+": bill", "1.25 4.50 2.00 0.90", of(g.Bill)...)
		figures(t, what+": packing", "0.60 0.90 1.00", of(g.Packing)...)
		figures(t, what+": salvage", "0.40", g.Salvage[0].Amount)
		// (2 × 2.30 + 5.00) ÷ 10; 7.75 − 0.40 + 0.96; and 0.90 to pack; 0.90 + 2 × 1.60
		figures(t, what+": run, made, item, order", "0.96 8.31 9.21 4.10", g.Run, g.Made, g.PerItem, g.PerOrder)
		// 4.50 + 2 × 1.80 ÷ 10 + 0.90; only the bill has some per order
		figures(t, what+": own time", "5.76 0.90 4.86", parts(g.Own)...)
		figures(t, what+": paid time", "2.00 2.00 2.00", parts(g.Paid)...)
		// The same 5.76, 0.90 and 4.86 at 18.00 an hour.
		figures(t, what+": hours", "0.32 0.05 0.27", parts(g.Hours)...)
		// (9.21 + 4.10 − 5% × 8.31) × 1.1 ÷ 0.8; (27.63 + 4.10 − 15% × 8.31) × 1.375
		figures(t, what+": orders of 1 and 3", "17.7299375 41.9148125", g.Order(1), g.Order(3))
		// 3 of 4 items bear 3.075 of 4.10.
		figures(t, what+": 3 of 4 items", "40.5054375", g.OrderOf(channel.Order{Items: 3, Others: &channel.Others{Items: quoin.FactorOf(1)}}))
	}
	figures(t, "from a house", "7.00 0 14.00", margin.GoodsOnDemand(quoin.MustAmount("7.00")).PerItem,
		margin.GoodsOnDemand(quoin.MustAmount("7.00")).PerOrder, margin.GoodsOnDemand(quoin.MustAmount("7.00")).Order(2))
}

// The goods of a sale are those of each kind of order, and an item's their average.
func TestGoodsOfASale(t *testing.T) {
	g, err := fullRecipe(t).Goods()
	if err != nil {
		t.Fatal(err)
	}
	sale := margin.NewSale(fullInputs().Channel.Terms(quoin.MustCurrency("EUR")), g)
	one, three := sale.Goods[0], sale.Goods[1]
	// 8.31 × 1.1, and (5.76 + 0.90 − 5% × 4.86) × 1.375; (2.00 + 2.00 − 0.10) × 1.375; (0.32 + 0.05 − 0.0135) × 1.375
	figures(t, "an order of one", "17.7299375 9.141 8.823375 5.3625 0.4901875", one.Cost, one.Making, one.OwnTime, one.PaidTime, one.Hours)
	// 24.93 × 1.1; (17.28 + 0.90 − 0.729) × 1.375; (6.00 + 2.00 − 0.30) × 1.375; (0.96 + 0.05 − 0.0405) × 1.375
	figures(t, "an order of three", "41.9148125 27.423 23.995125 10.5875 1.3330625", three.Cost, three.Making, three.OwnTime, three.PaidTime, three.Hours)
	// (75% × 17.7299375 + 25% × 41.9148125) ÷ 1.5, and so on
	item := sale.ItemGoods()
	figures(t, "an item", "≈15.85077083 8.410875 ≈4.44583333", item.Cost, item.OwnTime, item.PaidTime)
	if got := sale.OwnHours().Round(10, quoin.HalfUp).String(); got != "0.4672708333" { // 0.70090625 ÷ 1.5
		t.Errorf("%s own hours", got)
	}
	cheaper := sale.WithCheaperGoods(quoin.MustAmount("2.00"))
	figures(t, "each 2.00 less", "15.7299375 35.9148125", cheaper.Goods[0].Cost, cheaper.Goods[1].Cost)
	figures(t, "and the sale as it was", "17.7299375 41.9148125", sale.Goods[0].Cost, sale.Goods[1].Cost)
	worst := sale.Worst()
	if len(worst) != 2 || len(worst[1].Goods) != 1 {
		t.Fatalf("worst kinds: %v", worst)
	}
	figures(t, "three by themselves", "41.9148125 0 0 0", worst[1].Goods[0].Cost, worst[1].Goods[0].OwnTime, worst[1].Goods[0].Making, worst[1].Goods[0].Hours)
	st := sale.At(quoin.MustAmount("50.00"))
	figures(t, "before a fixed cost of 0", st.Contribution.Figure().Long(), st.BeforeFixedCost())
	sale.FixedCost = quoin.MustAmount("1.50")
	figures(t, "before one of 1.50", st.Contribution.Figure().Long(), sale.At(quoin.MustAmount("50.00")).BeforeFixedCost())
	if none := (margin.Sale{}).OwnHours(); !none.IsZero() {
		t.Errorf("no sale takes %s hours", none)
	}
}

// Hours are counted where time is bought by a unit of time: 15 min of 30 for 6.00, and not a job
// for 2.00. Without time there is none, whatever is added to goods.
func TestHoursOfTime(t *testing.T) {
	costs, err := cost.UnitCosts([]cost.Supply{
		{ID: "bench", Quantity: quoin.MustQuantity("30 min"), Price: quoin.MustAmount("6.00"), Labour: cost.OwnTime},
		{ID: "job", Quantity: quoin.MustQuantity("1 set"), Price: quoin.MustAmount("2.00"), Labour: cost.OwnTime},
		{ID: "paper", Quantity: quoin.MustQuantity("1 sheet"), Price: quoin.MustAmount("3.00")},
	})
	if err != nil {
		t.Fatal(err)
	}
	goods := func(bill ...cost.BillLine) margin.Goods {
		g, err := margin.Recipe{Costs: costs, Bill: bill, Run: cost.Run{Good: 10}, Allowance: waste.Allowance{Contingency: quoin.MustRate("10%")}}.Goods()
		if err != nil {
			t.Fatal(err)
		}
		return g
	}
	g := goods(cost.BillLine{Supply: "bench", Quantity: quoin.MustQuantity("15 min")}, cost.BillLine{Supply: "job", Quantity: quoin.MustQuantity("1 set")})
	figures(t, "a quarter of an hour, and a job", "5.00 0.25", g.Own.PerItem, g.Hours.PerItem)
	g = goods(cost.BillLine{Supply: "bench", Quantity: quoin.MustQuantity("30 min"), Per: cost.EachRun}) // for ten
	figures(t, "half an hour for a run", "0.60 0.05", g.Own.PerItem, g.Hours.PerItem)
	sale := margin.NewSale(channel.Channel{}.Terms(quoin.MustCurrency("EUR")), goods(cost.BillLine{Supply: "paper", Quantity: quoin.MustQuantity("1 sheet")}))
	figures(t, "no time", "3.30 0 0 0", sale.Goods[0].Cost, sale.Goods[0].OwnTime, sale.Goods[0].PaidTime, sale.Goods[0].Hours)
}

// What cannot be charged is said of the bill, and of the packing.
func TestGoodsOfAnUnknownSupply(t *testing.T) {
	for what, change := range map[string]func(*margin.Recipe){
		"bill":    func(r *margin.Recipe) { r.Bill[0].Supply = "papre" },
		"packing": func(r *margin.Recipe) { r.Packing[0].Supply = "papre" },
	} {
		r := fullRecipe(t)
		change(&r)
		g, err := r.Goods()
		if got, want := problemtest.Listed(err), "unknown_id lines[0].supply"; got != want || !g.PerItem.IsZero() || !g.Order(1).IsZero() {
			t.Errorf("%s: %q, want %q, and goods of %v", what, got, want, g)
		}
	}
}
