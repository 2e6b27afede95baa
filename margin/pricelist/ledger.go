package pricelist

import (
	"example.com/quoin"
	"example.com/quoin/margin"
	"example.com/quoin/waste"
)

func (d Document) supplyIndex() map[string]int {
	index := make(map[string]int, len(d.Supplies))
	for i, s := range d.Supplies {
		index[s.ID] = i
	}
	return index
}

// ledger is product i in channel j, with where they stand.
func (d worked) ledger(supplies map[string]int, i, j int) margin.Ledger {
	p, c := d.Products[i], d.Channels[j]
	return margin.Ledger{
		Currency: d.Currency, Supplies: d.Supplies, Supply: supplies, Stages: waste.Route(d.Stages), Contingency: d.Contingency,
		Bill: p.Bill, Packing: p.Packing[c.Packing], PackingName: c.Packing, Run: p.Run,
		Channel: c, Overhead: d.Overhead, IncomeTax: d.IncomeTax,
		ProductAt: quoin.InList("products", i), ChannelAt: quoin.InList("channels", j),
		BillAt: d.billAt[i], RunAt: d.runAt[i], SupplyAt: d.supplyAt, Origins: d.origins,
	}
}
