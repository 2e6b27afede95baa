package refund_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel/refund"
)

func drawMoney(t *rapid.T, name string, most int64) quoin.Amount {
	return quoin.AmountOf(rapid.Int64Range(0, most).Draw(t, name), 2)
}

func drawRate(t *rapid.T, name string) quoin.Rate {
	return quoin.AmountOf(rapid.Int64Range(0, 1000).Draw(t, name), 3).Share(quoin.AmountOf(1, 0))
}

func drawOrder(t *rapid.T) refund.Order {
	o := refund.Order{Shipping: drawMoney(t, "shipping", 2000), OnShipping: rapid.Bool().Draw(t, "on shipping"), Places: 2}
	for range rapid.IntRange(1, 3).Draw(t, "lines") {
		o.Lines = append(o.Lines, refund.OrderLine{Product: "rail", Count: rapid.Int64Range(1, 7).Draw(t, "count"), Paid: quoin.AmountOf(rapid.Int64Range(1, 30_000).Draw(t, "paid"), 2)})
	}
	tax := o.Lines[0].Paid.Part(drawRate(t, "tax")).Round(2, quoin.HalfUp)
	if rapid.Bool().Draw(t, "tax inside") {
		o.TaxIn = tax
	} else {
		o.Tax = tax
	}
	for range rapid.IntRange(0, 3).Draw(t, "fees") {
		o.Fees = append(o.Fees, refund.Fee{Name: "fee", Amount: drawMoney(t, "fee", 3000), Returned: drawRate(t, "fee returned")})
	}
	return o
}

// drawBack is a refund of some items of those that are left.
func drawBack(t *rapid.T, o refund.Order) refund.Refund {
	left := left(o)
	b := refund.Refund{Postage: drawMoney(t, "postage", 900), Dispute: drawMoney(t, "dispute", 2000)}
	for i, n := range left {
		if n == 0 || !rapid.Bool().Draw(t, "of this line") {
			continue
		}
		count := rapid.Int64Range(1, n).Draw(t, "back")
		b.Lines = append(b.Lines, refund.Item{Line: i, Count: count, Resold: rapid.Int64Range(0, count).Draw(t, "resold"), Worth: drawMoney(t, "worth", 1500)})
	}
	b.Shipping = !shipped(o) && rapid.Bool().Draw(t, "shipping back")
	return b
}

func left(o refund.Order) []int64 {
	var out []int64
	for _, l := range o.Lines {
		out = append(out, l.Count)
	}
	for _, b := range o.Returned {
		for _, item := range b.Lines {
			out[item.Line] -= item.Count
		}
	}
	return out
}

func shipped(o refund.Order) bool {
	return slices.ContainsFunc(o.Returned, func(b refund.Refund) bool { return b.Shipping })
}

// rest is a refund of all that is left.
func rest(o refund.Order) refund.Refund {
	b := refund.Refund{Shipping: !shipped(o)}
	for i, n := range left(o) {
		if n > 0 {
			b.Lines = append(b.Lines, refund.Item{Line: i, Count: n})
		}
	}
	return b
}

func paid(o refund.Order) quoin.Amount {
	sum := o.Shipping.Add(o.Tax)
	for _, l := range o.Lines {
		sum = sum.Add(l.Paid)
	}
	return sum
}

func settle(t *rapid.T, o *refund.Order, b refund.Refund) refund.Settlement {
	s, err := o.Refund(b)
	if err != nil {
		t.Fatal(err)
	}
	o.Returned = append(o.Returned, b)
	return s
}

// add sums two settlements up.
func add(s, u refund.Settlement) refund.Settlement {
	for _, pair := range [][2]*quoin.Amount{
		{&s.Items, &u.Items},
		{&s.Shipping, &u.Shipping},
		{&s.Tax, &u.Tax},
		{&s.Total, &u.Total},
		{&s.TaxBack, &u.TaxBack},
		{&s.FeesBack, &u.FeesBack},
		{&s.FeesKept, &u.FeesKept},
		{&s.GoodsBack, &u.GoodsBack},
		{&s.Postage, &u.Postage},
		{&s.Dispute, &u.Dispute},
		{&s.Result, &u.Result},
	} {
		*pair[0] = pair[0].Add(*pair[1])
	}
	return s
}

// Refunds, whole or in part, never come to more than was paid; nothing that is
// paid back is negative; each settlement adds up.
func TestNeverMoreThanPaid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := drawOrder(t)
		var sum refund.Settlement
		for range rapid.IntRange(1, 4).Draw(t, "refunds") {
			b := drawBack(t, o)
			if rapid.Bool().Draw(t, "in part") {
				b.Part = quoin.Some(drawRate(t, "part"))
			}
			s := settle(t, &o, b)
			for _, a := range []quoin.Amount{s.Items, s.Shipping, s.Tax, s.Total, s.TaxBack, s.FeesBack, s.GoodsBack} {
				if a.Sign() < 0 {
					t.Fatalf("negative: %s", write(s))
				}
			}
			if !s.Items.Add(s.Shipping).Add(s.Tax).Equal(s.Total) {
				t.Fatalf("does not add up: %s", write(s))
			}
			out := s.Items.Add(s.Shipping).Add(s.Postage).Add(s.Dispute)
			if in := s.TaxBack.Add(s.FeesBack).Add(s.GoodsBack); !in.Sub(out).Equal(s.Result) {
				t.Fatalf("the result does not add up: %s", write(s))
			}
			sum = add(sum, s)
		}
		if sum.Total.Cmp(paid(o)) > 0 || sum.TaxBack.Cmp(o.TaxIn) > 0 {
			t.Fatalf("%s and tax of %s back, %s paid", sum.Total, sum.TaxBack, paid(o))
		}
	})
}

