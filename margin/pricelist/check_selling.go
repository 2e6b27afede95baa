package pricelist

// selling checks what is spent whatever is sold, channels by themselves, and comparables: those of
// a lot alone, which has no others.
func (k checker) selling() {
	if k.shop == nil {
		k.doc.Overhead.CheckIn(k.Collector, (*path)(nil).Field("overhead"))
		for i, c := range k.doc.Channels {
			c.CheckIn(k.Collector, (*path)(nil).Field("channels").At(i), k.doc.Currency)
		}
	}
	for i, c := range k.doc.Comparables {
		at := (*path)(nil).Field("comparables").At(i)
		if c.Product != "" {
			k.known(at.Field("product"), "products", c.Product)
		}
		c.CheckIn(k.Collector, at)
	}
}
