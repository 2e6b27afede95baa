package buy

import "example.com/quoin"

// Codes of the steps that explain what is bought.
const (
	StepScale  quoin.StepCode = "scale_goods" // each × how many at it, of each step reached
	StepBought quoin.StepCode = "scale_cost"  // goods + freight, where it is not free
	StepStock  quoin.StepCode = "stock_unit"  // value ÷ quantity in stock
	StepHeld   quoin.StepCode = "packs_held"  // pack × packs bought
)

// Explain computes what a quantity costs with freight, step by step. Check must accept the
// scale.
func (s Scale) Explain(t *quoin.Trail, at quoin.Path, quantity int64) quoin.Operand {
	var pairs []quoin.Operand
	for i, p := range s.Steps {
		last := i == len(s.Steps)-1 || quantity < s.Steps[i+1].From
		each := quoin.Given("each", at.Sub("steps", i).Field("each"), p.Each.Figure())
		switch {
		case s.Mode != Incremental && last:
			pairs = []quoin.Operand{each, quoin.FactorOf(quantity).Named("quantity")}
		case s.Mode == Incremental && last:
			pairs = append(pairs, each, quoin.FactorOf(quantity-p.From+1).Named("from here"))
		case s.Mode == Incremental:
			pairs = append(pairs, each, quoin.FactorOf(s.Steps[i+1].From-p.From).Named("up to the next"))
		}
		if last {
			break
		}
	}
	goods := t.Weighted(StepScale, at, pairs...)
	if free, given := s.FreeFrom.Get(); given && s.Goods(quantity).Cmp(free) >= 0 {
		return goods
	}
	return t.Sum(StepBought, at, goods, quoin.GivenOr("freight", at.Field("freight"), s.Freight.Figure(), !s.Freight.IsZero()))
}

// Explain computes what an order of the offer costs and how much it holds, step by step.
func (o Offer) Explain(t *quoin.Trail, at quoin.Path, order Order) (price, quantity quoin.Operand) {
	price = o.Scale.Explain(t, at.Inside("scale"), order.Quantity)
	return price, t.Product(StepHeld, at, quoin.Given("pack", at.Field("pack"), o.Pack.Figure()), quoin.FactorOf(order.Quantity).Named("bought"))
}

// Explain computes what a unit in stock costs, step by step: for the average, value ÷ quantity;
// else the figure of its basis.
func (s Stock) Explain(t *quoin.Trail, at quoin.Path, now StockLevel) quoin.Operand {
	if s.Basis == Average {
		return t.Quotient(StepStock, at, quoin.Given("value", quoin.Path{}, now.Value.Figure()), quoin.Given("in stock", quoin.Path{}, now.Quantity.Figure()))
	}
	return t.Quotient(StepStock, at, quoin.Given(string(s.Basis), quoin.Path{}, now.Unit.Figure()), quoin.FactorOf(1).Named("one"))
}
