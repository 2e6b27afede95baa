package cost_test

import (
	"encoding/json"
	"fmt"

	"example.com/quoin"
	"example.com/quoin/cost"
	"example.com/quoin/cost/cut"
	"example.com/quoin/waste"
)

// The figures are those of an invented artist who prints linocuts of marsh birds
// by hand; all prices are invented.

func exampleSupplies() []cost.Supply {
	return []cost.Supply{
		{ID: "paper", Quantity: quoin.MustQuantity("50 sheet"), Price: quoin.MustAmount("62.00"), Freight: quoin.MustAmount("6.90")},
		{ID: "ink", Quantity: quoin.MustQuantity("75 g"), Price: quoin.MustAmount("12.00")},
		{ID: "time", Quantity: quoin.MustQuantity("1 h"), Price: quoin.MustAmount("18.00")},
		{ID: "mailer", Quantity: quoin.MustQuantity("25 mailer"), Price: quoin.MustAmount("20.00")},
	}
}

func exampleBill() cost.Bill {
	return cost.Bill{
		{Supply: "paper", Quantity: quoin.MustQuantity("0.5 sheet"), Stage: "print"},
		{Supply: "ink", Quantity: quoin.MustQuantity("3 g"), Stage: "print"},
		{Supply: "time", Quantity: quoin.MustQuantity("5 min"), Stage: "print"},
		{Supply: "mailer", Quantity: quoin.MustQuantity("1 mailer"), Per: cost.EachOrder},
	}
}

