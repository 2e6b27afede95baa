package edition_test

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/margin/edition"
)

// bittern is the linocut "Bittern in the reeds": 50 and 5 artist's proofs, 15%
// dearer after 20 are sold and 30% after 35; paces and prices are invented.
func bittern() edition.Edition {
	return edition.Edition{
		ID: "bittern", Name: "Bittern in the reeds", Products: []string{"bittern-a3"}, Size: 50, Proofs: 5, ProofsAtMost: quoin.Some(quoin.MustRate("10%")),
		PerMonth: quoin.FactorOf(4),
		Steps: []edition.PriceStep{
			{Times: quoin.FactorOf(1)},
			{Sold: 20, Times: quoin.MustFactor("1.15"), PerMonth: quoin.FactorOf(3)},
			{Sold: 35, Times: quoin.MustFactor("1.30"), PerMonth: quoin.FactorOf(2)},
		},
	}
}

// kept is what is left of a price: 60% of it, less 6.00 for paper, ink and
// packing (invented).
func kept(price quoin.Amount) quoin.Amount {
	return price.Part(quoin.MustRate("60%")).Sub(quoin.MustAmount("6.00"))
}

func ExampleEdition_Ladder() {
	e := bittern()
	e.Sold = 26
	numberings, _ := e.Audit()
	whole := func(price quoin.Amount) quoin.Amount { return price.Round(0, quoin.Up) }
	steps := e.Ladder(numberings[0].Numbers, quoin.MustAmount("79.00"), whole)
	for _, s := range steps {
		fmt.Printf("%d to %d at %.2f, %d left\n", s.From, s.To, s.Price, s.Count)
	}
	now, _ := edition.Current(steps)
	fmt.Printf("the next at %.2f\n", now.Price)
	// Output:
	// 1 to 20 at 79.00, 0 left
	// 21 to 35 at 91.00, 9 left
	// 36 to 50 at 103.00, 15 left
	// the next at 91.00
}

func ExampleCurrent() {
	_, left := edition.Current(nil)
	fmt.Println(left)
	// Output: false
}

func ExampleExpected() {
	e := bittern()
	t := edition.Expected(e.Ladder(e.Unsold(), quoin.MustAmount("80.00"), nil), kept)
	average, _ := t.Average.Get()
	fmt.Printf("%d prints bring %.2f, on average %.2f, of it kept %.2f, in %s months\n", t.Count, t.Gross, average, t.Kept, t.Months)
	// Output: 50 prints bring 4540.00, on average 90.80, of it kept 2424.00, in 17.5 months
}

func ExampleEdition_Audit() {
	e := bittern()
	e.Ledger = []edition.Entry{
		{Number: 1, State: edition.Sold},
		{Number: 2, State: edition.Sold},
		{Number: 3, State: edition.Destroyed},
		{Number: 7, State: edition.Reserved, To: "the marsh centre"},
		{Number: 2, State: edition.Kept},
		{Proof: 1, State: edition.Kept},
	}
	numberings, problems := e.Audit()
	n := numberings[0]
	fmt.Println(n.Numbers.Sold, "sold,", n.Numbers.ToSell(), "to sell, free", n.Numbers.FreeNumbers, "and of the proofs", n.Proofs.FreeNumbers)
	fmt.Println(problems)
	// Output:
	// 2 sold, 47 to sell, free [4–6 8–50] and of the proofs [2–5]
	// ledger[4].number: found number 2, kept here and sold in ledger[1], wanted one entry for each; keep the one that holds, or correct the number [number_twice]
}

func ExampleEdition_Check() {
	e := bittern()
	e.Proofs = 8
	e.Steps[2].Sold = 15
	fmt.Println(e.Check())
	// Output:
	// proofs: found 8, wanted at most 5, 10% of 50 [too_many_proofs]
	// steps[2].sold: found 15, wanted more than the 20 of the step before [bad_edition_steps]
}

func ExampleNumberingOf() {
	e := bittern()
	e.Products, e.Each = []string{"bittern-a3", "bittern-a5"}, true
	numberings, _ := e.Audit()
	n, ok := edition.NumberingOf(numberings, "bittern-a5")
	fmt.Println(n.Product, n.Numbers.Free, ok)
	// Output: bittern-a5 50 true
}

// A limit that someone found in the rules of their place; 30 is invented.
func ExampleLimit() {
	l := edition.Limit{Name: "counts as original", AtMost: 30, Proofs: true, Together: true, Source: "a letter of the tax office"}
	e := bittern()
	fmt.Println(l.Count(e), l.Within(e))
	e.Size = 25
	fmt.Println(l.Count(e), l.Within(e))
	// Output:
	// 55 false
	// 30 true
}

func ExampleEdition_Explain() {
	e := bittern()
	e.Sold = 26
	numberings, _ := e.Audit()
	of := numberings[0].Numbers
	t := quoin.NewTrail(16)
	fmt.Println(e.Explain(t, quoin.InList("editions", 0), of, e.Ladder(of, quoin.MustAmount("80.00"), nil), nil).Value.Round(2))
	for _, s := range t.Steps() {
		if s.Code == edition.StepCount || s.Code == edition.StepGross {
			fmt.Println(s.Code, s.At, s.Value.Round(2))
		}
	}
	// Output:
	// 2388.00
	// edition_step_count editions[0].steps[0] 0
	// edition_step_count editions[0].steps[1] 9
	// edition_step_count editions[0].steps[2] 15
	// edition_gross editions[0] 2388.00
}

func ExamplePriceStep_Explain() {
	t := quoin.NewTrail(1)
	list := quoin.Given("price", quoin.InList("products", 0).Field("price"), quoin.MustAmount("80.00").Figure())
	fmt.Println(bittern().Steps[1].Explain(t, quoin.InList("editions", 0).Sub("steps", 1), list).Value.Round(2))
	// Output: 92.00
}

func ExampleState_UnmarshalText() {
	fmt.Println(new(edition.State).UnmarshalText([]byte("reservd")))
	// Output: found "reservd", wanted one of sold, reserved, destroyed, kept; did you mean reserved? [unknown_word]
}

func ExampleSpan() {
	fmt.Println(edition.Span{From: 21, To: 50}, edition.Span{From: 7, To: 7})
	// Output: 21–50 7
}

// After 26: 9 prints at 3 a month and 15 at 2.
func ExampleEdition_ExplainMonths() {
	e := bittern()
	e.Sold = 26
	numberings, _ := e.Audit()
	of := numberings[0].Numbers
	t := quoin.NewTrail(16)
	months, known := e.ExplainMonths(t, quoin.InList("editions", 0), of, e.Ladder(of, quoin.MustAmount("80.00"), nil))
	fmt.Println(months.Value, known)
	for _, s := range t.Steps() {
		if s.Code == edition.StepPace {
			fmt.Println(s.At, s.Operands[0].Value, "÷", s.Operands[1].Value)
		}
	}
	// Output:
	// 10.5 true
	// editions[0].steps[1] 9 ÷ 3
	// editions[0].steps[2] 15 ÷ 2
}
