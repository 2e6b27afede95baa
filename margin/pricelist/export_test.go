package pricelist

import (
	"example.com/quoin/margin"
	"example.com/quoin/margin/rule"
)

// Items gives tests the products as rules see them.
func (d Document) Items() ([]rule.Item, error) { return d.work(&collector{}).items() }

// Ledger gives tests product i in channel j.
func (d Document) Ledger(i, j int) margin.Ledger {
	w := d.work(&collector{})
	return w.ledger(d.supplyIndex(), i, j, nil, sold{Channel: w.Channels[j].For(w.Products[i].ID)})
}

// Certain gives tests the document without its ranges.
func (d Document) Certain() Document {
	return d.certain(func(unsure) string { return "" })
}
