package channel_test

import (
	"testing"

	"example.com/quoin/channel"
)

// What is left of a charge after a fee on all of it; a cent less in the price is
// a cent too little. The fees are invented: 102.63 × 2.3% + 0.27 = 2.63049.
func TestChargesThatLeave(t *testing.T) {
	for _, c := range []struct{ rate, fixed, price, leaves, below, less string }{
		{"2.3%", "0.27", "102.63", "100.00", "102.62", "99.99"},
		{"2.3%", "0.27", "2047.36", "2000.00", "2047.35", "1999.99"},
		{"1.6%", "0.27", "90.72", "89.00", "90.71", "88.99"},
		{"40%", "0", "2666.66", "1600.00", "2666.65", "1599.99"},
		{"40%", "0", "125.00", "75.00", "105.00", "63.00"},
	} {
		tm := channel.Channel{Fees: []channel.Fee{{Rate: rate(c.rate), Fixed: amount(c.fixed)}}}.Terms(eur)
		for _, at := range [][2]string{{c.price, c.leaves}, {c.below, c.less}} {
			s := tm.Settle(0, amount(at[0]))
			if got := s.Revenue.Sub(s.Fees); !got.Equal(amount(at[1])) {
				t.Errorf("%s after %s + %s leaves %s, want %s", at[0], c.rate, c.fixed, got, at[1])
			}
		}
	}
	// On consignment at 40% the same price leaves the same.
	s := channel.Channel{Consignment: &channel.Consignment{Commission: someRate("40%")}}.Terms(eur).Settle(0, amount("2666.66"))
	if !s.Fees.Equal(amount("1066.66")) || !s.Revenue.Sub(s.Fees).Equal(amount("1600")) {
		t.Errorf("2666.66 less %s, want 1066.66 less", s.Fees)
	}
}
