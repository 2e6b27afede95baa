package review_test

import (
	"flag"
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/cost"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/review"
	"example.com/quoin/margin/rule"
	"example.com/quoin/waste"
)

// A law is checked five times where no number is asked for: each check decides
// many documents.
func init() {
	if checks := flag.Lookup("rapid.checks"); checks.Value.String() == checks.DefValue {
		_ = flag.Set("rapid.checks", "5")
	}
}

// drawn is a small shop, and the same a year later, with up to three numbers changed.
func drawn(t *rapid.T) (last, now pricelist.Document) {
	cents := func(what string, least, most int64) quoin.Amount {
		return quoin.AmountOf(rapid.Int64Range(least, most).Draw(t, what), 2)
	}
	rate := func(what string, least, most int64) quoin.Rate {
		return quoin.AmountOf(rapid.Int64Range(least, most).Draw(t, what), 3).Share(quoin.AmountOf(1, 0))
	}
	doc := pricelist.Document{Version: 1, Currency: quoin.MustCurrency("EUR"), PriceLimit: quoin.Some(quoin.AmountOf(5000, 0))}
	doc.Stages = waste.Route{{ID: "print", Yield: rate("yield", 500, 1000)}}
	for i := range rapid.IntRange(1, 3).Draw(t, "supplies") {
		doc.Supplies = append(doc.Supplies, cost.Supply{ID: fmt.Sprint("s", i), Quantity: quoin.MustQuantity("7 piece"), Price: cents("price", 1, 3000)})
	}
	for i := range rapid.IntRange(1, 2).Draw(t, "products") {
		p := pricelist.Product{ID: fmt.Sprint("p", i)}
		for _, s := range doc.Supplies {
			p.Bill = append(p.Bill, cost.BillLine{Supply: s.ID, Quantity: quoin.MustQuantity("3 piece"), Stage: "print"})
		}
		doc.Products = append(doc.Products, p)
	}
	for i := range rapid.IntRange(1, 2).Draw(t, "channels") {
		fee := channel.Fee{Name: "fee", Rate: rate("fee", 1, 400), Fixed: cents("fixed", 0, 100)}
		doc.Channels = append(doc.Channels, channel.Channel{ID: fmt.Sprint("c", i), Fees: []channel.Fee{fee}})
	}
	doc.Rules = []rule.Rule{
		{ID: "keeps", Kind: rule.Contribution{AtLeast: cents("keeps", 0, 2000)}},
		{ID: "gross", Kind: rule.GrossMargin{AtLeast: rate("gross", 0, 800)}},
	}
	now = doc
	now.Supplies, now.Channels, now.Stages = slices.Clone(doc.Supplies), slices.Clone(doc.Channels), slices.Clone(doc.Stages)
	if rapid.Bool().Draw(t, "change") {
		now.Supplies[0].Price = cents("new price", 1, 3000)
	}
	if rapid.Bool().Draw(t, "change") {
		now.Channels[0].Fees = slices.Clone(now.Channels[0].Fees)
		now.Channels[0].Fees[0].Rate = rate("new fee", 1, 400)
	}
	if rapid.Bool().Draw(t, "change") {
		now.Stages[0].Yield = rate("new yield", 500, 1000)
	}
	return doc, now
}

// exactly is the unrounded shares of a product by input.
func exactly(f review.Floor) map[string]quoin.Amount {
	out := make(map[string]quoin.Amount)
	for _, s := range f.Shares {
		out[strings.Join(s.Inputs, " ")] = s.Exact
	}
	return out
}

func compared(t *rapid.T, last, now pricelist.Document) review.Review {
	r, err := review.Compare(last, nil, now, quoin.MustRate("10%"))
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// The shares sum to the change, rounded or not, and no rounding is a cent.
func TestSharesSum(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		last, now := drawn(t)
		for _, f := range compared(t, last, now).Floors {
			change, ok := f.Change.Get()
			if !ok {
				t.Fatalf("no change: %s", written(f))
			}
			var by, exact quoin.Amount
			for _, s := range f.Shares {
				by, exact = by.Add(s.By), exact.Add(s.Exact)
				if s.Rounding.Cmp(amount("0.01")) >= 0 || s.Rounding.Cmp(amount("-0.01")) <= 0 {
					t.Fatalf("rounded by %s", s.Rounding)
				}
			}
			if !by.Equal(change) || !exact.Equal(change) {
				t.Fatalf("%s and %s, want %s", by, exact, change)
			}
		}
	})
}

// A document against itself says nothing; exchanged, every share is the other way round.
func TestThereAndBack(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		last, now := drawn(t)
		if r := compared(t, now, now); len(r.Changes) > 0 || r.Method != "" || len(r.Floors[0].Shares) > 0 || !r.Floors[0].Change.Or(amount("1")).IsZero() || r.Moves[0].Advice != review.Stay {
			t.Fatalf("nothing changed, and got %s", written(r))
		}
		there, back := compared(t, last, now), compared(t, now, last)
		for i, f := range there.Floors {
			b := exactly(back.Floors[i])
			if len(b) != len(f.Shares) || !f.Before.Equal(back.Floors[i].After) {
				t.Fatalf("%s\n%s", written(f), written(back.Floors[i]))
			}
			for input, share := range exactly(f) {
				if !b[input].Equal(share.Neg()) {
					t.Fatalf("%s: %s and back %s", input, share, b[input])
				}
			}
		}
	})
}