// Whatever came before, giving back all that is left gives back exactly what
// was paid, all tax and each fee's share, rounded once.
func TestAllBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := drawOrder(t)
		var sum refund.Settlement
		for range rapid.IntRange(0, 3).Draw(t, "refunds") {
			sum = add(sum, settle(t, &o, drawBack(t, o)))
		}
		sum = add(sum, settle(t, &o, rest(o)))
		var fees, back quoin.Amount
		for _, f := range o.Fees {
			fees, back = fees.Add(f.Amount), back.Add(f.Amount.Part(f.Returned).Round(2, quoin.HalfUp))
		}
		if !sum.Total.Equal(paid(o)) || !sum.Tax.Equal(o.Tax) || !sum.TaxBack.Equal(o.TaxIn) || !sum.FeesBack.Equal(back) || !sum.FeesKept.Equal(fees.Sub(back)) {
			t.Fatalf("paid %s, fees %s of which %s come back: %s", paid(o), fees, back, write(sum))
		}
	})
}

// A refund in two pieces comes to what it does in one.
func TestInTwoPieces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := drawOrder(t)
		if rapid.Bool().Draw(t, "one before") {
			settle(t, &o, drawBack(t, o))
		}
		other := o
		first := drawBack(t, o)
		got := settle(t, &o, first)
		second := drawBack(t, o)
		got = add(got, settle(t, &o, second))
		whole := settle(t, &other, refund.Refund{
			Lines: append(slices.Clone(first.Lines), second.Lines...), Shipping: first.Shipping || second.Shipping,
			Postage: first.Postage.Add(second.Postage), Dispute: first.Dispute.Add(second.Dispute),
		})
		if write(got) != write(whole) {
			t.Fatalf("in two\n%s, in one\n%s", write(got), write(whole))
		}
	})
}

// An item's price is that of an even split of what was paid for its line.
func TestItemsAreSplit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := drawOrder(t)
		weights := make([]quoin.Factor, o.Lines[0].Count)
		for i := range weights {
			weights[i] = quoin.FactorOf(1)
		}
		parts, err := o.Lines[0].Paid.Split(2, weights...)
		if err != nil {
			t.Fatal(err)
		}
		for i, want := range parts {
			if s := settle(t, &o, refund.Refund{Lines: []refund.Item{{Count: 1}}}); !s.Items.Equal(want) {
				t.Fatalf("item %d: %s, want %s", i, s.Items, want)
			}
		}
	})
}

// What is explained is what is computed; more returns, disputes, postage and
// fees never cost less.
func TestRatesLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := refund.Rates{
			Returned: drawRate(t, "returned"), Resold: drawRate(t, "resold"), Disputed: drawRate(t, "disputed"),
			Postage: drawMoney(t, "postage", 1000), Fee: drawMoney(t, "fee", 2000),
		}
		if rapid.Bool().Draw(t, "in part") {
			r.Part, r.Lost = quoin.Some(drawRate(t, "part")), quoin.Some(drawRate(t, "lost"))
		}
		trail := quoin.NewTrail(3)
		at := quoin.InList("channels", 0).Inside("refunds")
		share, back := r.ExplainShare(trail, at).Value, r.ExplainBackOnSale(trail, at).Value
		perOrder, ok := r.ExplainPerOrder(trail, at).Value.Amount()
		if !ok || !share.Factor().Equal(r.Share().Factor()) || !back.Factor().Equal(r.BackOnSale().Factor()) || !perOrder.Equal(r.PerOrder()) {
			t.Fatalf("explained as %s, %s, %s, computed as %s, %s, %s", share, perOrder, back, r.Share(), r.PerOrder(), r.BackOnSale())
		}
		if err := quoin.Replay(trail.Steps()); err != nil {
			t.Fatal(err)
		}
		if over := r.Share().Complement().Sign() < 0; over != (r.Check() != nil) {
			t.Fatalf("a share of %s: %v", r.Share(), r.Check())
		}
		for what, change := range map[string]func(*refund.Rates){
			"more returned": func(r *refund.Rates) { r.Returned = r.Returned.Add(rate("1%")) },
			"more disputed": func(r *refund.Rates) { r.Disputed = r.Disputed.Add(rate("1%")) },
			"all lost":      func(r *refund.Rates) { r.Lost = quoin.Optional[quoin.Rate]{} },
			"all given":     func(r *refund.Rates) { r.Part = quoin.Optional[quoin.Rate]{} },
			"postage":       func(r *refund.Rates) { r.Postage = r.Postage.Add(amount("1")) },
		} {
			more := r
			change(&more)
			if more.Share().Cmp(r.Share()) < 0 || more.PerOrder().Cmp(r.PerOrder()) < 0 || more.BackOnSale().Cmp(r.BackOnSale()) < 0 {
				t.Fatalf("%s: less of something", what)
			}
		}
	})
}
