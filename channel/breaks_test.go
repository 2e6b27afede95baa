package channel_test

import (
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
)

// Terms that fall into ten thousand pieces are checked, and into more are not.
func TestMostPieces(t *testing.T) {
	of := func(tiers int64) error {
		c := channel.Channel{ID: "shop"}
		for range 10 {
			c.Orders = append(c.Orders, channel.Order{Share: quoin.Some(quoin.MustRate("10%"))})
		}
		for n := tiers; n > 0; n -= 100 {
			fee := channel.Fee{}
			for i := range min(n, 100) {
				fee.Tiers = append(fee.Tiers, channel.Tier{From: quoin.AmountOf(i, 0), Fixed: quoin.AmountOf(1, 2)})
			}
			c.Fees = append(c.Fees, fee)
		}
		return c.Check(quoin.MustCurrency("EUR"))
	}
	if err := of(999); err != nil && strings.Contains(err.Error(), "times tiers and bounds") {
		t.Errorf("ten times 1,000 pieces: %v", err)
	}
	err := of(1_000)
	if err == nil || !strings.Contains(err.Error(), "10010 kinds of order times tiers and bounds of fees") {
		t.Errorf("ten times 1,001 pieces: %v", err)
	}
}
