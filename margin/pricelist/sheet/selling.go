package sheet

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/breakdown"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

// reasons say why a product's price is no other, and what is unsure about it.
func (p wording) reasons(it pricelist.ProductResult, full bool) []said {
	var out []said
	if r, ok := rangeOf(it); ok {
		if text := p.no("below", it.Lower, r.First); text != "" {
			out = append(out, said{1, text})
		}
		if text := p.no("above", it.Higher, r.Last); text != "" {
			out = append(out, said{4, text})
		}
	}
	if u := it.Uncertainty; u != nil {
		out = append(out, said{3, p.spread(it, *u)})
		if full {
			for _, in := range u.Inputs[min(1, len(u.Inputs)):] {
				out = append(out, said{3, "Also unsure: " + p.influence(it, in) + "."})
			}
		}
	}
	return out
}

// limits say why no larger discount can be given, and which prices near this one to avoid.
func (p wording) limits(it pricelist.ProductResult) []said {
	var out []said
	if text := p.stops(it); text != "" {
		out = append(out, said{2, text})
	}
	for _, c := range it.ByChannel.Channels() {
		for _, z := range []*rule.DeadZone{c.Below, c.Above} {
			if z != nil && near(it, *z) {
				out = append(out, said{0, p.avoid(c, *z)})
			}
		}
	}
	return out
}

func (p wording) avoid(c pricelist.InChannel, z rule.DeadZone) string {
	until := " and up"
	if z.Again.IsGiven() {
		until = "–" + p.money(z.Last)
	}
	return fmt.Sprintf("Avoid %s%s: in %s you keep less there than at %s.", p.money(z.First), until, p.channel(c.Channel), p.money(z.After))
}

// near reports whether one might go from a price to a dead zone: it is within a quarter of the
// price, and rules leave room up to there.
func near(it pricelist.ProductResult, z rule.DeadZone) bool {
	reach := it.Price.Part(quoin.MustRate("25%"))
	from, to := it.Price.Sub(reach), it.Price.Add(reach)
	return z.First.Cmp(to) <= 0 && z.First.Cmp(it.Greatest) <= 0 && z.Last.Cmp(from) >= 0 && z.Last.Cmp(it.Least) >= 0
}

// stops says what one per cent more discount would break, and where.
func (p wording) stops(it pricelist.ProductResult) string {
	var order []string
	where := make(map[string][]string)
	for _, c := range it.ByChannel.Channels() {
		if c.Discount == nil {
			continue
		}
		by := stopping(c.Discount)
		if by == "" {
			continue
		}
		if where[by] == nil {
			order = append(order, by)
		}
		where[by] = append(where[by], p.channel(c.Channel))
	}
	parts := make([]string, len(order))
	for i, by := range order {
		parts[i] = by + " in " + and(where[by])
	}
	if len(parts) == 0 {
		return ""
	}
	return "A larger discount " + strings.Join(parts, "; ") + "."
}

// stopping says what one per cent more off would do.
func stopping(d *pricelist.DeepestDiscount) string {
	switch {
	case len(d.Rules) > 0:
		more := ""
		if d.More {
			more = " and others"
		}
		return "breaks " + list(d.Rules) + more
	case d.Loss:
		return "loses money"
	}
	return ""
}

// offs are the rows of how much may be taken off, and of how many sales pay a channel's fixed
// costs.
func (p wording) offs(it pricelist.ProductResult, shown []pricelist.ChannelResult, full bool) []row {
	known := make(map[string]pricelist.InChannel)
	var costs []string
	for _, c := range it.ByChannel.Channels() {
		known[c.Channel] = c
		for _, b := range c.BreakEven {
			if !slices.Contains(costs, b.What) && (full || b.What != "overhead") {
				costs = append(costs, b.What)
			}
		}
	}
	if len(known) == 0 {
		return nil
	}
	out := []row{cells("you may discount", shown, func(c pricelist.ChannelResult) string { return discount(known[c.ID].Discount) })}
	for _, what := range costs {
		out = append(out, cells(paying(what), shown, func(c pricelist.ChannelResult) string { return p.pay(known[c.ID], what) }))
	}
	return out
}

func discount(d *pricelist.DeepestDiscount) string {
	if d == nil {
		return "none"
	}
	return d.By.Round(2).String()
}

// paying names a row of sales that pay a cost.
func paying(what string) string {
	own := map[string]string{"overhead": "sales for yearly costs", "fixed_cost": "sales for fixed cost"}[what]
	return cmp.Or(own, "sales for "+what)
}

func (p wording) pay(c pricelist.InChannel, what string) string {
	for _, b := range c.BreakEven {
		if n, ok := b.Items.Get(); ok && b.What == what {
			return n.Round(0, quoin.Up).String()
		}
	}
	return "-"
}

var briefHeads = []string{"receive", "- costs", "= stays", "- rest", "= yours", "discount"}

// brief is a row for each channel, where there are too many for columns: what you receive, what
// stays with you, what is yours in the end, and what may be taken off.
func (p wording) brief(it pricelist.ProductResult) []row {
	known := make(map[string]pricelist.InChannel)
	for _, c := range it.ByChannel.Channels() {
		known[c.Channel] = c
	}
	out := make([]row, len(it.Channels))
	for i, c := range it.Channels {
		var left []quoin.Amount
		for _, g := range breakdown.Of(c, p.currency) {
			left = append(left, g.Left.Amount)
		}
		out[i] = row{label: named(c.Name, c.ID), cells: []string{
			p.money(left[0]), p.money(left[0].Sub(left[1])), p.money(left[1]), p.money(left[1].Sub(left[2])), p.money(left[2]), discount(known[c.ID].Discount),
		}}
	}
	return out
}

