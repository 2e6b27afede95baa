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

func TestWhatIsSoldOtherwiseAddsUp(t *testing.T) {
	t.Parallel()
	rapid.Check(t, whatIsSoldOtherwiseAddsUp)
}

// whatIsSoldOtherwiseAddsUp holds sets, fairs and editions against sums made here.
func whatIsSoldOtherwiseAddsUp(t *rapid.T) {
	doc := drawnWays(t)
	a := must(pricelist.Decide(doc))(t)
	items := must(doc.Items(rule.Likely))(t)
	setsKeepAsMuch(t, doc, a)
	fairsAddUp(t, doc, a)
	editionStepsAreTheNextAsked(t, doc, a, items)
}

// setsKeepAsMuch: the least price of a set is the first, of all tried one by one, at
// which an order of it keeps what is expected without it.
func setsKeepAsMuch(t *rapid.T, doc pricelist.Document, a pricelist.Answer) {
	for n, s := range a.Sets {
		set := doc.Sets[n]
		j := slices.IndexFunc(doc.Channels, func(c channel.Channel) bool { return c.ID == set.Channel })
		index := func(id string) int {
			return slices.IndexFunc(doc.Products, func(p pricelist.Product) bool { return p.ID == id })
		}
		alone := doc
		alone.Channels = slices.Clone(doc.Channels)
		alone.Channels[j].Orders = slices.Clone(alone.Channels[j].Orders)
		for k := range alone.Channels[j].Orders {
			alone.Channels[j].Orders[k].Items = 1
		}
		orders := must(alone.Items(rule.Likely))(t)
		kept := func(id string) quoin.Amount {
			o, _ := orders[index(id)].Offer(set.Channel)
			st := o.Sale.At(a.Products[index(id)].Price)
			return st.Contribution.Add(st.FixedCost)
		}
		var apart, expected quoin.Amount
		for _, id := range set.Products {
			apart = apart.Add(a.Products[index(id)].Price)
			if len(set.Alternatives) == 0 {
				expected = expected.Add(kept(id))
			}
		}
		for _, b := range set.Alternatives {
			for _, id := range b.Products {
				expected = expected.Add(kept(id).Part(b.Share))
			}
		}
		if !s.SumOfPrices.Equal(apart) || !s.Expected.Equal(expected) {
			t.Fatalf("%s apart for %s, want %s and %s", s.Expected, s.SumOfPrices, expected, apart)
		}
		if !doc.Channels[j].ByProduct() {
			triedOneByOne(t, doc, set, j, s)
		}
	}
}

// triedOneByOne holds a set against orders of one item of its products.
func triedOneByOne(t *rapid.T, doc pricelist.Document, set pricelist.Set, j int, s pricelist.SetPrice) {
	doc.Channels = slices.Clone(doc.Channels)
	c := &doc.Channels[j]
	c.Orders = slices.Clone(c.Orders)
	for i := range c.Orders {
		c.Orders[i].Items = 1
	}
	var goods quoin.Amount
	for i, it := range must(doc.Items(rule.Likely))(t) {
		if slices.Contains(set.Products, doc.Products[i].ID) {
			o, _ := it.Offer(set.Channel)
			goods = goods.Add(o.Sale.GoodsPerItem())
		}
	}
	one, terms := must(doc.Grid())(t), c.Terms(doc.Currency)
	g := must(quoin.NewGrid(one.Step(), one.Price(one.Len()).Times(quoin.FactorOf(int64(len(set.Products))))))(t)
	var want quoin.Optional[quoin.Amount]
	for n := int64(1); n <= g.Len() && want.IsZero(); n++ {
		k := terms.Proceeds(g.Price(n))
		if keeps := k.Revenue.Sub(goods).Sub(k.Fees).Sub(k.Fulfilment); keeps.Cmp(s.Expected) >= 0 {
			want = quoin.Some(g.Price(n))
		}
	}
	x, ok := want.Get()
	y, given := s.Least.Get()
	if ok != given || ok && !x.Equal(y) {
		t.Fatalf("a set costs at least %v, %t, want %v, %t", y, given, x, ok)
	}
}

