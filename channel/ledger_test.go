package channel_test

import (
	"math/big"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
)

// ledger is one order, settled by hand. A figure is a decimal or a fraction of
// two; fees are those that come to something, each name and what counts of it,
// with semicolons between.
type ledger struct {
	what                                      string
	c                                         channel.Channel
	kind                                      int
	list                                      string
	items, shipping, tax, revenue, fulfilment string
	fees                                      string
}

func (l ledger) check(t *testing.T) {
	t.Helper()
	tm := l.c.Terms(eur)
	s := tm.Settle(l.kind, amount(l.list))
	for _, line := range []struct {
		name string
		got  quoin.Amount
		want string
	}{{"items", s.Items, l.items}, {"shipping", s.Shipping, l.shipping}, {"tax", s.Tax, l.tax}, {"revenue", s.Revenue, l.revenue}, {"fulfilment", s.Fulfilment, l.fulfilment}} {
		if !comesTo(line.got, line.want) {
			t.Errorf("%s: %s are %s, want %s", l.what, line.name, line.got, line.want)
		}
	}
	if got := charges(tm, s); !sameCharges(got, l.fees) {
		t.Errorf("%s: fees are %q, want %q", l.what, written(got), l.fees)
	}
}

type charged struct {
	name  string
	total quoin.Amount
}

// charges are the fees that come to something.
func charges(tm channel.Terms, s channel.Settlement) []charged {
	var out []charged
	for i, name := range tm.Fees() {
		if !s.Charges[i].Total.IsZero() {
			out = append(out, charged{name, s.Charges[i].Total})
		}
	}
	return out
}

func written(all []charged) string {
	var out []string
	for _, c := range all {
		out = append(out, c.name+" "+c.total.String())
	}
	return strings.Join(out, "; ")
}

func sameCharges(got []charged, want string) bool {
	var lines []string
	if want != "" {
		lines = strings.Split(want, "; ")
	}
	if len(lines) != len(got) {
		return false
	}
	for i, line := range lines {
		at := strings.LastIndex(line, " ")
		if line[:at] != got[i].name || !comesTo(got[i].total, line[at+1:]) {
			return false
		}
	}
	return true
}

// comesTo reports whether an amount is a figure to 12 places: a decimal, or one
// over another; none is 0.
func comesTo(got quoin.Amount, want string) bool {
	off := new(big.Rat).Sub(got.Rat(), fraction(want))
	return off.Abs(off).Cmp(big.NewRat(1, 1_000_000_000_000)) < 0
}

func fraction(s string) *big.Rat {
	if s == "" {
		return new(big.Rat)
	}
	over, under, isOver := strings.Cut(s, "/")
	r, ok := new(big.Rat).SetString(over)
	if !ok {
		panic("no figure: " + s)
	}
	if isOver {
		r.Quo(r, fraction(under))
	}
	return r
}

func some(s string) quoin.Optional[quoin.Amount]   { return quoin.Some(amount(s)) }
func someRate(s string) quoin.Optional[quoin.Rate] { return quoin.Some(rate(s)) }
