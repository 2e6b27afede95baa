package cost_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost"
	"example.com/quoin/internal/problemtest"
)

func TestStepsOfSupplies(t *testing.T) {
	for _, c := range []struct {
		supply cost.Supply
		want   string
	}{
		{
			cost.Supply{ID: "rag", Quantity: quantity("50 sheet"), Price: amount("62.00")},
			"landed_cost supplies[1] (rag): sum price 62.00 @supplies[1].price, discount minus 0 @supplies[1].discount ?, freight 0 @supplies[1].freight ?, duty 0 @supplies[1].duty ? = 62.00\n" +
				"unit_cost supplies[1] (rag): quotient landed_cost 62.00 #1, exchange 1x @supplies[1].exchange ?, quantity 50 sheet @supplies[1].quantity = 1.24\n",
		},
		// (62 − 12 + 7 + 3) × 1.25 ÷ 50
		{
			cost.Supply{
				ID: "rag", Name: "Cotton rag", Quantity: quantity("50 sheet"), Price: amount("62.00"), Discount: amount("12.00"), Freight: amount("7.00"), Duty: amount("3.00"), Exchange: factor("1.25"),
			},
			"landed_cost supplies[1] (Cotton rag): sum price 62.00 @supplies[1].price, discount minus 12.00 @supplies[1].discount, freight 7.00 @supplies[1].freight, duty 3.00 @supplies[1].duty = 60.00\n" +
				"unit_cost supplies[1] (Cotton rag): quotient landed_cost 60.00 #1, exchange 1.25x @supplies[1].exchange, quantity 50 sheet @supplies[1].quantity = 1.50\n",
		},
	} {
		trail := quoin.NewTrail(2)
		c.supply.Explain(trail, quoin.InList("supplies", 1))
		if got := problemtest.Steps(trail.Steps()); got != c.want {
			t.Errorf("got\n%s\nwant\n%s", got, c.want)
		}
	}
}

// A run of 20 good prints, of which 25 are started; a minute costs 0.30.
func TestStepsOfLines(t *testing.T) {
	costs := someCosts(t)
	for _, c := range []struct {
		what string
		line cost.BillLine
		want string
	}{
		{
			"each print started",
			cost.BillLine{Supply: "paper", Quantity: quantity("0.5 sheet"), Stage: "print"},
			"line_cost bill[3] (paper): product unit 1.20, quantity 0.5 sheet @bill[3].quantity, starts 1.25x = 0.75\n",
		},
		{
			"each good print",
			cost.BillLine{Supply: "paper", Quantity: quantity("0.5 sheet")},
			"line_cost bill[3] (paper): product unit 1.20, quantity 0.5 sheet @bill[3].quantity = 0.60\n",
		},
		{
			"each order",
			cost.BillLine{Supply: "mailer", Quantity: quantity("1 mailer"), Per: cost.EachOrder},
			"line_cost bill[3] (mailer): product unit 0.80, quantity 1 mailer @bill[3].quantity = 0.80\n",
		},
		{
			"in another unit",
			cost.BillLine{Supply: "ink", Quantity: quantity("4 g")},
			"quantity_converted bill[3] (ink): quotient quantity 4 g @bill[3].quantity, size of g 1x, size of kg 1000x = 0.004x\n" +
				"line_cost bill[3] (ink): product unit 50.00, quantity_converted 0.004x #1 = 0.20\n",
		},
		// 1 h ÷ 20
		{
			"once a run",
			cost.BillLine{Supply: "time", Quantity: quantity("1 h"), Per: cost.EachRun},
			"line_cost bill[3] (time): quotient unit 18.00, quantity 1 h @bill[3].quantity, good 20x = 0.90\n",
		},
		// 20 ÷ 8 are 3 batches
		{
			"each batch",
			cost.BillLine{Supply: "time", Quantity: quantity("0.5 h"), Per: cost.EachBatch, SharedBy: factor("8")},
			"batches bill[3] (time): quotient good 20x, over 8x @bill[3].shared_by = 2.5x, up to 0: 3x\n" +
				"line_cost bill[3] (time): quotient unit 18.00, quantity 0.5 h @bill[3].quantity, batches 3x #1, good 20x = 1.35\n",
		},
		// 25 ÷ 8 are 4
		{
			"each batch of started ones",
			cost.BillLine{Supply: "time", Quantity: quantity("0.5 h"), Stage: "print", Per: cost.EachBatch, SharedBy: factor("8")},
			"batches bill[3] (time): quotient good 20x, starts 1.25x, over 8x @bill[3].shared_by = 3.125x, up to 0: 4x\n" +
				"line_cost bill[3] (time): quotient unit 18.00, quantity 0.5 h @bill[3].quantity, batches 4x #1, good 20x = 1.80\n",
		},
		{
			"shared by prints",
			cost.BillLine{Supply: "time", Quantity: quantity("1 h"), Per: cost.EachDesign, SharedBy: factor("60")},
			"line_cost bill[3] (time): quotient unit 18.00, quantity 1 h @bill[3].quantity, over 60x @bill[3].shared_by = 0.30\n",
		},
	} {
		charges, err := cost.Bill{c.line}.Charges(costs, twoStages, cost.Run{Good: 20})
		if err != nil {
			t.Fatal(c.what, err)
		}
		trail := quoin.NewTrail(2)
		line, used := charges[0].Explain(trail, quoin.InList("bill", 3),
			quoin.Given("unit", quoin.Path{}, charges[0].Unit.Amount.Figure()), factor("1.25").Named("starts"), factor("20").Named("good"))
		if got := problemtest.Steps(trail.Steps()); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", c.what, got, c.want)
		}
		if a, ok := line.Value.Amount(); !ok || !a.Equal(charges[0].Amount) || !used.Value.Factor().Equal(charges[0].Number) {
			t.Errorf("%s: %s of %s explained, %s of %s charged", c.what, line.Value, used.Value, charges[0].Amount, charges[0].Number)
		}
	}
}