// fairsAddUp: the result is prints × what is kept at the mix, less all costs and the
// greater of both commissions, from the statements of the answer.
func fairsAddUp(t *rapid.T, doc pricelist.Document, a pricelist.Answer) {
	for n, f := range a.Fairs {
		given := doc.Fairs[n]
		var kept, sales quoin.Amount
		for _, m := range given.Mix {
			i := slices.IndexFunc(a.Products, func(p pricelist.ProductResult) bool { return p.ID == m.Product })
			j := slices.IndexFunc(a.Products[i].Channels, func(c pricelist.ChannelResult) bool { return c.ID == given.Channel })
			st := a.Products[i].Channels[j].Statement
			kept = kept.Add(st.Contribution.Add(st.FixedCost).Times(given.Prints).Part(m.Share))
			sales = sales.Add(st.Revenue.Add(st.Tax).Times(given.Prints).Part(m.Share))
		}
		commission := sales.Part(given.Commission)
		if commission.Cmp(given.CommissionAtLeast) < 0 {
			commission = given.CommissionAtLeast
		}
		chance, _ := given.Chance.Get()
		want := kept.Sub(given.Stand).Sub(given.Jury.Over(chance.Factor())).Sub(commission)
		if !f.Result.Equal(want) || !f.Sales.Equal(sales) {
			t.Fatalf("%v of %v, want %v of %v", f.Result, f.Sales, want, sales)
		}
		if (f.Verdict == fair.Go) != (want.Sign() >= 0) {
			t.Fatalf("%s with a result of %v", f.Verdict, want)
		}
	}
}

// editionStepsAreTheNextAsked: a step that is a multiple costs the least price from there
// on at which every kept ending holds, the rules that refuse it are those that do not
// hold, and the counts are all that are left.
func editionStepsAreTheNextAsked(t *rapid.T, doc pricelist.Document, a pricelist.Answer, items []rule.Item) {
	for n, e := range a.Editions {
		given := doc.Editions[n]
		for k, r := range e.Products {
			it := items[k]
			var takings quoin.Amount
			var count int64
			keeps := make([]quoin.Amount, len(it.Offers))
			for m, s := range r.Steps {
				want := asked(doc, a.Dropped, it, given.Steps[m], a.Products[k].Price)
				if !s.Price.Equal(want) {
					t.Fatalf("%s, step %d: %s, want %s", r.Product, m, s.Price, want)
				}
				if got := refusedBy(doc, a.Dropped, it, s.Price); !slices.Equal(s.Refused, got) {
					t.Fatalf("%s at %s is refused by %q, want %q", r.Product, s.Price, s.Refused, got)
				}
				takings = takings.Add(s.Price.Times(quoin.FactorOf(s.Count)))
				for j, o := range it.Offers {
					keeps[j] = keeps[j].Add(o.Sale.At(s.Price).Contribution.Times(quoin.FactorOf(s.Count)))
				}
				count += s.Count
			}
			least := slices.MinFunc(keeps, quoin.Amount.Cmp)
			if count != r.Count || count != given.Size-given.Sold || !takings.Equal(r.Proceeds) || !least.Equal(r.Contribution) {
				t.Fatalf("%s: %d for %v, keeps %v, want %d for %v, keeps %v", r.Product, r.Count, r.Proceeds, r.Contribution, count, takings, least)
			}
			if j := slices.IndexFunc(keeps, least.Equal); it.Offers[j].Channel != r.Channel {
				t.Fatalf("%s keeps least in %q, want %q", r.Product, r.Channel, it.Offers[j].Channel)
			}
		}
	}
}

// asked tries prices one by one, above the limit too.
func asked(doc pricelist.Document, dropped []string, it rule.Item, s edition.PriceStep, price quoin.Amount) quoin.Amount {
	if own, given := s.Price.Get(); given {
		return own
	}
	step, from := it.Grid.Step(), price.Times(s.Times)
	for p := step; ; p = p.Add(step) {
		fits := p.Cmp(from) >= 0
		for _, r := range doc.Rules {
			_, ending := r.Kind.(rule.Ending)
			fits = fits && (!ending || slices.Contains(dropped, r.ID) || r.Holds(it, p))
		}
		if fits {
			return p
		}
	}
}

func refusedBy(doc pricelist.Document, dropped []string, it rule.Item, p quoin.Amount) []string {
	var out []string
	for _, r := range doc.Rules {
		switch r.Kind.(type) {
		case rule.SizeRatio, rule.MaxChange:
			continue
		}
		if !slices.Contains(dropped, r.ID) && slices.ContainsFunc(r.Judge(it, p), func(v rule.Verdict) bool { return !v.OK }) {
			out = append(out, r.ID)
		}
	}
	return out
}
