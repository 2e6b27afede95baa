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
		if _, given := c.FrameWorth.Get(); given && !c.Framed {
			k.Stray(at.Field("frame_worth"), "what a frame is worth, of a print without one", "framed set to true beside it, or no frame_worth")
		}
	}
}
