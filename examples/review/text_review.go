package main

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist/review"
)

// text is the review to be read.
func (r results) text() string {
	var p page
	p.line(0, "Review of the price list on %s, amounts in %s", r.Today, r.Review.Currency)
	p.changes(r.Review.Changes)
	p.floors(r.Review.Floors)
	p.broken(r.Review.Broken)
	p.moves(r)
	p.volumes(r.Review.Moves)
	p.trials(r.Trials)
	p.next(r.Next)
	p.market(r.Market)
	p.past(r)
	p.matter(r.Matter)
	p.cautions(r.Cautions)
	return p.b.String()
}

func (p *page) changes(all []review.Change) {
	p.title("WHAT CHANGED")
	p.row(2, "", "was", "is")
	for _, c := range all {
		p.row(2, c.Input, orNone(c.Old), orNone(c.New))
	}
}

func orNone(value string) string {
	if value == "" {
		return "-"
	}
	return value
}

func (p *page) floors(all []review.Floor) {
	p.title("WHAT EACH CHANGE DID to the least price that costs and channels allow")
	p.row(2, "", "was", "is", "moved")
	for i, f := range all {
		if i > 0 {
			p.gap()
		}
		p.row(2, f.Product, maybe(f.Before), maybe(f.After), change(f.Change))
		for _, s := range f.Shares {
			p.row(4, "by "+list(s.Inputs, func(s string) string { return s }), signed(s.By))
		}
		if f.Together != nil {
			p.row(4, "by what they do together", signed(f.Together.By))
		}
		if !f.Without.IsZero() {
			p.line(4, "no shares: %s", words(f.Without.Code))
		}
		for _, c := range f.Channels {
			p.row(4, c.Channel+sets(c), maybe(c.Before), maybe(c.After), change(c.Change))
		}
	}
}

func change(a quoin.Optional[quoin.Amount]) string {
	v, ok := a.Get()
	if !ok {
		return "-"
	}
	return signed(v)
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

func (p *page) broken(all []review.Broken) {
	p.title("WHICH LAST PRICES BREAK A RULE NOW")
	if len(all) == 0 {
		p.line(2, "none")
	}
	for _, b := range all {
		p.line(2, "%s at %s breaks %q%s", b.Product, b.Price, b.Rule, missed(b))
	}
}

func missed(b review.Broken) string {
	switch {
	case b.Neighbour != "":
		return " beside " + b.Neighbour + " at " + b.NeighbourPrice
	case b.Asked == "":
		return ""
	}
	return where(b.Channel) + ": " + words(b.Bound) + " " + b.Asked + " asked, " + b.Got + " got"
}

func where(channel string) string {
	if channel == "" {
		return ""
	}
	return " in " + channel
}

func (p *page) moves(r results) {
	p.title("WHAT TO DO WITH EACH PRICE, at most " + percent(r.Move) + " at once")
	p.row(2, "", "last", "now")
	if len(r.Review.Conflict) > 0 {
		p.line(2, "nothing: these rules cannot hold together: %s", list(r.Review.Conflict, func(s string) string { return s }))
	}
	for _, m := range r.Review.Moves {
		p.row(2, m.Product, maybe(m.Last), money(m.Now))
		p.line(4, "%s", advice(m))
		p.line(4, "since: %s", list(m.Reasons, func(r review.Reason) string { return words(r.Code) }))
		for _, b := range m.Still {
			p.line(4, "until then it breaks %q%s", b.Rule, missed(b))
		}
	}
}

func advice(m review.Move) string {
	by := ""
	if r, ok := m.By.Get(); ok {
		by = fmt.Sprintf(" (%.1f%%)", r)
	}
	switch m.Advice {
	case review.Stay:
		return "leave it"
	case review.Wait:
		return "wait with " + money(m.Decided) + by + "; first step now: " + money(m.Now)
	case review.New:
		return "new, at " + money(m.Now)
	}
	return string(m.Advice) + " it to " + money(m.Now) + " now" + by
}

func (p *page) volumes(all []review.Move) {
	p.title("HOW MUCH VOLUME EACH RISE MAY LOSE, before what periods cost")
	moved := 0
	for _, m := range all {
		if len(m.Volumes) == 0 {
			continue
		}
		moved++
		p.row(2, m.Product+", a sale contributes", "at "+maybe(m.Last), "at "+money(m.Now), "may lose")
		for _, v := range m.Volumes {
			p.row(4, v.Channel, money(v.Before), money(v.After), lose(v))
		}
	}
	if moved == 0 {
		p.line(2, "no price moves")
	}
}

func lose(v review.Volume) string {
	if r, ok := v.MayLose.Get(); ok {
		return percent(r)
	}
	return "-"
}

func (p *page) matter(all []review.Influence) {
	p.title("WHICH FIGURES MATTER MOST: least prices if one were 10% off")
	p.row(2, "", "lower", "now", "higher", "apart")
	for _, f := range all {
		p.line(2, "%s: %s, %s or %s", f.Input, orNone(f.Down), f.Value, orNone(f.Up))
		for _, s := range f.Products {
			p.row(4, s.Product, maybe(s.Down), money(s.Floor), maybe(s.Up), apart(s))
		}
	}
}

func apart(s review.Swing) string {
	if s.NoPrice {
		return "no price"
	}
	return money(s.Swing)
}
