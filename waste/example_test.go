package waste_test

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/waste"
)

// The figures are those of an invented artist who prints linocuts of marsh
// birds by hand.

func exampleRoute() waste.Route {
	return waste.Route{
		{ID: "print", Yield: quoin.MustRate("92%")},
		{ID: "finish", Yield: quoin.MustRate("98%"), Recovery: quoin.MustAmount("0.15")},
	}
}

// Of a hundred prints started 92 leave the press good, and of those 98% the
// finishing: 1 ÷ (0.92 × 0.98) = 1.10914 have to be started for a good one, so
// 44.37, thus 45, for 40. A sleeve, which enters at finishing, is lost less
// often: 1 ÷ 0.98 = 1.02041.
func Example() {
	route := exampleRoute()
	press, _ := route.Starts("print")
	finish, _ := route.Starts("finish")
	fmt.Printf("%.5f %.5f\n", press, finish)
	fmt.Println(press.Times(quoin.FactorOf(40)).Round(0, quoin.Up), route.Yield())
	// Output:
	// 1.10914 1.02041
	// 45 90.16%
}

// Losing 15% takes 17.647% more starts, not 15%.
func ExampleRoute_Starts() {
	starts, ok := waste.Route{{ID: "print", Yield: quoin.MustRate("85%")}}.Starts("print")
	fmt.Printf("%.5f %t\n", starts, ok)
	_, ok = waste.Route{}.Starts("print")
	fmt.Println(ok)
	// Output:
	// 1.17647 true
	// false
}

func ExampleRoute_First() {
	fmt.Printf("%q %q\n", exampleRoute().First(), waste.Route{}.First())
	// Output: "print" ""
}

// For each good print 1.020408 − 1 are spoiled at finishing, and the paper of
// each is cut into cards worth 0.15: 0.020408 × 0.15 = 0.0030612.
func ExampleRoute_Salvage() {
	for _, s := range exampleRoute().Salvage() {
		fmt.Printf("%s %.6f %.7f\n", s.Stage, s.Spoiled, s.Amount)
	}
	fmt.Printf("%.4f\n", exampleRoute().Recovered())
	// Output:
	// finish 0.020408 0.0030612
	// 0.0031
}

// A cost of 5.20 with 4% on top, and one parcel in a hundred lost on the way:
// 5.20 × 1.04 ÷ 0.99 = 5.46263. Postage is only paid again: 6.20 ÷ 0.99.
func ExampleAllowance() {
	a := waste.Allowance{Contingency: quoin.MustRate("4%"), Loss: quoin.MustRate("1%")}
	fmt.Printf("%.5f %.5f\n", a.Apply(quoin.MustAmount("5.20")), a.Resend(quoin.MustAmount("6.20")))
	// Output: 5.46263 6.26263
}

// 0.92 × 0.98 = 0.9016, and 1 ÷ 0.9016 = 1.10914.
func ExampleRoute_ExplainStarts() {
	at := func(i int) quoin.Path { return quoin.InList("stages", i) }
	trail := quoin.NewTrail(6)
	exampleRoute().ExplainStarts(trail, 0, at)
	for _, s := range trail.Steps() {
		fmt.Println(s.At, s.Subject, s.Code, s.Value.Round(5))
	}
	// Output:
	// stages[0] print yield_onward 0.9016
	// stages[0] print starts 1.10914
}

// After the last stage there is one good print for each good one.
func ExampleRoute_ExplainSalvage() {
	at := func(i int) quoin.Path { return quoin.InList("stages", i) }
	trail := quoin.NewTrail(6)
	route := exampleRoute()
	here, next := route.ExplainStarts(trail, 1, at), route.ExplainStarts(trail, 2, at)
	back := route.ExplainSalvage(trail, 1, at, here, next)
	fmt.Println(here.Value.Round(5), next.Value, back.Value.Round(5), quoin.Replay(trail.Steps()))
	// Output: 1.02041 1 0.00306 <nil>
}
