package history

import (
	"fmt"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
)

// LowestCaution stands wherever a Lowest is shown.
const LowestCaution = "Which earlier price must stand beside a reduction, of how many days, and in which channel, differs by place and change."

// Lowest is the lowest price of some days, and what it was found from. Which days the law asks
// about, and where, differs by place: see LowestCaution.
type Lowest struct {
	Product string `json:"product"`
	Channel string `json:"channel,omitempty"`
	// Window is the days that were looked at: up to, and without, the day that
	// was asked about, or the beginning of the series.
	Window Days  `json:"window"`
	Asked  int64 `json:"asked"`
	// Price is not given where no price was in force on any of the days.
	Price quoin.Optional[quoin.Amount] `json:"price,omitzero"`
	// By is the record that says it, and its days in the window: of several, the
	// one that was in force first.
	By quoin.Optional[Stretch] `json:"by,omitzero"`
	// BeganBefore says that By was in force before the window began.
	BeganBefore bool `json:"began_before,omitzero"`
	// Held is all that was in force in the window, cut to it, earlier reductions
	// too; Gaps is the days without a price, and Covered how many had one.
	Held    []Stretch `json:"held,omitempty"`
	Gaps    []Days    `json:"gaps,omitempty"`
	Covered int64     `json:"covered"`
	// Series is the reductions that the window lies before, where it was asked to
	// look back from the first of a series.
	Series []Stretch `json:"series,omitempty"`
	// Channels is what was found in each channel, where it was asked of none and some
	// have prices of their own. All that stands above is then that of the channel with
	// the lowest price, of equals the first, which Channel names; none where that is a
	// price without a channel.
	Channels []Lowest `json:"channels,omitempty"`
	// Warnings says where a price was not in force on all of the days.
	Warnings quoin.Problems `json:"warnings,omitempty"`
}

// LowestBefore returns the lowest price of the days before a day, as sellers
// are asked in some places to show it beside a reduced price. Rules differ by
// place: over how many days, for which goods, and whether a product that was
// not on sale for all of them may be called reduced at all. So the number of
// days is an argument; 30 is one example (European Union, Directive 98/6/EC,
// Article 6a; from memory).
//
// It is the lowest price in force on any day from day − days up to, and
// without, day. A price that began before these days counts if it was still in
// force on the first of them; one that ended on the first does not. Reductions
// in that time were prices in force, and count. Days without a price take no
// part; Covered says how many had one, and a warning where that is not all.
//
// Without a channel it is the lowest in any: a reduction without a channel is
// announced in all of them, but for those that have a reduction of their own on the
// day.
//
// Days are from 1 to 36,525. It errs with Problems where they are not, where
// there is no day, and where no record names the product.
func (h History) LowestBefore(product, channel string, day quoin.Date, days int64) (Lowest, error) {
	return h.lowestBefore(product, channel, day, days, Timeline.LowestBefore)
}

// LowestBeforeSeries is LowestBefore for a price that is reduced step by step:
// where other reductions go before without a day between, it looks at the days
// before the first of them, so that the earlier steps do not lower what the
// later ones are compared with. Some places allow that and some do not.
//
// The series is the reductions in force on the days before day, back to the
// first day without a reduction, or to one that asked less than the reduction
// after it: there the price went up again. The reduction on day itself belongs
// to it where it is on record.
func (h History) LowestBeforeSeries(product, channel string, day quoin.Date, days int64) (Lowest, error) {
	return h.lowestBefore(product, channel, day, days, Timeline.LowestBeforeSeries)
}

func (h History) lowestBefore(product, channel string, day quoin.Date, days int64, of func(Timeline, quoin.Date, int64) (Lowest, error)) (Lowest, error) {
	t, err := h.Timeline(product, channel)
	if err != nil {
		return Lowest{}, err
	}
	out, err := of(t, day, days)
	if err != nil || channel != "" {
		return out, err
	}
	all := []Lowest{out}
	for _, c := range h.Channels(product) {
		_, reduced, _ := inForce([][]period{h.reductions[place{product, c}]}, dayOf(day))
		if c == "" || reduced {
			continue
		}
		t, _ := h.Timeline(product, c)
		found, _ := of(t, day, days) // the product is known, and the window was checked
		if all = append(all, found); found.below(out) {
			out = found
		}
	}
	if len(all) > 1 {
		out.Channels = all
	}
	return out, nil
}

