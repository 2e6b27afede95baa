package history_test

import (
	"bytes"
	"fmt"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin/history"
)

// The laws look at 80 days around the end of February of a leap year, day by
// day, with dates from package time.
const lookedAt = 80

func nth(n int) quoin.Date {
	return on(time.Date(2024, 1, 15, 0, 0, 0, 0, time.UTC).AddDate(0, 0, n).Format("2006-01-02"))
}

// drawn is a price or a reduction, with its days by number; none for no end.
type drawn struct {
	reduction   bool
	channel     string
	price       int64
	from, until int
}

const none = -1

func (d drawn) entry() history.Entry {
	price := quoin.AmountOf(d.price, 2)
	if d.reduction {
		return history.Reduction{Product: "a", Channel: d.channel, Price: price, From: nth(d.from), Until: nth(d.until)}
	}
	p := history.Price{Product: "a", Channel: d.channel, Price: price, From: nth(d.from)}
	if d.until != none {
		p.Until = nth(d.until)
	}
	return p
}

func drawOne(t *rapid.T) drawn {
	d := drawn{
		reduction: rapid.Bool().Draw(t, "reduction"), channel: rapid.SampledFrom([]string{"", "web"}).Draw(t, "channel"),
		price: rapid.Int64Range(1, 6).Draw(t, "price"), from: rapid.IntRange(0, lookedAt-2).Draw(t, "from"), until: none,
	}
	if d.reduction || rapid.Bool().Draw(t, "ends") {
		d.until = rapid.IntRange(d.from+1, min(d.from+20, lookedAt)).Draw(t, "until")
	}
	return d
}

// clash says, by the words of format.md, that two records cannot both be true.
func clash(a, b drawn) bool {
	if a.reduction != b.reduction || a.channel != b.channel {
		return false
	}
	if a.from > b.from {
		a, b = b, a
	}
	return a.from == b.from || a.until != none && a.until > b.from
}

// drawSound draws records that go together.
func drawSound(t *rapid.T) []drawn {
	var out []drawn
	for _, d := range rapid.SliceOfN(rapid.Custom(drawOne), 0, 14).Draw(t, "records") {
		if !slices.ContainsFunc(out, func(o drawn) bool { return clash(o, d) }) {
			out = append(out, d)
		}
	}
	return out
}

func recordsOf(all []drawn) []history.Record {
	out := []history.Record{{Line: 1, Entry: history.Price{Product: "a", Channel: "elsewhere", Price: amount("1"), From: nth(0)}}}
	for i, d := range all {
		out = append(out, history.Record{Line: i + 2, Entry: d.entry()})
	}
	return out
}

func historyOf(t *rapid.T, all []drawn) history.History {
	h, err := history.New(recordsOf(all))
	if err != nil {
		t.Fatal(err)
	}
	return h
}

// asked is what one day says.
type asked struct {
	price     int64
	reduction bool
	found     bool
}

// holding returns the record of a kind and channel that speaks of a day.
func holding(all []drawn, reduction bool, channel string, day int) (drawn, bool) {
	var found drawn
	ok := false
	for _, d := range all {
		if d.reduction == reduction && d.channel == channel && d.from <= day && (!ok || d.from > found.from) {
			found, ok = d, true
		}
	}
	// The last to begin holds, if it has not ended: no other reaches past it.
	return found, ok && (found.until == none || day < found.until)
}

func bruteForce(all []drawn, channel string, day int) asked {
	for _, reduction := range []bool{true, false} {
		for _, c := range []string{channel, ""} {
			if d, ok := holding(all, reduction, c, day); ok {
				return asked{d.price, reduction, true}
			}
		}
	}
	return asked{}
}

func days(all []drawn, channel string) []asked {
	out := make([]asked, lookedAt+5)
	for i := range out {
		out[i] = bruteForce(all, channel, i)
	}
	return out
}

func TestPriceOnADay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := drawSound(t)
		h := historyOf(t, all)
		for _, channel := range []string{"", "web"} {
			line, err := h.Timeline("a", channel)
			if err != nil {
				t.Fatal(err)
			}
			for i, want := range days(all, channel) {
				s, found := line.On(nth(i))
				got := asked{found: found}
				if found {
					cents, _ := s.Price.Units(2)
					got.price, got.reduction = cents, s.Record == history.ReductionRecord
				}
				if got != want {
					t.Fatalf("%s in %q: %+v, want %+v", nth(i), channel, got, want)
				}
			}
		}
	})
}

