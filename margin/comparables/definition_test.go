package comparables_test

import (
	"cmp"
	"fmt"
	"math"
	"math/big"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin/comparables"
)

// seen is a record that counts, as fractions: what it sells for on the basis, and its weight.
type seen struct {
	at            int
	price, weight *big.Rat
}

// side is the side of a square, in cm; sizes of these tests are squares, so that half powers of
// areas are fractions.
func side(s quoin.Size) int64 {
	w, _ := s.Width().In("cm")
	n, _ := w.Number().Units(0)
	return n
}

func power(x *big.Rat, n int) *big.Rat {
	out := big.NewRat(1, 1)
	for range max(n, -n) {
		out.Mul(out, x)
	}
	if n < 0 {
		out.Inv(out)
	}
	return out
}

// broughtTo is a price on a basis: (price + postage on top − postage − frame) × (1 + tax) ÷ (1 + its
// tax) × (area ÷ its area)^exponent, with areas as squares of sides.
func broughtTo(r comparables.Record, b *comparables.Basis, size quoin.Size) (*big.Rat, quoin.Code) {
	if b == nil {
		return r.Price.Rat(), ""
	}
	frame, known := r.FrameWorth.Get()
	if r.Framed && !known {
		return nil, comparables.FrameUnknown
	}
	x := new(big.Rat).Add(r.Price.Rat(), r.PostageOnTop.Rat())
	x.Sub(x, r.Postage.Rat()).Sub(x, frame.Rat())
	if x.Sign() <= 0 {
		return nil, comparables.NothingLeft
	}
	x.Mul(x, b.Tax.OnePlus().Rat()).Quo(x, r.Tax.OnePlus().Rat())
	if e, sized := b.Exponent.Get(); sized {
		if r.Size.IsZero() || size.IsZero() {
			return nil, comparables.SizeUnknown
		}
		twice, _ := e.Times(quoin.FactorOf(2)).Units(0)
		x.Mul(x, power(big.NewRat(side(size), side(r.Size)), int(twice)))
	}
	return x, ""
}

// places is a number as prices are compared: to 12 places.
func places(x *big.Rat) string { return x.FloatString(12) }

// counting is what counts, by price and then as it comes, with what does not.
func counting(records []comparables.Record, size quoin.Size, c comparables.Choice) (out []seen, left map[quoin.Code]int64) {
	sellers, own := map[string]map[string]bool{}, map[[2]string]int64{}
	name := func(r comparables.Record) string {
		if c.BySeller {
			return r.Seller
		}
		return ""
	}
	left = map[quoin.Code]int64{}
	for i, r := range records {
		switch price, code := broughtTo(r, c.Basis, size); {
		case r.Sold < c.MinSold && r.Sold == 0:
			left[comparables.AskedOnly]++
		case r.Sold < c.MinSold:
			left[comparables.SoldTooFew]++
		case code != "":
			left[code]++
		default:
			out = append(out, seen{at: i, price: price})
			if sellers[r.Venue] == nil {
				sellers[r.Venue] = map[string]bool{}
			}
			sellers[r.Venue][name(r)] = true
			own[[2]string{r.Venue, name(r)}]++
		}
	}
	for i := range out {
		r := records[out[i].at]
		out[i].weight = big.NewRat(1, int64(len(sellers[r.Venue]))*own[[2]string{r.Venue, name(r)}])
	}
	slices.SortStableFunc(out, func(a, b seen) int {
		if places(a.price) == places(b.price) {
			return 0
		}
		return a.price.Cmp(b.price)
	})
	return out, left
}

// quantile is the price at a share of the weight, by the positions of a type.
func quantile(of []seen, q *big.Rat, t comparables.QuantileType) *big.Rat {
	all := new(big.Rat)
	for _, s := range of {
		all.Add(all, s.weight)
	}
	room := new(big.Rat) // the mean weight, half of it below and half above
	if t == comparables.Type6 {
		room.Quo(all, big.NewRat(int64(len(of)), 1))
	}
	before, at := new(big.Rat), make([]*big.Rat, len(of))
	for i, s := range of {
		at[i] = new(big.Rat).Add(s.weight, room)
		at[i].Mul(at[i], big.NewRat(1, 2)).Add(at[i], before).Quo(at[i], new(big.Rat).Add(all, room))
		before.Add(before, s.weight)
	}
	for i := range of {
		if at[i].Cmp(q) < 0 {
			continue
		}
		if i == 0 {
			return of[0].price
		}
		part := new(big.Rat).Quo(new(big.Rat).Sub(q, at[i-1]), new(big.Rat).Sub(at[i], at[i-1]))
		return part.Mul(part, new(big.Rat).Sub(of[i].price, of[i-1].price)).Add(part, of[i-1].price)
	}
	return of[len(of)-1].price
}

