package promo

// FreeOf returns how many of count items of one product are free in a multi-buy: with buy 3 and
// 1 free, 2 of 7. It returns 0 for any other offer.
func (o Offer) FreeOf(count int64) int64 {
	if o.kind() != multiBuy {
		return 0
	}
	return o.freed(count, count)
}
