package margin_test

import (
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
)

// What a plan is made of, and what is a digit too much: all figures of an order, with four digits
// to spare, have to fit in 12 places and 64 bits.
func TestPlanBounds(t *testing.T) {
	kinds := func(share, rest string, items int64) []channel.Order {
		return []channel.Order{{Share: quoin.Some(quoin.MustRate(share))}, {Share: quoin.Some(quoin.MustRate(rest)), Items: items}}
	}
	amount := quoin.MustAmount
	for _, c := range []struct {
		what, currency string
		orders         []channel.Order
		goods, tax     string
		want           bool
	}{
		{"nothing special", "EUR", nil, "2.00", "25%", true},
		{"shares of 6 places, 2 of money and 4 to spare", "EUR", kinds("99.9999%", "0.0001%", 1), "2.00", "25%", true},
		{"shares of 7", "EUR", kinds("99.99999%", "0.00001%", 1), "2.00", "25%", false},
		{"shares that come to 0.999999", "EUR", kinds("50%", "49.9999%", 1), "2.00", "25%", true},
		{"orders of 1.000001 items, none of money", "JPY", kinds("99.9999%", "0.0001%", 2), "2", "25%", false}, // more than a million
		{"orders of 1.00001", "JPY", kinds("99.999%", "0.001%", 2), "2", "25%", true},
		{"a million items", "JPY", []channel.Order{{Items: 1_000_000}}, "2", "25%", true},
		{"500000.5 items", "JPY", kinds("50%", "50%", 1_000_000), "2", "25%", false},
		{"a tax of 6 places", "EUR", nil, "2.00", "12.3456%", true},
		{"of 7", "EUR", nil, "2.00", "12.34567%", false},
		// 10000.9 × 10^9 × 10^4 is above 2^62, 10^9 × 10^9 is not.
		{"an order × what is taxed", "JPY", kinds("99.999%", "0.001%", 10), "2", "12.34%", true}, // 100009 × 10^9 × 10^4
		{"ten times that", "JPY", kinds("99.999%", "0.001%", 10), "2", "12.345%", false},
		{"a hundred times", "JPY", kinds("99.999%", "0.001%", 10), "2", "12.3456%", false},
		{"goods of 2^56 − 1 in 6 places", "EUR", nil, "72057594037.927935", "25%", true},
		{"of 2^56", "EUR", nil, "72057594037.927936", "25%", false},
		{"of 1 − 2^56", "EUR", nil, "-72057594037.927935", "25%", true},
		{"of −2^56", "EUR", nil, "-72057594037.927936", "25%", false},
		{"of 2^56 − 1 and a bit", "EUR", nil, "72057594037.9279359", "25%", true},
		{"of 2^56 and a bit", "EUR", nil, "72057594037.9279361", "25%", false},
		{"of −2^56 and a bit", "EUR", nil, "-72057594037.9279361", "25%", false},
	} {
		sale := margin.NewSale(channel.Channel{Orders: c.orders}.Terms(quoin.MustCurrency(c.currency)), margin.Goods{PerItem: amount(c.goods)})
		sale.IncomeTax = quoin.MustRate(c.tax)
		if _, ok := sale.Plan(); ok != c.want {
			t.Errorf("%s: a plan %t, want %t", c.what, ok, c.want)
		}
	}
	abroad := channel.Channel{ForeignCurrency: &channel.ForeignCurrency{Currency: quoin.MustCurrency("USD"), Rate: quoin.MustFactor("0.80")}}
	if _, ok := margin.NewSale(abroad.Terms(quoin.MustCurrency("EUR")), margin.Goods{}).Plan(); ok {
		t.Error("a plan of what buyers pay in another currency")
	}
	if _, ok := (margin.Sale{}).Plan(); ok {
		t.Error("a plan of nothing")
	}
}

