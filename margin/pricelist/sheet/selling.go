package sheet

import (
	"cmp"
	"fmt"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin/pricelist"
)

// standings say of each channel what it would ask alone, and what it keeps.
func (p wording) standings(it pricelist.ProductResult) []string {
	channels := it.ByChannel.Channels()
	out := make([]string, len(channels))
	for i, c := range channels {
		out[i] = p.standing(it, named(it.Channels[i].Name, c.Channel), c, len(channels))
	}
	return out
}

func (p wording) standing(it pricelist.ProductResult, name string, c pricelist.InChannel, among int) string {
	floor, asks := c.Floor.Get()
	text := "Alone, " + name + " would find no price."
	switch {
	case asks && c.SetsPrice && among > 1:
		text = fmt.Sprintf("%s sets this price (%s).", name, p.money(floor))
	case asks:
		text = fmt.Sprintf("Alone, %s would need %s.", name, p.money(floor))
	case c.NoRule:
		text = "No rule protects you in " + name + "."
	}
	text += fmt.Sprintf(" %s of each sale stays with you, before yearly costs and income tax.", p.money(c.Contribution))
	if d := c.Discount; d != nil {
		text += fmt.Sprintf(" You may give up to %s discount%s", d.By.Round(2).String(), before(d))
		if v, ok := d.Volume.Get(); ok {
			text += fmt.Sprintf("; you then need %s sales to earn what 100 earn now", v.Times(quoin.FactorOf(100)).Round(0, quoin.Up))
		}
		text += "."
	}
	for _, b := range c.BreakEven {
		if n, ok := b.Items.Get(); ok {
			text += fmt.Sprintf(" %s %s of %s.", p.sales(n.Round(0, quoin.Up)), pays(b.What), p.money(b.Cost))
		}
	}
	if z := c.Above; z != nil && near(it.Price, z.First) {
		until := "on"
		if z.Again.IsGiven() {
			until = "to " + p.money(z.Last)
		}
		text += fmt.Sprintf(" Avoid %s %s: you keep less there than at %s.", p.money(z.First), until, p.money(z.After))
	}
	return text
}

// pays says which cost sales here pay. What is not a channel's own would be paid by sales
// elsewhere too.
func pays(what string) string {
	own := map[string]string{"overhead": "here alone would pay the overhead", "period": "here pay the fixed cost"}[what]
	return cmp.Or(own, "here pay the "+what)
}

// near reports whether a price is so little above another that one might go there.
func near(price, other quoin.Amount) bool {
	return other.Cmp(price.Times(quoin.MustFactor("1.5"))) <= 0
}

// before says what one per cent more off would break.
func before(d *pricelist.DeepestDiscount) string {
	switch {
	case len(d.Rules) > 0:
		more := ""
		if d.More {
			more = " and others"
		}
		return " before " + list(d.Rules) + more + " breaks"
	case d.Loss:
		return " before a sale loses money"
	}
	return ""
}

// sales counts them.
func (p wording) sales(n quoin.Factor) string {
	if n.Equal(quoin.FactorOf(1)) {
		return "1 sale"
	}
	return p.figure(n.Figure()) + " sales"
}

// orders say what each kind of order comes to, where a channel tells them apart.
func (p wording) orders(it pricelist.ProductResult) []string {
	var out []string
	for _, c := range it.Channels {
		for i, o := range c.Orders {
			name := cmp.Or(o.Name, o.ID, fmt.Sprintf("order %d", i+1))
			out = append(out, fmt.Sprintf("%s, %s: %s at %s, %s paid; keeps %s, %s each%s", named(c.Name, c.ID), name,
				prose.Count(o.Items, "print"), p.in(o.Currency, o.Unit), p.in(o.Currency, o.Paid), p.money(o.Contribution), p.money(o.PerItem), p.fees(o)+p.refunded(o)))
		}
	}
	for _, s := range it.Parcels {
		out = append(out, p.parcel(it, s))
	}
	return out
}

// refunded says what giving the order back comes to.
func (p wording) refunded(o pricelist.OrderResult) string {
	if o.Refund == nil {
		return ""
	}
	return fmt.Sprintf("; given back, it costs %s", p.in(o.Currency, o.Refund.Result.Neg()))
}

// in writes an amount of a currency, with its code where it is not the page's.
func (p wording) in(c quoin.Currency, a quoin.Amount) string {
	text := c.Round(a, quoin.HalfUp).String()
	if c != p.currency {
		text += " " + c.String()
	}
	return text
}

