package pricelist_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/fair"
	"example.com/quoin/margin/edition"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

func TestWaysAreExplained(t *testing.T) { t.Parallel(); rapid.Check(t, waysAreExplained) }
func FuzzWaysAreExplained(f *testing.F) { f.Fuzz(rapid.MakeFuzz(waysAreExplained)) }
func TestFloorsAreThoseOfOneChannel(t *testing.T) {
	t.Parallel()
	rapid.Check(t, floorsAreThoseOfOneChannel)
}
func FuzzDiscountsHoldAndNoDeeper(f *testing.F) { f.Fuzz(rapid.MakeFuzz(discountsHoldAndNoDeeper)) }
func TestDeepestDiscountByScanning(t *testing.T) {
	t.Parallel()
	rapid.Check(t, deepestDiscountByScanning)
}

// waysAreExplained: in every way of selling, steps replay and give the statement to
// the digit, and so do the reasons of sets, fairs and editions.
func waysAreExplained(t *rapid.T) {
	a := must(pricelist.Decide(drawnWays(t)))(t)
	for _, p := range a.Products {
		for _, c := range p.Channels {
			if err := quoin.Replay(c.Steps.Steps()); err != nil {
				t.Fatalf("%s in %s: %v", p.ID, c.ID, err)
			}
			explained(t, c)
		}
	}
	for _, s := range a.Sets {
		reasoned(t, s.ID, s.Steps, map[quoin.StepCode]quoin.Figure{pricelist.StepExpected: s.Expected.Figure()})
	}
	for _, f := range a.Fairs {
		reasoned(t, f.ID, f.Steps, map[quoin.StepCode]quoin.Figure{fair.StepResult: f.Result.Figure(), fair.StepFixed: f.Fixed.Figure(), fair.StepCommission: f.Commission.Figure()})
	}
	for _, e := range a.Editions {
		for _, r := range e.Products {
			months, _ := r.Months.Get()
			reasoned(t, r.Product, r.Reasons, map[quoin.StepCode]quoin.Figure{edition.StepGross: r.Proceeds.Figure(), edition.StepKept: r.Contribution.Figure(), edition.StepMonths: months.Figure()})
		}
	}
}

type fataler interface {
	Helper()
	Fatalf(format string, args ...any)
}

// reasoned checks that steps replay and that the last with each code has a figure.
func reasoned(t fataler, what string, r pricelist.Reasons, want map[quoin.StepCode]quoin.Figure) {
	t.Helper()
	steps := r.Steps()
	if err := quoin.Replay(steps); err != nil || len(steps) == 0 {
		t.Fatalf("%s: %d steps, %v", what, len(steps), err)
	}
	for code, figure := range want {
		found := quoin.Find(steps, func(s quoin.Step) bool { return s.Code == code })
		if len(found) == 0 {
			t.Fatalf("%s: no step %s", what, code)
		}
		if got := steps[found[len(found)-1]-1].Value; !got.Factor().Equal(figure.Factor()) {
			t.Fatalf("%s: %s is %v, but explained as %v", what, code, figure, got)
		}
	}
}

// aboutChannels reports whether a kind of rule asks something of channels.
func aboutChannels(k rule.Kind) bool {
	switch k.(type) {
	case rule.GrossMargin, rule.NetMargin, rule.Contribution, rule.CostMultiple:
		return true
	}
	return false
}

// alone is a document with one channel and the kept rules that speak of one product
// there, none of them between sizes.
func alone(doc pricelist.Document, product string, j int, dropped []string) pricelist.Document {
	c := doc.Channels[j]
	var rules []rule.Rule
	for _, r := range doc.Rules {
		_, step := r.Kind.(rule.SizeRatio)
		elsewhere := aboutChannels(r.Kind) && len(r.Channels) > 0 && !slices.Contains(r.Channels, c.ID)
		if step || elsewhere || slices.Contains(dropped, r.ID) || !r.SpeaksOf(product, designOf(doc, product)) {
			continue
		}
		r.Strength, r.Products, r.Designs, r.Channels = rule.Must, []string{product}, nil, nil
		rules = append(rules, r)
	}
	doc.Products = slices.Clone(doc.Products)
	for i := range doc.Products { // others are there to be extended
		p := &doc.Products[i]
		if w := c.OnDemand; w != nil && len(p.Channels) > 0 && !slices.Contains(p.Channels, c.ID) {
			printing := *w
			printing.Sizes = append(slices.Clone(w.Sizes), channel.OnDemandProduct{Product: p.ID})
			c.OnDemand = &printing
		}
		p.Channels = nil
	}
	doc.Channels, doc.Rules, doc.Choose = []channel.Channel{c}, rules, rule.Least
	doc.Sets, doc.Fairs, doc.Editions, doc.EditionLimits = nil, nil, nil, nil
	doc.Products = slices.Clone(doc.Products)
	for i := range doc.Products { // a class that only other channels know is none
		if p := &doc.Products[i]; !slices.Contains(c.TaxClasses(), p.TaxClass) {
			p.TaxClass = ""
		}
	}
	doc.Channels[0].Orders = knownClasses(c.Orders, c.TaxClasses())
	return doc
}

