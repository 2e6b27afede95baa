package channel_test

import (
	"testing"

	"example.com/quoin/channel"
)

// Half of the shops pay 100.00 within 10 days less 2%, the others in 30 days; money
// costs 7.3% a year. On average that is 1.00 of discount and 20 days of waiting, 0.40.
// The worst order is one that takes the discount, in full; waiting is only expected,
// and stays at its 20 days.
func TestWorstOrderWaitsOnAverage(t *testing.T) {
	c := channel.Channel{Trade: &channel.Trade{Credit: channel.Credit{
		Days: 30, Interest: rate("7.3%"), Early: rate("2%"), EarlyDays: 10, Taken: someRate("50%"),
	}}}
	tm := c.Terms(eur)
	if got := tm.Proceeds(amount("100.00")).Fees; !got.Equal(amount("1.40")) {
		t.Errorf("on average %s, want 1.00 + 0.40", got)
	}
	if got := tm.Worst()[0].Proceeds(amount("100.00")).Fees; !got.Equal(amount("2.40")) {
		t.Errorf("at worst %s, want 2.00 + 0.40", got)
	}
}
