package annual

import (
	"fmt"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/page"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin/pricelist/review"
)

// Text writes results as plain text in lines of at most width characters, where the words and
// columns in it allow. Figures are rounded for display only.
func Text(r Results, width int) string { return written(page.TextReport(width), r) }

// Markdown writes results as Markdown, with tables.
func Markdown(r Results) string { return written(page.MarkdownReport(), r) }

// writer writes results of one currency.
type writer struct {
	page.Report
	currency quoin.Currency
	names    map[string]string
}

func written(to page.Report, r Results) string {
	w := writer{to, r.Review.Currency, r.Names}
	w.Title("Review of the price list on %s, amounts in %s", r.Today, w.currency)
	w.moves(r)
	w.broken(r.Review.Broken)
	w.changes(r.Review.Changes)
	w.floors(r.Review.Floors)
	w.volumes(r.Review.Moves)
	w.trials(r)
	w.next(r.Next)
	w.market(r.Market)
	w.past(r)
	w.matter(r.Matter)
	w.Cautions(r.Cautions)
	return w.String()
}

func (w writer) changes(all []review.InputChange) {
	if len(all) == 0 {
		return
	}
	w.Section("What changed", "")
	w.Table(0, "", "was", "is")
	for _, c := range all {
		w.Row(0, w.place(c.Input), orNone(c.Old), orNone(c.New))
	}
}

func (w writer) floors(all []review.Floor) {
	if len(all) == 0 {
		return
	}
	w.Section("What each change did", " to the lowest price that costs and fees allow")
	w.Table(0, "", "was", "is", "moved")
	for i, f := range all {
		if i > 0 {
			w.Gap()
		}
		w.Row(0, w.product(f.Product), w.maybe(f.Before), w.maybe(f.After), given(f.Change, w.signed))
		for _, s := range f.Shares {
			w.Row(1, "by "+list(s.Inputs, w.place), w.signed(s.By))
		}
		if f.Together != nil {
			w.Row(1, "by several of them together", w.signed(f.Together.By))
		}
		if !f.Without.IsZero() {
			w.Row(1, "not told by which change: "+say(f.Without.Code))
		}
		for _, c := range f.Channels {
			w.Row(1, w.channel(c.Channel)+sets(c), w.maybe(c.Before), w.maybe(c.After), given(c.Change, w.signed))
		}
	}
}

func sets(c review.ChannelFloor) string {
	switch {
	case c.Set && c.Sets:
		return " alone (sets it, as before)"
	case c.Sets:
		return " alone (sets it now)"
	case c.Set:
		return " alone (set it before)"
	}
	return " alone"
}

func (w writer) broken(all []review.BrokenRule) {
	if len(all) == 0 {
		return
	}
	w.Section("Which last prices break a rule now", "")
	for _, b := range all {
		w.Line(0, "%s at %s breaks %q%s", w.product(b.Product), b.Price, b.Rule, w.missed(b))
	}
}

func (w writer) missed(b review.BrokenRule) string {
	switch {
	case b.Neighbour != "":
		return " beside " + w.product(b.Neighbour) + " at " + b.NeighbourPrice
	case b.Asked == "":
		return ""
	}
	return fmt.Sprintf("%s: it asks %s %s, and gets %s", prose.Behind(" in ", w.channel(b.Channel)), prose.Words(b.Bound), b.Asked, b.Got)
}

func (w writer) moves(r Results) {
	w.Section("What to do with each price", ", at most "+r.Move.String()+" at once")
	if len(r.Review.Conflict) > 0 {
		w.Line(0, "nothing: these rules cannot hold together: %s", quotedList(r.Review.Conflict))
	}
	if len(r.Review.Moves) == 0 {
		return
	}
	w.Table(0, "", "last", "now")
	for _, m := range r.Review.Moves {
		w.Row(0, w.product(m.Product), w.maybe(m.Last), w.money(m.Now))
		w.Row(1, w.advice(m))
		if len(m.Reasons) > 0 {
			w.Row(1, "since: "+joined("; ", m.Reasons, func(r review.Reason) string { return say(r.Code) }))
		}
		for _, b := range m.Still {
			w.Row(1, fmt.Sprintf("at %s it still breaks %q%s", w.money(m.Now), b.Rule, w.missed(b)))
		}
	}
}

func (w writer) advice(m review.Proposal) string {
	by := ""
	if r, ok := m.By.Get(); ok {
		by = fmt.Sprintf(" (%.1f%%)", r)
	}
	switch m.Advice {
	case review.Stay:
		return "leave it"
	case review.Wait:
		if m.Now.Equal(m.Last.Or(m.Now)) {
			return fmt.Sprintf("leave it for now, and wait with %s%s", w.money(m.Decided), by)
		}
		return fmt.Sprintf("ask %s now, and wait with %s%s", w.money(m.Now), w.money(m.Decided), by)
	case review.New:
		return "new, at " + w.money(m.Now)
	}
	return string(m.Advice) + " it to " + w.money(m.Now) + " now" + by
}

func (w writer) volumes(all []review.Proposal) {
	all = slices.DeleteFunc(slices.Clone(all), func(m review.Proposal) bool { return len(m.Volumes) == 0 })
	if len(all) == 0 {
		return
	}
	w.Section("How many sales you may lose after each rise", " (subscriptions and stands not counted)")
	for _, m := range all {
		w.Table(0, w.product(m.Product)+", a sale leaves", "at "+w.maybe(m.Last), "at "+w.money(m.Now), "may lose")
		for _, v := range m.Volumes {
			w.Row(1, w.channel(v.Channel), w.money(v.Before), w.money(v.After), given(v.MayLose, percent))
		}
	}
}

func (w writer) matter(all []review.InputEffect) {
	if len(all) == 0 {
		return
	}
	w.Section("Which figures matter most", ": lowest prices if one is 10% lower or higher")
	w.Table(0, "", "lower", "now", "higher", "moves by")
	for _, f := range all {
		w.Row(0, fmt.Sprintf("%s: %s, %s or %s", w.place(f.Input), orNone(f.Down), f.Value, orNone(f.Up)))
		for _, s := range f.Products {
			w.Row(1, w.product(s.Product), w.maybe(s.Down), w.money(s.Floor), w.maybe(s.Up), w.apart(s))
		}
	}
}

func (w writer) apart(s review.Swing) string {
	if s.NoPrice {
		return "no price"
	}
	return w.money(s.Swing)
}
