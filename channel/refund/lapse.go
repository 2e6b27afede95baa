package refund

import "example.com/quoin"

// Code is a code that an order took. Of each item it took off the same share.
type Code struct {
	// What the items have to come to before it.
	From quoin.Amount `json:"from,omitzero"`
	// What it took off all of them together. The lines say what was paid after it.
	Took quoin.Amount `json:"took"`
}

// FreePostage is postage that the buyer did not pay, because the items came to enough.
type FreePostage struct {
	// What the items have to come to after the code.
	From quoin.Amount `json:"from"`
	// Whether they are compared before the code instead.
	BeforeCode bool `json:"before_code,omitzero"`
	// What the buyer would have paid for shipping otherwise.
	Charge quoin.Amount `json:"charge"`
}

// lapsed is what kept items would have cost more than what was paid for them: without the code,
// and with postage, where they no longer reach either.
type lapsed struct{ code, postage quoin.Amount }

// lapses is what lapses where kept items, of all that are left some, were paid so much.
func (o Order) lapses(kept quoin.Amount) (l lapsed) {
	if !o.Lapse {
		return l
	}
	full := kept
	if o.Code != nil {
		full = kept.Add(o.share(o.Code.Took, kept, o.paid()))
		if full.Cmp(o.Code.From) < 0 {
			l.code = full.Sub(kept)
		}
	}
	if free := o.FreePostage; free != nil {
		tested := kept.Add(l.code)
		if free.BeforeCode {
			tested = full
		}
		if tested.Cmp(free.From) < 0 {
			l.postage = free.Charge
		}
	}
	return l
}

// paidBack is what goes back of items and shipping up to some refund, and the part of it that is
// taxed.
type paidBack struct{ all, taxed quoin.Amount }

// after is what goes back with one refund more: no less than before, since nothing is asked of a
// buyer again.
func (p paidBack) after(o Order, items, shipping quoin.Amount, l lapsed) paidBack {
	most := func(a, b quoin.Amount) quoin.Amount {
		if a.Cmp(b) < 0 {
			return b
		}
		return a
	}
	all := most(items.Add(shipping).Sub(l.code).Sub(l.postage), p.all)
	return paidBack{all, most(o.taxed(items.Sub(l.code), shipping.Sub(l.postage)), p.taxed)}
}
