package refund

import (
	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Settlement is what one refund costs. Payments are rounded to money; the worth of goods is
// not.
type Settlement struct {
	// What is paid back of the items.
	Items quoin.Amount `json:"items"`
	// What is paid back of the shipping.
	Shipping quoin.Amount `json:"shipping"`
	// What is paid back of the surcharge, with its tax.
	Surcharge quoin.Amount `json:"surcharge,omitzero"`
	// What is paid back of the tax on top.
	Tax quoin.Amount `json:"tax"`
	// What is kept back of these because the kept items no longer reach the code of the order, or
	// its free postage; negative where a later refund gives it back after all.
	Lapsed quoin.Amount `json:"lapsed,omitzero"`
	// All that is paid back: items, shipping, surcharge and tax, less what lapsed.
	Total quoin.Amount `json:"total"`
	// Tax that was in the prices, or in the surcharge, and is no longer owed.
	TaxBack quoin.Amount `json:"tax_back"`
	// What comes back of the fees.
	FeesBack quoin.Amount `json:"fees_back"`
	// What does not come back of the fees that fell on what is paid back; refund by refund it
	// can be a cent or so out either way, which the next one evens out.
	FeesKept quoin.Amount `json:"fees_kept"`
	// What the goods are worth that can be sold again.
	GoodsBack quoin.Amount `json:"goods_back"`
	// What the return costs.
	Postage quoin.Amount `json:"postage"`
	// What a dispute costs.
	Dispute quoin.Amount `json:"dispute"`
	// What the refund changes for the shop: − total + tax + tax back + fees back + goods back −
	// postage − dispute. Tax on top that is paid back is tax no longer owed, so it costs
	// nothing. Fees kept are no part of it: they were paid with the sale.
	Result quoin.Amount `json:"result"`
}

// Refund settles one more refund. The part of the price is rounded to money for each entry of
// its lines, halves away from zero. Tax, fees returned and fees kept are rounded on everything
// that was given back so far, fee by fee, less what was computed before. So a refund in two
// pieces equals one refund, except for the rounding of parts, and for a code or free postage that
// lapses with the second piece: what was paid back before stays with the buyer. The error is Problems, with paths
// that begin with order or refund: the order or an earlier refund is not possible, more items
// are given back than are left, shipping or the surcharge is given back twice, or a number is negative.
func (o Order) Refund(b Refund) (Settlement, error) {
	var k form.Collector
	o.check(&k, form.In("order")).back(form.In("refund"), b)
	if err := k.All().Err(); err != nil {
		return Settlement{}, err
	}
	before, all := o.back(o.Returned), o.back(append(o.Returned[:len(o.Returned):len(o.Returned)], b))
	s := Settlement{
		Items: all.Items.Sub(before.Items), Shipping: all.Shipping.Sub(before.Shipping), Tax: all.Tax.Sub(before.Tax), Total: all.Total.Sub(before.Total),
		Lapsed: all.Lapsed.Sub(before.Lapsed), Surcharge: all.Surcharge.Sub(before.Surcharge),
		TaxBack: all.TaxBack.Sub(before.TaxBack), FeesBack: all.FeesBack.Sub(before.FeesBack), FeesKept: all.FeesKept.Sub(before.FeesKept),
		Postage: b.Postage, Dispute: b.Dispute,
	}
	for _, item := range b.Lines {
		s.GoodsBack = s.GoodsBack.Add(item.Worth.Times(quoin.FactorOf(item.Resold)))
	}
	s.Result = s.Tax.Add(s.TaxBack).Add(s.FeesBack).Add(s.GoodsBack).Sub(s.Total).Sub(s.Postage).Sub(s.Dispute)
	for _, a := range []*quoin.Amount{&s.Lapsed, &s.Surcharge} { // left out where they are 0
		if a.IsZero() {
			*a = quoin.Amount{}
		} else {
			*a = a.WithPlaces(o.Places)
		}
	}
	for _, a := range []*quoin.Amount{&s.Items, &s.Shipping, &s.Tax, &s.Total, &s.TaxBack, &s.FeesBack, &s.FeesKept, &s.GoodsBack, &s.Postage, &s.Dispute, &s.Result} {
		*a = a.WithPlaces(o.Places)
	}
	return s, nil
}

// back is what refunds come to together: what is paid back, with its tax and
// fees.
func (o Order) back(refunds []Refund) Settlement {
	var s Settlement
	var out paidBack
	var surchargeTax quoin.Amount
	gone := make([]int64, len(o.Lines))
	for _, b := range refunds {
		for _, item := range b.Lines {
			s.Items = s.Items.Add(o.items(item, gone[item.Line], b.Part))
			gone[item.Line] += item.Count
		}
		if b.Shipping {
			s.Shipping = o.Shipping
		}
		if b.Surcharge {
			s.Surcharge, surchargeTax = o.Surcharge, o.SurchargeTax
		}
		out = out.after(o, s.Items, s.Shipping, o.lapsesWith(gone))
	}
	s.Lapsed = s.Items.Add(s.Shipping).Sub(out.all)
	s.Tax = o.share(o.Tax, out.taxed, o.taxed(o.paid(), o.Shipping))
	s.TaxBack = o.share(o.TaxIn, out.taxed, o.taxed(o.paid(), o.Shipping)).Add(surchargeTax)
	s.Total = out.all.Add(s.Tax).Add(s.Surcharge)
	paid := o.paid().Add(o.Shipping).Add(o.Surcharge).Add(o.Tax)
	for _, f := range o.Fees {
		back := o.share(f.Amount.Part(f.Returned), s.Total, paid)
		s.FeesBack = s.FeesBack.Add(back)
		s.FeesKept = s.FeesKept.Add(o.share(f.Amount, s.Total, paid)).Sub(back)
	}
	return s
}

// lapsesWith is what lapses where so many items of each line are gone; nothing where none is, or
// all are.
func (o Order) lapsesWith(gone []int64) lapsed {
	kept, some := o.paid(), false
	all := true
	for i, l := range o.Lines {
		kept = kept.Sub(l.first(gone[i], o.Places))
		some, all = some || gone[i] > 0, all && gone[i] == l.Count
	}
	if !some || all {
		return lapsed{}
	}
	return o.lapses(kept)
}

// items is what is paid back for items of a line of which some are gone.
func (o Order) items(item Item, gone int64, part quoin.Optional[quoin.Rate]) quoin.Amount {
	l := o.Lines[item.Line]
	price := l.first(gone+item.Count, o.Places).Sub(l.first(gone, o.Places))
	if share, given := part.Get(); given {
		return price.Part(share).Round(o.Places, quoin.HalfUp)
	}
	return price
}

// paid is what was paid for all lines.
func (o Order) paid() quoin.Amount {
	var sum quoin.Amount
	for _, l := range o.Lines {
		sum = sum.Add(l.Paid)
	}
	return sum
}

// taxed is the part of items and shipping that tax is on.
func (o Order) taxed(items, shipping quoin.Amount) quoin.Amount {
	if o.OnShipping {
		return items.Add(shipping)
	}
	return items
}

// share is what belongs to a part of the whole, rounded to money.
func (o Order) share(a, part, whole quoin.Amount) quoin.Amount {
	if whole.Sign() <= 0 {
		return quoin.Amount{}
	}
	one := quoin.AmountOf(1, 0)
	return a.Times(part.Ratio(one)).Over(whole.Ratio(one)).Round(o.Places, quoin.HalfUp)
}
