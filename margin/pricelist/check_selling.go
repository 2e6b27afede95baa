package pricelist

import "example.com/quoin/margin/comparables"

func (k checker) selling() {
	k.doc.Overhead.CheckIn(&k.Collector, (*path)(nil).Field("overhead"))
	for i, c := range k.doc.Channels {
		c.CheckIn(&k.Collector, (*path)(nil).Field("channels").At(i), k.doc.Currency)
	}
	k.comparables(k.doc.Comparables)
}

func (k checker) comparables(of []comparables.Record) {
	for i, c := range of {
		at := (*path)(nil).Field("comparables").At(i)
		if c.Product != "" {
			k.known(at.Field("product"), "products", c.Product)
		}
		c.CheckIn(&k.Collector, at)
	}
}
