package refund

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Codes of orders and refunds that cannot be.
const (
	UnknownLine   quoin.Code = "unknown_refund_line" // a line that the order does not have
	TooManyBack   quoin.Code = "too_many_back"       // more items given back than are left
	TooManyResold quoin.Code = "too_many_resold"     // more items sold again than are given back
	ShippingGone  quoin.Code = "shipping_gone"       // shipping given back twice
	SurchargeGone quoin.Code = "surcharge_gone"      // a surcharge given back twice
	UntaxedOrder  quoin.Code = "untaxed_order"       // tax on an order that comes to nothing
	TooMuchTax    quoin.Code = "too_much_tax_in"     // more tax in prices than they come to
)

const mostPlaces = 8

// Check returns everything that is wrong with the order and its refunds so far, at once:
// counts, amounts and shares out of range, amounts finer than money, tax on nothing, more given
// back than there is. The error is quoin.Problems.
func (o Order) Check() error {
	var k form.Collector
	o.check(&k, nil)
	return k.All().Err()
}

// check returns what the order and its refunds leave to be given back.
func (o Order) check(k *form.Collector, at *form.Path) *checker {
	c := &checker{Collector: k, order: o, left: make([]int64, len(o.Lines))}
	c.paid(at)
	for i, l := range o.Lines {
		c.left[i] = l.Count
	}
	for i, earlier := range o.Returned {
		c.back(at.Field("returned").At(i), earlier)
	}
	return c
}

type checker struct {
	*form.Collector
	order   Order
	left    []int64 // items of each line
	shipped bool    // shipping was given back
	charged bool    // so was the surcharge
}

func (c *checker) fault(code quoin.Code, at *form.Path, found, wanted string) {
	c.Add(at, quoin.Problem{Code: code, Found: found, Wanted: wanted})
}

// count wants at least so many.
func (c *checker) count(at *form.Path, n, least int64) bool {
	if n < least {
		c.fault(quoin.OutOfRange, at, fmt.Sprint(n), fmt.Sprintf("a value of at least %d", least))
	}
	return n >= least
}

// amount wants at least 0. It may be finer than is read, as a quotient is that goods are worth.
func (c *checker) amount(at *form.Path, a quoin.Amount) {
	if a.Sign() < 0 {
		c.fault(quoin.OutOfRange, at, a.String(), "a value of at least 0")
	}
}

// money wants whole units of the last place as well.
func (c *checker) money(at *form.Path, a quoin.Amount) {
	c.amount(at, a)
	if places := c.order.Places; !a.Round(places, quoin.Down).Equal(a) {
		c.fault(quoin.StepOffMinor, at, a.String(), fmt.Sprintf("money, rounded to %d places", places))
	}
}

func (c *checker) share(at *form.Path, r quoin.Rate) {
	if r.Sign() < 0 || r.Complement().Sign() < 0 {
		c.fault(quoin.OutOfRange, at, r.String(), "a value of at least 0% and at most 100%")
	}
}

// paid checks the order as it was paid.
func (c *checker) paid(at *form.Path) {
	o := c.order
	if o.Places < 0 || o.Places > mostPlaces {
		c.fault(quoin.OutOfRange, at.Field("places"), fmt.Sprint(o.Places), fmt.Sprintf("a value of at least 0 and at most %d", mostPlaces))
		return
	}
	for i, l := range o.Lines {
		at := at.Field("lines").At(i)
		c.count(at.Field("count"), l.Count, 1)
		c.money(at.Field("paid"), l.Paid)
	}
	c.money(at.Field("shipping"), o.Shipping)
	c.money(at.Field("surcharge"), o.Surcharge)
	c.lapsing(at)
	c.taxes(at)
	for i, f := range o.Fees {
		at := at.Field("fees").At(i)
		c.money(at.Field("amount"), f.Amount)
		c.share(at.Field("returned"), f.Returned)
	}
}

// lapsing checks the code and the free postage.
func (c *checker) lapsing(at *form.Path) {
	o := c.order
	if o.Code != nil {
		c.amount(at.Field("code").Field("from"), o.Code.From)
		c.money(at.Field("code").Field("took"), o.Code.Took)
	}
	if o.FreePostage == nil {
		return
	}
	c.amount(at.Field("free_postage").Field("from"), o.FreePostage.From)
	c.money(at.Field("free_postage").Field("charge"), o.FreePostage.Charge)
	if o.Shipping.Sign() > 0 {
		c.Stray(at.Field("free_postage"), "free postage beside shipping that was paid", "one of them")
	}
}

func (c *checker) taxes(at *form.Path) {
	o := c.order
	taxed := o.taxed(o.paid(), o.Shipping)
	for _, tax := range []struct {
		at     *form.Path
		amount quoin.Amount
	}{{at.Field("tax"), o.Tax}, {at.Field("tax_in"), o.TaxIn}} {
		c.money(tax.at, tax.amount)
		if tax.amount.Sign() > 0 && taxed.Sign() <= 0 {
			c.fault(UntaxedOrder, tax.at, tax.amount.String()+" on an order that comes to nothing", "no tax")
		}
	}
	c.money(at.Field("surcharge_tax"), o.SurchargeTax)
	if o.SurchargeTax.Cmp(o.Surcharge) > 0 {
		c.fault(TooMuchTax, at.Field("surcharge_tax"), o.SurchargeTax.String(), "at most the surcharge of "+o.Surcharge.String()+" that it is in")
	}
	if o.TaxIn.Sign() > 0 && taxed.Sign() > 0 && o.TaxIn.Cmp(taxed) > 0 {
		c.fault(TooMuchTax, at.Field("tax_in"), o.TaxIn.String(), "at most the "+taxed.String()+" that it is in")
	}
}

// back checks one refund after those before it.
func (c *checker) back(at *form.Path, b Refund) {
	for i, item := range b.Lines {
		c.item(at.Field("lines").At(i), item)
	}
	if part, given := b.Part.Get(); given {
		c.share(at.Field("part"), part)
	}
	if b.Shipping && c.shipped {
		c.fault(ShippingGone, at.Field("shipping"), "shipping given back twice", "false")
	}
	if b.Surcharge && c.charged {
		c.fault(SurchargeGone, at.Field("surcharge"), "the surcharge given back twice", "false")
	}
	c.shipped, c.charged = c.shipped || b.Shipping, c.charged || b.Surcharge
	c.amount(at.Field("postage"), b.Postage)
	c.amount(at.Field("dispute"), b.Dispute)
}

func (c *checker) item(at *form.Path, item Item) {
	if item.Line < 0 || item.Line >= len(c.left) {
		c.fault(UnknownLine, at.Field("line"), fmt.Sprint(item.Line), fmt.Sprintf("one of the order's %d lines, counted from 0", len(c.left)))
		return
	}
	left := &c.left[item.Line]
	switch {
	case !c.count(at.Field("count"), item.Count, 1):
	case item.Count > *left:
		c.fault(TooManyBack, at.Field("count"), fmt.Sprint(item.Count), fmt.Sprintf("at most the %d that are left", max(*left, 0)))
		*left = 0
	default:
		*left -= item.Count
	}
	if c.count(at.Field("resold"), item.Resold, 0) && item.Resold > max(item.Count, 0) {
		c.fault(TooManyResold, at.Field("resold"), fmt.Sprint(item.Resold), fmt.Sprintf("at most the %d given back", item.Count))
	}
	c.amount(at.Field("worth"), item.Worth)
}