// Prices that are too high for 56 bits have no statement; below that all is as exact as ever. A fee
// of half the price and goods of 1.00 leave half of 20,000,000.01 less 1.00.
func TestPlanOfHighPrices(t *testing.T) {
	shop := channel.Channel{Tax: channel.Tax{Rate: quoin.MustRate("100%")}, Fees: []channel.Fee{{Rate: quoin.MustRate("50%")}}}
	sale := margin.NewSale(shop.Terms(quoin.MustCurrency("EUR")), margin.Goods{PerItem: quoin.MustAmount("1.00")})
	sale.IncomeTax = quoin.MustRate("25%")
	plan, ok := sale.Plan()
	if !ok {
		t.Fatal("no plan")
	}
	const most = 1<<56/10_000 - 1 // four digits to spare
	for _, c := range []struct {
		cents uint64
		ok    bool
	}{{0, true}, {2_000_000_001, true}, {most, true}, {most + 2, false}, {1 << 60, false}, {1<<62 + 1, false}, {1<<64 - 1, false}} {
		got, ok := plan.At(c.cents)
		left, also := plan.Contribution(c.cents)
		if ok != c.ok || also != c.ok {
			t.Errorf("at %d cents: %t and %t, want %t", c.cents, ok, also, c.ok)
		}
		if !c.ok {
			if got != (margin.RoundedStatement{}) || left != 0 {
				t.Errorf("at %d cents: %v and %d of what does not fit", c.cents, got, left)
			}
			continue
		}
		list := int64(c.cents)
		fee := (list + 1) / 2 // half of it, half up
		want := margin.RoundedStatement{Revenue: list, Tax: list, Goods: 100, Gross: list - 100, Fees: fee, Contribution: list - fee - 100, Operating: list - fee - 100}
		want.Net = want.Operating
		if want.Operating > 0 {
			want.IncomeTax, want.Net = (want.Operating+2)/4, (3*want.Operating+2)/4 // each by itself, half up
		}
		if got != want || left != want.Contribution {
			t.Errorf("at %d cents: %+v and %d, want %+v", c.cents, got, left, want)
		}
	}
	plain, ok := margin.NewSale(channel.Channel{}.Terms(quoin.MustCurrency("EUR")), margin.Goods{}).Plan()
	if left, fits := plain.Contribution(1<<62 + 1); !ok || fits {
		t.Errorf("without tax %d are left of 2^62 + 1, though that does not fit", left)
	}
	for _, p := range []*margin.Plan{nil, {}} {
		if left, ok := p.Contribution(100); left != 0 || ok {
			t.Errorf("no plan leaves %d, %t", left, ok)
		}
		if st, ok := p.At(100); st != (margin.RoundedStatement{}) || ok {
			t.Errorf("no plan says %v, %t", st, ok)
		}
	}
}

// A part of a figure is figure × n ÷ by, halves away from zero, as fractions say it; and it is not
// sure where a figure that is off by so much could be rounded another way.
func TestPartsOfFigures(t *testing.T) {
	near, far, ties := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		for range 8 {
			by := rapid.OneOf(rapid.Uint64Range(1, 12), rapid.Just(uint64(2)), rapid.Uint64Range(1, 1<<40), rapid.Uint64Range(1<<50, 1<<56), rapid.Uint64Range(1<<61, 1<<62-1)).Draw(t, "by")
			n := rapid.OneOf(rapid.Just(min(by, 1_000_000)), rapid.Just(uint64(1)), rapid.Uint64Range(0, min(by, 1_000_000))).Draw(t, "n")
			middle := int64(by / 2 & (1<<56 - 1)) // near which the fast way has to be exact
			figure := rapid.OneOf(rapid.Int64Range(-60, 60), rapid.Int64Range(middle-1, middle+1), rapid.Int64Range(1<<55, 1<<56), rapid.Int64Range(-1<<56, 1<<56)).Draw(t, "figure")
			off := rapid.Int64Range(0, 2).Draw(t, "off")
			fast, divided, sure := margin.RoundPart(n, by, figure, off)
			part := func(of int64) *big.Rat {
				r := new(big.Rat).SetFrac(new(big.Int).SetUint64(n), new(big.Int).SetUint64(by))
				return r.Mul(r, big.NewRat(of, 1))
			}
			want := halfAway(part(figure))
			if whole := new(big.Int).Mul(new(big.Int).SetUint64(n), big.NewInt(max(figure, -figure))); whole.BitLen() > 64 {
				if far++; sure {
					t.Fatalf("%d × %d ÷ %d does not fit, and is sure", figure, n, by)
				}
				continue
			}
			if fast != want || divided != want {
				t.Fatalf("%d × %d ÷ %d is %d and %d, want %d", figure, n, by, fast, divided, want)
			}
			if low, high := halfAway(part(figure-off)), halfAway(part(figure+off)); low != high {
				if near++; sure {
					t.Fatalf("%d ± %d × %d ÷ %d is %d to %d, and is sure", figure, off, n, by, low, high)
				}
			}
			if tie := part(2 * figure); tie.IsInt() && tie.Num().Bit(0) == 1 {
				ties++
			}
			// Unsure is only what is within as much of a half.
			half := part(figure)
			half.Sub(half, new(big.Rat).SetInt64(want)).Abs(half).Sub(half, big.NewRat(1, 2)).Abs(half)
			if sure == (off > 0 && half.Cmp(part(off)) <= 0) {
				t.Fatalf("%d ± %d × %d ÷ %d is %s from a half, and sure is %t", figure, off, n, by, half, sure)
			}
		}
	})
	if near < 20 || far < 20 || ties < 20 {
		t.Errorf("only %d near halves, %d that do not fit, %d halves", near, far, ties)
	}
}

// halfAway rounds to a whole number, halves away from zero.
func halfAway(r *big.Rat) int64 {
	twice := new(big.Int).Add(new(big.Int).Mul(big.NewInt(2), new(big.Int).Abs(r.Num())), r.Denom())
	q := twice.Quo(twice, new(big.Int).Mul(big.NewInt(2), r.Denom())).Int64()
	return q * int64(r.Sign())
}
