package annual

import (
	"fmt"
	"slices"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin/history"
	"example.com/quoin/margin/rule"
	"example.com/quoin/margin/trial"
)

// Codes of trials that stand beside no other.
const (
	TodayNotTried trial.Mark = "today_not_tried" // the price in force was never counted
	NoPriceInUse  trial.Mark = "no_price_in_use" // the history gives the product no price for today
	NotSold       trial.Mark = "not_sold"        // the new document does not sell the product in that channel
)

// LeftOutTrials are trials of one price in one channel that could not be compared, and why.
type LeftOutTrials struct {
	Product  string       `json:"product"`
	Channel  string       `json:"channel"`
	Price    quoin.Amount `json:"price"`
	Occasion string       `json:"occasion,omitempty"`
	// Counted is what their exposure is counted in.
	Counted trial.Kind `json:"counted"`
	// Trials is how many they are. Sold and Exposure are those of all of them.
	Trials   int          `json:"trials"`
	Sold     int64        `json:"sold"`
	Exposure quoin.Factor `json:"exposure"`
	Why      trial.Mark   `json:"why"`
	// Other is what the other price had instead in this channel: its occasions, where they are
	// why, or what its exposure was counted in.
	Other []string `json:"other,omitempty"`
}

// String writes what is given of the trials.
func (l LeftOutTrials) String() string { return form.String(l) }

// gathering puts trials of one price, place and reason together.
type gathering []LeftOutTrials

func (g *gathering) add(p trial.Period, why trial.Mark) *LeftOutTrials {
	i := slices.IndexFunc(*g, func(l LeftOutTrials) bool {
		return l.Product == p.Product && l.Channel == p.Channel && l.Price.Equal(p.Price) && l.Occasion == p.Occasion && l.Counted == p.Exposure.Kind && l.Why == why
	})
	if i < 0 {
		i = len(*g)
		*g = append(*g, LeftOutTrials{Product: p.Product, Channel: p.Channel, Price: p.Price, Occasion: p.Occasion, Counted: p.Exposure.Kind, Why: why})
	}
	l := &(*g)[i]
	l.Trials, l.Sold, l.Exposure = l.Trials+1, l.Sold+p.Units, l.Exposure.Add(p.Exposure.Number)
	return l
}

// leftOut are the trials that a comparison left out, with what the other price had instead.
func leftOut(c trial.Comparison, periods []trial.Period, price, today quoin.Amount) []LeftOutTrials {
	var g gathering
	for _, left := range c.LeftOut {
		i := slices.IndexFunc(periods, func(p trial.Period) bool { return p.ID == left.ID })
		p := periods[i]
		l := g.add(p, left.Mark)
		other := price
		if p.Price.Equal(price) {
			other = today
		}
		l.Other = instead(p, left.Mark, at(periods, other))
	}
	return g
}

// instead is what the other price had in the channel of a period that was left out.
func instead(p trial.Period, why trial.Mark, others []trial.Period) []string {
	var out []string
	for _, o := range others {
		switch {
		case o.Channel != p.Channel:
		case why == trial.OtherOccasion:
			out = append(out, o.Occasion)
		case why == trial.OtherKind && o.Occasion == p.Occasion:
			out = append(out, string(o.Exposure.Kind))
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// alone are the trials that stand beside no other, because nothing is known of a price in force
// to compare them with.
func (r reviewer) alone() []LeftOutTrials {
	var g gathering
	for _, in := range r.History.Trials() {
		why, all := r.whyAlone(in)
		if why == "" {
			continue
		}
		for _, p := range all {
			g.add(p, why)
		}
	}
	return g
}

func (r reviewer) whyAlone(in history.TrialsIn) (trial.Mark, []trial.Period) {
	all := make([]trial.Period, len(in.Trials))
	for i, placed := range in.Trials {
		all[i] = periodOf(placed.Entry)
	}
	i := slices.IndexFunc(r.items, func(it rule.Item) bool { return it.ID == in.Product })
	if i < 0 {
		return NotSold, all
	}
	if _, sold := r.items[i].Offer(in.Channel); !sold {
		return NotSold, all
	}
	today, priced := r.prices[in.Product]
	if !priced {
		return NoPriceInUse, all
	}
	if len(at(r.periods(r.items[i]), today)) == 0 {
		return TodayNotTried, all
	}
	return "", nil
}

func periodOf(t history.Trial) trial.Period {
	return trial.Period{
		ID: t.ID, Product: t.Product, Channel: t.Channel, Price: t.Price, From: t.From, To: t.Until,
		Exposure: trial.Exposure{Number: t.Exposure, Kind: trial.Kind(t.ExposureUnit)}, Units: t.Sold.Or(0), Occasion: t.Occasion,
	}
}

// trialsOf says which trials were left out, with their counts.
func (w writer) trialsOf(l LeftOutTrials) string {
	on := ""
	if l.Occasion != "" && l.Why == trial.OtherOccasion {
		on = fmt.Sprintf(" on the occasion %q", l.Occasion)
	}
	return fmt.Sprintf("%s at %s in %s%s (%d sold, %s)", prose.Count(int64(l.Trials), "trial"), w.money(l.Price), w.channel(l.Channel), on, l.Sold, exposure(l.Exposure, l.Counted))
}

// exposure is a number of visits, visitors or days.
func exposure(n quoin.Factor, of trial.Kind) string {
	text, what := number(n, 0), prose.Words(of)
	if text == "1" {
		what = strings.TrimSuffix(strings.Replace(what, "days", "day", 1), "s")
	}
	return text + " " + what
}

// unlike says why trials were left out, and what would let them be compared with another price.
func (w writer) unlike(l LeftOutTrials, other quoin.Amount) string {
	price := w.money(other)
	switch l.Why {
	case trial.OtherOccasion:
		return fmt.Sprintf("%s was tried there %s; if that is the same kind of occasion, write one name for it in \"occasion\" of all these trials", price, occasions(l.Other))
	case trial.OtherKind:
		return fmt.Sprintf("%s was counted there in %s; count both prices in the same", price, list(l.Other, prose.Words))
	case trial.OtherChannel:
		return fmt.Sprintf("they count once %s is tried there too", price)
	}
	return say(l.Why)
}

func occasions(all []string) string {
	var named []string
	without := false
	for _, o := range all {
		if o == "" {
			without = true
			continue
		}
		named = append(named, fmt.Sprintf("%q", o))
	}
	switch {
	case len(named) == 0:
		return "without an occasion"
	case without:
		return "on " + strings.Join(named, ", ") + " and without an occasion"
	}
	return "only on " + strings.Join(named, ", ")
}

// lone says of trials that stand beside no other what is missing.
func (w writer) lone(l LeftOutTrials, today quoin.Optional[quoin.Amount]) string {
	switch l.Why {
	case TodayNotTried:
		return fmt.Sprintf("today's price of %s was never tried; note the sales at it in the same channel, to compare them", w.maybe(today))
	case NoPriceInUse:
		return "the history has no price for today; note the price in force, to compare them"
	}
	return "the new document does not sell it there"
}
