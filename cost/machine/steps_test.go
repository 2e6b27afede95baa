package machine_test

import (
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost/machine"
	"example.com/quoin/internal/problemtest"
)

func TestSteps(t *testing.T) {
	line := machine.Machine{ID: "printer", Price: amount("1200.00"), Resale: amount("240.00"), LifeMonths: 60, PrintsPerMonth: factor("40")}
	worn, use, level, flat := line, line, line, line
	worn.LifePrints, worn.Resale = factor("2000"), quoin.Amount{}
	use.Name, use.Method, use.LifePrints = "Big printer", machine.ByUse, factor("4000")
	use.Service = []machine.Part{{Name: "head", Price: amount("180.00"), Every: factor("1500")}, {Name: "belt", Price: amount("30.00"), Every: factor("600")}}
	// A quarter a month for five months: 1 ÷ 1.25^5 is 0.32768, and 672.32 × 0.25 ÷ (1 − 0.32768) is 250.
	level.Method, level.Interest, level.LifeMonths, level.PrintsPerMonth = machine.CapitalRecovery, quoin.MustRate("300%"), 5, factor("10")
	level.Price, level.Resale = amount("872.32"), amount("200.00")
	flat.Method = machine.CapitalRecovery
	for what, c := range map[string]struct {
		m    machine.Machine
		want string
	}{
		"straight line": {line, `
machine_loss machines[3] (printer): sum price 1200.00 @machines[3].price, resale minus 240.00 @machines[3].resale = 960.00
prints_in_months machines[3] (printer): product life_months 60x @machines[3].life_months, prints_per_month 40x @machines[3].prints_per_month = 2400x
machine_value machines[3] (printer): quotient machine_loss 960.00 #1, prints_in_months 2400x #2 = 0.40
machine_per_print machines[3] (printer): sum machine_value 0.40 #3 = 0.40
`},
		"worn out first": {worn, `
machine_loss machines[3] (printer): sum price 1200.00 @machines[3].price, resale minus 0 @machines[3].resale ? = 1200.00
prints_in_months machines[3] (printer): product life_months 60x @machines[3].life_months, prints_per_month 40x @machines[3].prints_per_month = 2400x
machine_volume machines[3] (printer): least life_prints 2000x @machines[3].life_prints, prints_in_months 2400x #2 = 2000x
machine_value machines[3] (printer): quotient machine_loss 1200.00 #1, machine_volume 2000x #3 = 0.60
machine_per_print machines[3] (printer): sum machine_value 0.60 #4 = 0.60
`},
		"by use, with parts": {use, `
machine_loss machines[3] (Big printer): sum price 1200.00 @machines[3].price, resale minus 240.00 @machines[3].resale = 960.00
machine_value machines[3] (Big printer): quotient machine_loss 960.00 #1, life_prints 4000x @machines[3].life_prints = 0.24
machine_service machines[3].service[0] (Big printer): quotient price 180.00 @machines[3].service[0].price, every 1500x @machines[3].service[0].every = 0.12
machine_service machines[3].service[1] (Big printer): quotient price 30.00 @machines[3].service[1].price, every 600x @machines[3].service[1].every = 0.05
machine_per_print machines[3] (Big printer): sum machine_value 0.24 #2, machine_service 0.12 #3, machine_service 0.05 #4 = 0.41
`},
		"the level payment": {level, `
machine_loss machines[3] (printer): sum price 872.32 @machines[3].price, resale minus 200.00 @machines[3].resale = 672.32
monthly_interest machines[3] (printer): quotient interest 300% @machines[3].interest, months in a year 12x = 0.25x
growth machines[3] (printer): sum one 1x, monthly_interest 0.25x #2 = 1.25x
shrinkage machines[3] (printer): quotient one 1x, growth 1.25x #3 = 0.8x
discount_factor machines[3] (printer): quotient one 1x, growth 1.25x #3 = 0.8x
growth machines[3] (printer): quotient growth 1.25x #3, shrinkage 0.8x #4 = 1.5625x
shrinkage machines[3] (printer): quotient shrinkage 0.8x #4, growth 1.25x #3 = 0.64x
growth machines[3] (printer): quotient growth 1.5625x #6, shrinkage 0.64x #7 = 2.44140625x
shrinkage machines[3] (printer): quotient shrinkage 0.64x #7, growth 1.5625x #6 = 0.4096x
discount_factor machines[3] (printer): quotient discount_factor 0.8x #5, growth 2.44140625x #8 = 0.32768x
capital_recovery machines[3] (printer): quotient machine_loss 672.32 #1, monthly_interest 0.25x #2, discount_factor one_minus 0.32768x #10 = 250.00
interest_on_resale machines[3] (printer): product resale 200.00 @machines[3].resale, monthly_interest 0.25x #2 = 50.00
monthly_payment machines[3] (printer): sum capital_recovery 250.00 #11, interest_on_resale 50.00 #12 = 300.00
machine_value machines[3] (printer): quotient monthly_payment 300.00 #13, prints_per_month 10x @machines[3].prints_per_month = 30.00
machine_per_print machines[3] (printer): sum machine_value 30.00 #14 = 30.00
`},
		"the level payment without interest": {flat, `
machine_loss machines[3] (printer): sum price 1200.00 @machines[3].price, resale minus 240.00 @machines[3].resale = 960.00
prints_in_months machines[3] (printer): product life_months 60x @machines[3].life_months, prints_per_month 40x @machines[3].prints_per_month = 2400x
machine_value machines[3] (printer): quotient machine_loss 960.00 #1, prints_in_months 2400x #2 = 0.40
machine_per_print machines[3] (printer): sum machine_value 0.40 #3 = 0.40
`},
	} {
		trail := quoin.NewTrail(16).On("something else")
		each := c.m.Explain(trail, quoin.InList("machines", 3))
		if got := problemtest.Steps(trail.Steps()); got != strings.TrimPrefix(c.want, "\n") {
			t.Errorf("%s:\n%s\nwant%s", what, got, c.want)
		}
		cost, err := c.m.Cost()
		if a, _ := each.Value.Amount(); err != nil || !cost.PerPrint.Equal(a) || !cost.Value.Add(cost.Service).Equal(a) {
			t.Errorf("%s: %s explained, %s + %s computed, %v", what, a, cost.Value, cost.Service, err)
		}
	}
}

