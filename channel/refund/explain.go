package refund

import "example.com/quoin"

// Codes of the steps that explain what refunds come to on average. They stand
// at the rates.
const (
	StepShare      quoin.StepCode = "refund_share"        // returned × part + disputed × lost
	StepPostage    quoin.StepCode = "refund_postage"      // postage ÷ the rate of the channel's currency
	StepPerOrder   quoin.StepCode = "refund_per_order"    // returned × postage + disputed × fee
	StepBackOnSale quoin.StepCode = "refund_back_on_sale" // returned × resold
)

// ExplainShare computes Share, as a plain number.
func (r Rates) ExplainShare(t *quoin.Trail, at quoin.Path) quoin.Operand {
	_, part := r.Part.Get()
	_, lost := r.Lost.Get()
	return t.Weighted(StepShare, at,
		r.returned(t, at), quoin.GivenOr("part", at.Field("part"), r.part().Figure(), part),
		r.disputed(at), quoin.GivenOr("lost", at.Field("lost"), r.lost().Figure(), lost))
}

// ExplainPerOrder computes PerOrder.
func (r Rates) ExplainPerOrder(t *quoin.Trail, at quoin.Path) quoin.Operand {
	return r.explainPerOrder(t, at, r.postage(at))
}

// ExplainPerOrderAbroad computes PerOrder of Abroad, with what one unit of the
// currency is in the shop's.
func (r Rates) ExplainPerOrderAbroad(t *quoin.Trail, at quoin.Path, home quoin.Operand) quoin.Operand {
	if r.Postage.IsZero() {
		return r.ExplainPerOrder(t, at)
	}
	return r.explainPerOrder(t, at, t.Quotient(StepPostage, at, r.postage(at), home))
}

func (r Rates) postage(at quoin.Path) quoin.Operand {
	return quoin.GivenOr("postage", at.Field("postage"), r.Postage.Figure(), !r.Postage.IsZero())
}

func (r Rates) explainPerOrder(t *quoin.Trail, at quoin.Path, postage quoin.Operand) quoin.Operand {
	return t.Weighted(StepPerOrder, at,
		r.returned(t, at), postage,
		r.disputed(at), quoin.GivenOr("fee", at.Field("fee"), r.Fee.Figure(), !r.Fee.IsZero()))
}

// ExplainBackOnSale computes BackOnSale, as a plain number.
func (r Rates) ExplainBackOnSale(t *quoin.Trail, at quoin.Path) quoin.Operand {
	return t.Product(StepBackOnSale, at,
		r.returned(t, at), quoin.GivenOr("resold", at.Field("resold"), r.Resold.Figure(), !r.Resold.IsZero()))
}

func (r Rates) returned(t *quoin.Trail, at quoin.Path) quoin.Operand {
	return t.Given("returned", at.Field("returned"), r.Returned.Figure())
}

func (r Rates) disputed(at quoin.Path) quoin.Operand {
	return quoin.GivenOr("disputed", at.Field("disputed"), r.Disputed.Figure(), !r.Disputed.IsZero())
}