// One print in five spoils, so each good one takes 1.25 starts:
//
//	paper   (62.00 + 6.90) ÷ 50 × 0.5 × 1.25 = 0.86125
//	ink     12.00 ÷ 75 × 3 × 1.25            = 0.60
//	time    18.00 ÷ 60 × 5 × 1.25            = 1.875
func Example() {
	costs, err := cost.UnitCosts(exampleSupplies())
	if err != nil {
		fmt.Println(err)
		return
	}
	route := waste.Route{{ID: "print", Yield: quoin.MustRate("80%")}}
	charges, err := exampleBill().Charges(costs, route.Starts, cost.Run{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range charges {
		fmt.Printf("%-6s %.5f\n", c.Line.Supply, c.Amount)
	}
	fmt.Printf("a print %.5f, a parcel %.2f\n", cost.PerItem(charges), cost.PerOrder(charges))
	// Output:
	// paper  0.86125
	// ink    0.60000
	// time   1.87500
	// mailer 0.80000
	// a print 3.33625, a parcel 0.80
}

// Paper ordered abroad: (80.00 − 8.00 + 12.00 + 6.00) × 0.90 = 81.00 for 60
// sheets.
func ExampleSupply() {
	s := cost.Supply{
		ID: "paper", Quantity: quoin.MustQuantity("60 sheet"), Price: quoin.MustAmount("80.00"), Discount: quoin.MustAmount("8.00"),
		Freight: quoin.MustAmount("12.00"), Duty: quoin.MustAmount("6.00"), Exchange: quoin.MustFactor("0.90"),
	}
	u, err := s.UnitCost()
	fmt.Printf("%.2f in all, %s a %s, %v\n", s.Landed(), u.Amount, u.Unit, err)
	// Output: 81.00 in all, 1.35 a sheet, <nil>
}

func ExampleSupply_UnitCost() {
	_, err := cost.Supply{ID: "ink", Quantity: quoin.MustQuantity("75 g"), Price: quoin.MustAmount("12.00"), Discount: quoin.MustAmount("15.00")}.UnitCost()
	fmt.Println(err)
	// Output: discount: found 15.00, wanted a discount of at most price, freight and duty together [negative_cost]
}

// A roll of 15 m for 36.00 is 2.40 a metre; a print takes 14 in, 0.3556 m.
func ExampleUnitCost_Of() {
	roll := cost.UnitCost{Amount: quoin.MustAmount("2.40"), Unit: "m"}
	a, err := roll.Of(quoin.MustQuantity("14 in"))
	fmt.Printf("%.5f %v\n", a, err)
	// Output: 0.85344 <nil>
}

func ExampleUnitCosts() {
	costs, err := cost.UnitCosts(exampleSupplies())
	fmt.Println(costs["paper"].Amount, costs["ink"].Amount, costs["ink"].Unit, err)
	// Output: 1.378 0.16 g <nil>
}

// A line whose quantity is of another dimension than its supply is refused.
func ExampleBill_Charges() {
	costs, _ := cost.UnitCosts(exampleSupplies())
	bill := cost.Bill{{Supply: "ink", Quantity: quoin.MustQuantity("3 ml")}}
	_, err := bill.Charges(costs, waste.Route{}.Starts, cost.Run{})
	fmt.Println(err)
	// Output: lines[0]: found "3 ml", wanted a mass, such as one in g [unit_mismatch]
}

func ExampleBill_MarshalJSON() {
	data, err := json.Marshal(exampleBill()[2:])
	fmt.Println(string(data), err)
	// Output: [{"supply":"time","quantity":"5 min","stage":"print"},{"supply":"mailer","quantity":"1 mailer","per":"order"}] <nil>
}

func ExampleBillLine() {
	for _, l := range exampleBill()[2:] {
		fmt.Println(l.Supply, l.UsedByTest("print"), l.ForOrder())
	}
	// Output:
	// time true false
	// mailer false true
}

// Two test prints and a set-up of 6.00 are shared by 40 good prints. A test uses
// up what the first stage does, once: 0.689 + 0.48 + 1.50 = 2.669; and
// (2 × 2.669 + 6.00) ÷ 40 = 0.28345.
func ExampleRun_PerItem() {
	costs, _ := cost.UnitCosts(exampleSupplies())
	route := waste.Route{{ID: "print", Yield: quoin.MustRate("80%")}}
	charges, _ := exampleBill().Charges(costs, route.Starts, cost.Run{})
	run := cost.Run{Good: 40, Tests: 2, Setup: quoin.MustAmount("6.00")}
	fmt.Printf("%.3f %.5f\n", cost.OneTest(charges, route.First()), run.PerItem(charges, route.First()))
	// Output: 2.669 0.28345
}

// The way from what was paid for paper to what a print takes of it.
func ExampleCharge_Explain() {
	costs, _ := cost.UnitCosts(exampleSupplies())
	charges, _ := exampleBill().Charges(costs, func(string) (quoin.Factor, bool) { return quoin.MustFactor("1.25"), true }, cost.Run{})
	trail := quoin.NewTrail(4)
	unit := exampleSupplies()[0].Explain(trail, quoin.InList("supplies", 0))
	starts := quoin.Given("starts", quoin.Path{}, charges[0].Times.Figure())
	line, used := charges[0].Explain(trail, quoin.InList("products", 0).Sub("bill", 0), unit, starts, quoin.Operand{})
	cost.Run{Good: 40, Setup: quoin.MustAmount("6.00"), Tests: 2}.Explain(trail, quoin.InList("products", 0), unit, used)
	for _, s := range trail.Steps() {
		fmt.Printf("%-12s %s\n", s.Code, s.Value.Round(5))
	}
	fmt.Println(line.Value.Round(2), quoin.Replay(trail.Steps()))
	// Output:
	// landed_cost  68.90000
	// unit_cost    1.37800
	// line_cost    0.86125
	// one_test     0.68900
	// run_total    7.37800
	// run_per_item 0.18445
	// 0.86 <nil>
}

// Three quarters of an hour to set a run up, a drying rack of eight, and a scan
// that is to sell 120 prints.
func ExampleDriver() {
	costs, _ := cost.UnitCosts([]cost.Supply{
		{ID: "time", Quantity: quoin.MustQuantity("1 h"), Price: quoin.MustAmount("18.00"), Labour: cost.OwnTime},
		{ID: "scan", Quantity: quoin.MustQuantity("1 scan"), Price: quoin.MustAmount("60.00")},
	})
	bill := cost.Bill{
		{Supply: "time", Quantity: quoin.MustQuantity("45 min"), Per: cost.EachRun},
		{Supply: "time", Quantity: quoin.MustQuantity("10 min"), Per: cost.EachBatch, SharedBy: quoin.FactorOf(8)},
		{Supply: "scan", Quantity: quoin.MustQuantity("1 scan"), Per: cost.EachDesign, SharedBy: quoin.FactorOf(120)},
	}
	charges, err := bill.Charges(costs, nil, cost.Run{Good: 20})
	for _, c := range charges {
		fmt.Printf("%-6s %s times over %s: %.3f\n", c.Line.Per, c.Times, c.Over, c.Amount)
	}
	fmt.Printf("of it own time %.3f, %v\n", cost.PerItem(cost.OwnTime.Of(charges)), err)
	// Output:
	// run    1 times over 20: 0.675
	// batch  3 times over 20: 0.450
	// design 1 times over 120: 0.500
	// of it own time 1.125, <nil>
}

func ExampleDriver_UnmarshalText() {
	fmt.Println(new(cost.Driver).UnmarshalText([]byte("desing")))
	// Output: found "desing", wanted one of item, order, run, batch, design, listing, period; did you mean design? [unknown_word]
}

// A line says what is cut out of which sheet; what it takes follows.
func ExampleBillLine_Work() {
	paper := cost.Supply{
		ID: "paper", Quantity: quoin.MustQuantity("25 sheet"), Price: quoin.MustAmount("77.40"),
		Sheet: &cut.Sheet{Size: quoin.MustSize("500 x 700 mm"), Border: quoin.MustQuantity("5 mm")},
	}
	line := cost.BillLine{Supply: "paper", Cut: &cut.Cut{Of: cut.Paper}}
	w, err := line.Work(paper, cost.Sizes{Sheet: quoin.MustSize("A4")})
	unit, _ := paper.UnitCost()
	each, _ := unit.Of(w.Quantity)
	fmt.Println(w.Sheet.Pieces, "out of a sheet:", w.Quantity, "for", each, err)
	// Output: 4 out of a sheet: 0.25 sheet for 0.774 <nil>
}
