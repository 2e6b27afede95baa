package machine

import (
	"cmp"

	"example.com/quoin"
)

// Codes of the steps that explain what a machine adds to a print.
const (
	StepLoss      quoin.StepCode = "machine_loss"       // price − resale
	StepSeen      quoin.StepCode = "prints_in_months"   // months × prints per month
	StepVolume    quoin.StepCode = "machine_volume"     // the lesser of the two lives
	StepMonthly   quoin.StepCode = "monthly_interest"   // interest ÷ 12
	StepGrowth    quoin.StepCode = "growth"             // (1 + i) to a power of two
	StepShrinkage quoin.StepCode = "shrinkage"          // 1 ÷ growth
	StepDiscount  quoin.StepCode = "discount_factor"    // (1 + i) to minus so many months, so far
	StepRecovery  quoin.StepCode = "capital_recovery"   // loss × i ÷ (1 − discount factor)
	StepTiedUp    quoin.StepCode = "interest_on_resale" // resale × i
	StepPayment   quoin.StepCode = "monthly_payment"    // both
	StepValue     quoin.StepCode = "machine_value"      // loss ÷ volume, or payment ÷ prints per month
	StepService   quoin.StepCode = "machine_service"    // price of a part ÷ every so many prints
	StepPerPrint  quoin.StepCode = "machine_per_print"  // value and service
)

// Explain computes what the machine adds to each started print, step by step. Cost must accept
// the machine.
func (m Machine) Explain(t *quoin.Trail, at quoin.Path) quoin.Operand {
	e := explainer{t.On(m.name()), m, at}
	parts := []quoin.Operand{e.value()}
	for i, p := range m.Service {
		parts = append(parts, t.Quotient(StepService, at.Sub("service", i),
			t.Given("price", at.Sub("service", i).Field("price"), p.Price.Figure()), t.Given("every", at.Sub("service", i).Field("every"), p.Every.Figure())))
	}
	return t.Sum(StepPerPrint, at, parts...)
}

func (m Machine) name() string { return cmp.Or(m.Name, m.ID) }

type explainer struct {
	*quoin.Trail
	m  Machine
	at quoin.Path
}

func (e explainer) factor(name string, f quoin.Factor) quoin.Operand {
	return e.Given(name, e.at.Field(name), f.Figure())
}

// value is what the machine loses in value for each print. With interest a month has to
// bring (price − resale) × i ÷ (1 − v) + resale × i, where i is a twelfth of the yearly
// interest and v = (1 + i)^−n (the capital recovery factor of engineering economy).
func (e explainer) value() quoin.Operand {
	resale := quoin.GivenOr("resale", e.at.Field("resale"), e.m.Resale.Figure(), !e.m.Resale.IsZero())
	loss := e.Sum(StepLoss, e.at, e.Given("price", e.at.Field("price"), e.m.Price.Figure()), resale.Minus())
	if !e.m.level() {
		return e.Quotient(StepValue, e.at, loss, e.volume())
	}
	perMonth := e.factor("prints_per_month", e.m.PrintsPerMonth)
	i := e.Quotient(StepMonthly, e.at, e.Given("interest", e.at.Field("interest"), e.m.Interest.Figure()), quoin.FactorOf(12).Named("months in a year"))
	recovery := e.Quotient(StepRecovery, e.at, loss, i, e.discount(i).OneMinus())
	payment := e.Sum(StepPayment, e.at, recovery, e.Product(StepTiedUp, e.at, resale, i))
	return e.Quotient(StepValue, e.at, payment, perMonth)
}

// volume is how many prints the loss in value is spread over.
func (e explainer) volume() quoin.Operand {
	prints := e.factor("life_prints", e.m.LifePrints)
	if e.m.Method == ByUse {
		return prints
	}
	seen := e.Product(StepSeen, e.at, e.factor("life_months", quoin.FactorOf(e.m.LifeMonths)), e.factor("prints_per_month", e.m.PrintsPerMonth))
	if e.m.LifePrints.Sign() <= 0 {
		return seen
	}
	return e.Least(StepVolume, e.at, prints, seen)
}

// discount is (1 + i)^−n by squaring. All products are written as quotients by the
// inverse, u = 1 ÷ v beside v, which keeps them to 34 digits.
func (e explainer) discount(i quoin.Operand) quoin.Operand {
	one := quoin.FactorOf(1).Named("one")
	u := e.Sum(StepGrowth, e.at, one, i)
	out, v := one, e.Quotient(StepShrinkage, e.at, one, u)
	for n := e.m.LifeMonths; n > 0; n /= 2 {
		if n%2 == 1 {
			out = e.Quotient(StepDiscount, e.at, out, u)
		}
		if n > 1 {
			u, v = e.Quotient(StepGrowth, e.at, u, v), e.Quotient(StepShrinkage, e.at, v, u)
		}
	}
	return out
}
