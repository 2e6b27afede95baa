package promo_test

import (
	"math/big"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel/promo"
)

func products() []string { return []string{"bittern", "rail", "reed", "heron"} }

func drawLine(t *rapid.T) promo.BasketLine {
	return promo.BasketLine{
		Product: rapid.SampledFrom(products()).Draw(t, "product"),
		Count:   rapid.Int64Range(0, 12).Draw(t, "count"),
		Unit:    quoin.AmountOf(rapid.Int64Range(0, 60_000).Draw(t, "unit"), rapid.IntRange(2, 3).Draw(t, "places")),
	}
}

func drawLines(t *rapid.T) []promo.BasketLine {
	return rapid.SliceOfN(rapid.Custom(drawLine), 1, 5).Draw(t, "lines")
}

func drawRate(t *rapid.T) quoin.Rate {
	return quoin.AmountOf(rapid.Int64Range(1, 1000).Draw(t, "rate"), 3).Share(quoin.AmountOf(1, 0))
}

func drawOffer(t *rapid.T) promo.Offer {
	o := promo.Offer{ID: "x", Test: rapid.SampledFrom([]promo.Test{"", promo.Before, promo.After}).Draw(t, "test")}
	o.Products = rapid.SliceOfNDistinct(rapid.SampledFrom(products()), 0, 4, rapid.ID).Draw(t, "products")
	if rapid.Bool().Draw(t, "threshold") {
		o.From = quoin.AmountOf(rapid.Int64Range(0, 50_000).Draw(t, "from"), 2)
	}
	money := quoin.AmountOf(rapid.Int64Range(1, 30_000).Draw(t, "money"), rapid.IntRange(2, 3).Draw(t, "places"))
	switch kind := rapid.IntRange(0, 4).Draw(t, "kind"); {
	case kind == 0:
		o.Rate = drawRate(t)
	case kind == 1:
		o.Amount = money
	case kind == 2:
		o.Buy = rapid.Int64Range(2, 6).Draw(t, "buy")
		o.Free = rapid.Int64Range(1, o.Buy-1).Draw(t, "free")
	case kind == 3 && len(o.Products) > 1:
		o.Price = quoin.Some(money)
	default:
		o.Sale = quoin.Some(money)
	}
	return o
}

func drawOffers(t *rapid.T) []promo.Offer {
	return rapid.SliceOfN(rapid.Custom(drawOffer), 0, 4).Draw(t, "offers")
}

// Lines and offers add up to the cent, nothing falls below zero, and what is
// drawn is what Check accepts.
func TestBasketsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lines, offers := drawLines(t), drawOffers(t)
		for i := range offers {
			offers[i].Alone = rapid.Bool().Draw(t, "alone")
			if err := offers[i].Check(); err != nil {
				t.Fatal(err)
			}
		}
		b := promo.Apply(lines, offers, 2)
		var gross, net quoin.Amount
		for _, l := range b.Lines {
			left := l.Gross
			for _, off := range l.Off {
				if off.Sign() < 0 || !off.Round(2, quoin.Down).Equal(off) {
					t.Fatalf("%s off is no money", off)
				}
				left = left.Sub(off)
			}
			if !left.Equal(l.Net) || l.Net.Sign() < 0 || len(l.Off) != len(offers) {
				t.Fatalf("%s comes down to %s, said to be %s", l.Gross, left, l.Net)
			}
			gross, net = gross.Add(l.Gross), net.Add(l.Net)
		}
		if !gross.Equal(b.Gross) || !net.Equal(b.Net) || !b.Net.Add(b.Discount).Equal(b.Gross) {
			t.Fatalf("gross %s, discount %s, net %s; lines %s and %s", b.Gross, b.Discount, b.Net, gross, net)
		}
	})
}

// A basket of one line is the fold of OnOne, which is what is explained.
func TestOneLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, offers := drawLine(t), drawOffers(t)
		for i := range offers {
			if p := offers[i].Products; len(p) > 0 && !slices.Contains(p, l.Product) {
				p[0] = l.Product
			}
		}
		b := promo.Apply([]promo.BasketLine{l}, offers, 2)
		gross := b.Gross
		left := gross
		for i, o := range offers {
			off := o.OnOne(left, gross, l.Unit, l.Count, 2)
			if !off.Equal(b.Lines[0].Off[i]) {
				t.Fatalf("offer %d takes %s off one line, %s off a basket of it", i, off, b.Lines[0].Off[i])
			}
			left = left.Sub(off)
		}
		trail := quoin.NewTrail(16)
		at := func(i int) quoin.Path { return quoin.InList("offers", i) }
		got, ok := promo.Explain(trail, at,
			quoin.Given("gross", quoin.Path{}, gross.Figure()), quoin.Given("unit", quoin.Path{}, l.Unit.Figure()),
			quoin.FactorOf(l.Count).Named("count"), offers, 2).Value.Amount()
		if !ok || !got.Equal(left) || !got.Equal(b.Net) {
			t.Fatalf("explained as %s, folded to %s, applied to %s", got, left, b.Net)
		}
		if err := quoin.Replay(trail.Steps()); err != nil {
			t.Fatal(err)
		}
		for _, s := range trail.Steps() {
			if s.Code == promo.StepOff && s.Value.Rat().Sign() <= 0 {
				t.Fatalf("a step that takes %s off", s.Value)
			}
		}
	})
}

