package refund

import (
	"fmt"

	"example.com/quoin"
)

// Codes of refunds that cannot be.
const (
	UnknownLine   quoin.Code = "unknown_refund_line"
	TooManyBack   quoin.Code = "too_many_back"
	TooManyResold quoin.Code = "too_many_resold"
	ShippingGone  quoin.Code = "shipping_gone"
	Negative      quoin.Code = "negative"
	NotMoney      quoin.Code = "not_money"
	NoShare       quoin.Code = "no_share"
	UntaxedOrder  quoin.Code = "untaxed_order"
	TooMuchBack   quoin.Code = "too_much_back"
)

const mostPlaces = 8

// check looks at the order, its refunds so far and one more. Paths begin with
// order or refund.
func (o Order) check(b Back) error {
	c := checker{order: o, left: make([]int64, len(o.Lines))}
	c.paid()
	for i, l := range o.Lines {
		c.left[i] = l.Count
	}
	for i, earlier := range o.Returned {
		c.back(fmt.Sprintf("order.returned[%d]", i), earlier)
	}
	c.back("refund", b)
	return c.problems.Err()
}

type checker struct {
	order    Order
	left     []int64 // items of each line
	shipped  bool    // shipping was given back
	problems quoin.Problems
}

func (c *checker) fault(code quoin.Code, at, found, wanted string) {
	c.problems = append(c.problems, quoin.Problem{Code: code, Severity: quoin.Fault, Path: at, Found: found, Wanted: wanted})
}

// amount wants at least 0.
func (c *checker) amount(at string, a quoin.Amount) {
	if a.Sign() < 0 {
		c.fault(Negative, at, a.String(), "at least 0")
	}
}

// money wants whole units of the last place as well.
func (c *checker) money(at string, a quoin.Amount) {
	c.amount(at, a)
	if places := c.order.Places; !a.Round(places, quoin.Down).Equal(a) {
		c.fault(NotMoney, at, a.String(), fmt.Sprintf("money, rounded to %d places", places))
	}
}

func (c *checker) share(at string, r quoin.Rate) {
	if r.Sign() < 0 || r.Complement().Sign() < 0 {
		c.fault(NoShare, at, r.String(), "a share from 0% to 100%")
	}
}

// paid checks the order as it was paid.
func (c *checker) paid() {
	o := c.order
	if o.Places < 0 || o.Places > mostPlaces {
		c.fault(NotMoney, "order.places", fmt.Sprint(o.Places), fmt.Sprintf("0 to %d", mostPlaces))
		return
	}
	for i, l := range o.Lines {
		at := fmt.Sprintf("order.lines[%d].", i)
		if l.Count < 1 {
			c.fault(Negative, at+"count", fmt.Sprint(l.Count), "at least 1")
		}
		c.money(at+"paid", l.Paid)
	}
	c.money("order.shipping", o.Shipping)
	for _, tax := range []struct {
		at     string
		amount quoin.Amount
	}{{"order.tax", o.Tax}, {"order.tax_in", o.TaxIn}} {
		c.money(tax.at, tax.amount)
		if tax.amount.Sign() > 0 && o.taxed(o.paid(), o.Shipping).Sign() <= 0 {
			c.fault(UntaxedOrder, tax.at, tax.amount.String()+" on an order that comes to nothing", "no tax")
		}
	}
	if in := o.taxed(o.paid(), o.Shipping); o.TaxIn.Sign() > 0 && in.Sign() > 0 && o.TaxIn.Cmp(in) > 0 {
		c.fault(TooMuchBack, "order.tax_in", o.TaxIn.String(), "at most the "+in.String()+" that it is in")
	}
	for i, f := range o.Fees {
		at := fmt.Sprintf("order.fees[%d].", i)
		c.money(at+"amount", f.Amount)
		c.share(at+"returned", f.Returned)
	}
}

// back checks one refund after those before it.
func (c *checker) back(at string, b Back) {
	for i, item := range b.Lines {
		c.item(fmt.Sprintf("%s.lines[%d].", at, i), item)
	}
	if part, given := b.Part.Get(); given {
		c.share(at+".part", part)
	}
	if b.Shipping && c.shipped {
		c.fault(ShippingGone, at+".shipping", "shipping given back twice", "false")
	}
	c.shipped = c.shipped || b.Shipping
	c.amount(at+".postage", b.Postage)
	c.amount(at+".dispute", b.Dispute)
}

func (c *checker) item(at string, item Item) {
	if item.Line < 0 || item.Line >= len(c.left) {
		c.fault(UnknownLine, at+"line", fmt.Sprint(item.Line), fmt.Sprintf("one of the order's %d lines, counted from 0", len(c.left)))
		return
	}
	left := &c.left[item.Line]
	switch {
	case item.Count < 1:
		c.fault(Negative, at+"count", fmt.Sprint(item.Count), "at least 1")
	case item.Count > *left:
		c.fault(TooManyBack, at+"count", fmt.Sprint(item.Count), fmt.Sprintf("at most the %d that are left", max(*left, 0)))
		*left = 0
	default:
		*left -= item.Count
	}
	switch {
	case item.Resold < 0:
		c.fault(Negative, at+"resold", fmt.Sprint(item.Resold), "at least 0")
	case item.Resold > max(item.Count, 0):
		c.fault(TooManyResold, at+"resold", fmt.Sprint(item.Resold), fmt.Sprintf("at most the %d given back", item.Count))
	}
	c.amount(at+"worth", item.Worth)
}
