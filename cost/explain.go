package cost

import "example.com/quoin"

// Codes of the steps that explain a cost.
const (
	StepLanded    quoin.StepCode = "landed_cost"        // price − discount + freight + duty
	StepUnitCost  quoin.StepCode = "unit_cost"          // landed × exchange ÷ quantity
	StepConverted quoin.StepCode = "quantity_converted" // into the unit the supply is bought by
	StepLine      quoin.StepCode = "line_cost"          // unit cost × quantity × starts
	StepOneTest   quoin.StepCode = "one_test"           // what one test print uses up
	StepRunTotal  quoin.StepCode = "run_total"          // one test × tests + setup
	StepRun       quoin.StepCode = "run_per_item"       // run total ÷ good
)

// Explain computes the unit cost of a supply that stands at a path.
func (s Supply) Explain(t *quoin.Trail, at quoin.Path) quoin.Operand {
	amount := func(name string, a quoin.Amount) quoin.Operand {
		return quoin.GivenOr(name, at.Field(name), a.Figure(), !a.IsZero())
	}
	t.On(s.name())
	landed := t.Sum(StepLanded, at,
		quoin.Given("price", at.Field("price"), s.Price.Figure()), amount("discount", s.Discount).Minus(),
		amount("freight", s.Freight), amount("duty", s.Duty))
	return t.Quotient(StepUnitCost, at, landed,
		quoin.GivenOr("exchange", at.Field("exchange"), s.exchange().Figure(), !s.Exchange.IsZero()),
		quoin.Given("quantity", at.Field("quantity"), s.Quantity.Figure()))
}

func (s Supply) name() string {
	if s.Name == "" {
		return s.ID
	}
	return s.Name
}

// Explain computes what the charge's line costs, from its unit cost and, for a
// line with a stage, its starts. It returns the line's quantity as well.
func (c Charge) Explain(t *quoin.Trail, at quoin.Path, unit quoin.Operand, starts ...quoin.Operand) (line, quantity quoin.Operand) {
	t.On(c.Line.Supply)
	quantity = quoin.Given("quantity", at.Field("quantity"), c.Line.Quantity.Figure())
	if from := c.Line.Quantity.Unit(); from != c.Unit.Unit {
		quantity = t.Quotient(StepConverted, at, quantity,
			size("size of "+string(from), from), size("size of "+string(c.Unit.Unit), c.Unit.Unit))
	}
	return t.Product(StepLine, at, append([]quoin.Operand{unit, quantity}, starts...)...), quantity
}

func size(name string, u quoin.Unit) quoin.Operand {
	return quoin.Given(name, quoin.Path{}, u.Size().Figure())
}

// Explain computes what the run adds to each good print, from the unit cost and
// quantity of each line that a test uses up, one after the other.
func (r Run) Explain(t *quoin.Trail, at quoin.Path, used ...quoin.Operand) quoin.Operand {
	t.On("")
	total := quoin.GivenOr("setup", at.Field("setup"), r.Setup.Figure(), !r.Setup.IsZero())
	if len(used) > 0 {
		one := t.Weighted(StepOneTest, at, used...)
		tests := quoin.GivenOr("tests", at.Field("tests"), quoin.FactorOf(r.Tests).Figure(), r.Tests > 0)
		total = t.Weighted(StepRunTotal, at, one, tests, total, quoin.Given("one", quoin.Path{}, quoin.FactorOf(1).Figure()))
	}
	return t.Quotient(StepRun, at, total, quoin.Given("good", at.Field("good"), quoin.FactorOf(r.Good).Figure()))
}

// UsedByTest reports whether a test print uses the line up, where first is the
// first stage.
func (l Line) UsedByTest(first string) bool {
	return l.Stage == first && l.countedBy() == quoin.PerItem
}

// ForOrder reports whether the line is counted once for each order.
func (l Line) ForOrder() bool { return l.countedBy() == quoin.PerOrder }
