package promo

// FreeOf returns how many of count items of one product a multi-buy gives for
// nothing; 0 for any other offer.
func (o Offer) FreeOf(count int64) int64 {
	if o.kind() != multiBuy {
		return 0
	}
	return o.freed(count, count)
}
