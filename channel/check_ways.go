package channel

import (
	"fmt"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
)

func (k *checker) traded(at *form.Path, c Channel) {
	if c.Trade == nil {
		return
	}
	t, terms := c.Trade, at.Field("trade")
	if t.Freight != "" {
		for i, o := range c.Orders {
			at := at.Field("orders").At(i)
			if !o.Shipping.IsZero() {
				k.Add(at.Field("shipping"), quoin.Problem{Code: StrayFreight, Found: "shipping beside freight in the trade terms", Wanted: "postage alone: what the shop is charged follows"})
			}
			if !o.FreeFrom.IsZero() {
				k.Add(at.Field("free_from"), quoin.Problem{Code: StrayFreight, Found: "free_from beside freight in the trade terms", Wanted: "free_from in the trade terms"})
			}
		}
	}
	if !t.FreeFrom.IsZero() && t.Freight != Added {
		k.Stray(terms.Field("free_from"), "freight that is not added", "freight added, which is free from there")
	}
	if !t.Allowance.IsZero() != (t.Freight == Allowance) {
		k.Stray(terms.Field("allowance"), "an allowance or freight by allowance, one without the other", "both or none")
	}
	k.terms(terms.Field("credit"), t.Credit)
}

// terms checks that the terms of credit hang together.
func (k *checker) terms(at *form.Path, c Credit) {
	if (c.EarlyDays != 0 || !c.Taken.IsZero()) && c.Early.IsZero() {
		k.Stray(at.Field("early"), "no discount for paying early", "the discount that early_days and taken are about")
	}
	if !c.Early.IsZero() && c.EarlyDays == 0 {
		k.Stray(at.Field("early_days"), "nothing", "within how many days the early discount is given")
	}
	if c.EarlyDays > 0 && c.Days > 0 && c.EarlyDays > c.Days {
		k.Add(at.Field("early_days"), quoin.Problem{Code: quoin.OutOfRange, Found: fmt.Sprint(c.EarlyDays), Wanted: fmt.Sprintf("at most the %d days of the net amount", c.Days)})
	}
	if (!c.Interest.IsZero() || !c.Early.IsZero()) && c.Days == 0 {
		k.Stray(at.Field("days"), "nothing", "after how many days the money comes in")
	}
}

func (k *checker) consigned(at *form.Path, c Channel) {
	if c.Consignment == nil {
		return
	}
	w := c.Consignment
	at = at.Field("consignment")
	if w.Discount.Rate.IsZero() && (!w.Discount.Share.IsZero() || w.Discount.Borne != "" && w.Discount.Borne != Forbidden) {
		k.Stray(at.Field("discount").Field("rate"), "no discount", "the discount that is borne")
	}
	if !w.Discount.Rate.IsZero() && w.Discount.Borne == Forbidden {
		k.Stray(at.Field("discount").Field("rate"), w.Discount.Rate.String()+", and discounts are forbidden", "no discount")
	}
	for i, p := range w.Registered {
		if slices.Contains(w.Registered[:i], p) {
			k.Add(at.Field("registered").At(i), quoin.Problem{Code: RepeatedPart, Found: prose.Quoted(string(p)) + " again", Wanted: "each side once"})
		}
	}
	if !w.Interest.IsZero() && w.Days == 0 {
		k.Stray(at.Field("days"), "nothing", "after how many days the money comes in")
	}
}

// printed checks that a house that prints on demand says what it asks, or pays,
// for every product.
func (k *checker) printed(at *form.Path, c Channel) {
	w := c.OnDemand
	if w == nil {
		return
	}
	at = at.Field("on_demand")
	if rated := w.Pays == Royalty || w.Pays == ShareOfRest; rated == w.Rate.IsZero() {
		found := "no rate"
		if !rated {
			found = fmt.Sprintf("%s beside %s", w.Rate, w.Pays)
		}
		k.Stray(at.Field("rate"), found, "a rate for a royalty and for a share of the rest, and for nothing else")
	}
	if left, more := c.PaysMoreThanLeft(); more {
		k.Add(at.Field("rate"), quoin.Problem{
			Code: PaysTooMuch, Found: fmt.Sprintf("a rate of %s of the price, of which the tax in it leaves the house %s", w.Rate, left.Round(2)),
			Wanted: "a rate below that", Remedy: "lower the rate, or say net where it is of the price without the tax",
		})
	}
	if c.Returns != nil && !c.Returns.Resold.IsZero() {
		k.Stray(at.Field("pays"), "prints on demand, and returns that are sold again", "no resold: what comes back is the house's")
	}
	known := make(map[string]bool)
	for i, s := range w.Sizes {
		at := at.Field("sizes").At(i)
		if known[s.Product] {
			k.Add(at.Field("product"), quoin.Problem{Code: quoin.DuplicateID, Found: prose.Quoted(s.Product) + " again", Wanted: "each product once"})
		}
		known[s.Product] = true
	}
}
