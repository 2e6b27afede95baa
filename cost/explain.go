package cost

import (
	"cmp"

	"example.com/quoin"
)

// Codes of the steps that explain a cost.
const (
	StepLanded    quoin.StepCode = "landed_cost"        // price − discount + freight + duty
	StepUnitCost  quoin.StepCode = "unit_cost"          // landed × exchange ÷ quantity
	StepConverted quoin.StepCode = "quantity_converted" // into the unit the supply is bought by
	StepBatches   quoin.StepCode = "batches"            // good prints of a run × starts ÷ those of a batch, rounded up
	StepLine      quoin.StepCode = "line_cost"          // unit cost × quantity × starts, or shared by prints
	StepOneTest   quoin.StepCode = "one_test"           // what one test print uses up
	StepRunTotal  quoin.StepCode = "run_total"          // one test × tests + setup
	StepRun       quoin.StepCode = "run_per_item"       // run total ÷ good
)

// Explain computes the unit cost of a supply step by step. The supply stands at the given path.
func (s Supply) Explain(t *quoin.Trail, at quoin.Path) quoin.Operand {
	amount := func(name string, a quoin.Amount) quoin.Operand {
		return quoin.GivenOr(name, at.Field(name), a.Figure(), !a.IsZero())
	}
	t.On(s.name())
	landed := t.Sum(StepLanded, at,
		t.Given("price", at.Field("price"), s.Price.Figure()), amount("discount", s.Discount).Minus(),
		amount("freight", s.Freight), amount("duty", s.Duty))
	return t.Quotient(StepUnitCost, at, landed,
		quoin.GivenOr("exchange", at.Field("exchange"), s.exchange().Figure(), !s.Exchange.IsZero()),
		t.Given("quantity", at.Field("quantity"), s.Quantity.Figure()))
}

func (s Supply) name() string { return cmp.Or(s.Name, s.ID) }

// Explain computes what the line of the charge costs, step by step. It uses what the line's
// driver needs of the unit cost, the starts of the line's stage, and the good prints of the
// run. It also returns the quantity of the line.
func (c Charge) Explain(t *quoin.Trail, at quoin.Path, unit, starts, good quoin.Operand) (line, quantity quoin.Operand) {
	l := c.line()
	t.On(l.Supply)
	quantity = t.Given("quantity", at.Field("quantity"), l.Quantity.Figure())
	if from := l.Quantity.Unit(); from != c.Unit.Unit {
		quantity = t.Quotient(StepConverted, at, quantity,
			from.Size().Named("size of "+string(from)), c.Unit.Unit.Size().Named("size of "+string(c.Unit.Unit)))
	}
	over := t.Given("over", at.Field("shared_by"), l.SharedBy.Figure())
	switch per := l.Per.orItem(); {
	case per == EachRun:
		return t.Quotient(StepLine, at, unit, quantity, good), quantity
	case per == EachBatch && l.Stage != "":
		batches := t.Rounded(0, quoin.Up, t.Quotient(StepBatches, at, good, starts, over))
		return t.Quotient(StepLine, at, unit, quantity, batches, good), quantity
	case per == EachBatch:
		batches := t.Rounded(0, quoin.Up, t.Quotient(StepBatches, at, good, over))
		return t.Quotient(StepLine, at, unit, quantity, batches, good), quantity
	case per.shared():
		return t.Quotient(StepLine, at, unit, quantity, over), quantity
	case l.Stage != "":
		return t.Product(StepLine, at, unit, quantity, starts), quantity
	}
	return t.Product(StepLine, at, unit, quantity), quantity
}

// Explain computes what the run adds to each good print, step by step. Used is the unit cost
// and the quantity of each line that a test uses, in turn.
func (r Run) Explain(t *quoin.Trail, at quoin.Path, used ...quoin.Operand) quoin.Operand {
	t.On("")
	total := quoin.GivenOr("setup", at.Field("setup"), r.Setup.Figure(), !r.Setup.IsZero())
	if len(used) > 0 {
		one := t.Weighted(StepOneTest, at, used...)
		tests := quoin.GivenOr("tests", at.Field("tests"), quoin.FactorOf(r.Tests).Figure(), r.Tests > 0)
		total = t.Weighted(StepRunTotal, at, one, tests, total, quoin.FactorOf(1).Named("one"))
	}
	return t.Quotient(StepRun, at, total, quoin.Given("good", at.Field("good"), quoin.FactorOf(r.Good).Figure()))
}
