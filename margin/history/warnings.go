package history

import (
	"fmt"
	"maps"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
)

// Warnings returns what looks wrong in records that can all be true, in the
// order of lines, up to 1000 of these: reductions of a product that had no price
// on some day, reductions that ask as much as the price or more, and trials of
// a product at another price than the one that was in force. A trial is held
// against prices only where there are some of that product.
//
// A reduction without a channel is held against the prices of every channel. Of a
// reduction in a channel, or a trial, only the first such day is named. Where a million
// steps from price to price did not do to look at all of them, one warning says
// that there may be more.
func (h History) Warnings() quoin.Problems {
	w := watcher{h: h, left: mostSteps}
	for _, at := range slices.SortedFunc(maps.Keys(h.reductions), byName) {
		for _, r := range h.reductions[at] {
			w.reduction(at, r)
		}
	}
	for _, at := range slices.SortedFunc(maps.Keys(h.trials), byName) {
		for _, t := range h.trials[at] {
			w.trial(at, t)
		}
	}
	found := ordered(w.found, quoin.Warning)
	if w.left < 0 && len(found) <= mostProblems {
		found = append(found, quoin.Problem{
			Code: quoin.MoreProblems, Severity: quoin.Warning, Found: fmt.Sprintf("more than %d steps from price to price", mostSteps), Remedy: "look at fewer records at once",
		})
	}
	return found
}

const mostSteps = 1_000_000

type watcher struct {
	h     History
	left  int // steps
	found quoin.Problems
}

// walk goes through what was in force on some days, until visit says that it
// has seen enough.
func (w *watcher) walk(layers [][]period, days span, visit func(on day, p period, found bool) bool) {
	for on := days.from; on < days.until; w.left-- {
		if w.left < 0 {
			return
		}
		p, found, until := inForce(layers, on)
		if !visit(on, p, found) {
			return
		}
		on = until
	}
}

func (w *watcher) add(line int, field string, p quoin.Problem) {
	if p.Line = line; line > 0 {
		p.Path, p.Column = quoin.InList("lines", line-1).Field(field).String(), 1
	}
	w.found = append(w.found, p)
}

// reduction holds a reduction against the price that it reduces.
func (w *watcher) reduction(at place, r period) {
	if at.channel == "" {
		w.reductionAnywhere(at.product, r)
		return
	}
	w.walk(w.h.layers(at.product, at.channel, w.h.prices), r.span, func(on day, p period, found bool) bool {
		if !found {
			w.nothingReduced(at, r, on)
		}
		return found && w.below(at, r, on, p)
	})
}

// reductionAnywhere holds a reduction without a channel against the prices that it
// reduces in every channel, but for days on which a channel has a reduction of its own.
// That a channel has no price on some day is well, as long as another has one.
func (w *watcher) reductionAnywhere(product string, r period) {
	var all [][]period
	for _, channel := range w.h.Channels(product) {
		at := place{product, channel}
		layers := [][]period{w.h.prices[at]}
		if prices := w.h.prices[at]; len(prices) > 0 {
			all = append(all, prices)
		}
		if channel != "" {
			layers = [][]period{w.h.reductions[at], w.h.prices[at]}
		}
		w.walk(layers, r.span, func(on day, p period, found bool) bool {
			return !found || p.source.kind == ReductionRecord || w.below(at, r, on, p)
		})
	}
	if len(all) == 0 {
		return // nothing is known of its prices
	}
	w.walk(all, r.span, func(on day, _ period, found bool) bool {
		if !found {
			w.nothingReduced(place{product: product}, r, on)
		}
		return found
	})
}

// below warns of a price that a reduction takes nothing off, and says whether it is well.
func (w *watcher) below(at place, r period, on day, p period) bool {
	if p.price.Cmp(r.price) > 0 {
		return true
	}
	w.add(r.source.line, "price", quoin.Problem{
		Code:   NotBelow,
		Found:  fmt.Sprintf("a reduction of %s, to %s, and the price on %s%s was %s", reduced(at, r), r.price, on.date(), where(at.channel, r), p.price),
		Remedy: "see which of both is meant",
		Args:   append(reducedArgs(at, r, on), quoin.Arg{Name: "full_price", Value: p.price.String()}, quoin.Arg{Name: "price_line", Value: fmt.Sprint(p.source.line)}),
	})
	return false
}

func (w *watcher) nothingReduced(at place, r period, on day) {
	w.add(r.source.line, "price", quoin.Problem{
		Code: NothingReduced, Found: fmt.Sprintf("a reduction of %s, and no price on %s", reduced(at, r), on.date()),
		Remedy: "write down the price that was reduced", Args: reducedArgs(at, r, on),
	})
}

func reduced(at place, r period) string {
	return fmt.Sprintf("%s, %s", prose.Quoted(at.product), r.source.stated.days())
}

// where names the channel of a price that a reduction does not name itself.
func where(channel string, r period) string {
	if channel == "" || channel == r.source.channel {
		return ""
	}
	return " in " + prose.Quoted(channel)
}

func reducedArgs(at place, r period, on day) []quoin.Arg {
	args := []quoin.Arg{{Name: "product", Value: at.product}, {Name: "price", Value: r.price.String()}, {Name: "on", Value: on.date().String()}}
	if where(at.channel, r) != "" {
		args = append(args, quoin.Arg{Name: "channel", Value: at.channel})
	}
	return args
}

// trial holds a trial against the prices in force.
func (w *watcher) trial(at place, t Placed[Trial]) {
	if !w.h.products[at.product] {
		return
	}
	w.walk(w.h.layers(at.product, at.channel, w.h.reductions, w.h.prices), t.Entry.span(), func(on day, p period, found bool) bool {
		if found && p.price.Equal(t.Entry.Price) {
			return true
		}
		args := []quoin.Arg{{Name: "trial", Value: t.Entry.ID}, {Name: "price", Value: t.Entry.Price.String()}, {Name: "on", Value: on.date().String()}}
		was := "no price"
		if found {
			was = p.price.String()
			args = append(args, quoin.Arg{Name: "in_force", Value: was}, quoin.Arg{Name: "price_line", Value: fmt.Sprint(p.source.line)})
		}
		w.add(t.Line, "price", quoin.Problem{
			Code: OtherPrice, Found: fmt.Sprintf("trial %s at %s, and on %s the records have %s in %s", prose.Quoted(t.Entry.ID), t.Entry.Price, on.date(), was, prose.Quoted(at.channel)),
			Remedy: "write down the price of the trial from its first day, and the one after it", Args: args,
		})
		return false
	})
}
