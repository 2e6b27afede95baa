package compare

import "testing"

// TimeSettle times the settlement, over the prices from 5.00 to 200.00.
func (p Peer) TimeSettle(b *testing.B) {
	b.ReportAllocs()
	cents := int64(500)
	for b.Loop() {
		p.Settle(cents)
		cents = next(cents)
	}
}

// TimeSheet times the whole price sheet, over the same prices for the first size.
func (p Peer) TimeSheet(b *testing.B) {
	b.ReportAllocs()
	cents := int64(500)
	for b.Loop() {
		p.Sheet(Lists(cents))
		cents = next(cents)
	}
}

// next goes through the prices in leaps, so that no two in a row are alike.
func next(cents int64) int64 {
	cents += 3701
	if cents > 20000 {
		cents -= 19501
	}
	return cents
}

// Lists returns the list prices of the sheet that go with one for the first size.
func Lists(cents int64) [Sizes]int64 { return [Sizes]int64{cents, cents + 1650, 2*cents + 1995} }