// The order in which things stand changes no share, to the cent; nor do other ids, to
// the digit.
func TestOrderAndNames(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		last, now := drawn(t)
		want := compared(t, last, now)
		turned := compared(t, last, turned(now))
		renamed := compared(t, renamed(last), renamed(now))
		for _, f := range want.Floors {
			i := slices.IndexFunc(turned.Floors, func(g review.Floor) bool { return g.Product == f.Product })
			if written(turned.Floors[i].Shares) != written(f.Shares) {
				t.Fatalf("turned round %s\nwant %s", written(turned.Floors[i]), written(f))
			}
		}
		for i, f := range want.Floors {
			got := exactly(renamed.Floors[i])
			for input, share := range exactly(f) {
				if !got[strings.Replace(input, `["s`, `["z-s`, 1)].Equal(share) {
					t.Fatalf("renamed %v\nwant %s %s", got, input, share)
				}
			}
		}
	})
}

func turned(doc pricelist.Document) pricelist.Document {
	doc.Supplies, doc.Products, doc.Channels = slices.Clone(doc.Supplies), slices.Clone(doc.Products), slices.Clone(doc.Channels)
	slices.Reverse(doc.Supplies)
	slices.Reverse(doc.Products)
	slices.Reverse(doc.Channels)
	for i := range doc.Products {
		doc.Products[i].Bill = slices.Clone(doc.Products[i].Bill)
		slices.Reverse(doc.Products[i].Bill)
	}
	return doc
}

func renamed(doc pricelist.Document) pricelist.Document {
	doc.Supplies, doc.Products = slices.Clone(doc.Supplies), slices.Clone(doc.Products)
	for i := range doc.Supplies {
		doc.Supplies[i].ID = "z-" + doc.Supplies[i].ID
	}
	for i := range doc.Products {
		doc.Products[i].Bill = slices.Clone(doc.Products[i].Bill)
		for k := range doc.Products[i].Bill {
			doc.Products[i].Bill[k].Supply = "z-" + doc.Products[i].Bill[k].Supply
		}
	}
	return doc
}

// An input that nothing is made of has no share, and two that do the same have the
// same.
func TestNoughtAndTwins(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		last, now := drawn(t)
		want := compared(t, last, now)
		add := func(doc pricelist.Document, unused, twin string) pricelist.Document {
			doc.Supplies = append(slices.Clone(doc.Supplies), cost.Supply{ID: "unused", Quantity: quoin.MustQuantity("1 piece"), Price: amount(unused)})
			for _, id := range []string{"twin a", "twin b"} {
				doc.Supplies = append(doc.Supplies, cost.Supply{ID: id, Quantity: quoin.MustQuantity("1 piece"), Price: amount(twin)})
			}
			return doc
		}
		if got := compared(t, add(last, "1.00", "2.00"), add(now, "5.00", "2.00")); written(exactly(got.Floors[0])) != written(exactly(want.Floors[0])) {
			t.Fatalf("with what is not used %s\nwant %s", written(got.Floors[0]), written(want.Floors[0]))
		}
		twins := func(doc pricelist.Document) pricelist.Document {
			doc.Products = slices.Clone(doc.Products)
			doc.Products[0].Bill = slices.Clone(doc.Products[0].Bill)
			for _, id := range []string{"twin a", "twin b"} {
				doc.Products[0].Bill = append(doc.Products[0].Bill, cost.BillLine{Supply: id, Quantity: quoin.MustQuantity("1 piece")})
			}
			return doc
		}
		// Few enough beside them that all subsets are decided.
		got := exactly(compared(t, twins(add(last, "1.00", "2.00")), twins(add(now, "1.00", "3.11"))).Floors[0])
		a, b := got[`supplies["twin a"].price`], got[`supplies["twin b"].price`]
		if !a.Equal(b) || a.Sign() <= 0 {
			t.Fatalf("%s and %s", a, b)
		}
	})
}

// A move goes toward the decided price, no further than is allowed at once, unless it is
// advised to go all the way.
func TestMovesStayInReach(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		last, now := drawn(t)
		most := quoin.MustRate("10%")
		prices := make(map[string]quoin.Amount)
		for _, p := range last.Products {
			prices[p.ID] = quoin.AmountOf(rapid.Int64Range(1, 20_000).Draw(t, "last price"), 2)
		}
		r, err := review.Compare(last, prices, now, most)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range r.Moves {
			last := prices[m.Product]
			if way := m.Now.Sub(last); way.Sign() != 0 && way.Sign() != m.Decided.Sub(last).Sign() {
				t.Fatalf("the wrong way: %s", written(m))
			}
			far := m.Now.Sub(last)
			if far.Sign() < 0 {
				far = far.Neg()
			}
			if far.Cmp(last.Part(most)) > 0 || m.Advice != review.Wait && !m.Now.Equal(m.Decided) {
				t.Fatalf("too far, or not there: %s", written(m))
			}
		}
	})
}

// Of a document with rules from below alone, dearer never lowers: the floor with a dearer
// supply is no lower, and swings are sorted.
func TestSwings(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		_, doc := drawn(t)
		all, err := review.Sensitivity(doc, quoin.MustRate("20%"))
		if err != nil {
			t.Fatal(err)
		}
		for i, f := range all {
			if i > 0 && f.Swing.Cmp(all[i-1].Swing) > 0 {
				t.Fatal("not sorted")
			}
			for _, s := range f.Products {
				down, up := s.Down.Or(s.Floor), s.Up.Or(s.Floor)
				if strings.HasSuffix(f.Input, ".price") && (down.Cmp(s.Floor) > 0 || up.Cmp(s.Floor) < 0) {
					t.Fatalf("%s: %s, %s, %s", f.Input, down, s.Floor, up)
				}
			}
		}
	})
}
