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

// ledger is product i in channel j, as it is for the product, with where they
// stand.
func (d worked) ledger(supplies map[string]int, i, j int, m *maker, c sold) margin.Ledger {
	p := d.Products[i]
	l := margin.Ledger{
		Currency: d.Currency, Supplies: d.Supplies, Supply: supplies, Stages: waste.Route(d.Stages), Contingency: d.Contingency,
		Bill: p.Bill, Packing: p.Packing[c.Packing], PackingName: c.Packing, Run: p.Run,
		Channel: c.Channel, Packed: c.packed, Overhead: d.Overhead, IncomeTax: d.IncomeTax,
		ProductAt: quoin.InList("products", i), ChannelAt: quoin.InList("channels", j),
		BillAt: d.billAt[i], RunAt: d.runAt[i], SupplyAt: d.supplyAt, Origins: d.origins,
	}
	if len(c.shipments) > 0 {
		l.Origins = d.sending(i, j, m, c)
	}
	return l
}
