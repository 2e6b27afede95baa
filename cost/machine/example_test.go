package machine_test

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/cost/machine"
)

// A printer for 980.00, sold for 180.00 after four years of 40 prints a month,
// with a head every 3,000.
func ExampleMachine_Cost() {
	m := machine.Machine{
		Price: quoin.MustAmount("980.00"), Resale: quoin.MustAmount("180.00"), LifeMonths: 48, PrintsPerMonth: quoin.FactorOf(40),
		Service: []machine.Part{{Name: "print head", Price: quoin.MustAmount("210.00"), Every: quoin.FactorOf(3000)}},
	}
	for _, m.Method = range []machine.Method{machine.StraightLine, machine.CapitalRecovery} {
		m.Interest = quoin.MustRate("6%")
		c, err := m.Cost()
		fmt.Printf("%s: %.4f over %s prints, of it service %.4f, %v\n", m.Method, c.PerPrint, c.Volume, c.Service, err)
	}
	// Output:
	// straight_line: 0.4867 over 1920 prints, of it service 0.0700, <nil>
	// capital_recovery: 0.5622 over 1920 prints, of it service 0.0700, <nil>
}