func (p wording) fees(o pricelist.OrderResult) string {
	if len(o.Fees) == 0 {
		return ""
	}
	parts := make([]string, len(o.Fees))
	for i, f := range o.Fees {
		parts[i] = f.Name + " " + p.money(f.Amount)
	}
	return " (" + strings.Join(parts, ", ") + ")"
}

func (p wording) parcel(it pricelist.ProductResult, s pricelist.Shipping) string {
	place := s.Channel
	for _, c := range it.Channels {
		if c.ID == s.Channel && s.Order < len(c.Orders) {
			o := c.Orders[s.Order]
			place = named(c.Name, c.ID) + ", " + named(o.Name, o.ID)
		}
	}
	of := s.Shipment
	packed, each, all := "in "+of.Packing, "", ""
	if of.Parcels > 1 {
		packed, each, all = fmt.Sprintf("in %d parcels (%s)", of.Parcels, of.Packing), "each ", " in all"
	}
	text := fmt.Sprintf("%s: %s %s, %scharged for %s, postage %s%s", place,
		prose.Count(of.Prints, "print"), packed, each, p.figure(of.Billable.Figure()), p.money(of.Postage), all)
	if n, ok := s.Rises.Get(); ok {
		text += fmt.Sprintf("; dearer from %s on", prose.Count(n, "print"))
	}
	return text
}

// going says of each fair whether it pays.
func (p wording) going(a pricelist.Answer) []string {
	var out []string
	for _, f := range a.Fairs {
		text := fmt.Sprintf("%s: %s. Expected to leave %s of sales of %s, with %s of fixed costs", named(f.Name, f.ID), f.Verdict, p.money(f.Result), p.money(f.Sales), p.money(f.Fixed))
		if f.Commission.Sign() > 0 {
			text += fmt.Sprintf(" and %s of commission", p.money(f.Commission))
		}
		if b, ok := f.BreakEven.Get(); ok {
			text += fmt.Sprintf("; breaks even at %s prints, sales of %s", p.figure(b.Prints.Round(2, quoin.HalfUp).Figure()), p.money(b.Sales))
		}
		if h, ok := f.PerHour.Get(); ok {
			text += fmt.Sprintf("; %s an hour", p.money(h))
		}
		out = append(out, text)
	}
	return out
}

func (p wording) sets(a pricelist.Answer) []string {
	var out []string
	for _, s := range a.Sets {
		text := fmt.Sprintf("%s: its products cost %s apart, and its buyers would leave %s without it", named(s.Name, s.ID), p.money(s.Apart), p.money(s.Expected))
		if least, ok := s.Least.Get(); ok {
			text += fmt.Sprintf("; from %s on the set leaves no less", p.money(least))
		} else {
			text += "; no price considered leaves as much"
		}
		if saves, ok := s.Saves.Get(); ok && saves.Sign() > 0 {
			text += fmt.Sprintf(", and saves them %s", percent(saves))
		}
		out = append(out, text)
	}
	return out
}

func (p wording) editions(a pricelist.Answer) []string {
	var out []string
	for _, e := range a.Editions {
		for _, n := range e.Numberings {
			out = append(out, fmt.Sprintf("%s%s: %d numbered, %d sold, %d reserved, %d free", named(e.Name, e.ID), prose.Behind(" of ", n.Product), n.Numbers.Of, n.Numbers.Sold, n.Numbers.Reserved, n.Numbers.Free))
		}
		for _, r := range e.Products {
			out = append(out, p.rising(r, len(e.Products) > 1 && len(e.Numberings) == 1))
		}
	}
	return out
}

func (p wording) rising(r pricelist.EditionPrices, shared bool) string {
	steps := make([]string, len(r.Steps))
	for i, s := range r.Steps {
		steps[i] = fmt.Sprintf("%s from %d sold", p.money(s.Price), s.Sold)
	}
	size := ""
	if shared {
		size = ", all in this size,"
	}
	text := fmt.Sprintf("%s: %s; the %d left%s would bring %s", r.Product, strings.Join(steps, ", "), r.Count, size, p.money(r.Proceeds))
	if m, ok := r.Months.Get(); ok {
		text += fmt.Sprintf(" in %s months", p.figure(m.Round(1, quoin.HalfUp).Figure()))
	}
	return text + fmt.Sprintf(", of which %s stays with you, in the worst channel", p.money(r.Contribution))
}
