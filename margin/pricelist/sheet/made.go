package sheet

import (
	"fmt"
	"strings"

	"example.com/quoin"
	"example.com/quoin/cost/buy"
	"example.com/quoin/cost/source"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin/pricelist"
)

// workings are what was worked out for a product: what is cut out of what, how
// many to start, and whether to make it or have it made.
func (p wording) workings(it pricelist.ProductResult) []string {
	var out []string
	for _, m := range it.WorkedOut {
		out = append(out, fmt.Sprintf("%s: %s", m.Supply, p.made(m)))
	}
	if g := it.RunStart; g != nil {
		out = append(out, fmt.Sprintf("Start %s: in %s of 100 runs %d are good. With %d only in %s of 100.",
			prose.Count(g.Start, "print"), runs(g.Chance), g.Good, g.Average, runs(g.AverageChance)))
	}
	if it.Sourcing != nil {
		out = append(out, p.sourcing(*it.Sourcing)...)
	}
	return out
}

// runs is how many of a hundred runs a chance is; part of one does not count.
func runs(r quoin.Rate) string {
	return r.Factor().Times(quoin.FactorOf(100)).Round(0, quoin.Down).String()
}

func (p wording) made(m pricelist.DerivedLine) string {
	text := p.figure(m.Quantity.Figure()) + " each"
	switch {
	case m.Sheet != nil:
		text = fmt.Sprintf("%d out of a sheet, %s of it used, %s", m.Sheet.Pieces, percent(m.Sheet.Used), text)
	case m.Roll != nil:
		text = fmt.Sprintf("%d out of a roll, %s", m.Roll.Pieces, text)
	case m.Sticks != nil:
		text = fmt.Sprintf("%s cut together, %s", prose.Count(m.Sticks.Sticks, "stick"), text)
	}
	if !m.Mass.IsZero() {
		text += ", weighing " + p.figure(m.Mass.Figure())
	}
	if edge, ok := m.Edge.Get(); ok && edge.Sign() > 0 {
		text += fmt.Sprintf("; the unusable edge of the sheet costs %s a piece", p.money(edge))
	}
	return text
}

func (p wording) sourcing(s pricelist.Sourcing) []string {
	var parts []string
	for _, st := range s.Stretches {
		name := st.Source
		if st.Source == source.AtHome {
			name = "at home"
		}
		parts = append(parts, fmt.Sprintf("%d to %d %s (%s to %s)", st.From, st.To, name, p.money(st.First), p.money(st.Last)))
	}
	out := []string{"a run costs least: " + strings.Join(parts, "; ")}
	for _, q := range s.Quotes {
		text := fmt.Sprintf("%s: %d cost %s (%s each). It may deliver as few as %d, and bill up to %s", q.ID, q.Prints, p.money(q.Cost), p.money(q.PerPrint), q.Fewest, p.money(q.Cash))
		if q.Ordered > q.Prints {
			text += fmt.Sprintf("; order %d, which costs least", q.Ordered)
		}
		if n, ok := q.Order.Get(); ok {
			text += fmt.Sprintf("; for this demand have %d made, of which %s stay on average", n, p.figure(q.LeftOver.Or(quoin.Factor{}).Round(1, quoin.HalfUp).Figure()))
		}
		out = append(out, text)
	}
	return out
}

// supplied is what offers, stocks and machines come to.
func (p wording) supplied(a pricelist.Answer) []string {
	var out []string
	for _, b := range a.Bought {
		if b.Order != nil {
			text := fmt.Sprintf("%s: buy %d for %s", b.Supply, b.Order.Quantity, p.money(b.Order.Cost))
			if b.Order.Left > 0 {
				text += fmt.Sprintf("; %d more than needed, worth %s", b.Order.Left, p.money(b.Order.Bound))
			}
			for _, d := range b.Dominated {
				text += "; " + dominated(d)
			}
			out = append(out, text)
		}
		if st := b.Standing; st != nil {
			paid := ""
			if !st.Paid.Equal(st.Value) {
				paid = fmt.Sprintf(", for which %s was paid", p.money(st.Paid))
			}
			out = append(out, fmt.Sprintf("%s: %s in stock, worth %s%s; the next costs %s (%s)", b.Supply, p.figure(st.Quantity.Figure()), p.money(st.Value), paid, p.money(st.Unit), prose.Words(st.Basis)))
		}
	}
	for _, m := range a.Machines {
		out = append(out, fmt.Sprintf("%s: adds %s to each print, over %s prints", m.ID, p.money(m.PerPrint), p.figure(m.Volume.Figure())))
	}
	return out
}

func dominated(d buy.DominatedQuantities) string {
	if d.From == d.To {
		return fmt.Sprintf("%d cost more than %d", d.From, d.Instead)
	}
	return fmt.Sprintf("%d to %d cost more than %d", d.From, d.To, d.Instead)
}
