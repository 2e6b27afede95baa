package promo

import "example.com/quoin"

// Codes of the steps that explain what offers take off the items of one line.
// They stand at the offer.
const (
	StepOff       quoin.StepCode = "offer_off"        // what it takes off, rounded to money
	StepMultiples quoin.StepCode = "offer_multiples"  // count ÷ buy, rounded down
	StepFree      quoin.StepCode = "offer_free_items" // multiples × free
	StepAtSale    quoin.StepCode = "offer_at_sale"    // sale × count
	StepLeft      quoin.StepCode = "offer_left"       // what the items come to after it
)

// Explain computes what count items of one line at a unit price come to after all offers, step
// by step: gross less what OnOne takes off in turn. The offers must apply to the line and be
// checked. Gross is money, count a whole number. An offer that takes nothing off makes no step.
// If none takes anything off, gross itself is returned. The caller leaves out offers that
// cannot be used together. Later steps have no subject.
func Explain(t *quoin.Trail, at func(offer int) quoin.Path, gross, unit, count quoin.Operand, offers []Offer, places int) quoin.Operand {
	e := explainer{t, count, places}
	before, price, n := money(gross), money(unit), count.Value.Rat().Num().Int64()
	left := gross
	for i, o := range offers {
		if o.OnOne(money(left), before, price, n, places).Sign() == 0 {
			continue
		}
		t.On(o.name())
		left = t.Sum(StepLeft, at(i), left, e.off(o, at(i), left).Minus())
	}
	t.On("")
	return left
}

func money(o quoin.Operand) quoin.Amount {
	a, _ := o.Value.Amount()
	return a
}

type explainer struct {
	*quoin.Trail
	count  quoin.Operand
	places int
}

// off follows OnOne for an offer that takes something off.
func (e explainer) off(o Offer, at quoin.Path, left quoin.Operand) quoin.Operand {
	var off quoin.Operand
	switch o.kind() {
	case rateOff:
		off = e.Product(StepOff, at, left, e.Given("rate", at.Field("rate"), o.Rate.Figure()))
	case amountOff:
		off = e.Least(StepOff, at, e.Given("amount", at.Field("amount"), o.Amount.Figure()), left)
	case multiBuy:
		buy := e.Given("buy", at.Field("buy"), quoin.FactorOf(o.Buy).Figure())
		multiples := e.Rounded(0, quoin.Down, e.Quotient(StepMultiples, at, e.count, buy))
		free := e.Product(StepFree, at, multiples, e.Given("free", at.Field("free"), quoin.FactorOf(o.Free).Figure()))
		off = e.Quotient(StepOff, at, left, free, e.count)
	case salePrice:
		sale := e.Given("sale", at.Field("sale"), o.Sale.Or(quoin.Amount{}).Figure())
		off = e.Sum(StepOff, at, left, e.Product(StepAtSale, at, sale, e.count).Minus())
	}
	return e.Rounded(e.places, o.Rounding, off)
}