func TestStepsOfRuns(t *testing.T) {
	at := quoin.InList("products", 0).Inside("run")
	unit, half := quoin.Given("unit", quoin.Path{}, amount("1.20").Figure()), factor("0.5").Named("quantity")
	for _, c := range []struct {
		run  cost.Run
		used []quoin.Operand
		want string
	}{
		{
			cost.Run{Good: 20, Setup: amount("5.00")},
			nil,
			"run_per_item products[0].run: quotient setup 5.00 @products[0].run.setup, good 20x @products[0].run.good = 0.25\n",
		},
		{
			cost.Run{Good: 20},
			nil,
			"run_per_item products[0].run: quotient setup 0 @products[0].run.setup ?, good 20x @products[0].run.good = 0\n",
		},
		// (2 × 0.60 + 5.00) ÷ 20
		{
			cost.Run{Good: 20, Tests: 2, Setup: amount("5.00")},
			[]quoin.Operand{unit, half},
			"one_test products[0].run: weighted unit 1.20, quantity 0.5x = 0.60\n" +
				"run_total products[0].run: weighted one_test 0.60 #1, tests 2x @products[0].run.tests, setup 5.00 @products[0].run.setup, one 1x = 6.20\n" +
				"run_per_item products[0].run: quotient run_total 6.20 #2, good 20x @products[0].run.good = 0.31\n",
		},
		{
			cost.Run{Good: 20, Tests: 1},
			[]quoin.Operand{unit},
			"one_test products[0].run: weighted unit 1.20 = 0x\n" +
				"run_total products[0].run: weighted one_test 0x #1, tests 1x @products[0].run.tests, setup 0 @products[0].run.setup ?, one 1x = 0\n" +
				"run_per_item products[0].run: quotient run_total 0 #2, good 20x @products[0].run.good = 0\n",
		},
		{
			cost.Run{Good: 20},
			[]quoin.Operand{unit, half},
			"one_test products[0].run: weighted unit 1.20, quantity 0.5x = 0.60\n" +
				"run_total products[0].run: weighted one_test 0.60 #1, tests 0x @products[0].run.tests ?, setup 0 @products[0].run.setup ?, one 1x = 0.00\n" +
				"run_per_item products[0].run: quotient run_total 0.00 #2, good 20x @products[0].run.good = 0.00\n",
		},
	} {
		trail := quoin.NewTrail(2).On("something else")
		c.run.Explain(trail, at, c.used...)
		if got := problemtest.Steps(trail.Steps()); got != c.want {
			t.Errorf("got\n%s\nwant\n%s", got, c.want)
		}
	}
}

func TestUnitCostOfAnotherDimension(t *testing.T) {
	got, err := cost.UnitCost{Amount: amount("2.40"), Unit: "m"}.Of(quantity("3 ml"))
	if p, ok := err.(quoin.Problem); !ok || p.Code != quoin.UnitMismatch || got.IsGiven() {
		t.Errorf("%s, %v", got, err)
	}
}

// All that is wrong with a line at once, where it stands.
func TestProblemsOfCharges(t *testing.T) {
	bill := cost.Bill{
		{Supply: "paper", Quantity: quantity("1 sheet")},
		{Supply: "papr", Quantity: quantity("1 sheet"), Stage: "dry", Per: cost.EachDesign},
		{Supply: "paper", Quantity: quantity("1 ml"), Stage: "cut", SharedBy: factor("2")},
	}
	charges, err := bill.Charges(someCosts(t), twoStages, cost.Run{})
	const want = `fault lines[1].supply: found "papr", wanted the id of a supply [unknown_id]
fault lines[1].shared_by: found a line per design, wanted the number of prints that share it [missing_shared_by]
fault lines[1].stage: found dry, wanted no stage for a line per design [stray_stage]
fault lines[2].stage: found "cut", wanted the id of a stage [unknown_id]
fault lines[2]: found "1 ml", wanted a quantity in sheet [unit_mismatch]
fault lines[2].shared_by: found 2, wanted no number that shares a line per item [stray_shared_by]`
	if got := problemtest.Full(err); got != want || charges != nil {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	for _, c := range []struct {
		line     cost.BillLine
		run      cost.Run
		severity quoin.Severity
	}{{cost.BillLine{Per: cost.EachRun}, cost.Run{}, quoin.Fault}, {cost.BillLine{Per: cost.EachRun}, cost.Run{Good: 1}, ""}} {
		if got := problemtest.Only(c.line.Driven(c.run)).Severity; got != c.severity {
			t.Errorf("%v: %s", c.line, got)
		}
	}
	// Without stages, a line of one is of none that is known.
	if _, err := (cost.Bill{{Supply: "paper", Quantity: quantity("1 sheet"), Stage: "dry"}}).Charges(someCosts(t), nil, cost.Run{}); problemtest.Listed(err) != "unknown_id lines[0].stage" {
		t.Error(err)
	}
}
