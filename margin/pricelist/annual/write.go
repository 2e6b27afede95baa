package annual

import (
	"cmp"
	"fmt"
	"strings"

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
}

func written(to page.Report, r Results) string {
	w := writer{to, r.Review.Currency}
	w.Title("Review of the price list on %s, amounts in %s", r.Today, w.currency)
	w.changes(r.Review.Changes)
	w.floors(r.Review.Floors)
	w.broken(r.Review.Broken)
	w.moves(r)
	w.volumes(r.Review.Moves)
	w.trials(r.Trials)
	w.next(r.Next)
	w.market(r.Market)
	w.past(r)
	w.matter(r.Matter)
	w.Cautions(r.Cautions)
	return w.String()
}

func (w writer) changes(all []review.Change) {
	w.Section("What changed", "")
	w.Table(0, "", "was", "is")
	for _, c := range all {
		w.Row(0, c.Input, orNone(c.Old), orNone(c.New))
	}
}

func orNone(value string) string { return cmp.Or(value, "-") }

func (w writer) floors(all []review.Floor) {
	w.Section("What each change did", " to the least price that costs and channels allow")
	w.Table(0, "", "was", "is", "moved")
	for i, f := range all {
		if i > 0 {
			w.Gap()
		}
		w.Row(0, f.Product, w.maybe(f.Before), w.maybe(f.After), w.change(f.Change))
		for _, s := range f.Shares {
			w.Row(1, "by "+strings.Join(s.Inputs, ", "), w.signed(s.By))
		}
		if f.Together != nil {
			w.Row(1, "by what they do together", w.signed(f.Together.By))
		}
		if !f.Without.IsZero() {
			w.Row(1, "no shares: "+prose.Words(f.Without.Code))
		}
		for _, c := range f.Channels {
			w.Row(1, c.Channel+sets(c), w.maybe(c.Before), w.maybe(c.After), w.change(c.Change))
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

func (w writer) broken(all []review.Broken) {
	w.Section("Which last prices break a rule now", "")
	if len(all) == 0 {
		w.Line(0, "none")
	}
	for _, b := range all {
		w.Line(0, "%s at %s breaks %q%s", b.Product, b.Price, b.Rule, missed(b))
	}
}

func missed(b review.Broken) string {
	switch {
	case b.Neighbour != "":
		return " beside " + b.Neighbour + " at " + b.NeighbourPrice
	case b.Asked == "":
		return ""
	}
	return where(b.Channel) + ": " + prose.Words(b.Bound) + " " + b.Asked + " asked, " + b.Got + " got"
}

func where(channel string) string {
	if channel == "" {
		return ""
	}
	return " in " + channel
}

func (w writer) moves(r Results) {
	w.Section("What to do with each price", ", at most "+percent(r.Move)+" at once")
	w.Table(0, "", "last", "now")
	if len(r.Review.Conflict) > 0 {
		w.Row(0, "nothing: these rules cannot hold together: "+strings.Join(r.Review.Conflict, ", "))
	}
	for _, m := range r.Review.Moves {
		w.Row(0, m.Product, w.maybe(m.Last), w.money(m.Now))
		w.Row(1, w.advice(m))
		w.Row(1, "since: "+list(m.Reasons, func(r review.Reason) string { return prose.Words(r.Code) }))
		for _, b := range m.Still {
			w.Row(1, fmt.Sprintf("until then it breaks %q%s", b.Rule, missed(b)))
		}
	}
}

func (w writer) advice(m review.Move) string {
	by := ""
	if r, ok := m.By.Get(); ok {
		by = fmt.Sprintf(" (%.1f%%)", r)
	}
	switch m.Advice {
	case review.Stay:
		return "leave it"
	case review.Wait:
		return "wait with " + w.money(m.Decided) + by + "; first step now: " + w.money(m.Now)
	case review.New:
		return "new, at " + w.money(m.Now)
	}
	return string(m.Advice) + " it to " + w.money(m.Now) + " now" + by
}

func (w writer) volumes(all []review.Move) {
	w.Section("How much volume each rise may lose", ", before what periods cost")
	moved := 0
	for _, m := range all {
		if len(m.Volumes) == 0 {
			continue
		}
		moved++
		w.Table(0, m.Product+", a sale contributes", "at "+w.maybe(m.Last), "at "+w.money(m.Now), "may lose")
		for _, v := range m.Volumes {
			w.Row(1, v.Channel, w.money(v.Before), w.money(v.After), given(v.MayLose, percent))
		}
	}
	if moved == 0 {
		w.Line(0, "no price moves")
	}
}

func (w writer) matter(all []review.Influence) {
	w.Section("Which figures matter most", ": least prices if one were 10% off")
	w.Table(0, "", "lower", "now", "higher", "apart")
	for _, f := range all {
		w.Row(0, fmt.Sprintf("%s: %s, %s or %s", f.Input, orNone(f.Down), f.Value, orNone(f.Up)))
		for _, s := range f.Products {
			w.Row(1, s.Product, w.maybe(s.Down), w.money(s.Floor), w.maybe(s.Up), w.apart(s))
		}
	}
}

func (w writer) apart(s review.Swing) string {
	if s.NoPrice {
		return "no price"
	}
	return w.money(s.Swing)
}

func (w writer) money(a quoin.Amount) string { return w.currency.Round(a, quoin.HalfUp).String() }

func (w writer) maybe(a quoin.Optional[quoin.Amount]) string { return given(a, w.money) }

// signed is a change, with a sign before it.
func (w writer) signed(a quoin.Amount) string {
	if a.Sign() <= 0 {
		return w.money(a)
	}
	return "+" + w.money(a)
}

func (w writer) change(a quoin.Optional[quoin.Amount]) string { return given(a, w.signed) }

// given says what is given, or that nothing is.
func given[T any](v quoin.Optional[T], say func(T) string) string {
	if is, ok := v.Get(); ok {
		return say(is)
	}
	return "-"
}

func percent(r quoin.Rate) string { return fmt.Sprintf("%.0f%%", r) }

func list[T any](items []T, say func(T) string) string {
	said := make([]string, len(items))
	for i, v := range items {
		said[i] = say(v)
	}
	return strings.Join(said, ", ")
}