func equal(got quoin.Amount, want *big.Rat) bool {
	off := new(big.Rat).Sub(got.Rat(), want)
	room := new(big.Rat).Mul(new(big.Rat).Abs(want), big.NewRat(1, 1e12))
	return off.Abs(off).Cmp(room.Add(room, big.NewRat(1, 1e12))) <= 0
}

func drawnRecords(t *rapid.T) []comparables.Record {
	out := make([]comparables.Record, rapid.OneOf(rapid.IntRange(0, 12), rapid.IntRange(60, 120)).Draw(t, "records"))
	cents := func(what string, most int64) quoin.Amount {
		return quoin.AmountOf(rapid.Int64Range(0, most).Draw(t, what), 2)
	}
	for i := range out {
		r := comparables.Record{
			Venue: rapid.SampledFrom([]string{"stall", "web", "shop"}).Draw(t, "venue"), Seller: rapid.SampledFrom([]string{"", "ann", "bo"}).Draw(t, "seller"),
			Price: quoin.AmountOf(rapid.Int64Range(1, 40).Draw(t, "price"), int(rapid.Int64Range(0, 2).Draw(t, "places"))),
			Sold:  rapid.Int64Range(0, 3).Draw(t, "sold"), Tax: quoin.MustRate(rapid.SampledFrom([]string{"0%", "20%", "25%", "7%"}).Draw(t, "tax")),
		}
		if rapid.IntRange(0, 9).Draw(t, "sized") > 0 {
			cm := rapid.SampledFrom([]int64{10, 20, 30, 35}).Draw(t, "side")
			r.Size, _ = quoin.ParseSize(fmt.Sprintf("%d x %d cm", cm, cm))
		}
		if rapid.IntRange(0, 3).Draw(t, "sent") == 0 {
			r.Postage, r.PostageOnTop = cents("postage", 500), cents("on top", 500)
		}
		if rapid.IntRange(0, 3).Draw(t, "framed") == 0 {
			if r.Framed = true; rapid.Bool().Draw(t, "known") {
				r.FrameWorth = quoin.Some(cents("frame", 300))
			}
		}
		out[i] = r
	}
	return out
}

func drawnChoice(t *rapid.T) comparables.Choice {
	c := comparables.Choice{
		MinSold: rapid.Int64Range(0, 2).Draw(t, "min sold"), BySeller: rapid.Bool().Draw(t, "by seller"),
		Quantiles: rapid.SampledFrom([]comparables.QuantileType{"", comparables.Type5, comparables.Type6}).Draw(t, "type"),
	}
	if rapid.IntRange(0, 4).Draw(t, "on a basis") > 0 {
		c.Basis = &comparables.Basis{Tax: quoin.MustRate(rapid.SampledFrom([]string{"0%", "20%"}).Draw(t, "to hold"))}
		if e := rapid.SampledFrom([]string{"", "0", "1", "0.5", "-1.5", "2"}).Draw(t, "exponent"); e != "" {
			c.Basis.Exponent = quoin.Some(quoin.MustFactor(e))
		}
	}
	return c
}

