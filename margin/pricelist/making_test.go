package pricelist_test

import (
	"encoding/json"
	"slices"
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost/buy"
	"example.com/quoin/margin/pricelist"
)

// Paper: two packs of 25 for 150.00 and 9.00 freight, 3.18 a sheet; three packs
// would be 225.00, and four 220.00 ship free. Ink: 80 ml for 46.00, of which 30
// are used, leave 50 worth 28.75; then 80 ml for 50.00 and five sixths of a
// freight of 6.00: 130 ml worth 83.75.
const supplied = `{"version": 1, "currency": "EUR", "date": "2026-06-30",
	"supplies": [
		{"id": "paper", "grammage": "300 gsm", "sheet": {"size": "500 x 700 mm"}, "offer": {"pack": "25 sheet", "need": 2, "scale": {
			"steps": [{"from": 1, "each": "75.00"}, {"from": 4, "each": "55.00"}], "freight": "9.00", "free_from": "200.00"}}},
		{"id": "ink", "stock": {"basis": "average", "unit": "ml",
			"received": [{"date": "2026-01-03", "quantity": "80 ml", "cost": "46.00"}, {"date": "2026-07-01", "quantity": "1 ml", "cost": "99.00"}],
			"used": [{"date": "2026-02-01", "quantity": "30 ml"}]}}
	],
	"purchases": [{"id": "may", "date": "2026-05-01", "shared": [{"name": "freight", "amount": "6.00"}],
		"lines": [{"supply": "ink", "quantity": "80 ml", "price": "50.00"}, {"supply": "tape", "quantity": "2 reel", "price": "10.00"}]}],
	"stages": [{"id": "print", "yield": "90%"}],
	"products": [{"id": "a3", "sheet": "A3", "bill": [{"supply": "paper", "cut": {"of": "sheet"}}, {"supply": "ink", "quantity": "1 ml"}],
		"run": {"good": 20, "certainty": "95%"}}],
	"channels": [{"id": "fair"}],
	"rules": [{"id": "cost", "rule": "cost_multiple", "at_least": "2"}]}`

func TestSuppliesAreWorkedOut(t *testing.T) {
	a, err := pricelist.Price([]byte(supplied))
	if err != nil {
		t.Fatal(err)
	}
	paper, ink := a.Bought[0], a.Bought[1]
	if o := paper.Order; o.Quantity != 2 || !o.Cost.Equal(quoin.MustAmount("159.00")) || o.Left != 0 || !slices.Equal(paper.Dominated, []buy.DominatedQuantities{{From: 3, To: 3, Instead: 4}}) {
		t.Errorf("paper: %+v, dominated %v", o, paper.Dominated)
	}
	if s := ink.Standing; s.Quantity.String() != "130 ml" || !s.Value.Equal(quoin.MustAmount("83.75")) || s.Unit.Round(8, quoin.HalfUp).String() != "0.64423077" {
		t.Errorf("ink: %+v", s)
	}
	p := a.Products[0]
	if m := p.WorkedOut[0]; m.Sheet.Pieces != 2 || m.Mass.String() != "37.42200 g" && !m.Mass.Equal(quoin.MustQuantity("37.422 g")) { // 0.297 × 0.420 × 300
		t.Errorf("made: %+v", m)
	}
	goods := p.Channels[0].Statement.Goods // 1.59 and 0.64423…
	if got := goods.Round(8, quoin.HalfUp).String(); got != "2.23423077" {
		t.Errorf("goods cost %s", got)
	}
	// The numbers of package waste, which are held against exact sums there.
	if g := p.RunStart; g.Start != 25 || g.Average != 23 || g.Chance.Round(0).String() != "97%" || g.AverageChance.Round(0).String() != "81%" {
		t.Errorf("going: %+v", g)
	}
	steps := p.Channels[0].Steps.Steps()
	if err := quoin.Replay(steps); err != nil {
		t.Error(err)
	}
	for _, code := range []quoin.StepCode{"scale_goods", "scale_cost", "packs_held", "stock_unit", "per_piece"} {
		if !slices.ContainsFunc(steps, func(s quoin.Step) bool { return s.Code == code }) {
			t.Errorf("no step %s", code)
		}
	}
}

// What is read and written again is the same, also where an offer or a stock
// stands in place of a price.
func TestOffersAndStocksAreWrittenAsRead(t *testing.T) {
	doc, err := pricelist.Decode([]byte(supplied))
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(doc)
	if err != nil {
		t.Fatal(err)
	}
	again, err := pricelist.Decode(text)
	if err != nil {
		t.Fatal(err)
	}
	twice, err := json.Marshal(again)
	if err != nil || string(twice) != string(text) {
		t.Errorf("%s\nis read and written as\n%s, %v", text, twice, err)
	}
}

// At home a print costs 2.00 and a run 10.00; a house asks 1.50 and 30.00. So
// from 41 on the house is cheaper; of 50, up to 55 may arrive.
func TestSourcingInTheAnswer(t *testing.T) {
	a, err := pricelist.Price([]byte(`{"version": 1, "currency": "EUR",
		"supplies": [{"id": "sheet", "quantity": "10 sheet", "price": "20.00"}],
		"products": [{"id": "a4", "bill": [{"supply": "sheet", "quantity": "1 sheet"}], "run": {"good": 50, "setup": "10.00"}, "volume": 100,
			"quotes": [{"id": "house", "setup": "30.00", "over_delivery": "10%", "under_delivery": "10%", "scale": {"steps": [{"from": 1, "each": "1.50"}]}}],
			"demand": {"low": 0, "high": 100}}],
		"channels": [{"id": "fair"}],
		"rules": [{"id": "price", "rule": "price", "at_least": "6.70"}]}`))
	if err != nil {
		t.Fatal(err)
	}
	s := a.Products[0].Sourcing
	if len(s.Stretches) != 2 || s.Stretches[0].Source != "home" || s.Stretches[0].To != 40 || s.Stretches[1].Source != "house" || s.Stretches[1].To != 100 {
		t.Errorf("%+v", s.Stretches)
	}
	q := s.Quotes[0]
	if !q.Cost.Equal(quoin.MustAmount("105.00")) || !q.PerPrint.Equal(quoin.MustAmount("2.10")) || q.Fewest != 45 || q.Most != 55 || !q.Cash.Equal(quoin.MustAmount("112.50")) {
		t.Errorf("%+v", q)
	}
	// Goods are 2.20, so 4.50 is kept; with 1.50 in place of all of it, 5.20. Short
	// loses 5.20, over 1.50: a ratio of 52/67, so 78 of 100.
	if n, ok := q.Order.Get(); !ok || n != 78 {
		t.Errorf("order %v", q.Order)
	}
	if left, _ := q.LeftOver.Get(); !left.Equal(quoin.MustFactor("30.42")) { // 78² ÷ 200
		t.Errorf("left over %s", left)
	}
}
