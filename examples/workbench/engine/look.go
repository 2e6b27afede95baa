package main

import (
	"strconv"
	"strings"

	"example.com/quoin"
	"example.com/quoin/margin/rule"
)

// Ways to take the price that is asked for: as it is, or the allowed price nearest to it, or the
// next one above or below.
const (
	asIs      = "as_is"
	nearest   = "nearest"
	next      = "next"      // the next allowed price above
	previous  = "previous"  // the next allowed price below
	nextStep  = "next_step" // the next price above, whether allowed or not
	priorStep = "prior_step"
)

// view is one product at one price.
type view struct {
	Product  string    `json:"product"`
	Price    string    `json:"price"`
	At       int64     `json:"at"` // its place on the grid, counted from 1
	Allowed  bool      `json:"allowed"`
	Next     string    `json:"next,omitempty"`     // the next allowed price above
	Previous string    `json:"previous,omitempty"` // and below
	Channels []string  `json:"channels"`
	Rows     []row     `json:"rows"`
	Notes    []string  `json:"notes,omitempty"` // what costs money at this price
	Rules    []verdict `json:"rules"`
}

// look shows a product at a price: written as money, or as # and its place on the grid of prices.
func (d *desk) look(product, price, how string) (view, error) {
	if err := d.compile(); err != nil {
		return view{}, err
	}
	i := d.place(product)
	if i < 0 {
		return view{}, quoin.Problem{Severity: quoin.Fault, Code: quoin.UnknownID, Found: strconv.Quote(product), Wanted: "the id of a product"}
	}
	at, err := onGrid(d.items[i].Grid, price)
	if err != nil {
		return view{}, err
	}
	return d.view(i, d.step(i, at, how)), nil
}

// onGrid reads a price. One between two prices of the grid is taken down, one beside the grid to
// its end.
func onGrid(g quoin.Grid, price string) (quoin.Amount, error) {
	if place, ok := strings.CutPrefix(price, "#"); ok {
		at, err := strconv.ParseInt(place, 10, 64)
		if err != nil {
			return quoin.Amount{}, quoin.Problem{Severity: quoin.Fault, Code: quoin.NotANumber, Found: strconv.Quote(price), Wanted: "a place such as #25"}
		}
		return g.Price(min(max(at, 1), g.Len())), nil
	}
	a, err := quoin.ParseAmount(strings.Replace(strings.TrimSpace(price), ",", ".", 1))
	if err != nil {
		return quoin.Amount{}, err
	}
	return g.Price(min(max(g.Floor(a), 1), g.Len())), nil
}

// step is the price that is shown for one that is asked for.
func (d *desk) step(i int, at quoin.Amount, how string) quoin.Amount {
	g := d.items[i].Grid
	place := g.Floor(at)
	switch how {
	case nextStep:
		return g.Price(min(place+1, g.Len()))
	case priorStep:
		return g.Price(max(place-1, 1))
	}
	r, ok := d.result(i)
	if !ok {
		return at
	}
	above, some := r.Allowed.Next(at)
	below, any := r.Allowed.Prev(at)
	switch how {
	case next:
		if p, ok := r.Allowed.Next(g.Price(min(place+1, g.Len()))); ok {
			return p
		}
	case previous:
		if p, ok := r.Allowed.Prev(g.Price(max(place-1, 1))); ok {
			return p
		}
	case nearest:
		if some && (!any || above.Sub(at).Cmp(at.Sub(below)) < 0) {
			return above
		}
		if any {
			return below
		}
	}
	return at
}

func (d *desk) view(i int, price quoin.Amount) view {
	it := d.items[i]
	out := view{Product: it.ID, Price: price.String(), At: it.Grid.Floor(price)}
	r, decided := d.result(i)
	if decided {
		out.Allowed = r.Allowed.Contains(price)
		if p, ok := r.Allowed.Next(it.Grid.Price(min(out.At+1, it.Grid.Len()))); ok && p.Cmp(price) > 0 {
			out.Next = p.String()
		}
		if p, ok := r.Allowed.Prev(it.Grid.Price(max(out.At-1, 1))); ok && p.Cmp(price) < 0 {
			out.Previous = p.String()
		}
	}
	for _, o := range it.Offers {
		out.Channels = append(out.Channels, d.channel(o.Channel))
	}
	out.Rows = d.rows(i, price)
	out.Notes = d.notes(i, price)
	out.Rules = d.verdicts(i, price)
	return out
}

// notes says in which channels a lower price keeps more, and where a sale loses money.
func (d *desk) notes(i int, price quoin.Amount) []string {
	var out []string
	r, decided := d.result(i)
	for n, o := range d.items[i].Offers {
		kept := o.Sale.At(price).Contribution
		if kept.Sign() < 0 {
			out = append(out, "Each sale in "+d.channel(o.Channel)+" loses "+d.money(kept.Neg())+" at this price.")
		}
		if !decided || n >= len(r.Channels) {
			continue
		}
		for _, z := range r.Channels[n].DeadZones {
			if z.Holds(price) {
				out = append(out, d.zone(o, z))
			}
		}
	}
	return out
}

func (d *desk) zone(o rule.Offer, z rule.DeadZone) string {
	return "In " + d.channel(o.Channel) + " you keep less from " + z.First.String() + " to " + z.Last.String() + " than at " + z.After.String() + "."
}

// money rounds to the minor unit, halves up.
func (d *desk) money(a quoin.Amount) string {
	return d.doc.Currency.Round(a, quoin.HalfUp).String()
}
