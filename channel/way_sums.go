package channel

import "example.com/quoin"

func (e *order) factor(name string, at quoin.Path, n int64) quoin.Operand {
	return quoin.GivenOr(name, at.Field(name), quoin.FactorOf(n).Figure(), n != 0)
}

// carries explains money × days ÷ 365.
func (e *order) carries(at quoin.Path, money quoin.Rate, days quoin.Operand) quoin.Operand {
	return e.Quotient(StepCarrying, at, quoin.Given("money", at.Field("interest"), money.Figure()), days, quoin.FactorOf(365).Named("days in a year"))
}

func (c Credit) explainCarries(e *order, at quoin.Path) quoin.Operand {
	days := e.factor("days", at, c.Days)
	if !c.Early.IsZero() {
		taken := quoin.GivenOr("taken", at.Field("taken"), c.Taken.Or(whole).Figure(), !c.Taken.IsZero())
		early := e.Product(StepWaits, at, e.factor("early_days", at, c.EarlyDays), taken)
		late := e.Product(StepWaits, at, days, taken.OneMinus())
		days = e.Sum(StepWaits, at, early, late)
	}
	return e.carries(at, c.Interest, days)
}

// explainTakes explains the shop's share.
func (w *Consignment) explainTakes(e *order, at quoin.Path) quoin.Operand {
	if on, given := w.OnMaker.Get(); given {
		markup := quoin.Given("on maker", at.Field("on_maker"), on.Figure())
		return e.Quotient(StepTakes, at, markup, markup.OnePlus())
	}
	return quoin.Given("commission", at.Field("commission"), w.Takes().Figure())
}

func (w *Consignment) explainWaiting(e *order, at quoin.Path) quoin.Operand {
	carries := e.carries(at, w.Interest, e.factor("days", at, w.Days))
	return e.Product(StepCarrying, at, carries, w.explainTakes(e, at).OneMinus())
}

// explainShare explains the share of orders that are sold at the discount, or
// that are not.
func (w *Consignment) explainShare(form quoin.Form) reason {
	return func(e *order, _ quoin.Path) quoin.Operand {
		at := e.at.Sub("consignment", -1).Inside("discount")
		off := quoin.GivenOr("discounted", at.Field("share"), w.Discount.Share.Or(whole).Figure(), !w.Discount.Share.IsZero())
		off.Form = form
		return e.Product(StepShare, e.place, e.share(), off).Named("share")
	}
}

// channelTax is the tax rate of the channel, on a fee.
func (e *order) channelTax(quoin.Path) quoin.Operand { return e.serviceRate().Named("tax") }

func (w *OnDemand) explainKeeps(e *order, at quoin.Path) quoin.Operand {
	rate := quoin.GivenOr("rate", at.Field("rate"), w.Rate.Figure(), !w.Rate.IsZero())
	return e.Sum(StepKeeps, at, quoin.FactorOf(1).Named("one"), rate.Minus())
}

// stays explains the share of a fee that refunds do not bring back; of what goes
// back with the price, all that is not given back.
func (e *order) stays(withPrice bool) quoin.Operand {
	at, r := e.at.Sub("returns", -1), e.c.Returns
	if withPrice {
		return e.Sum(StepStays, at, quoin.FactorOf(1).Named("one"), r.ExplainShare(e.Trail, at).Minus())
	}
	back := e.Product(StepReturned, at,
		quoin.Given("returned", at.Field("returned"), r.Returned.Figure()),
		quoin.GivenOr("part", at.Field("part"), r.Part.Or(whole).Figure(), !r.Part.IsZero()),
		quoin.Given("fees", at.Field("fees"), r.Fees.Figure()))
	return e.Sum(StepStays, at, quoin.FactorOf(1).Named("one"), back.Minus())
}

// ExplainLost explains Lost. The channel stands at a path.
func (c Channel) ExplainLost(t *quoin.Trail, at quoin.Path) quoin.Operand {
	loss := quoin.GivenOr("loss", at.Field("lost_parcels"), c.LostParcels.Figure(), !c.LostParcels.IsZero())
	if c.Consignment == nil || c.Consignment.LostPieces.IsZero() {
		return loss
	}
	shop := quoin.Given("loss", at.Sub("consignment", -1).Field("lost_pieces"), c.Consignment.LostPieces.Figure())
	t.On("")
	kept := t.Product(StepSurvives, at, quoin.FactorOf(1).Named("one"), loss.OneMinus(), shop.OneMinus())
	return t.Sum(StepLost, at, quoin.FactorOf(1).Named("one"), kept.Minus()).Named("loss")
}

// ExplainPrints explains what Prints returns. The channel stands at a path.
func (c Channel) ExplainPrints(t *quoin.Trail, at quoin.Path) quoin.Operand {
	base, _ := c.Prints()
	if base.IsZero() {
		return zero("base")
	}
	s, place := c.OnDemand.size(c.Product)
	given := quoin.Given("base", at.Sub("on_demand", -1).Sub("sizes", place).Field("base"), s.Base.Figure())
	if c.ForeignCurrency == nil {
		return given
	}
	return t.On("").Product(StepHome, at, given, quoin.Given("rate", at.Sub("foreign_currency", -1).Field("rate"), c.Home().Figure()))
}
