package review

import (
	"example.com/quoin"
	"example.com/quoin/channel/promo"
	"example.com/quoin/margin/rule"
)

// Volume is what a move does to what a sale keeps in a channel, by the new document:
// the last price is looked at with the new costs too.
type Volume struct {
	Channel string `json:"channel"`
	// Before and After are the contribution of an item at the last price and at the one
	// to ask now, before what the channel's period costs, which no sale more or less
	// changes.
	Before quoin.Amount `json:"before"`
	After  quoin.Amount `json:"after"`
	// Needed is how many have to be sold for each one before, before ÷ after; none where
	// an item contributed nothing before, or does not now.
	Needed quoin.Optional[quoin.Factor] `json:"needed,omitzero"`
	// MayLose is 1 − needed, of a rise: the share of the volume that may stay away, and
	// the move is still right. It is 0% where a rise changes nothing, and none where less
	// is kept than before.
	MayLose quoin.Optional[quoin.Rate] `json:"may_lose,omitzero"`
}

// volumes adds what moves do to what sales keep.
func (m *mover) volumes(moves []Move) error {
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
