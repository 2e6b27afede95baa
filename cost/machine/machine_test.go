package machine_test

import (
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/cost/machine"
	"example.com/quoin/internal/problemtest"
)

func amount(s string) quoin.Amount { return quoin.MustAmount(s) }
func factor(s string) quoin.Factor { return quoin.MustFactor(s) }

func TestCost(t *testing.T) {
	for _, c := range []struct {
		what             string
		m                machine.Machine
		volume, perPrint string
	}{
		{"1,200 over 60 months of 40", machine.Machine{Price: amount("1200"), LifeMonths: 60, PrintsPerMonth: factor("40")}, "2400", "0.50"},
		{"and sold for 240", machine.Machine{Price: amount("1200"), Resale: amount("240"), LifeMonths: 60, PrintsPerMonth: factor("40")}, "2400", "0.40"},
		{"worn out after 2,000 prints", machine.Machine{Price: amount("1200"), LifeMonths: 60, PrintsPerMonth: factor("40"), LifePrints: factor("2000")}, "2000", "0.60"},
		{"out of date before its 5,000 prints", machine.Machine{Price: amount("1200"), LifeMonths: 60, PrintsPerMonth: factor("40"), LifePrints: factor("5000")}, "2400", "0.50"},
		{"by use", machine.Machine{Price: amount("1200"), LifePrints: factor("4000"), Method: machine.ByUse}, "4000", "0.30"},
		{"with a head of 180 every 1,500", machine.Machine{
			Price: amount("1200"), LifePrints: factor("4000"), Method: machine.ByUse,
			Service: []machine.Part{{Name: "head", Price: amount("180"), Every: factor("1500")}},
		}, "4000", "0.42"},
		{"recovery without interest", machine.Machine{Price: amount("1200"), LifeMonths: 60, PrintsPerMonth: factor("40"), Method: machine.CapitalRecovery}, "2400", "0.50"},
	} {
		got, err := c.m.Cost()
		if err != nil || !got.PerPrint.Equal(amount(c.perPrint)) || !got.Volume.Equal(factor(c.volume)) {
			t.Errorf("%s: %s over %s, %v, want %s over %s", c.what, got.PerPrint, got.Volume, err, c.perPrint, c.volume)
		}
	}
}

func TestMachinesRefused(t *testing.T) {
	for what, c := range map[string]struct {
		m    machine.Machine
		code quoin.Code
		path string
	}{
		"no months":               {machine.Machine{Price: amount("5"), PrintsPerMonth: factor("1")}, machine.MissingLife, "life_months"},
		"no prints per month":     {machine.Machine{Price: amount("5"), LifeMonths: 12}, machine.MissingLife, "prints_per_month"},
		"no prints of life":       {machine.Machine{Price: amount("5"), LifeMonths: 12, PrintsPerMonth: factor("1"), Method: machine.ByUse}, machine.MissingLife, "life_prints"},
		"prints beside recovery":  {machine.Machine{Price: amount("5"), LifePrints: factor("9"), LifeMonths: 12, PrintsPerMonth: factor("1"), Method: machine.CapitalRecovery}, machine.StrayLife, "life_prints"},
		"a part that never lasts": {machine.Machine{Price: amount("5"), LifeMonths: 12, PrintsPerMonth: factor("1"), Service: []machine.Part{{Name: "head", Price: amount("9")}}}, quoin.MissingField, "service[0].every"},
		"dearer than it was":      {machine.Machine{Price: amount("5"), Resale: amount("6"), LifeMonths: 12, PrintsPerMonth: factor("1")}, machine.ResaleTooBig, "resale"},
	} {
		_, err := c.m.Cost()
		if p := problemtest.Only(err); p.Code != c.code || p.Path != c.path || p.Wanted == "" {
			t.Errorf("%s: %v, want %s at %s", what, err, c.code, c.path)
		}
	}
}

// OpenStax, Principles of Accounting, vol. 1 Financial, 11.3.
func TestPublishedDepreciation(t *testing.T) {
	// Cost 10,000, salvage 1,000, 5 years: straight line 1,800 a year, here with
	// one print a month; by use 9,000/100,000 units, .09 each.
	line, err := machine.Machine{Price: amount("10000"), Resale: amount("1000"), LifeMonths: 60, PrintsPerMonth: factor("1")}.Cost()
	if err != nil || !line.Value.Times(factor("12")).Equal(amount("1800")) {
		t.Errorf("straight line: %s a year, %v, want 1800", line.Value.Times(factor("12")), err)
	}
	use, err := machine.Machine{Price: amount("10000"), Resale: amount("1000"), LifePrints: factor("100000"), Method: machine.ByUse}.Cost()
	if err != nil || !use.Value.Equal(amount("0.09")) || !use.Value.Times(factor("20000")).Equal(amount("1800")) || !use.Value.Times(factor("30000")).Equal(amount("2700")) {
		t.Errorf("by use: %s, %v, want .09", use.Value, err)
	}
	// A printing press: 58,000, salvage 10,000, 5 years and 960,000 prints.
	line, err = machine.Machine{Price: amount("58000"), Resale: amount("10000"), LifeMonths: 60, PrintsPerMonth: factor("1")}.Cost()
	if err != nil || !line.Value.Times(factor("12")).Equal(amount("9600")) {
		t.Errorf("the press: %s a year, %v, want 9600", line.Value.Times(factor("12")), err)
	}
	use, err = machine.Machine{Price: amount("58000"), Resale: amount("10000"), LifePrints: factor("960000"), Method: machine.ByUse}.Cost()
	if err != nil || !use.Value.Equal(amount("0.05")) {
		t.Errorf("the press by use: %s, %v, want .05", use.Value, err)
	}
}