// Rankings are what their definition says in fractions, whether they are sorted by prices or by
// logarithms: which records count and why others do not, every quantile, the ends, and how much of
// the weight lies below a price.
func TestRankingsByDefinition(t *testing.T) {
	byLog, few, none := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		records, c := drawnRecords(t), drawnChoice(t)
		size, _ := quoin.ParseSize(rapid.SampledFrom([]string{"20 x 20 cm", "40 x 40 cm", "none"}).Draw(t, "size"))
		want, left := counting(records, size, c)
		list := comparables.NewList(records, size)
		r := list.Rank(c)
		if r.Counting != len(want) || int64(r.Unsold) != left[comparables.AskedOnly]+left[comparables.SoldTooFew] || r.Counting+r.Unsold+r.LeftOut != len(records) {
			t.Fatalf("%+v of %d, want %d counting, left out %v", r.Counts, len(records), len(want), left)
		}
		n := 0
		order := []quoin.Code{comparables.AskedOnly, comparables.SoldTooFew, comparables.FrameUnknown, comparables.SizeUnknown, comparables.NothingLeft}
		for _, code := range order {
			if left[code] == 0 {
				continue
			}
			if of := list.LeftOut(c); n >= len(of) || of[n] != (comparables.LeftOut{Code: code, Count: left[code]}) {
				t.Fatalf("left out: %v, want %v", of, left)
			}
			n++
		}
		if len(list.LeftOut(c)) != n {
			t.Fatalf("left out: %v, want %v", list.LeftOut(c), left)
		}
		for i, s := range c.Seen(records, size) {
			price, code := broughtTo(records[i], c.Basis, size)
			if counts := code == "" && records[i].Sold >= c.MinSold; s.Counts != counts || s.Venue != records[i].Venue {
				t.Fatalf("record %d is seen as %+v, counts %t", i, s, counts)
			}
			if code != "" {
				price = records[i].Price.Rat()
			}
			if !equal(s.Price, price) {
				t.Fatalf("record %d is seen at %s, want %s", i, s.Price, places(price))
			}
		}
		q := quoin.AmountOf(rapid.Int64Range(0, 40).Draw(t, "share"), 0).Share(quoin.AmountOf(40, 0))
		got, ok := r.PriceAt(q)
		if ok != (len(want) > 0) {
			t.Fatalf("a quantile %t of %d", ok, len(want))
		}
		plain, _ := counting(records, size, comparables.Choice{})
		if all, some := c.Quantiles.Of(records, q); some != (len(plain) > 0) || some && !equal(all, quantile(plain, q.Factor().Rat(), c.Quantiles)) {
			t.Fatalf("%s of all %d is %s, %t", q, len(records), all, some)
		}
		low, nextLow, nextHigh, high, three := r.Ends()
		if three != (len(want) >= 3) {
			t.Fatalf("ends %t of %d", three, len(want))
		}
		price := quoin.AmountOf(rapid.Int64Range(0, 4000).Draw(t, "price"), 2)
		if len(want) > 0 && rapid.Bool().Draw(t, "one of them") {
			i := rapid.IntRange(0, len(want)-1).Draw(t, "which")
			if price = records[want[i].at].Price; c.Basis != nil {
				price, _ = c.Basis.Bring(records[want[i].at], size)
			}
		}
		below, venues := new(big.Rat), map[string]bool{}
		for _, s := range want {
			venues[records[s.at].Venue] = true
			switch at := places(price.Rat()); {
			case at == places(s.price):
				below.Add(below, new(big.Rat).Quo(s.weight, big.NewRat(2, 1)))
			case s.price.Cmp(price.Rat()) < 0:
				below.Add(below, s.weight)
			}
		}
		if r.Venues != len(venues) {
			t.Fatalf("%d venues, want %d", r.Venues, len(venues))
		}
		if len(want) == 0 {
			if none++; !r.Below(price).IsZero() || r.Venue != "" {
				t.Fatalf("%s is below %s, of none", r.Below(price), price)
			}
			return
		}
		if p := quantile(want, q.Factor().Rat(), c.Quantiles); !equal(got, p) {
			t.Fatalf("%s of %d is %s, want %s", q, len(want), got, places(p))
		}
		if below.Quo(below, big.NewRat(int64(len(venues)), 1)); !equal(quoin.AmountOf(1, 0).Times(r.Below(price).Factor()), below) {
			t.Fatalf("%s lies below %s, want %s", r.Below(price), price, places(below))
		}
		if three && !(equal(low, want[0].price) && equal(nextLow, want[1].price) && equal(nextHigh, want[len(want)-2].price) && equal(high, want[len(want)-1].price)) {
			t.Fatalf("ends %s %s %s %s", low, nextLow, nextHigh, high)
		}
		first := slices.MinFunc(want, func(a, b seen) int { return cmp.Compare(a.at, b.at) })
		if r.Venue != records[first.at].Venue {
			t.Fatalf("the first is at %s, want %s", r.Venue, records[first.at].Venue)
		}
		people := map[string]bool{}
		for _, s := range want {
			if seller := records[s.at].Seller; seller != "" {
				people[seller] = true
			} else {
				people["at "+records[s.at].Venue] = true
			}
		}
		if n, _ := r.PeopleSelling(); n != len(people) {
			t.Fatalf("%d people sell, want %d", n, len(people))
		}
		if len(records) > 64 {
			byLog++
		} else {
			few++
		}
	})
	if byLog < 15 || few < 15 {
		t.Errorf("only %d by logarithms, %d by prices, %d of none", byLog, few, none)
	}
}

// Logarithms to base 2, beside those of floats.
func TestLogarithms(t *testing.T) {
	for _, c := range []struct{ text string }{
		{"1"},
		{"2"},
		{"0.5"},
		{"3"},
		{"1/3"},
		{"12345.678"},
		{"18446744073709551615"},
		{"18446744073709551616"},
		{"36893488147419103232"},
		{"123456789012345678901234567890"},
		{"1/123456789012345678901234567890"},
		{"0.000000000001"},
	} {
		x, _ := new(big.Rat).SetString(c.text)
		f, _ := x.Float64()
		if got, ok := comparables.LogOf(x); !ok || math.Abs(got-math.Log2(f)) > 1e-12*math.Max(1, math.Abs(math.Log2(f))) {
			t.Errorf("the logarithm of %s is %v, want %v", c.text, got, math.Log2(f))
		}
	}
}
