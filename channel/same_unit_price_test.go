package channel_test

import (
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel"
)

// With prices that can be asked every 5.00 a list price of 17.50 is asked as 20.00, a tie
// going up, and so is every one up to 22.49.
func TestAlike(t *testing.T) {
	points := &channel.PricePoints{Step: amount("5.00")}
	for _, c := range []struct {
		what       string
		c          channel.Channel
		step       string
		from, want string
	}{
		{"points every 5.00", channel.Channel{PricePoints: points}, "0.01", "17.50", "22.49"},
		{"from the middle of them", channel.Channel{PricePoints: points}, "0.01", "19.00", "22.49"},
		// Half of 15.00 to 24.99 is nearest to 10.00.
		{"at half the price", channel.Channel{PricePoints: points, TradeDiscount: []quoin.Rate{rate("50%")}}, "0.01", "15.00", "24.99"},
		{"a price step of 1.00", channel.Channel{PricePoints: points}, "1.00", "18.00", "22.00"},
		{"up to the limit", channel.Channel{PricePoints: points}, "0.01", "58.00", "60.00"},
		{"without a tag each price is its own", channel.Channel{}, "0.01", "17.50", "17.50"},
		// Half of 17.49 and of 17.50 is 8.75, halves going up.
		{"two cents to one", channel.Channel{TradeDiscount: []quoin.Rate{rate("50%")}}, "0.01", "17.49", "17.50"},
	} {
		g := grid(t, c.step, "60.00")
		if got := g.Price(c.c.Terms(eur).Alike(g, g.Ceil(amount(c.from)), g.Len())); !got.Equal(amount(c.want)) {
			t.Errorf("%s: as far as %s, want %s", c.what, got, c.want)
		}
	}
}

// alikeIsAsFarAsUnits: up to the price that Alike returns every kind of order has the same
// unit price, and one price on some kind has another.
func TestAlikeIsAsFarAsUnits(t *testing.T) {
	tagged, reached := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		d := draws{t}
		c, g := d.channel(), d.grid()
		tm := c.Terms(eur)
		i := rapid.Int64Range(1, g.Len()).Draw(t, "from")
		last := rapid.Int64Range(i, g.Len()).Draw(t, "last")
		units := func(j int64) (out []string) {
			for k := range tm.Orders() {
				out = append(out, tm.Settle(k, g.Price(j)).Unit.String())
			}
			return out
		}
		same := func(j int64) bool {
			for k, u := range units(i) {
				if units(j)[k] != u {
					return false
				}
			}
			return true
		}
		end := tm.Alike(g, i, last)
		if end < i || end > last {
			t.Fatalf("from %d to %d, of at most %d", i, end, last)
		}
		for j := i; j <= end; j++ {
			if !same(j) {
				t.Fatalf("%v and %v are not alike", g.Price(i), g.Price(j))
			}
		}
		if end < last && end > i && same(end+1) {
			t.Fatalf("%v goes on to %v", g.Price(i), g.Price(end+1))
		}
		if c.PricePoints != nil {
			tagged++
			if end > i {
				reached++
			}
		}
	})
	if !testing.Short() && (tagged == 0 || reached == 0) {
		t.Errorf("%d tags drawn, %d of them with prices alike", tagged, reached)
	}
}