// standings say of each channel which price it would need by itself, and what fewer or more sales
// would make good.
func (p wording) standings(it pricelist.ProductResult) []string {
	channels := it.ByChannel.Channels()
	out := make([]string, len(channels))
	for i, c := range channels {
		out[i] = p.standing(p.channel(c.Channel), c, len(channels))
	}
	return out
}

func (p wording) standing(name string, c pricelist.InChannel, among int) string {
	floor, asks := c.Floor.Get()
	text := "Alone, " + name + " would find no price."
	switch {
	case asks && c.SetsPrice && among > 1:
		text = fmt.Sprintf("%s needs the highest price: %s.", name, p.money(floor))
	case asks:
		text = fmt.Sprintf("Alone, %s would need %s.", name, p.money(floor))
	case c.NoRule:
		text = "No rule protects you in " + name + "."
	}
	if d := c.Discount; d != nil {
		text += fmt.Sprintf(" With %s off you keep %s of a sale", d.By.Round(2), p.money(d.Contribution))
		if v, ok := d.Volume.Get(); ok {
			text += fmt.Sprintf(", and need %s sales to earn what 100 earn now", v.Times(quoin.FactorOf(100)).Round(0, quoin.Up))
		}
		text += "."
	}
	for _, b := range c.BreakEven {
		if n, ok := b.Items.Get(); ok {
			text += fmt.Sprintf(" %s the %s of %s.", p.sales(n.Round(0, quoin.Up)), costNamed(b.What), p.money(b.Cost))
		}
	}
	for _, z := range []*rule.DeadZone{c.Below, c.Inside, c.Above} {
		if z != nil {
			text += " " + p.avoid(c, *z)
		}
	}
	return text
}

// costNamed says which cost sales pay. What is not a channel's own would be paid by sales
// elsewhere too.
func costNamed(what string) string {
	return cmp.Or(map[string]string{"overhead": "yearly costs, if nothing else paid them,", "fixed_cost": "fixed cost"}[what], what)
}

// sales counts them with their verb.
func (p wording) sales(n quoin.Factor) string {
	if n.Equal(quoin.FactorOf(1)) {
		return "1 sale here pays"
	}
	return p.figure(n.Figure()) + " sales here pay"
}

// orders say what each kind of order comes to, where a channel tells them apart.
func (p wording) orders(it pricelist.ProductResult) []string {
	var out []string
	for _, c := range it.Channels {
		for i, o := range c.Orders {
			out = append(out, fmt.Sprintf("%s, %s: %s at %s, %s paid; keeps %s, %s each%s", named(c.Name, c.ID), called(o, i),
				prose.Count(o.Items, "print"), p.in(o.Currency, o.Unit), p.in(o.Currency, o.Paid), p.money(o.Contribution), p.money(o.PerItem), p.fees(o)+p.refunded(o)))
		}
	}
	for _, s := range it.Parcels {
		out = append(out, p.parcel(it, s))
	}
	return out
}

// called is the name of a kind of order, or its place among them.
func called(o pricelist.OrderResult, at int) string {
	return cmp.Or(o.Name, o.ID, fmt.Sprintf("order %d", at+1))
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
			place = named(c.Name, c.ID) + ", " + called(o, s.Order)
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
		result, leaves := f.Result, "leave"
		if result.Sign() < 0 {
			result, leaves = result.Neg(), "lose"
		}
		text := fmt.Sprintf("%s: %s. Expected to %s %s on sales of %s, after fixed costs of %s", named(f.Name, f.ID), f.Verdict, leaves, p.money(result), p.money(f.Sales), p.money(f.Fixed))
		if f.Commission.Sign() > 0 {
			text += fmt.Sprintf(" and commission of %s", p.money(f.Commission))
		}
		text += "."
		if b, ok := f.BreakEven.Get(); ok {
			text += fmt.Sprintf(" It breaks even at %s prints, sales of %s.", b.Prints.Round(0, quoin.Up), p.money(b.Sales))
		}
		if h, ok := f.PerHour.Get(); ok {
			text += fmt.Sprintf(" That is %s for each hour that it takes you in all: packing, the way, setting up, selling.", p.money(h))
		}
		if three := f.InThree; three.StockLeft.Sign() > 0 {
			text += fmt.Sprintf(" Cash %s, profit on what was sold %s, stock left %s.", p.money(three.Cash), p.money(three.Profit), p.money(three.StockLeft))
		}
		out = append(out, text)
	}
	return out
}

func (p wording) sets(a pricelist.Answer) []string {
	var out []string
	for _, s := range a.Sets {
		text := fmt.Sprintf("%s: its products cost %s apart, and its buyers would leave %s without it", named(s.Name, s.ID), p.money(s.SumOfPrices), p.money(s.Expected))
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
			out = append(out, fmt.Sprintf("%s%s: %d numbered, %d sold, %d reserved, %d free", named(e.Name, e.ID), prose.Behind(" of ", p.product(n.Product)), n.Numbers.Of, n.Numbers.Sold, n.Numbers.Reserved, n.Numbers.Free))
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
	text := fmt.Sprintf("%s: %s; the %d left%s would bring %s", p.product(r.Product), strings.Join(steps, ", "), r.Count, size, p.money(r.Proceeds))
	if m, ok := r.Months.Get(); ok {
		text += fmt.Sprintf(" in %s months", p.figure(m.Round(1, quoin.HalfUp).Figure()))
	}
	return text + fmt.Sprintf(", of which %s stays with you, in the worst channel", p.money(r.Contribution))
}
