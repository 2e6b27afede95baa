package pricelist_test

import (
	"math/big"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

func TestWhatIsShownAgreesWithOracle(t *testing.T) {
	t.Parallel()
	rapid.Check(t, whatIsShownAgreesWithOracle)
}

func FuzzWhatIsShownAgreesWithOracle(f *testing.F) {
	f.Fuzz(rapid.MakeFuzz(whatIsShownAgreesWithOracle))
}

// whatIsShownAgreesWithOracle: what the buyer pays, by how much the price changes, and the ranges in which it may lie,
// with their holes, are what exact fractions and a look at every price come to.
func whatIsShownAgreesWithOracle(t *rapid.T) {
	doc := genDocument(t)
	w := must(newOracleWorks(must(readOracleShop(doc))(t)))(t)
	answer := must(pricelist.Price(doc))(t)
	for p, it := range answer.Products {
		for _, in := range it.Channels {
			c := slices.IndexFunc(w.shop.Channels, func(c oracleOutlet) bool { return c.ID == in.ID })
			w.sameBuyer(t, p, c, it.Price, in)
		}
		w.sameChange(t, p, it)
		ranges := w.ranges(p, it, answer.Dropped)
		if more := len(ranges) > 20; more != it.MoreRanges {
			t.Errorf("%s: more ranges %t, want %t", it.ID, it.MoreRanges, more)
		}
		ladders := slices.ContainsFunc(w.shop.Rules, func(r oracleRule) bool { return r.Rule == "size_ratio" })
		none := func(want, got bool) bool { return got == want || got && ladders } // of another size, see limitIsNoReason
		same := func(want, got rule.AllowedRange) bool {
			return want.First.Equal(got.First) && want.Last.Equal(got.Last) && none(want.NoneLower, got.NoneLower) && none(want.NoneHigher, got.NoneHigher)
		}
		if want := ranges[:min(len(ranges), 20)]; !slices.EqualFunc(want, it.MayLie, same) {
			t.Errorf("%s: ranges %v, want %v", it.ID, it.MayLie, want)
		}
	}
	if t.Failed() {
		t.Fatalf("%s", doc)
	}
}

func (w *oracleWorks) sameBuyer(t *rapid.T, product, channel int, price quoin.Amount, got pricelist.ChannelResult) {
	c := w.shop.Channels[channel]
	var items, postage, surcharge, onTop []*big.Rat
	for _, o := range c.Orders {
		s := w.slip(c, o, w.shop.Products[product].ID, price.Rat())
		items = append(items, ratMul(s.goods, c.rate()))
		postage = append(postage, ratMul(s.shipping, c.rate()))
		surcharge = append(surcharge, ratMul(s.surcharge, c.rate()))
		onTop = append(onTop, ratMul(s.onTop, c.rate()))
	}
	for _, line := range []struct {
		name    string
		figures []*big.Rat
		got     quoin.Amount
	}{{"item", items, got.Buyer.Item}, {"postage", postage, got.Buyer.Postage}, {"surcharge", surcharge, got.Buyer.Surcharge}, {"tax on top", onTop, got.Buyer.TaxOnTop}} {
		if want := oracleWeighted(w.weights[channel], line.figures); !statementFigureAgrees(want, line.got.Rat()) {
			t.Errorf("%s in %s: %s %s, want %s", w.shop.Products[product].ID, c.ID, line.name, line.got, showOracleNumber(want))
		}
	}
	b := got.Buyer
	if paid := b.Item.Add(b.Postage).Add(b.Surcharge).Add(b.TaxOnTop).Sub(got.Statement.Tax); !statementFigureAgrees(paid.Rat(), got.Statement.Revenue.Rat()) {
		t.Errorf("%s in %s: what the buyer pays, without tax, is %s, and the revenue %s", w.shop.Products[product].ID, c.ID, paid, got.Statement.Revenue)
	}
}

func (w *oracleWorks) sameChange(t *rapid.T, product int, it pricelist.ProductResult) {
	today := w.shop.Products[product].Price
	got, given := it.Today.Get()
	if given != today.given() || given && got.Rat().Cmp(today.r) != 0 {
		t.Errorf("%s: today %v, want %v", it.ID, got, today.r)
	}
	if change, ok := it.Change.Get(); ok {
		want := ratSub(ratQuo(it.Price.Rat(), today.r), ratOf(1))
		if gap := ratSub(change.Rat(), want); new(big.Rat).Abs(gap).Cmp(big.NewRat(5, 1_000_000)) > 0 {
			t.Errorf("%s: change %s, want %s", it.ID, change, showOracleNumber(want))
		}
	}
}

// ranges goes through all prices that end as kept rules ask, and looks where the allowed ones break off.
func (w *oracleWorks) ranges(product int, it pricelist.ProductResult, dropped []string) []rule.AllowedRange {
	var endings []oracleRule
	for _, r := range w.shop.Rules {
		if r.Rule == "ending" && r.speaksOf(w.shop.Products[product]) && !slices.Contains(dropped, r.ID) {
			endings = append(endings, r)
		}
	}
	var out []rule.AllowedRange
	grid, broken, first := it.Allowed.Grid(), true, true
	for n := 1; n < len(w.grid); n++ {
		if slices.ContainsFunc(endings, func(r oracleRule) bool { return !r.endsRight(w.grid[n]) }) {
			continue
		}
		price := grid.Price(int64(n))
		allowed := it.Allowed.Contains(price)
		if allowed && broken {
			out = append(out, rule.AllowedRange{First: price, NoneLower: first})
		}
		if allowed {
			out[len(out)-1].Last = price
		}
		broken, first = !allowed, false
	}
	if !broken && len(out) > 0 {
		out[len(out)-1].NoneHigher = true
	}
	return out
}