// The order of lines changes nothing about offers that go line by line.
func TestLineOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lines := drawLines(t)
		offers := slices.DeleteFunc(drawOffers(t), func(o promo.Offer) bool { return o.Rate.IsZero() && o.Sale.IsZero() })
		turned := rapid.Permutation(lines).Draw(t, "turned")
		if a, b := promo.Apply(lines, offers, 2), promo.Apply(turned, offers, 2); !a.Discount.Equal(b.Discount) {
			t.Fatalf("%s, and %s in another order", a.Discount, b.Discount)
		}
	})
}

// The buyer gets the best of the others together and of each alone.
func TestAlone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lines, offers := drawLines(t), drawOffers(t)
		var stack []promo.Offer
		for i := range offers {
			if offers[i].Alone = rapid.Bool().Draw(t, "alone"); !offers[i].Alone {
				stack = append(stack, offers[i])
			}
		}
		best := promo.Apply(lines, stack, 2).Discount
		for _, o := range offers {
			if o.Alone {
				o.Alone = false
				if d := promo.Apply(lines, []promo.Offer{o}, 2).Discount; d.Cmp(best) > 0 {
					best = d
				}
			}
		}
		if got := promo.Apply(lines, offers, 2).Discount; !got.Equal(best) {
			t.Fatalf("%s off, the best is %s", got, best)
		}
	})
}

// After any other offers, more of an amount never takes less off in all.
func TestMoreOfAnAmount(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lines, offers := drawLines(t), drawOffers(t)
		a := rapid.Int64Range(0, 200_000).Draw(t, "amount")
		more := a + rapid.Int64Range(0, 10_000).Draw(t, "more")
		with := func(cents int64) quoin.Amount {
			all := append(slices.Clone(offers), promo.Offer{ID: "x", Amount: quoin.AmountOf(cents, 2)})
			return promo.Apply(lines, all, 2).Discount
		}
		if x, y := with(a), with(more); y.Cmp(x) < 0 {
			t.Fatalf("%d cents: %s, %d cents: %s", a, x, more, y)
		}
	})
}

// items is each item of some products by itself, dearest first, in fractions.
func items(lines []promo.ReducedLine, of ...string) []*big.Rat {
	var out []*big.Rat
	for _, l := range lines {
		if len(of) > 0 && !slices.Contains(of, l.Product) {
			continue
		}
		for range l.Count {
			out = append(out, new(big.Rat).Quo(l.Gross.Rat(), big.NewRat(l.Count, 1)))
		}
	}
	slices.SortFunc(out, func(a, b *big.Rat) int { return b.Cmp(a) })
	return out
}

// Item by item, in fractions: each group pays for all but its cheapest. Each
// line rounds once, so the sum is right to half a cent a line.
func TestMultiBuyItemByItem(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lines := drawLines(t)
		buy := rapid.Int64Range(2, 6).Draw(t, "buy")
		free := rapid.Int64Range(1, buy-1).Draw(t, "free")
		b := promo.Apply(lines, []promo.Offer{{ID: "x", Buy: buy, Free: free}}, 2)
		want := new(big.Rat)
		for group := range slices.Chunk(items(b.Lines), int(buy)) {
			if len(group) == int(buy) {
				for _, item := range group[buy-free:] {
					want.Add(want, item)
				}
			}
		}
		near(t, b.Discount, want, int64(len(lines)))
	})
}

// Set by set, in fractions: the dearest of each product together, while that
// saves anything.
func TestSetBySet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lines := drawLines(t)
		of := rapid.SliceOfNDistinct(rapid.SampledFrom(products()), 2, 3, rapid.ID).Draw(t, "of")
		together := quoin.AmountOf(rapid.Int64Range(0, 100_000).Draw(t, "price"), 2)
		b := promo.Apply(lines, []promo.Offer{{ID: "x", Price: quoin.Some(together), Products: of}}, 2)
		want := new(big.Rat)
		for i := 0; ; i++ {
			saved := new(big.Rat).Neg(together.Rat())
			short := false
			for _, p := range of {
				if one := items(b.Lines, p); i < len(one) {
					saved.Add(saved, one[i])
				} else {
					short = true
				}
			}
			if short || saved.Sign() <= 0 {
				break
			}
			want.Add(want, saved)
		}
		near(t, b.Discount, want, 2)
	})
}

// near wants an amount within so many half cents.
func near(t *rapid.T, got quoin.Amount, want *big.Rat, halves int64) {
	miss := new(big.Rat).Sub(got.Rat(), want)
	if miss.Abs(miss).Cmp(big.NewRat(halves, 200)) > 0 {
		t.Fatalf("%s off, want %s", got, want.FloatString(4))
	}
}

func BenchmarkOnOne(b *testing.B) {
	o := promo.Offer{ID: "x", Rate: rate("15%"), From: amount("30")}
	left, unit := amount("44.99"), amount("44.99")
	for b.Loop() {
		if o.OnOne(left, left, unit, 1, 2).IsZero() {
			b.Fatal("nothing off")
		}
	}
}
