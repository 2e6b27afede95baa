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
func (d worked) ledger(supplies map[string]int, i, j int, m *maker) margin.Ledger {
	p, c := d.Products[i], d.Channels[j]
	l := margin.Ledger{
		Currency: d.Currency, Supplies: d.Supplies, Supply: supplies, Stages: waste.Route(d.Stages), Contingency: d.Contingency,
		Bill: p.Bill, Packing: p.Packing[c.Packing], PackingName: c.Packing, Run: p.Run,
		Channel: c, Overhead: d.Overhead, IncomeTax: d.IncomeTax,
		ProductAt: quoin.InList("products", i), ChannelAt: quoin.InList("channels", j),
		BillAt: d.billAt[i], RunAt: d.runAt[i], SupplyAt: d.supplyAt, Origins: d.origins,
	}
	if !c.ByProduct() {
		return l
	}
	l.Channel = c.For(p.ID)
	if c.Tariff == "" {
		return l
	}
	sent, packed, shipments, err := m.sent(p, l.Channel)
	if err == nil { // which deciding has seen
		l.Channel, l.Packed, l.Origins = sent, packed, d.sending(i, j, m, shipments)
	}
	return l
}