// Held and gaps lie side by side, from the first day with a price on; changes
// are the days whose price is not that of the day before.
func TestDaysAreParted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := drawSound(t)
		line, _ := historyOf(t, all).Timeline("a", "web")
		by := days(all, "web")
		var changed, gaps []string
		for i, d := range by {
			before := asked{}
			if i > 0 {
				before = by[i-1]
			}
			if d.found != before.found || d.price != before.price {
				changed = append(changed, nth(i).String())
			}
			if !d.found && slices.ContainsFunc(by[:i], func(d asked) bool { return d.found }) && slices.ContainsFunc(by[i:], func(d asked) bool { return d.found }) {
				gaps = append(gaps, nth(i).String())
			}
		}
		var got []string
		for _, c := range line.Changes(nth(0), nth(len(by))) {
			got = append(got, c.On.String())
		}
		if !slices.Equal(got, changed) {
			t.Fatalf("changes on %q, want %q", got, changed)
		}
		got = nil
		for i := range by {
			for _, g := range line.Gaps {
				if g.Holds(nth(i)) {
					got = append(got, nth(i).String())
				}
			}
		}
		if !slices.Equal(got, gaps) {
			t.Fatalf("gaps on %q, want %q", got, gaps)
		}
		for i, s := range line.Held[:max(len(line.Held)-1, 0)] {
			if s.Until.IsZero() || s.Until.Cmp(line.Held[i+1].From) > 0 || s.From.Cmp(s.Until) >= 0 {
				t.Fatalf("%s, then %s", s.Days, line.Held[i+1].Days)
			}
		}
	})
}

// lowestOf goes from day to day.
func lowestOf(by []asked, day, days int) (lowest asked, covered int64) {
	for i := day - days; i < day; i++ {
		if i < 0 || !by[i].found {
			continue
		}
		covered++
		if !lowest.found || by[i].price < lowest.price {
			lowest = by[i]
		}
	}
	return lowest, covered
}

// first goes back from day to day through reductions that ask no less the
// earlier they are.
func first(by []asked, day int) int {
	running := by[day]
	if !running.reduction {
		running = asked{}
	}
	for day > 0 && by[day-1].reduction && (!running.found || by[day-1].price >= running.price) {
		day--
		running = by[day]
	}
	return day
}

func TestLowestDayByDay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := drawSound(t)
		h := historyOf(t, all)
		day, window := rapid.IntRange(0, lookedAt).Draw(t, "day"), rapid.IntRange(1, 40).Draw(t, "days")
		for _, channel := range []string{"", "web"} {
			by := days(all, channel)
			line, err := h.Timeline("a", channel)
			if err != nil {
				t.Fatal(err)
			}
			plain, err := line.LowestBefore(nth(day), int64(window))
			if err != nil {
				t.Fatal(err)
			}
			compare(t, plain, by, day, window)
			series, err := line.LowestBeforeSeries(nth(day), int64(window))
			if err != nil {
				t.Fatal(err)
			}
			compare(t, series, by, first(by, day), window)
		}
	})
}

// Of no channel, the lowest price is that of the channel with the lowest, of those
// without a reduction of their own on the day.
func TestLowestOfAllChannels(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := drawSound(t)
		h := historyOf(t, all)
		day, window := rapid.IntRange(0, lookedAt).Draw(t, "day"), rapid.IntRange(1, 40).Draw(t, "days")
		got, err := h.LowestBefore("a", "", nth(day), int64(window))
		if err != nil {
			t.Fatal(err)
		}
		web := 0
		for _, l := range got.Channels {
			if l.Channel != "elsewhere" {
				compare(t, l, days(all, l.Channel), day, window)
			}
			if l.Channel == "web" {
				web++
			}
			price, given := l.Price.Get()
			if least, has := got.Price.Get(); given && (!has || price.Cmp(least) < 0) || l.Channel == got.Channel && !l.Price.Equal(got.Price) {
				t.Fatalf("%s, and in %q %s", said(got), l.Channel, said(l))
			}
		}
		own, reduced := holding(all, true, "web", day)
		reduced = reduced && (own.until == none || own.until > day)
		named := slices.ContainsFunc(all, func(d drawn) bool { return d.channel == "web" })
		if (web == 1) != (named && !reduced) {
			t.Fatalf("the web is looked at %d times; it has records %t, a reduction of its own %t", web, named, reduced)
		}
	})
}

