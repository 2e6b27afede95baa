package review

import (
	"encoding/json"

	"example.com/quoin"
	"example.com/quoin/channel/promo"
	"example.com/quoin/margin/pricelist"
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
	tree, err := treeOf(m.doc)
	if err != nil {
		return err
	}
	doc := with(with(asking(tree), "rules", nil), "price_step", nil)
	f := familyOf(doc)
	var lots []pricelist.Lot
	for _, v := range moves {
		last, has := v.Last.Get()
		if !has || last.Equal(v.Now) {
			continue
		}
		doc["price_limit"] = m.limit(doc["price_limit"], last, v.Now)
		for _, price := range []quoin.Amount{last, v.Now} {
			lot, err := fixed(f, v.Product, price)
			if err != nil {
				return err
			}
			lots = append(lots, lot)
		}
	}
	if len(lots) == 0 {
		return nil
	}
	kept, err := contributions(doc, lots)
	if err != nil {
		return err
	}
	for i, n := 0, 0; i < len(moves); i++ {
		if last, has := moves[i].Last.Get(); has && !last.Equal(moves[i].Now) {
			moves[i].Volumes = m.perChannel(moves[i], kept[n], kept[n+1])
			n += 2
		}
	}
	return nil
}

// limit is a limit of prices that all prices are under.
func (m *mover) limit(so any, prices ...quoin.Amount) any {
	most := m.grid.Price(m.grid.Len())
	if known, err := quoin.ParseAmount(textOf(so)); err == nil && known.Cmp(most) > 0 {
		most = known
	}
	for _, p := range prices {
		if p.Cmp(most) > 0 {
			most = p
		}
	}
	return most.String()
}

// fixed is a lot of one product, and those it is based on, at one price.
func fixed(f family, product string, price quoin.Amount) (pricelist.Lot, error) {
	data, err := json.Marshal(object{"products": f.based(product)})
	if err != nil {
		return pricelist.Lot{}, err
	}
	lot, err := pricelist.DecodeLot(data)
	at := quoin.Some(price)
	lot.Rules = []rule.Rule{{ID: "price", Products: []string{product}, Kind: rule.Price{AtLeast: at, AtMost: at}}}
	return lot, err
}

// contributions are what the last product of each lot keeps, channel by channel,
// before the channel's period, which costs the same however much is sold; none where
// it has no such price.
func contributions(doc object, lots []pricelist.Lot) ([][]quoin.Amount, error) {
	shop, err := pricelist.DecodeShop(write(with(doc, "products", nil)))
	if err != nil {
		return nil, err
	}
	out := make([][]quoin.Amount, 0, len(lots))
	for _, lot := range lots {
		a, err := shop.Decide(lot, pricelist.Figures)
		if err != nil {
			return nil, err
		}
		var kept []quoin.Amount
		for _, p := range a.Products {
			if p.ID != lot.Rules[0].Products[0] {
				continue
			}
			for _, c := range p.Channels {
				kept = append(kept, c.Statement.BeforeFixedCost())
			}
		}
		out = append(out, kept)
	}
	return out, nil
}

func (m *mover) perChannel(v Move, before, after []quoin.Amount) []Volume {
	if len(before) != len(after) {
		return nil
	}
	out := make([]Volume, len(before))
	for j := range out {
		out[j] = Volume{Channel: m.doc.Channels[j].ID, Before: before[j], After: after[j]}
		needed, ok := promo.VolumeNeeded(before[j], after[j])
		if !ok || before[j].Sign() <= 0 {
			continue
		}
		out[j].Needed = quoin.Some(needed)
		rise := v.Now.Cmp(v.Last.Or(v.Now)) > 0
		if c := needed.Cmp(quoin.FactorOf(1)); c < 0 || c == 0 && rise {
			out[j].MayLose = quoin.Some(quoin.FactorOf(1).Sub(needed).Rate())
		}
	}
	return out
}
