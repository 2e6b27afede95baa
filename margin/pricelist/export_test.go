package pricelist

import "example.com/quoin/margin/rule"

// Items gives tests the products as rules see them.
func (d Document) Items() ([]rule.Item, error) { return d.items() }