func compare(t *rapid.T, got history.Lowest, by []asked, day, window int) {
	want, covered := lowestOf(by, day, window)
	price, given := got.Price.Get()
	by1, _ := got.By.Get()
	if given != want.found || given && !price.Equal(quoin.AmountOf(want.price, 2)) || got.Covered != covered || got.Window.Until != nth(day) || given && !by1.Price.Equal(price) {
		t.Fatalf("%s, want %+v, %d days covered, until %s", said(got), want, covered, nth(day))
	}
	var held, gaps int64
	for _, s := range got.Held {
		n, _ := s.Count()
		held += n
	}
	for _, g := range got.Gaps {
		n, _ := g.Count()
		gaps += n
	}
	if held != covered || held+gaps != int64(window) || (len(got.Warnings) == 0) != (gaps == 0) {
		t.Fatalf("%s: %d days held and %d gaps", said(got), held, gaps)
	}
}

// split makes two neighbours of one record.
func split(t *rapid.T, all []drawn) []drawn {
	if len(all) == 0 {
		return all
	}
	i := rapid.IntRange(0, len(all)-1).Draw(t, "which")
	d := all[i]
	end := lookedAt
	for _, o := range all { // an open price ends where the next begins
		if d.until == none && o.reduction == d.reduction && o.channel == d.channel && o.from > d.from {
			end = min(end, o.from)
		}
	}
	if d.until != none {
		end = d.until
	}
	if end-d.from < 2 {
		return all
	}
	at := rapid.IntRange(d.from+1, end-1).Draw(t, "at")
	left, right := d, d
	left.until, right.from = at, at
	if d.until == none && rapid.Bool().Draw(t, "left open") {
		left.until = none
	}
	return append(slices.Replace(slices.Clone(all), i, i+1, left), right)
}

func TestSplittingChangesNoAnswer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := drawSound(t)
		parts := split(t, all)
		day, window := nth(rapid.IntRange(0, lookedAt).Draw(t, "day")), rapid.Int64Range(1, 40).Draw(t, "days")
		for _, channel := range []string{"", "web"} {
			if a, b := answers(t, historyOf(t, all), channel, day, window), answers(t, historyOf(t, parts), channel, day, window); a != b {
				t.Fatalf("%+v split into %+v:\n%s\n%s", all, parts, a, b)
			}
		}
	})
}

// answers writes what does not speak of records: prices, days, warnings.
func answers(t *rapid.T, h history.History, channel string, day quoin.Date, window int64) string {
	line, err := h.Timeline("a", channel)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	for i := range lookedAt {
		s, _ := line.On(nth(i))
		fmt.Fprintf(&b, "%s ", s.Price)
	}
	for _, c := range line.Changes(quoin.Date{}, quoin.Date{}) {
		fmt.Fprintf(&b, "%s %s %s; ", c.On, c.Before, c.After)
	}
	plain, _ := line.LowestBefore(day, window)
	series, _ := line.LowestBeforeSeries(day, window)
	for _, l := range []history.Lowest{plain, series} {
		fmt.Fprintf(&b, "%s %s %d %v; ", l.Window, l.Price, l.Covered, l.Gaps)
	}
	fmt.Fprint(&b, line.Gaps)
	return b.String()
}

// The order of lines changes which lines are named, and nothing else.
func TestOrderOfLines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := rapid.SliceOfN(rapid.Custom(drawOne), 0, 8).Draw(t, "records")
		if rapid.Bool().Draw(t, "sound") {
			all = drawSound(t)
		}
		other := rapid.Permutation(all).Draw(t, "order")
		h, err := history.New(recordsOf(all))
		g, otherErr := history.New(recordsOf(other))
		clashes := 0
		for i, a := range all {
			if slices.ContainsFunc(all[:i], func(b drawn) bool { return clash(a, b) }) {
				clashes++
			}
		}
		if (err != nil) != (clashes > 0) || len(listed(err)) != len(listed(otherErr)) {
			t.Fatalf("%d clash: %v\nin another order: %v", clashes, err, otherErr)
		}
		if err != nil {
			return
		}
		for _, channel := range []string{"", "web"} {
			if a, b := answers(t, h, channel, nth(40), 30), answers(t, g, channel, nth(40), 30); a != b {
				t.Fatalf("%s\n%s", a, b)
			}
		}
		if a, b := h.Warnings(), g.Warnings(); len(a) != len(b) {
			t.Fatalf("%v\n%v", a, b)
		}
	})
}
