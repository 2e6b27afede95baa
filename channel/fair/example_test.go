package fair_test

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/channel/fair"
)

// A market weekend of a linocut artist of marsh birds. Fees and prices are
// invented; a print of the mix sells for 36.30 with its tax and keeps 23.00.
func ExampleFair_Outcome() {
	f := fair.Fair{
		ID: "autumn", Stand: quoin.MustAmount("180.00"), Jury: quoin.MustAmount("15.00"), Chance: quoin.Some(quoin.MustRate("60%")),
		Travel: quoin.MustAmount("195.00"), Commission: quoin.MustRate("10%"), CommissionOf: fair.Net, CommissionAtLeast: quoin.MustAmount("75.00"),
		Mix: []fair.Share{
			{Product: "heron", Share: quoin.MustRate("60%")},
			{Product: "avocet", Share: quoin.MustRate("40%")},
		},
		Prints: quoin.FactorOf(30), Hours: quoin.FactorOf(24), HourWorth: quoin.MustAmount("9.00"),
	}
	o, err := f.Outcome([]fair.Print{
		{Product: "heron", Price: quoin.MustAmount("48.40"), Revenue: quoin.MustAmount("40.00"), Kept: quoin.MustAmount("31.00")},
		{Product: "avocet", Price: quoin.MustAmount("18.15"), Revenue: quoin.MustAmount("15.00"), Kept: quoin.MustAmount("11.00")},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("going costs %.2f, the commission %.2f, %.2f is left: %.2f an hour\n", o.Fixed, o.Commission, o.Result, o.PerHour.Or(quoin.Amount{}))
	if v, ok := o.BreakEven.Get(); ok {
		fmt.Printf("break-even at %s prints, sales of %.2f: %s herons, %s avocets\n", v.Whole, v.Sales, v.ByProduct[0].Nearest, v.ByProduct[1].Nearest)
	}
	if v, ok := o.Needed.Get(); ok {
		fmt.Printf("%s %v: asked are %.2f, which take %s prints\n", o.Verdict, o.Reasons, o.Asked, v.Whole)
	}
	// Output:
	// going costs 400.00, the commission 90.00, 200.00 is left: 8.33 an hour
	// break-even at 21 prints, sales of 749.67: 12 herons, 8 avocets
	// stay [below_hours]: asked are 216.00, which take 31 prints
}

func ExampleFair_Check() {
	f := fair.Fair{ID: "autumn", Channel: "fairs", Display: quoin.MustAmount("240.00"), Prints: quoin.FactorOf(30), Mix: []fair.Share{{Product: "heron", Share: quoin.MustRate("60%")}}}
	fmt.Println(f.Check())
	// Output:
	// display_fairs: found nothing, wanted how many fairs the display of 240.00 serves [display_without_fairs]
	// mix: found shares that sum to 60%, wanted shares that sum to 100% [mix_not_one]
}

// Why going costs what it costs: an application fee of 15.00 is paid more than
// once for each fair attended.
func ExampleFair_ExplainFixed() {
	f := fair.Fair{
		ID: "autumn", Stand: quoin.MustAmount("180.00"), Jury: quoin.MustAmount("15.00"), Chance: quoin.Some(quoin.MustRate("60%")),
		Mix: []fair.Share{{Product: "heron", Share: quoin.MustRate("100%")}}, Prints: quoin.FactorOf(20),
	}
	t := quoin.NewTrail(4)
	f.ExplainFixed(t, quoin.InList("fairs", 0))
	for _, s := range t.Steps() {
		fmt.Println(s.Code, s.Op, s.Operands[0].Path, s.Value.Round(2))
	}
	// Output:
	// fair_jury quotient fairs[0].jury 25.00
	// fair_fixed sum fairs[0].stand 205.00
}

func ExampleFair_Explain() {
	f := fair.Fair{
		ID: "market", Stand: quoin.MustAmount("90.00"), Commission: quoin.MustRate("10%"), CommissionAtLeast: quoin.MustAmount("60.00"),
		Mix: []fair.Share{{Product: "heron", Share: quoin.MustRate("100%")}}, Prints: quoin.FactorOf(20),
	}
	p := fair.Print{Product: "heron", Price: quoin.MustAmount("40.00"), Revenue: quoin.MustAmount("40.00"), Kept: quoin.MustAmount("30.00")}
	t := quoin.NewTrail(24)
	x := f.Explain(t, quoin.InList("fairs", 0), []fair.PrintOperands{p.Given(quoin.InList("products", 0))})
	n, _ := x.BreakEven.Get()
	fmt.Println("result", x.Result.Value.Round(2), "break-even", n.Value.Round(2), quoin.Replay(t.Steps()))
	// Output: result 430.00 break-even 5 <nil>
}

func ExampleTill() {
	fmt.Println(fair.Till(quoin.MustAmount("18.15"), quoin.MustAmount("0.50")))
	// Output: 18.00
}
