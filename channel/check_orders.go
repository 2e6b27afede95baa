package channel

import (
	"fmt"
	"slices"

	"example.com/quoin"
	"example.com/quoin/channel/promo"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
)

// named checks that the kinds of order are told apart, and that fees name them.
func (k *checker) named(at *form.Path, c Channel) {
	ids := make(map[string]bool)
	var names []string
	for i, o := range c.Orders {
		if o.ID == "" {
			continue
		}
		if ids[o.ID] {
			k.Add(at.Field("orders").At(i).Field("id"), quoin.Problem{Code: quoin.DuplicateID, Found: prose.Quoted(o.ID) + " again", Wanted: "an id of its own in the channel"})
		}
		ids[o.ID], names = true, append(names, o.ID)
	}
	for i, f := range c.Fees {
		for j, id := range f.Orders {
			if !ids[id] {
				k.Add(at.Field("fees").At(i).Field("orders").At(j), quoin.Problem{
					Code: quoin.UnknownID, Found: prose.Quoted(id), Wanted: "the id of one of the channel's orders", Near: k.Near(id, names),
				})
			}
		}
	}
}

// offered checks promotions and the codes of orders.
func (k *checker) offered(at *form.Path, c Channel) {
	offers := make(map[string]promo.Offer)
	var names []string
	for i, o := range c.Promotions {
		at := at.Field("promotions").At(i)
		k.AddAll(at, o.Check())
		if _, twice := offers[o.ID]; twice {
			k.Add(at.Field("id"), quoin.Problem{Code: quoin.DuplicateID, Found: prose.Quoted(o.ID) + " again", Wanted: "an id of its own in the channel"})
		}
		offers[o.ID], names = o, append(names, o.ID)
	}
	for i, o := range c.Orders {
		for j, id := range o.Codes {
			at := at.Field("orders").At(i).Field("codes").At(j)
			offer, ok := offers[id]
			switch {
			case !ok:
				k.Add(at, quoin.Problem{Code: quoin.UnknownID, Found: prose.Quoted(id), Wanted: "the id of one of the channel's promotions", Near: k.Near(id, names)})
			case slices.Contains(o.Codes[:j], id):
				k.Add(at, quoin.Problem{Code: quoin.DuplicateID, Found: prose.Quoted(id) + " again", Wanted: "each code once"})
			case offer.Alone && len(o.Codes) > 1:
				k.Add(at, quoin.Problem{Code: DoesNotStack, Found: fmt.Sprintf("%s beside other codes", prose.Quoted(id)), Wanted: "it alone: it does not stack"})
			}
		}
	}
}

// tagged checks which prices can be asked, and in what money.
func (k *checker) tagged(at *form.Path, c Channel) {
	places := k.currency.Digits()
	if c.ForeignCurrency != nil {
		places = c.ForeignCurrency.Currency.Digits()
	}
	if c.PricePoints == nil {
		return
	}
	at = at.Field("price_points")
	k.AddAll(at, c.PricePoints.Check())
	whole := func(at *form.Path, a quoin.Amount) {
		if !a.Round(places, quoin.Down).Equal(a) && !k.Under(at) {
			k.Add(at, quoin.Problem{Code: quoin.StepOffMinor, Found: a.String(), Wanted: fmt.Sprintf("a whole number of minor units, with %d digits", places)})
		}
	}
	whole(at.Field("step"), c.PricePoints.Step)
	whole(at.Field("every"), c.PricePoints.Every)
	for i, e := range c.PricePoints.EndsIn {
		whole(at.Field("ends_in").At(i), e)
	}
}

// strays checks that orders say nothing that only another way of selling is asked.
func (k *checker) strays(at *form.Path, c Channel) {
	for i, o := range c.Orders {
		at := at.Field("orders").At(i)
		if o.Zone != "" && c.Tariff == "" {
			k.Stray(at.Field("zone"), "a zone, and no tariff in the channel", "a tariff that has zones, or no zone")
		}
		if o.Reorder && c.Trade == nil {
			k.Stray(at.Field("reorder"), "a reorder, and no trade terms in the channel", "trade terms, or no reorder")
		}
	}
}
