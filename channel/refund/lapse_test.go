package refund_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel/refund"
)

// twoPrints is 2 prints at 30.00 with a code for 10% from 50.00, and postage of 4.50 that is free from 50.00: 54.00
// paid. All invented.
func twoPrints(lapse bool) refund.Order {
	return refund.Order{
		Lines: []refund.OrderLine{{Product: "heron", Count: 2, Paid: amount("54.00")}}, Places: 2, Lapse: lapse,
		Code: &refund.Code{From: amount("50.00"), Took: amount("6.00")}, FreePostage: &refund.FreePostage{From: amount("50.00"), Charge: amount("4.50")},
	}
}

func TestLapsing(t *testing.T) {
	one, both := refund.Refund{Lines: []refund.Item{{Count: 1}}}, refund.Refund{Lines: []refund.Item{{Count: 2}}}
	for _, c := range []struct {
		what   string
		lapse  bool
		change func(*refund.Order)
		back   refund.Refund
		want   string // items, lapsed, total, tax back
	}{
		{"not lapsing", false, nil, one, "27.00 0.00 27.00 0.00"},
		// 54.00 − 30.00 − 4.50.
		{"lapsing", true, nil, one, "27.00 7.50 19.50 0.00"},
		{"all back", true, nil, both, "54.00 0.00 54.00 0.00"},
		{"the code is still reached", true, func(o *refund.Order) { o.Code.From = amount("30.00") }, one, "27.00 4.50 22.50 0.00"},
		// The code lapses, and 30.00 without it reach 28.00.
		{"postage is still free", true, func(o *refund.Order) { o.FreePostage.From = amount("28.00") }, one, "27.00 3.00 24.00 0.00"},
		// The code stays, and 27.00 do not reach 28.00; before it 30.00 do.
		{"after the code", true, func(o *refund.Order) { o.Code.From, o.FreePostage.From = amount("0"), amount("28.00") }, one, "27.00 4.50 22.50 0.00"},
		{"before the code", true, func(o *refund.Order) {
			o.Code.From, o.FreePostage.From, o.FreePostage.BeforeCode = amount("0"), amount("28.00"), true
		}, one, "27.00 0.00 27.00 0.00"},
		{"no code", true, func(o *refund.Order) { o.Code = nil }, one, "27.00 4.50 22.50 0.00"},
		// Postage of 40.00 would take more than all: nothing is asked of the buyer.
		{"more than comes back", true, func(o *refund.Order) { o.FreePostage.Charge = amount("40.00") }, one, "27.00 27.00 0.00 0.00"},
		// 9.00 of 54.00 is tax: of 24.00 of the items 4.00, since shipping is not taxed; and of 19.50 3.25 where it is.
		{"tax in it", true, func(o *refund.Order) { o.TaxIn = amount("9.00") }, one, "27.00 7.50 19.50 4.00"},
		{"and in shipping", true, func(o *refund.Order) { o.TaxIn, o.OnShipping = amount("9.00"), true }, one, "27.00 7.50 19.50 3.25"},
		{"half of the price", true, nil, refund.Refund{Lines: one.Lines, Part: quoin.Some(rate("50%"))}, "13.50 7.50 6.00 0.00"},
		// 19.50 went back: the rest of 54.00 follows.
		{"the second print later", true, func(o *refund.Order) { o.Returned = []refund.Refund{one} }, one, "27.00 -7.50 34.50 0.00"},
	} {
		o := twoPrints(c.lapse)
		if c.change != nil {
			c.change(&o)
		}
		s, err := o.Refund(c.back)
		if got := fmt.Sprintf("%.2f %.2f %.2f %.2f", s.Items, s.Lapsed, s.Total, s.TaxBack); err != nil || got != c.want {
			t.Errorf("%s: %s, %v, want %s", c.what, got, err, c.want)
		}
	}
}

func TestLapsingChecked(t *testing.T) {
	for _, c := range []struct {
		change func(*refund.Order)
		want   string
	}{
		{func(o *refund.Order) { o.Code.Took = amount("-1") }, "code.took out_of_range"},
		{func(o *refund.Order) { o.Code.Took = amount("0.005") }, "code.took step_off_minor_unit"},
		{func(o *refund.Order) { o.Code.From = amount("-1") }, "code.from out_of_range"},
		{func(o *refund.Order) { o.FreePostage.Charge = amount("-4.50") }, "free_postage.charge out_of_range"},
		{func(o *refund.Order) { o.FreePostage.From = amount("-4.50") }, "free_postage.from out_of_range"},
		{func(o *refund.Order) { o.Shipping = amount("4.50") }, "free_postage stray_terms"},
	} {
		o := twoPrints(true)
		c.change(&o)
		ps, _ := o.Check().(quoin.Problems)
		if len(ps) != 1 || ps[0].Path+" "+string(ps[0].Code) != c.want {
			t.Errorf("%v, want %s", ps, c.want)
		}
	}
}

