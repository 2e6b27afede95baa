package channel

import (
	"example.com/quoin"
	"example.com/quoin/channel/promo"
)

// Others is what else lies in an order besides the product, on average: frames, cards, other
// prints. The whole order is what thresholds, bounds and tiers see. Of what is paid once for an
// order, such as postage or a fixed fee, the items of the product bear their share by count: 1
// print beside 1 frame bears half.
type Others struct {
	// How many other items lie in the order on average; a fraction can be an average.
	Items quoin.Factor `json:"items" need:"yes" range:"(0,"`
	// What the buyer pays for all of them, in the currency that buyers pay in; with the tax in it
	// where prices hold the tax.
	Worth quoin.Amount `json:"worth" need:"yes" range:"[0,"`
	// Their class of tax, for which a channel or an order gives a rate; where it is not given, they
	// are taxed as the product is.
	TaxClass string `json:"tax_class,omitempty"`
	// What all of them weigh; needed where the channel goes by a tariff, and nowhere else. In each
	// parcel of the order lies the same of it beside each print.
	Mass quoin.Quantity `json:"mass,omitzero" range:"(0," dim:"mass"`
}

// OfOrder returns what the items of the product bear of an amount that is paid once for the
// order: all of it, or with other items in the order their share by count. With 1 item and 1
// other, it is 3.10 of postage of 6.20.
func (o Order) OfOrder(a quoin.Amount) quoin.Amount {
	if o.Others == nil || a.IsZero() {
		return a
	}
	own := quoin.FactorOf(o.ItemsOr1())
	return a.Times(own).Over(own.Add(o.Others.Items))
}

// AllItems returns how many items lie in the order, those of others too.
func (o Order) AllItems() quoin.Factor {
	n := quoin.FactorOf(o.ItemsOr1())
	if o.Others != nil {
		n = n.Add(o.Others.Items)
	}
	return n
}

// ExplainOfOrder explains OfOrder. The order stands at a path, and holds count items of the
// product.
func (o Order) ExplainOfOrder(t *quoin.Trail, at quoin.Path, a, count quoin.Operand) quoin.Operand {
	if o.Others == nil {
		return a
	}
	return t.Quotient(StepOwnShare, at, a, count, o.explainAll(t, at, count))
}

func (o Order) explainAll(t *quoin.Trail, at quoin.Path, count quoin.Operand) quoin.Operand {
	others := quoin.Given("other items", at.Inside("others").Field("items"), o.Others.Items.Figure())
	return t.Sum(StepAllItems, at, count, others)
}

// worth is what the buyer pays for others.
func (k *kind) worth() (a quoin.Amount) {
	if k.Others != nil {
		a = k.Others.Worth
	}
	return a
}

// beside gives the offers that a kind of order takes as they are for its own items: of an amount
// they get their share, and a threshold is reached that much sooner.
func (k *kind) beside() {
	if k.Others == nil {
		return
	}
	for i := range k.offers {
		o := &k.offers[i].Offer
		o.Amount, o.From = k.OfOrder(o.Amount), o.From.Sub(k.Others.Worth)
	}
}

func (e *order) worth() quoin.Operand {
	return quoin.Given("worth of others", e.place.Inside("others").Field("worth"), e.k.Others.Worth.Figure())
}

// ownOf is what own items bear of what is paid once for the order.
func (e *order) ownOf(a, count quoin.Operand) quoin.Operand {
	return e.k.ExplainOfOrder(e.Trail, e.place, a, count)
}

// whole is what the order comes to with others, where it has any.
func (e *order) whole(items quoin.Operand) quoin.Operand {
	if e.k.Others == nil {
		return items
	}
	return e.Sum(StepWholeOrder, e.place, items, e.worth())
}

// leftBeside is left, of an order with others.
func (e *order) leftBeside(gross quoin.Operand, s *sale, from, to int) quoin.Operand {
	left := gross
	for n := from; n < to; n++ {
		o, at := e.k.offers[n].Offer, e.k.offers[n].at(e.at)
		tested := left
		if o.Test == promo.Before {
			tested = gross
		}
		if amountOf(tested).Cmp(o.From) < 0 {
			continue
		}
		if o.From = (quoin.Amount{}); o.Amount.IsZero() || !o.Rate.IsZero() {
			left = promo.Explain(e.Trail, func(int) quoin.Path { return at }, left, s.unit, s.count, []promo.Offer{o}, e.places)
			continue
		}
		amount := quoin.Given("amount", at.Field("amount"), e.c.Promotions[e.k.offers[n].index].Amount.Figure())
		off := e.Rounded(e.places, o.Rounding, e.Least(promo.StepOff, at, e.ownOf(amount, s.count), left))
		left = e.Sum(promo.StepLeft, at, left, off.Minus())
	}
	return left
}

// others is what the buyer pays for the others of an order, in parts, where shipping of all is
// as given, and own what own items bear of it. Where goods have several rates, tax is the rest of
// the tax of shipping.
func (e *order) others(shipping, own, tax quoin.Operand) *paid {
	p := &paid{items: e.worth(), discount: zero("discount of others"), tax: zero("tax on top"), shippingTax: tax}
	p.unreduced, p.full, p.shipping = p.items, p.items, e.Sum(StepOthersShipping, e.place, shipping, own.Minus())
	if !e.taxed.InPrice {
		p.tax = e.ofOthers().tax(&sale{paid: *p})
	}
	return p
}

// ofOthers is the order as one that holds the others alone: one line, whatever their number, that
// is taxed at their rate.
func (e *order) ofOthers() *order {
	k, t, o := *e.k, *e.taxed, *e
	k.class, k.tax, k.parts = k.othersClass(), k.othersRate, nil
	t.Per = ""
	o.k, o.taxed, o.besides = &k, &t, nil
	return &o
}

// ownFee is what own items bear of a fee on the whole order, before it is rounded: its rate of
// their own base, and of what it has beside its rate of the whole base their share by count. It
// is never below 0, and never more than the whole fee.
func (e *order) ownFee(l *compiledFee, at quoin.Path, base, whole, charge, count, own, over quoin.Operand) quoin.Operand {
	rate := e.slope(l, at, whole, count)
	if amountOf(charge).IsZero() {
		return charge
	}
	rated := append(make([]quoin.Operand, 0, 3), base, rate)
	if !l.OrdersTogether.IsZero() {
		rated = append(rated, over)
	}
	rest := e.Sum(StepBesideRate, at, charge, e.Product(StepWholeRated, at, whole, rate).Minus())
	part := e.Sum(StepOwnFee, at, e.Product(StepOwnRated, at, rated...), e.Quotient(StepOwnShare, at, rest, own, count))
	part = e.Greatest(StepOwnFee, at, part, zero("nothing"))
	return e.Least(StepOwnFee, at, part, charge)
}

// slope is the rate that the fee takes of the last of its base.
func (e *order) slope(l *compiledFee, at quoin.Path, base, count quoin.Operand) quoin.Operand {
	if len(l.Tiers) == 0 {
		return e.because(l.rate, at, e.rate("rate", at, l.Rate))
	}
	last := l.reached(amountOf(base), count.Value.Factor())
	if last < 0 {
		return quoin.Given("rate below every tier", quoin.Path{}, quoin.Rate{}.Figure())
	}
	return e.tierRate(l, at, last)
}