// The parts of a cost, each by itself.
func TestCostInParts(t *testing.T) {
	m := machine.Machine{Price: amount("1200"), LifePrints: factor("4000"), Method: machine.ByUse, Service: []machine.Part{
		{Name: "head", Price: amount("180"), Every: factor("1500")}, {Name: "belt", Price: amount("30"), Every: factor("600")},
	}}
	c, err := m.Cost()
	if err != nil || c.Value.String() != "0.3" || c.Service.String() != "0.17" || c.PerPrint.String() != "0.47" || c.Volume.String() != "4000" { // 0.12 + 0.05
		t.Errorf("%+v, %v", c, err)
	}
	m.Method = machine.CapitalRecovery
	if c, err := m.Cost(); err == nil || c.PerPrint.IsGiven() || c.Volume.IsGiven() {
		t.Errorf("%+v of a life that its method does not take", c)
	}
}

func TestProblems(t *testing.T) {
	for _, c := range []struct {
		m    machine.Machine
		want string
	}{
		{machine.Machine{Price: amount("5.00"), Resale: amount("5.00"), LifeMonths: 1, PrintsPerMonth: factor("1")}, ""},
		{
			machine.Machine{Price: amount("5.00"), Resale: amount("5.01"), Service: []machine.Part{{Name: "belt", Every: factor("1")}, {Name: "head"}}},
			`fault resale: found 5.01, wanted at most the price of 5.00 [resale_above_price]
fault life_months: found nothing, wanted how many months the machine lasts [missing_life]
fault prints_per_month: found nothing, wanted how many prints are expected in a month [missing_life]
fault service[1].every: found nothing, wanted the field every [missing_field]`,
		},
		{
			machine.Machine{Price: amount("5.00"), Method: machine.ByUse},
			"fault life_prints: found nothing, wanted how many prints the machine lasts [missing_life]",
		},
		{
			machine.Machine{Price: amount("5.00"), Method: machine.ByUse, LifePrints: factor("-1"), LifeMonths: -1, PrintsPerMonth: factor("-1")},
			"fault life_prints: found nothing, wanted how many prints the machine lasts [missing_life]",
		},
		{
			machine.Machine{Price: amount("5.00"), Method: machine.CapitalRecovery, LifePrints: factor("900"), LifeMonths: 12, PrintsPerMonth: factor("1")},
			"fault life_prints: found 900 beside capital recovery, wanted a life in months alone [stray_life]",
		},
	} {
		if _, err := c.m.Cost(); problemtest.Full(err) != c.want {
			t.Errorf("got\n%s\nwant\n%s", problemtest.Full(err), c.want)
		}
	}
	var m machine.Method
	for _, word := range []machine.Method{machine.StraightLine, machine.ByUse, machine.CapitalRecovery} {
		if err := m.UnmarshalText([]byte(word)); err != nil || m != word {
			t.Errorf("%s is read as %s, %v", word, m, err)
		}
	}
}