// drawLapsing is a drawn order with a code and free postage.
func drawLapsing(t *rapid.T) refund.Order {
	o := drawOrder(t)
	o.Lapse = rapid.Bool().Draw(t, "lapse")
	if rapid.Bool().Draw(t, "a code") {
		o.Code = &refund.Code{From: drawMoney(t, "code from", 60_000), Took: drawMoney(t, "took", 9000)}
	}
	if rapid.Bool().Draw(t, "free postage") {
		o.Shipping = quoin.Amount{}
		o.FreePostage = &refund.FreePostage{From: drawMoney(t, "free from", 60_000), Charge: drawMoney(t, "charge", 3000), BeforeCode: rapid.Bool().Draw(t, "before the code")}
	}
	return o
}

// Refunds of an order whose terms lapse are never below 0, never more than what was paid or than without lapsing, and
// come to all of it where all goes back.
func TestLapsingLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := drawLapsing(t)
		stays := o
		stays.Lapse = false
		var sum, without refund.Settlement
		for range rapid.IntRange(1, 4).Draw(t, "refunds") {
			b := drawBack(t, o)
			if rapid.Bool().Draw(t, "in part") {
				b.Part = quoin.Some(drawRate(t, "part"))
			}
			s := settle(t, &o, b)
			sum, without = add(sum, s), add(without, settle(t, &stays, b))
			for _, a := range []quoin.Amount{s.Items, s.Shipping, s.Tax, s.Total, s.TaxBack, s.FeesBack} {
				if a.Sign() < 0 {
					t.Fatalf("negative: %s", write(s))
				}
			}
			if !s.Items.Add(s.Shipping).Add(s.Tax).Sub(s.Lapsed).Equal(s.Total) {
				t.Fatalf("does not add up: %s, of which %s lapsed", write(s), s.Lapsed)
			}
			if sum.Total.Cmp(paid(o)) > 0 || sum.Total.Cmp(without.Total) > 0 || sum.TaxBack.Cmp(without.TaxBack) > 0 {
				t.Fatalf("%s back, %s without lapsing, %s paid", sum.Total, without.Total, paid(o))
			}
		}
		if len(o.Returned) == 1 && o.Returned[0].Part.IsZero() {
			if sum = add(sum, settle(t, &o, rest(o))); !sum.Total.Equal(paid(o)) {
				t.Fatalf("%s back of %s", sum.Total, paid(o))
			}
		}
	})
}

// What goes back of one order at once is what was paid less what the kept items would have cost: item by item, by the
// terms of the code and of postage.
func TestLapsingIsAsIfBoughtAlone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit, n := rapid.Int64Range(1, 90).Draw(t, "price"), rapid.Int64Range(1, 6).Draw(t, "prints")
		from, free := rapid.Int64Range(0, 400).Draw(t, "code from"), rapid.Int64Range(0, 400).Draw(t, "free from")
		// Whole prices, and a code for 10%: all in cents.
		cost := func(prints int64) (items, shipping int64) {
			if items = 100 * unit * prints; items >= 100*from {
				items -= items / 10
			}
			if items < 100*free {
				shipping = 450
			}
			return items, shipping
		}
		items, shipping := cost(n)
		if items != 90*unit*n || shipping > 0 {
			return // it never had them
		}
		o := refund.Order{
			Lines: []refund.OrderLine{{Product: "heron", Count: n, Paid: quoin.AmountOf(items, 2)}}, Places: 2, Lapse: true,
			Code:        &refund.Code{From: quoin.AmountOf(from, 0), Took: quoin.AmountOf(10*unit*n, 2)},
			FreePostage: &refund.FreePostage{From: quoin.AmountOf(free, 0), Charge: amount("4.50")},
		}
		back := rapid.Int64Range(1, n).Draw(t, "back")
		want := items
		if back < n {
			kept, postage := cost(n - back)
			want = max(0, items-kept-postage)
		}
		if s := settle(t, &o, refund.Refund{Lines: []refund.Item{{Count: back}}}); !s.Total.Equal(quoin.AmountOf(want, 2)) {
			t.Fatalf("%d of %d at %d: %s, want %s", back, n, unit, s.Total, quoin.AmountOf(want, 2))
		}
	})
}