// below reports whether a price was found that is lower than another, or the only one.
func (l Lowest) below(other Lowest) bool {
	price, given := l.Price.Get()
	low, has := other.Price.Get()
	return given && (!has || price.Cmp(low) < 0)
}

// LowestBefore is that of History for the product and channel of the timeline, and for
// that channel alone: of none, for the prices without a channel.
func (t Timeline) LowestBefore(day quoin.Date, days int64) (Lowest, error) {
	if err := checkWindow(day, days); err != nil {
		return Lowest{}, err
	}
	return t.lowest(dayOf(day), days), nil
}

// LowestBeforeSeries is that of History for the product and channel of the
// timeline.
func (t Timeline) LowestBeforeSeries(day quoin.Date, days int64) (Lowest, error) {
	if err := checkWindow(day, days); err != nil {
		return Lowest{}, err
	}
	series := t.series(dayOf(day))
	begin := dayOf(day)
	if len(series) > 0 {
		begin = min(begin, dayOf(series[0].From))
	}
	out := t.lowest(begin, days)
	out.Series = series
	return out, nil
}

func checkWindow(day quoin.Date, days int64) error {
	var found quoin.Problems
	if day.IsZero() {
		found = append(found, quoin.Problem{Code: quoin.MissingField, Severity: quoin.Fault, Path: "day", Found: "nothing", Wanted: "a date"})
	}
	if days < 1 || days > mostDays {
		found = append(found, quoin.Problem{
			Code: quoin.OutOfRange, Severity: quoin.Fault, Path: "days", Found: fmt.Sprint(days), Wanted: fmt.Sprintf("a value of at least 1 and at most %d", mostDays),
		})
	}
	return found.Err()
}

// series returns the unbroken reductions up to a day, the one on that day
// included where there is one.
func (t Timeline) series(on day) []Stretch {
	i, ok := t.at(on)
	if !ok || t.Held[i].Record != ReductionRecord {
		i-- // the one before, if it goes on until that day
		if i < 0 || t.Held[i].Record != ReductionRecord || dayOf(t.Held[i].Until) != on {
			return nil
		}
	}
	last := i
	for i > 0 && t.Held[i-1].Record == ReductionRecord && t.Held[i-1].Until == t.Held[i].From && t.Held[i-1].Price.Cmp(t.Held[i].Price) >= 0 {
		i--
	}
	return slices.Clone(t.Held[i : last+1])
}

// lowest looks at the days before a day.
func (t Timeline) lowest(end day, days int64) Lowest {
	window := span{end - day(days), end}
	out := Lowest{Product: t.Product, Channel: t.Channel, Window: window.days(), Asked: days}
	next := window.from
	i, _ := t.at(window.from)
	for _, s := range t.Held[i:] {
		part := s.span().within(window)
		if part.empty() {
			break
		}
		if next < part.from {
			out.Gaps = append(out.Gaps, span{next, part.from}.days())
		}
		next = part.until
		out.Covered += int64(part.until - part.from)
		cut := s
		cut.Days = part.days()
		out.Held = append(out.Held, cut)
		if low, given := out.Price.Get(); !given || s.Price.Cmp(low) < 0 {
			out.Price, out.By, out.BeganBefore = quoin.Some(s.Price), quoin.Some(cut), dayOf(s.From) < window.from
		}
	}
	if next < window.until {
		out.Gaps = append(out.Gaps, span{next, window.until}.days())
	}
	out.warn()
	return out
}

func (l *Lowest) warn() {
	if l.Covered == l.Asked {
		return
	}
	p := quoin.Problem{
		Code: NotAlwaysOnSale, Severity: quoin.Warning,
		Found:  fmt.Sprintf("%s had a price on %d of the %d days before %s", prose.Quoted(l.Product), l.Covered, l.Asked, l.Window.Until),
		Remedy: "see whether your place asks for the price of all of the days, or of those on sale",
		Args:   []quoin.Arg{{Name: "product", Value: l.Product}, {Name: "covered", Value: fmt.Sprint(l.Covered)}, {Name: "asked", Value: fmt.Sprint(l.Asked)}},
	}
	if l.Covered == 0 {
		p.Code = NeverOnSale
	}
	l.Warnings = quoin.Problems{p}
}
