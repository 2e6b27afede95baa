package history

import (
	"maps"
	"slices"
	"sort"

	"example.com/quoin"
)

// Timeline is what a product was offered at in a channel.
type Timeline struct {
	Product string `json:"product"`
	Channel string `json:"channel,omitempty"`
	// Held is the prices in force, in order and without overlaps.
	Held []Stretch `json:"held"`
	// Gaps is the days between them on which no price was in force.
	Gaps []Days `json:"gaps,omitempty"`
}

// Stretch is days in a row on which one record said the price.
type Stretch struct {
	Days
	Price quoin.Amount `json:"price"`
	// Record is price or reduction; Line is where it stands, 0 where it was not
	// read from lines.
	Record Kind `json:"record"`
	Line   int  `json:"line,omitzero"`
	// Channel is that of the record: none where it says the price of all channels.
	Channel string `json:"channel,omitempty"`
	// Stated is the days that the record speaks of; others may have gone before
	// it on some of them.
	Stated Days `json:"stated"`
}

// Timeline returns what a product was offered at in a channel, or, of no
// channel, wherever nothing else was said. On each day that is what the first
// of these says that there is:
//
//	the reduction in that channel
//	the reduction without a channel
//	the price in that channel
//	the price without a channel
//
// It errs with Problems where no price and no reduction names the product.
func (h History) Timeline(product, channel string) (Timeline, error) {
	if !h.products[product] {
		return Timeline{}, near(product, h.Products(), "a product with a price")
	}
	return timelineOf(product, channel, h.layers(product, channel, h.reductions, h.prices)), nil
}

// Channels returns the channels in which records name a price or a reduction
// of a product, by name; the empty one for those without a channel.
func (h History) Channels(product string) []string {
	all := make(map[string]bool)
	for _, of := range []map[place][]period{h.prices, h.reductions} {
		for at := range of {
			if at.product == product {
				all[at.channel] = true
			}
		}
	}
	return slices.Sorted(maps.Keys(all))
}

// layers lists periods, those first that go before the others.
func (History) layers(product, channel string, kinds ...map[place][]period) [][]period {
	var out [][]period
	for _, of := range kinds {
		out = append(out, of[place{product, channel}])
		if channel != "" {
			out = append(out, of[place{product, ""}])
		}
	}
	return out
}

func timelineOf(product, channel string, layers [][]period) Timeline {
	t := Timeline{Product: product, Channel: channel}
	last := -1 // index of the record of the last stretch
	for on := begin(layers); on < forever; {
		p, found, until := inForce(layers, on)
		here := span{on, until}
		switch {
		case !found && until < forever:
			t.Gaps = append(t.Gaps, here.days())
		case found && p.source.index == last:
			t.Held[len(t.Held)-1].Until = until.date()
		case found:
			from := p.source
			t.Held = append(t.Held, Stretch{here.days(), p.price, from.kind, from.line, from.channel, from.stated.days()})
		}
		on, last = until, -1
		if found {
			last = p.source.index
		}
	}
	return t
}

// begin is the first day on which some period begins.
func begin(layers [][]period) day {
	on := forever
	for _, layer := range layers {
		if len(layer) > 0 {
			on = min(on, layer[0].from)
		}
	}
	return on
}

// inForce returns the period on a day, of the first layer that has one, and the
// day until which that is so.
func inForce(layers [][]period, on day) (p period, found bool, until day) {
	until = forever
	for _, layer := range layers {
		i := sort.Search(len(layer), func(i int) bool { return layer[i].until > on })
		switch {
		case i == len(layer):
		case layer[i].from <= on:
			return layer[i], true, min(until, layer[i].until)
		default:
			until = min(until, layer[i].from)
		}
	}
	return period{}, false, until
}

func (s Stretch) span() span { return span{dayOf(s.From), dayOf(s.Until)} }

// On returns the stretch that a day lies in; false where no price was in force.
func (t Timeline) On(on quoin.Date) (Stretch, bool) {
	i, ok := t.at(dayOf(on)) // no day lies behind all stretches, where nothing is
	if !ok {
		return Stretch{}, false
	}
	return t.Held[i], true
}

// at returns the stretch that a day lies in, or else the next after it.
func (t Timeline) at(on day) (int, bool) {
	i := sort.Search(len(t.Held), func(i int) bool { return dayOf(t.Held[i].Until) > on })
	return i, i < len(t.Held) && dayOf(t.Held[i].From) <= on
}

// Change is a day on which the price in force was not that of the day before.
type Change struct {
	On quoin.Date `json:"on"`
	// Before and After are not given where no price was in force.
	Before quoin.Optional[quoin.Amount] `json:"before,omitzero"`
	After  quoin.Optional[quoin.Amount] `json:"after,omitzero"`
	// Record and Line are those of the record that says the price after, or, where
	// there is none, said the price before.
	Record Kind `json:"record"`
	Line   int  `json:"line,omitzero"`
}

// Changes returns the days from one day until, and without, another on which
// the price in force changed, began or ended. Without an until there is no end.
func (t Timeline) Changes(from, until quoin.Date) []Change {
	var out []Change
	add := func(on quoin.Date, s Stretch, before, after quoin.Optional[quoin.Amount]) {
		if !before.Equal(after) && (Days{from, until}).Holds(on) {
			out = append(out, Change{on, before, after, s.Record, s.Line})
		}
	}
	var none quoin.Optional[quoin.Amount]
	for i, s := range t.Held {
		before := none
		if i > 0 && t.Held[i-1].Until == s.From {
			before = quoin.Some(t.Held[i-1].Price)
		}
		add(s.From, s, before, quoin.Some(s.Price))
		if ends := !s.Until.IsZero() && (i == len(t.Held)-1 || t.Held[i+1].From != s.Until); ends {
			add(s.Until, s, quoin.Some(s.Price), none)
		}
	}
	return out
}