// floorsAreThoseOfOneChannel: each floor is the least price of the same document with
// that channel alone, and the greatest of them sets the price; a channel of which
// nothing is asked is silent and has none.
func floorsAreThoseOfOneChannel(t *rapid.T) {
	doc := drawnWays(t)
	a := must(pricelist.Decide(doc))(t)
	for i, p := range a.Products {
		var highest quoin.Amount
		standing := p.ByChannel.Channels()
		for _, s := range standing {
			j := slices.IndexFunc(doc.Channels, func(c channel.Channel) bool { return c.ID == s.Channel })
			b := must(pricelist.Decide(alone(doc, p.ID, j, a.Dropped)))(t)
			floor, ok := s.Floor.Get()
			if s.NoRule != !asksOf(doc, p.ID, s.Channel, a.Dropped) {
				t.Fatalf("%s in %s: silent %t", p.ID, s.Channel, s.NoRule)
			}
			if s.NoRule && !ok && !s.SetsPrice {
				continue
			}
			if ok != (len(b.Conflict) == 0) || ok && !floor.Equal(b.Products[i].Least) {
				t.Fatalf("%s in %s: floor %s, %t, alone %s by %q", p.ID, s.Channel, floor, ok, places(leastOfAnswer(b, i), 3), b.Conflict)
			}
			if floor.Cmp(p.Least) > 0 {
				t.Fatalf("%s in %s: floor %s above the least price %s", p.ID, s.Channel, floor, p.Least)
			}
			if floor.Cmp(highest) > 0 {
				highest = floor
			}
		}
		for _, s := range standing {
			if floor, ok := s.Floor.Get(); s.SetsPrice != (ok && floor.Equal(highest)) {
				t.Fatalf("%s in %s: sets the price %t, with a floor of %s of %s", p.ID, s.Channel, s.SetsPrice, floor, highest)
			}
		}
	}
}

func designOf(doc pricelist.Document, product string) string {
	return doc.Products[slices.IndexFunc(doc.Products, func(p pricelist.Product) bool { return p.ID == product })].Design
}

// asksOf reports whether a kept rule asks something of a product in a channel.
func asksOf(doc pricelist.Document, product, sold string, dropped []string) bool {
	return slices.ContainsFunc(doc.Rules, func(r rule.Rule) bool {
		there := len(r.Channels) == 0 || slices.Contains(r.Channels, sold)
		return aboutChannels(r.Kind) && there && r.SpeaksOf(product, designOf(doc, product)) && !slices.Contains(dropped, r.ID)
	})
}

// leastOfAnswer is the least price of a product, none on a conflict.
func leastOfAnswer(a pricelist.Answer, i int) quoin.Optional[quoin.Amount] {
	if len(a.Conflict) > 0 {
		return quoin.Optional[quoin.Amount]{}
	}
	return quoin.Some(a.Products[i].Least)
}

// discounted is the items of a document in which the promotion of a channel is n per cent
// deeper.
func discounted(t *rapid.T, doc pricelist.Document, j int, n int64) []rule.Item {
	doc.Channels = slices.Clone(doc.Channels)
	c := &doc.Channels[j]
	rest := c.Promotion.Complement().Times(quoin.FactorOf(100 - n)).Over(quoin.FactorOf(100))
	c.Promotion = quoin.FactorOf(1).Sub(rest).Rate()
	return must(doc.Items(rule.Likely))(t)
}

