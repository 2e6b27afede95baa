package edition

import (
	"cmp"

	"example.com/quoin"
)

// Codes of the steps that explain an edition.
const (
	StepPrice   quoin.StepCode = "edition_step_price"   // list price × times, before it is brought to one that can be asked
	StepLast    quoin.StepCode = "edition_last_sold"    // size − destroyed − kept
	StepStart   quoin.StepCode = "edition_step_start"   // the greater of the step's sold and what is sold
	StepEnd     quoin.StepCode = "edition_step_end"     // the lesser of the next step's sold and the last
	StepBetween quoin.StepCode = "edition_step_between" // end − start
	StepCount   quoin.StepCode = "edition_step_count"   // that, at least 0
	StepGross   quoin.StepCode = "edition_gross"        // Σ count × price
	StepKept    quoin.StepCode = "edition_kept"         // Σ count × what is left of the price
	StepPace    quoin.StepCode = "edition_step_months"  // count ÷ pace
	StepMonths  quoin.StepCode = "edition_months"       // of all steps
)

// Explain computes the price of a step from the list price, before it is raised to one that can
// be asked.
func (s PriceStep) Explain(t *quoin.Trail, at quoin.Path, list quoin.Operand) quoin.Operand {
	if own, given := s.Price.Get(); given {
		return t.Given("price", at.Field("price"), own.Figure())
	}
	return t.Product(StepPrice, at, list, t.Given("times", at.Field("times"), s.Times.Figure()))
}

// Explain computes, step by step, what Expected says that the prints of a tally will bring:
// what is kept of their prices, or the prices themselves if kept is nil. The steps are those of
// the Ladder of the tally. The edition stands at the path. Prices, and what is kept of them,
// are taken as given.
func (e Edition) Explain(t *quoin.Trail, at quoin.Path, of Tally, steps []PricedStep, kept func(price quoin.Amount) quoin.Amount) quoin.Operand {
	x := e.explainer(t, at, of)
	return x.proceeds(x.counts(steps), steps, kept)
}

// ExplainMonths computes, step by step, how long it takes to sell the prints that are left. It
// returns false if a step with prints left has no pace.
func (e Edition) ExplainMonths(t *quoin.Trail, at quoin.Path, of Tally, steps []PricedStep) (quoin.Operand, bool) {
	for _, s := range steps {
		if _, known := s.months(s.Count); !known {
			return quoin.Operand{}, false
		}
	}
	x := e.explainer(t, at, of)
	months := []quoin.Operand{quoin.FactorOf(0).Named("none left")}
	for i, count := range x.counts(steps) {
		if steps[i].Count > 0 {
			months = append(months, t.Quotient(StepPace, x.step(i), count.Named("count"), x.pace(i, steps[i])))
		}
	}
	return t.Sum(StepMonths, at, months[min(1, len(months)-1):]...), true
}

type explainer struct {
	*quoin.Trail
	e  Edition
	of Tally
	at quoin.Path
}

func (e Edition) explainer(t *quoin.Trail, at quoin.Path, of Tally) explainer {
	return explainer{t.On(cmp.Or(e.Name, e.ID)), e, of, at}
}

// step is where a step stands; the edition itself where it has none.
func (x explainer) step(i int) quoin.Path {
	if len(x.e.Steps) == 0 {
		return x.at
	}
	return x.at.Sub("steps", i)
}

// tallied is a figure of the tally, which is counted in the ledger where there is one.
func (x explainer) tallied(name string, n int64) quoin.Operand {
	if len(x.e.Ledger) > 0 {
		return quoin.FactorOf(n).Named(name)
	}
	at := x.at.Field("ledger")
	if name == "sold" {
		at = x.at.Field("sold")
	}
	return quoin.GivenOr(name, at, quoin.FactorOf(n).Figure(), n > 0)
}

// counts follows Ladder: how many are left to sell at each step.
func (x explainer) counts(steps []PricedStep) []quoin.Operand {
	sold := x.tallied("sold", x.of.Sold)
	last := x.Sum(StepLast, x.at, x.Given("size", x.at.Field("size"), quoin.FactorOf(x.of.Of).Figure()),
		x.tallied("destroyed", x.of.Destroyed).Minus(), x.tallied("kept", x.of.Kept).Minus())
	out := make([]quoin.Operand, len(steps))
	for i := range steps {
		end := last
		if i+1 < len(steps) {
			end = x.Least(StepEnd, x.step(i), x.from(i+1, steps), last)
		}
		start := sold
		if len(x.e.Steps) > 0 {
			start = x.Greatest(StepStart, x.step(i), x.from(i, steps), sold)
		}
		between := x.Sum(StepBetween, x.step(i), end.Named("end"), start.Named("start").Minus())
		out[i] = x.Greatest(StepCount, x.step(i), quoin.FactorOf(0).Named("none"), between)
	}
	return out
}

func (x explainer) from(i int, steps []PricedStep) quoin.Operand {
	return x.Given("sold", x.step(i).Field("sold"), quoin.FactorOf(steps[i].From-1).Figure())
}

func (x explainer) proceeds(counts []quoin.Operand, steps []PricedStep, kept func(quoin.Amount) quoin.Amount) quoin.Operand {
	code, name := StepKept, "kept"
	if kept == nil {
		code, name = StepGross, "price"
	}
	var pairs []quoin.Operand
	for i, s := range steps {
		pairs = append(pairs, counts[i].Named("count"), quoin.Given(name, quoin.Path{}, left(s, kept).Figure()))
	}
	if len(pairs) == 0 {
		pairs = []quoin.Operand{quoin.FactorOf(0).Named("count"), quoin.Given("price", quoin.Path{}, quoin.Amount{}.Figure())}
	}
	return x.Weighted(code, x.at, pairs...)
}

// pace is that of a step, or the edition's where the step does not say it.
func (x explainer) pace(i int, s PricedStep) quoin.Operand {
	at := x.at
	if i < len(x.e.Steps) && x.e.Steps[i].PerMonth.Sign() > 0 {
		at = x.step(i)
	}
	return x.Given("per_month", at.Field("per_month"), s.PerMonth.Figure())
}