// Tables of engineering economy, from memory: the capital recovery factor at
// 10% and 5 periods is 0.26380. Here months are the periods, so 120% a year.
func TestPublishedCapitalRecovery(t *testing.T) {
	m := machine.Machine{Price: amount("1"), LifeMonths: 5, PrintsPerMonth: factor("1"), Interest: quoin.MustRate("120%"), Method: machine.CapitalRecovery}
	c, err := m.Cost()
	if got := c.Value.Round(5, quoin.HalfUp).String(); err != nil || got != "0.26380" {
		t.Errorf("%s, %v, want 0.26380", got, err)
	}
	// With resale, the same payment as for the loss alone, and interest on it.
	m.Price, m.Resale = amount("1000"), amount("200")
	c, err = m.Cost()
	if got := c.Value.Round(2, quoin.HalfUp).String(); err != nil || got != "231.04" { // 800 × 0.263797 + 200 × 0.1
		t.Errorf("%s, %v, want 231.04", got, err)
	}
}

func drawMachine(t *rapid.T) machine.Machine {
	n := func(name string, from, to int64) quoin.Factor {
		return quoin.FactorOf(rapid.Int64Range(from, to).Draw(t, name))
	}
	m := machine.Machine{
		ID: "printer", Price: quoin.AmountOf(rapid.Int64Range(1, 1e6).Draw(t, "price"), 2), LifeMonths: rapid.Int64Range(1, 600).Draw(t, "months"),
		PrintsPerMonth: n("prints", 1, 500), Method: rapid.SampledFrom([]machine.Method{"", machine.StraightLine, machine.ByUse, machine.CapitalRecovery}).Draw(t, "method"),
		Interest: quoin.AmountOf(rapid.Int64Range(0, 3000).Draw(t, "interest"), 4).Share(quoin.AmountOf(1, 0)),
	}
	m.Resale = m.Price.Part(quoin.AmountOf(rapid.Int64Range(0, 100).Draw(t, "resale"), 2).Share(quoin.AmountOf(1, 0)))
	if m.Method == machine.ByUse || m.Method != machine.CapitalRecovery && rapid.Bool().Draw(t, "wears out") {
		m.LifePrints = n("life", 1, 100_000)
	}
	if rapid.Bool().Draw(t, "service") {
		m.Service = []machine.Part{{Name: "head", Price: amount("180"), Every: n("every", 1, 5000)}}
	}
	return m
}

// What is explained is what is computed; a dearer machine, less resale, more
// interest and fewer prints never cost less; payments pay the machine back.
func TestMachineLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMachine(t)
		c, err := m.Cost()
		if err != nil {
			t.Fatal(err)
		}
		trail := quoin.NewTrail(32)
		if got, ok := m.Explain(trail, quoin.InList("machines", 0)).Value.Amount(); !ok || !got.Equal(c.PerPrint) {
			t.Fatalf("explained as %s, computed as %s", got, c.PerPrint)
		}
		if err := quoin.Replay(trail.Steps()); err != nil {
			t.Fatal(err)
		}
		for what, change := range map[string]func(*machine.Machine){
			"dearer":        func(m *machine.Machine) { m.Price = m.Price.Add(amount("10")) },
			"less resale":   func(m *machine.Machine) { m.Resale = m.Resale.Part(quoin.MustRate("90%")) },
			"more interest": func(m *machine.Machine) { m.Interest = m.Interest.Add(quoin.MustRate("1%")) },
			"fewer prints":  func(m *machine.Machine) { m.PrintsPerMonth = m.PrintsPerMonth.Times(factor("0.9")) },
			"fewer months":  func(m *machine.Machine) { m.LifeMonths = max(1, m.LifeMonths-1) },
		} {
			other := m
			change(&other)
			if d, err := other.Cost(); err != nil || d.PerPrint.Cmp(c.PerPrint) < 0 {
				t.Fatalf("%s: %s instead of %s, %v", what, d.PerPrint, c.PerPrint, err)
			}
		}
	})
}

// The machine's price is what its payments and its resale are worth today, in
// exact fractions.
func TestPaymentsPayBack(t *testing.T) {
	m := machine.Machine{Price: amount("1180"), Resale: amount("150"), LifeMonths: 48, PrintsPerMonth: factor("30"), Interest: quoin.MustRate("6%"), Method: machine.CapitalRecovery}
	c, err := m.Cost()
	if err != nil {
		t.Fatal(err)
	}
	payment := new(big.Rat).Mul(c.Value.Rat(), big.NewRat(30, 1))
	v := big.NewRat(1000, 1005)
	worth, now := new(big.Rat), big.NewRat(1, 1)
	for range 48 {
		now.Mul(now, v)
		worth.Add(worth, new(big.Rat).Mul(payment, now))
	}
	worth.Add(worth, new(big.Rat).Mul(big.NewRat(150, 1), now))
	if got := worth.FloatString(8); got != "1180.00000000" {
		t.Errorf("payments are worth %s, want 1180", got)
	}
}

func BenchmarkCost(b *testing.B) {
	m := machine.Machine{Price: amount("1180"), Resale: amount("150"), LifeMonths: 48, PrintsPerMonth: factor("30"), Interest: quoin.MustRate("6%"), Method: machine.CapitalRecovery}
	for b.Loop() {
		if _, err := m.Cost(); err != nil {
			b.Fatal(err)
		}
	}
}
