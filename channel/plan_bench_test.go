package channel_test

import (
	"testing"

	"example.com/quoin/channel"
)

// What one item brings, by whole numbers and by the decimals that define it.
func BenchmarkTakings(b *testing.B) {
	tm := channel.Channel{
		Tax: channel.Tax{Rate: rate("20%"), InPrice: true}, Orders: []channel.Order{{Shipping: amount("4.50"), Postage: amount("6.20")}},
		Fees: []channel.Fee{{Rate: rate("2.3%"), Of: []channel.Part{channel.Items, channel.Shipping}, Fixed: amount("0.27")}, {Rate: rate("7.4%")}},
	}.Terms(eur)
	plan, _ := tm.Plan()
	price := amount("24.00")
	b.Run("settled", func(b *testing.B) {
		for b.Loop() {
			plan.Settle(0, 2400)
		}
	})
	b.Run("planned", func(b *testing.B) {
		for b.Loop() {
			tm.Proceeds(price)
		}
	})
	b.Run("exactly", func(b *testing.B) {
		for b.Loop() {
			tm.Exactly(price)
		}
	})
}