// bears evaluates every kept rule on channels forward for an item in channel j alone.
func bears(doc pricelist.Document, dropped []string, it rule.Item, j int, price quoin.Amount) (holds, asked bool) {
	it.Offers = it.Offers[j : j+1]
	holds = true
	for _, r := range doc.Rules {
		if !aboutChannels(r.Kind) || slices.Contains(dropped, r.ID) {
			continue
		}
		for _, v := range r.Judge(it, price) {
			asked, holds = true, holds && v.OK
		}
	}
	return holds, asked
}

// discountsHoldAndNoDeeper: what the rules are said to bear they bear, and one per cent
// more they do not; with none, not even one per cent. Free shipping and tiers can make
// a deeper discount hold again, so that is not said of all that are deeper.
func discountsHoldAndNoDeeper(t *rapid.T) {
	doc := drawnWays(t)
	a := must(pricelist.Decide(doc))(t)
	if len(a.Conflict) > 0 {
		return
	}
	i := rapid.IntRange(0, len(a.Products)-1).Draw(t, "product asked")
	p := a.Products[i]
	n := rapid.IntRange(0, len(p.Channels)-1).Draw(t, "channel asked") // of those that sell it
	j := slices.IndexFunc(doc.Channels, func(c channel.Channel) bool { return c.ID == p.Channels[n].ID })
	s := p.ByChannel.Channels()[n]
	found := int64(0)
	for m := int64(1); s.Discount != nil && m < 100; m++ {
		if quoin.FactorOf(m).Over(quoin.FactorOf(100)).Rate().Equal(s.Discount.By) {
			found = m
		}
	}
	if (found == 0) != (s.Discount == nil) {
		t.Fatalf("%s off, which is no whole per cent", s.Discount.By)
	}
	if found > 0 {
		it := discounted(t, doc, j, found)[i]
		if holds, _ := bears(doc, a.Dropped, it, n, p.Price); !holds {
			t.Fatalf("%d%% off breaks a rule", found)
		}
		if kept := it.Offers[n].Sale.At(p.Price).Contribution; !kept.Equal(s.Discount.Contribution) || kept.Sign() < 0 {
			t.Fatalf("%d%% off keeps %v, not %v", found, kept, s.Discount.Contribution)
		}
	}
	if found < 99 {
		deeper := discounted(t, doc, j, found+1)[i]
		holds, _ := bears(doc, a.Dropped, deeper, n, p.Price)
		loses := deeper.Offers[n].Sale.At(p.Price).Contribution.Sign() < 0
		if holds && !loses {
			t.Fatalf("%d%% off, and %d%% breaks nothing", found, found+1)
		}
		if s.Discount != nil && (len(s.Discount.Rules) == 0 != holds || s.Discount.Loss != loses) {
			t.Fatalf("stopped by %q and a loss: %t; rules hold: %t, it loses: %t", s.Discount.Rules, s.Discount.Loss, holds, loses)
		}
	}
	if kept := discounted(t, doc, j, 10)[i].Offers[n].Sale.At(p.Price).Contribution; !kept.Equal(s.TenthOff.Contribution) {
		t.Fatalf("a tenth off keeps %v, not %v", kept, s.TenthOff.Contribution)
	}
}

// deepestDiscountByScanning: where a deeper discount never holds once a shallower one
// does not, the deepest is that which scanning from 1% to 99% finds.
func deepestDiscountByScanning(t *rapid.T) {
	doc := alone(drawnWays(t), "print-1", 0, nil)
	if rapid.IntRange(0, 2).Draw(t, "one in three") > 0 {
		return // too much to scan
	}
	a := must(pricelist.Decide(doc))(t)
	if len(a.Conflict) > 0 {
		return
	}
	p := a.Products[0]
	deepest, failed, again := int64(0), false, false
	for n := int64(1); n < 100; n++ {
		it := discounted(t, doc, 0, n)[0]
		holds, _ := bears(doc, nil, it, 0, p.Price)
		if !holds || it.Offers[0].Sale.At(p.Price).Contribution.Sign() < 0 {
			failed = true
			continue
		}
		again = again || failed
		deepest = n
	}
	if again {
		return
	}
	got := p.ByChannel.Channels()[0].Discount
	if (got == nil) != (deepest == 0) || got != nil && !got.By.Equal(quoin.FactorOf(deepest).Over(quoin.FactorOf(100)).Rate()) {
		t.Fatalf("%v, want %d%%", got, deepest)
	}
}
