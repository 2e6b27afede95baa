package promo

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
)

// Offer is one promotion. Exactly one of rate, amount, buy with free, price and sale is given.
//
// If there are several, Apply uses the first of this order.
type Offer struct {
	// What orders take it by.
	ID string `json:"id" need:"yes"`
	// What people call it.
	Name string `json:"name,omitempty"`
	// Share that it takes off what the items still come to.
	Rate quoin.Rate `json:"rate,omitzero" range:"(0,1]"`
	// Taken off the items together, at most what they come to.
	Amount quoin.Amount `json:"amount,omitzero" range:"(0,"`
	// Of each so many items, 2 to 1000, dearest first, the cheapest cost nothing: 3 with 1 free
	// is three for the price of two. Buyers could group them no better by splitting the order.
	Buy int64 `json:"buy,omitzero" range:"[2,1000]"`
	// How many of those cost nothing, 1 to 999 and fewer than buy.
	Free int64 `json:"free,omitzero" range:"[1,999]"`
	// What one of each of the products costs together, as often as the order holds them all and
	// they would cost more by themselves.
	Price quoin.Optional[quoin.Amount] `json:"price,omitzero" range:"[0,"`
	// The price of one item, where it is less.
	Sale quoin.Optional[quoin.Amount] `json:"sale,omitzero" range:"[0,"`
	// Ids of the products that it speaks of; all of them where there are none. A set takes its
	// products from here.
	Products []string `json:"products,omitempty" most:"100"`
	// What those items have to come to; anything where it is not given.
	From quoin.Amount `json:"from,omitzero" range:"[0,"`
	// Whether from is compared with what items come to after the codes before it, or before all
	// codes.
	Test Test `json:"test,omitempty"`
	// How what it takes off is rounded to money; half_up where it is not given. 10% of 1725.05 is
	// 172.51 off by half_up, so that 1552.54 is due; by half_down it is 172.50 off and 1552.55 due.
	Rounding quoin.Rounding `json:"rounding,omitzero"`
	// Whether it does not stack: the buyer gets either this promotion by itself or the others.
	Alone bool `json:"alone,omitzero"`
}

// Test says which sum a threshold is compared with.
type Test string

const (
	Before Test = "before" // what the lines come to before any offer
	After  Test = "after"  // what they still come to after the offers before it
)

// UnmarshalText reads before or after. The error is a Problem.
func (t *Test) UnmarshalText(text []byte) error { return form.SetWord(t, text, Before, After) }

// Codes of offers that do not say one clear thing.
const (
	MissingDiscount  quoin.Code = "missing_discount"  // nothing is taken off
	SeveralDiscounts quoin.Code = "several_discounts" // something is taken off in two ways
	BadMultiBuy      quoin.Code = "bad_multi_buy"     // buy without free, or not more than it
	BadSet           quoin.Code = "bad_set"           // the price of fewer than two products, or of one twice
)

// Check returns everything that is wrong with the offer, as Problems: unknown words, and
// numbers out of range. If there are none, it also looks for none or several kinds of discount,
// for buy and free that are not both given or leave nothing to pay, and for a set with fewer
// than two products or with one of them twice.
func (o Offer) Check() error {
	if ps := form.Check(o).All(); len(ps) > 0 {
		return ps
	}
	var ps quoin.Problems
	fault := func(code quoin.Code, at, found, wanted string) {
		ps = append(ps, quoin.Problem{Code: code, Severity: quoin.Fault, Path: at, Found: found, Wanted: wanted})
	}
	const one = "exactly one of rate, amount, buy and free, price, sale"
	switch given := o.given(); len(given) {
	case 0:
		fault(MissingDiscount, "", "an offer that takes nothing off", one)
	case 1:
	default:
		fault(SeveralDiscounts, given[1], strings.Join(given, ", ")+" together", one)
	}
	switch {
	case o.Buy == 0 && o.Free != 0:
		fault(BadMultiBuy, "buy", "nothing", "of how many items "+fmt.Sprint(o.Free)+" are free")
	case o.Buy != 0 && o.Free == 0:
		fault(BadMultiBuy, "free", "nothing", "how many of "+fmt.Sprint(o.Buy)+" items are free")
	case o.Buy != 0 && o.Free >= o.Buy:
		fault(BadMultiBuy, "free", fmt.Sprint(o.Free), "fewer than the "+fmt.Sprint(o.Buy)+" of buy")
	}
	if _, set := o.Price.Get(); !set {
		return ps.Err()
	}
	if len(distinct(o.Products)) < 2 {
		fault(BadSet, "products", fmt.Sprint(len(distinct(o.Products))), "at least two products to make a set of")
	}
	for i, p := range o.Products {
		if slices.Contains(o.Products[:i], p) {
			fault(BadSet, fmt.Sprintf("products[%d]", i), prose.Quoted(p)+" twice", "one of each product of a set")
		}
	}
	return ps.Err()
}

// given lists the kinds of discount that the offer names, by their field.
func (o Offer) given() []string {
	var out []string
	_, set := o.Price.Get()
	_, sale := o.Sale.Get()
	for _, kind := range []struct {
		name  string
		given bool
	}{
		{"rate", !o.Rate.IsZero()}, {"amount", !o.Amount.IsZero()}, {"buy", o.Buy != 0 || o.Free != 0}, {"price", set}, {"sale", sale},
	} {
		if kind.given {
			out = append(out, kind.name)
		}
	}
	return out
}

func distinct(products []string) []string {
	var out []string
	for _, p := range products {
		if !slices.Contains(out, p) {
			out = append(out, p)
		}
	}
	return out
}

// met reports whether lines that came to gross and still come to left reach
// the threshold.
func (o Offer) met(gross, left quoin.Amount) bool {
	if o.Test == Before {
		left = gross
	}
	return left.Cmp(o.From) >= 0
}

func (o Offer) name() string { return cmp.Or(o.Name, o.ID) }
