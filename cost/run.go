package cost

import "example.com/quoin"

// Run is a print run. Its good prints share the cost of its set-up and its test prints.
type Run struct {
	Good       int64                     `json:"good" need:"yes" range:"[1,1000000000]"`
	Tests      int64                     `json:"tests,omitzero" range:"[0,1000000000]"`
	Setup      quoin.Amount              `json:"setup,omitzero" range:"[0,"`
	SetupRange quoin.Range[quoin.Amount] `json:"setup_range,omitzero" dear:"high"`
	// Sure is how surely the good prints are to come out of one go; zero means
	// that nobody asks. It changes no cost: that is of the starts on average.
	Certainty quoin.Rate `json:"certainty,omitzero" was:"sure" range:"(0,1)"`
}

// IsZero reports whether no field of the run is given.
func (r Run) IsZero() bool {
	return r.Good == 0 && r.Tests == 0 && !r.Setup.IsGiven() && !r.SetupRange.Low.IsGiven() && !r.SetupRange.High.IsGiven() && !r.Certainty.IsGiven()
}

// PerItem returns what the run adds to each good print: (tests × cost of a test print + setup)
// ÷ good. With 2 tests of 1.24, a set-up of 5.00 and 25 good prints it is 0.2992. A test print
// uses each line per item of the first stage once. If there are no stages (first is empty), it
// uses all lines per item without a stage. The zero Run adds nothing. Nothing is rounded.
func (r Run) PerItem(bill []Charge, first string) quoin.Amount {
	if r.Good <= 0 {
		return quoin.Amount{}
	}
	return OneTest(bill, first).Times(quoin.FactorOf(r.Tests)).Add(r.Setup).Over(quoin.FactorOf(r.Good))
}

// OneTest returns what one test print costs: the charges of the bill that it uses.
func OneTest(bill []Charge, first string) quoin.Amount {
	var one quoin.Amount
	for _, c := range bill {
		if c.line().UsedByTest(first) {
			one = one.Add(c.Unit.Amount.Times(c.Number))
		}
	}
	return one
}
