package review

import (
	"example.com/quoin"
	"example.com/quoin/channel/promo"
	"example.com/quoin/margin/rule"
)

// Volume is what a move does to the contribution of a sale in a channel. Both prices are looked
// at with the costs of the new document.
type Volume struct {
	Channel string `json:"channel"`
	// Before and After are the contribution of an item at the last price, and at the price to
	// ask now. The channel's fixed cost is not taken off: a sale more or less does not change it.
	Before quoin.Amount `json:"before"`
	After  quoin.Amount `json:"after"`
	// Needed is how many have to be sold for each one before: Before ÷ After. From 4.00 to 6.00
	// it is 0.67. It is not given if an item contributed nothing before, or contributes nothing now.
	Needed quoin.Optional[quoin.Factor] `json:"needed,omitzero"`
	// MayLose is the share of sales that may be lost before the shop earns less: 1 − Needed, a
	// third in the example. It is 0% if a rise changes nothing, and not given if a sale
	// contributes less than before.
	MayLose quoin.Optional[quoin.Rate] `json:"may_lose,omitzero"`
}

// volumes adds what moves do to what sales keep.
func (m *mover) volumes(moves []Proposal) error {
	items, err := m.doc.Items(rule.Likely)
	if err != nil {
		return err
	}
	for i := range moves {
		last, has := moves[i].Last.Get()
		if !has || last.Equal(moves[i].Now) {
			continue
		}
		for _, o := range items[i].Offers {
			moves[i].Volumes = append(moves[i].Volumes, volume(o, last, moves[i].Now))
		}
	}
	return nil
}

func volume(o rule.Offer, last, now quoin.Amount) Volume {
	out := Volume{Channel: o.Channel, Before: o.Sale.At(last).BeforeFixedCost(), After: o.Sale.At(now).BeforeFixedCost()}
	needed, ok := promo.VolumeNeeded(out.Before, out.After)
	if !ok || out.Before.Sign() <= 0 {
		return out
	}
	out.Needed = quoin.Some(needed)
	if c := needed.Cmp(quoin.FactorOf(1)); c < 0 || c == 0 && now.Cmp(last) > 0 {
		out.MayLose = quoin.Some(quoin.FactorOf(1).Sub(needed).Rate())
	}
	return out
}
