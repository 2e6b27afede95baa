package cost_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost"
	"example.com/quoin/internal/problemtest"
)

// A run of 20 good prints; a minute costs 0.30 and a proof 30.00.
func TestDrivers(t *testing.T) {
	costs, err := cost.UnitCosts([]cost.Supply{
		{ID: "time", Quantity: quantity("1 h"), Price: amount("18.00"), Labour: cost.OwnTime},
		{ID: "proof", Quantity: quantity("1 proof"), Price: amount("30.00")},
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		what                    string
		supply, quantity, stage string
		per                     cost.Driver
		over                    string
		times, shared, amount   string
	}{
		{"each print started", "time", "4 min", "print", cost.EachItem, "", "1.25", "1", "1.50"},
		{"each good print", "time", "4 min", "", "", "", "1", "1", "1.20"},
		{"each order", "time", "4 min", "", cost.EachOrder, "", "1", "1", "1.20"},
		{"once a run", "time", "30 min", "", cost.EachRun, "", "1", "20", "0.45"},                       // 9.00 ÷ 20
		{"batches of 8", "time", "10 min", "", cost.EachBatch, "8", "3", "20", "0.45"},                  // 3 of them
		{"batches of 8 started ones", "time", "10 min", "print", cost.EachBatch, "8", "4", "20", "0.6"}, // 25 of them: 4
		{"batches of 5 started ones", "time", "10 min", "print", cost.EachBatch, "5", "5", "20", "0.75"},
		{"one batch", "time", "10 min", "", cost.EachBatch, "60", "1", "20", "0.15"},
		{"a proof of the design", "proof", "1 proof", "", cost.EachDesign, "120", "1", "120", "0.25"},
		{"listing photographs", "time", "45 min", "", cost.EachListing, "30", "1", "30", "0.45"},
		{"a day's cleaning", "time", "20 min", "", cost.EachPeriod, "12", "1", "12", "0.50"},
	} {
		line := cost.BillLine{Supply: c.supply, Quantity: quantity(c.quantity), Stage: c.stage, Per: c.per}
		if c.over != "" {
			line.SharedBy = factor(c.over)
		}
		charges, err := cost.Bill{line}.Charges(costs, twoStages, cost.Run{Good: 20})
		if err != nil {
			t.Errorf("%s: %v", c.what, err)
			continue
		}
		got := charges[0]
		if !got.Amount.Equal(amount(c.amount)) || !got.Times.Equal(factor(c.times)) || !got.Over.Equal(factor(c.shared)) {
			t.Errorf("%s: %s, used %s times for %s, want %s, %s and %s", c.what, got.Amount, got.Times, got.Over, c.amount, c.times, c.shared)
		}
		explained(t, c.what, got)
	}
}

// explained checks that the charge's steps come to the same.
func explained(t *testing.T, what string, c cost.Charge) {
	t.Helper()
	trail := quoin.NewTrail(4)
	unit := quoin.Given("unit_cost", quoin.Path{}, c.Unit.Amount.Figure())
	starts := quoin.Given("starts", quoin.Path{}, factor("1.25").Figure())
	good := quoin.Given("good", quoin.Path{}, factor("20").Figure())
	line, _ := c.Explain(trail, quoin.InList("products", 0).Sub("bill", 0), unit, starts, good)
	if got, ok := line.Value.Amount(); !ok || !got.Equal(c.Amount) {
		t.Errorf("%s: %s explained, %s charged", what, line.Value, c.Amount)
	}
	if err := quoin.Replay(trail.Steps()); err != nil {
		t.Errorf("%s: %v", what, err)
	}
}

func TestDriversRefused(t *testing.T) {
	run := cost.Run{Good: 20}
	for what, c := range map[string]struct {
		line cost.BillLine
		run  cost.Run
		code quoin.Code
		path string
	}{
		"a run without a run":         {cost.BillLine{Per: cost.EachRun}, cost.Run{}, cost.MissingRun, "per"},
		"batches without a run":       {cost.BillLine{Per: cost.EachBatch, SharedBy: factor("8")}, cost.Run{}, cost.MissingRun, "per"},
		"batches without a size":      {cost.BillLine{Per: cost.EachBatch}, run, cost.MissingSharedBy, "shared_by"},
		"a design for none":           {cost.BillLine{Per: cost.EachDesign}, run, cost.MissingSharedBy, "shared_by"},
		"a listing for fewer":         {cost.BillLine{Per: cost.EachListing, SharedBy: factor("-1")}, run, cost.MissingSharedBy, "shared_by"},
		"each print shared":           {cost.BillLine{SharedBy: factor("2")}, run, cost.StraySharedBy, "shared_by"},
		"a run shared":                {cost.BillLine{Per: cost.EachRun, SharedBy: factor("2")}, run, cost.StraySharedBy, "shared_by"},
		"a run at a stage":            {cost.BillLine{Per: cost.EachRun, Stage: "print"}, run, cost.StrayStage, "stage"},
		"a period at a stage":         {cost.BillLine{Per: cost.EachPeriod, SharedBy: factor("2"), Stage: "print"}, run, cost.StrayStage, "stage"},
		"nothing wrong with an order": {cost.BillLine{Per: cost.EachOrder, Stage: "print"}, run, "", ""},
	} {
		err := c.line.Driven(c.run)
		p := problemtest.Only(err)
		if p.Code != c.code || p.Path != c.path || (c.code != "") != (err != nil) {
			t.Errorf("%s: %v, want %s at %s", what, err, c.code, c.path)
		}
	}
}

// What a job takes to set up weighs the less the more it makes: 45 minutes and
// two for each print, at 0.30 a minute.
func TestMoreGoodPrintsCostLessEach(t *testing.T) {
	costs := someCosts(t)
	bill := cost.Bill{{Supply: "time", Quantity: quantity("45 min"), Per: cost.EachRun}, {Supply: "time", Quantity: quantity("2 min")}}
	for _, c := range []struct {
		good int64
		each string
	}{{1, "14.10"}, {5, "3.30"}, {20, "1.275"}, {100, "0.735"}} { // 13.50 ÷ good + 0.60
		charges, err := bill.Charges(costs, nil, cost.Run{Good: c.good})
		if err != nil || !cost.PerItem(charges).Equal(amount(c.each)) {
			t.Errorf("%d good prints cost %s each, %v, want %s", c.good, cost.PerItem(charges), err, c.each)
		}
	}
}
