package refund

import (
	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Rates is what happens after the sale, on average.
type Rates struct {
	// Share of orders that are returned for a refund.
	Returned quoin.Rate `json:"returned" need:"yes" range:"[0,1]"`
	// Share of the price that is given back; all of it where it is not given.
	Part quoin.Optional[quoin.Rate] `json:"part,omitzero" range:"[0,1]"`
	// Whether shipping is given back too.
	Shipping bool `json:"shipping,omitzero"`
	// Whether a surcharge, such as for paying by card, is given back too.
	Surcharge bool `json:"surcharge,omitzero"`
	// What the postage of a return costs the shop, where it pays it; in its own currency also
	// where the channel sells in another.
	Postage quoin.Amount `json:"postage,omitzero" range:"[0,"`
	// Share of the returned that can be sold again.
	Resold quoin.Rate `json:"resold,omitzero" range:"[0,1]"`
	// Share of the channel's fees with a rate or tiers that comes back with a refund.
	Fees quoin.Rate `json:"fees,omitzero" range:"[0,1]"`
	// Share of orders that are disputed.
	Disputed quoin.Rate `json:"disputed,omitzero" range:"[0,1]"`
	// Share of the disputes that are lost, and with them all that was paid; all of them where it
	// is not given.
	Lost quoin.Optional[quoin.Rate] `json:"lost,omitzero" range:"[0,1]"`
	// What each dispute costs, lost or not, in the currency that buyers pay in.
	Fee quoin.Amount `json:"fee,omitzero" range:"[0,"`
}

// ShareTooBig is the code of rates by which more goes back than was paid.
const ShareTooBig quoin.Code = "refunds_above_all"

// Check returns everything that is wrong with the rates, as Problems: shares out of the range
// of their field. If there are none, it also looks for a Share above 100%, because no more can
// go back than was paid.
func (r Rates) Check() error {
	if ps := form.Check(r).All(); len(ps) > 0 {
		return ps
	}
	if r.Share().Complement().Sign() >= 0 {
		return nil
	}
	return quoin.Problems{{
		Code: ShareTooBig, Severity: quoin.Fault, Path: "returned",
		Found: r.Share().String() + " given back by returns and lost disputes", Wanted: "at most 100%",
	}}
}

// Share returns the share of the buyers' payments for items that goes back on average: returned
// × part + disputed × lost, exactly. 4% returned in full and 1% disputed of which 60% are lost
// is 4.6%.
func (r Rates) Share() quoin.Rate { return r.Returned.Of(r.part()).Add(r.Disputed.Of(r.lost())) }

// PerOrder returns what returns and disputes cost for an average order, besides the refunds:
// returned × postage + disputed × fee, exactly.
func (r Rates) PerOrder() quoin.Amount { return r.Postage.Part(r.Returned).Add(r.Fee.Part(r.Disputed)) }

// Abroad returns the rates with the postage of a return divided by home, the price of one unit
// of the buyers' currency in the shop's. If home is 0, nothing changes.
func (r Rates) Abroad(home quoin.Factor) Rates {
	if !home.IsZero() && !home.Equal(quoin.FactorOf(1)) {
		r.Postage = r.Postage.Over(home)
	}
	return r
}

// BackOnSale returns the share of goods that can be sold again: returned × resold, exactly.
// What is lost in a dispute does not come back.
func (r Rates) BackOnSale() quoin.Rate { return r.Returned.Of(r.Resold) }

func (r Rates) part() quoin.Rate { return r.Part.Or(whole()) }
func (r Rates) lost() quoin.Rate { return r.Lost.Or(whole()) }

func whole() quoin.Rate { return quoin.FactorOf(1).Rate() }
