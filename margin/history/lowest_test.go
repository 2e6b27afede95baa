package history_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/internal/problemtest"
	"example.com/quoin/margin/history"
)

// said writes an answer as "window price of line, began before; covered/asked".
func said(l history.Lowest) string {
	s := fmt.Sprintf("%s %s", l.Window, l.Price)
	if by, given := l.By.Get(); given {
		s += fmt.Sprintf(" of %d", by.Line)
	}
	if l.BeganBefore {
		s += " from before"
	}
	s += fmt.Sprintf(", %d/%d", l.Covered, l.Asked)
	for _, g := range l.Gaps {
		s += fmt.Sprintf(", not %s", g)
	}
	for _, r := range l.Series {
		s += fmt.Sprintf(", before the series of %d", r.Line)
	}
	for _, w := range l.Warnings {
		s += " " + string(w.Code)
	}
	return s
}

// Windows are counted on a calendar: 30 days before 1 March 2026 begin on 30
// January; before 1 March 2024, a leap year, on 31 January.
func TestLowestBefore(t *testing.T) {
	rising := price("a", "8", "2026-01-01", "") + price("a", "9", "2026-01-30", "") + price("a", "10", "2026-02-10", "")
	reduced := price("a", "10", "2025-01-01", "") + reduction("a", "7", "2026-02-01", "2026-02-08") + reduction("a", "6", "2026-03-01", "2026-03-15")
	steps := price("a", "10", "2025-01-01", "") + reduction("a", "9", "2026-03-01", "2026-03-08") + reduction("a", "8", "2026-03-08", "2026-03-15") + reduction("a", "7", "2026-03-15", "2026-03-22")
	upAgain := price("a", "10", "2025-01-01", "") + reduction("a", "7", "2026-03-01", "2026-03-08") + reduction("a", "9", "2026-03-08", "2026-03-15") + reduction("a", "8", "2026-03-15", "2026-03-22")
	young := price("a", "8", "2026-02-20", "2026-02-25") + price("a", "9", "2026-02-27", "")
	for _, c := range []struct {
		what, text, day string
		days            int64
		series          bool
		want            string
	}{
		{"the price that ended on the first day does not count", rising, "2026-03-01", 30, false, "from 2026-01-30 until 2026-03-01 9 of 2, 30/30"},
		{"a day more, and it does, though it began long before", rising, "2026-03-01", 31, false, "from 2026-01-29 until 2026-03-01 8 of 1 from before, 31/31"},
		{"a leap year", price("a", "8", "2024-01-01", "") + price("a", "9", "2024-01-31", ""), "2024-03-01", 30, false, "from 2024-01-31 until 2024-03-01 9 of 2, 30/30"},
		{"the day itself does not count", price("a", "9", "2026-01-01", "") + price("a", "1", "2026-03-01", ""), "2026-03-01", 30, false, "from 2026-01-30 until 2026-03-01 9 of 1 from before, 30/30"},
		{"one day", price("a", "9", "2026-01-01", "") + price("a", "1", "2026-02-28", ""), "2026-03-01", 1, false, "from 2026-02-28 until 2026-03-01 1 of 2, 1/1"},
		{"an earlier reduction counts", reduced, "2026-03-01", 30, false, "from 2026-01-30 until 2026-03-01 7 of 2, 30/30"},
		{"and is no series, since days lie between", reduced, "2026-03-01", 30, true, "from 2026-01-30 until 2026-03-01 7 of 2, 30/30, before the series of 3"},
		{"step by step", steps, "2026-03-15", 30, false, "from 2026-02-13 until 2026-03-15 8 of 3, 30/30"},
		{"step by step, from the first", steps, "2026-03-15", 30, true, "from 2026-01-30 until 2026-03-01 10 of 1 from before, 30/30, before the series of 2, before the series of 3, before the series of 4"},
		{"in the middle of a step", steps, "2026-03-10", 30, true, "from 2026-01-30 until 2026-03-01 10 of 1 from before, 30/30, before the series of 2, before the series of 3"},
		{"a step that is planned", steps, "2026-03-22", 30, true, "from 2026-01-30 until 2026-03-01 10 of 1 from before, 30/30, before the series of 2, before the series of 3, before the series of 4"},
		{"a day after the series", steps, "2026-03-23", 30, true, "from 2026-02-21 until 2026-03-23 7 of 4, 30/30"},
		{"a series ends where the price went up again", upAgain, "2026-03-15", 30, true, "from 2026-02-06 until 2026-03-08 7 of 2, 30/30, before the series of 3, before the series of 4"},
		{"on sale since lately", young, "2026-03-01", 30, false, "from 2026-01-30 until 2026-03-01 8 of 1, 7/30, not from 2026-01-30 until 2026-02-20, not from 2026-02-25 until 2026-02-27 not_always_on_sale"},
		{"before it was on sale", young, "2026-02-20", 30, false, "from 2026-01-21 until 2026-02-20 none, 0/30, not from 2026-01-21 until 2026-02-20 never_on_sale"},
		{"long after", price("a", "9", "2026-01-01", "2026-01-05"), "2027-01-01", 30, false, "from 2026-12-02 until 2027-01-01 none, 0/30, not from 2026-12-02 until 2027-01-01 never_on_sale"},
		{"the first of equals", price("a", "9", "2026-01-01", "") + price("a", "9.00", "2026-02-15", ""), "2026-03-01", 30, false, "from 2026-01-30 until 2026-03-01 9 of 1 from before, 30/30"},
		{"before the calendar", price("a", "9", "0001-01-01", ""), "0001-01-03", 30, false, "from 0001-01-01 until 0001-01-03 9 of 1, 2/30, not from 0001-01-01 until 0001-01-01 not_always_on_sale"},
	} {
		h := read(t, c.text)
		ask := h.LowestBefore
		if c.series {
			ask = h.LowestBeforeSeries
		}
		got, err := ask("a", "", on(c.day), c.days)
		if err != nil || said(got) != c.want {
			t.Errorf("%s: %v\n%s, want\n%s", c.what, err, said(got), c.want)
		}
	}
}

// A reduction without a channel is announced everywhere. In the 30 days before 1 March the
// print cost 30 wherever nothing else was said, 24 on the web until 10 February, and 28 on
// a day at the fair. So the lowest is 24, of the web; where the web has a reduction of its
// own on that day, what is announced everywhere else is held against 28.
func TestLowestBeforeInAnyChannel(t *testing.T) {
	prices := price("a", "30", "2025-01-01", "") + price("a/web", "24", "2026-01-10", "2026-02-10") + price("a/fair", "28", "2026-02-20", "2026-02-21")
	for _, c := range []struct{ what, text, channel, price, found string }{
		{"everywhere", prices + reduction("a", "20", "2026-03-01", "2026-03-15"), "web", "24", " 30 fair 28 web 24"},
		{"the web by itself", prices + reduction("a", "20", "2026-03-01", "2026-03-15") + reduction("a/web", "19", "2026-03-01", "2026-03-15"), "fair", "28", " 30 fair 28"},
		{"prices in channels alone", price("a/web", "24", "2026-01-10", "") + price("a/fair", "22", "2025-01-10", "2025-01-11"), "web", "24", " none fair none web 24"},
		{"one price for all", price("a", "30", "2025-01-01", ""), "", "30", ""},
	} {
		for _, ask := range []func(history.History) (history.Lowest, error){
			func(h history.History) (history.Lowest, error) { return h.LowestBefore("a", "", on("2026-03-01"), 30) },
			func(h history.History) (history.Lowest, error) {
				return h.LowestBeforeSeries("a", "", on("2026-03-01"), 30)
			},
		} {
			l, err := ask(read(t, c.text))
			found := ""
			for _, one := range l.Channels {
				found += one.Channel + " " + one.Price.String() + " "
			}
			if err != nil || l.Channel != c.channel || l.Price.String() != c.price || strings.TrimRight(found, " ") != c.found {
				t.Errorf("%s: %s in %q of %q, %v", c.what, l.Price, l.Channel, found, err)
			}
		}
	}
}

func TestWindowsThatCannotBeMeant(t *testing.T) {
	a, _ := marsh(t).Timeline("bittern-a3", "web")
	for _, days := range []int64{-1, 0, 36_526, -1 << 63, 1<<63 - 1} {
		for _, ask := range []func() (history.Lowest, error){
			func() (history.Lowest, error) { return a.LowestBefore(on("2026-03-01"), days) },
			func() (history.Lowest, error) { return a.LowestBeforeSeries(on("2026-03-01"), days) },
		} {
			_, err := ask()
			if p := problemtest.Only(err); p.Code != quoin.OutOfRange || p.Path != "days" {
				t.Errorf("%d days: %v", days, err)
			}
		}
	}
	_, err := a.LowestBefore(history.Days{}.From, 30)
	if p := problemtest.Only(err); p.Code != quoin.MissingField || p.Path != "day" {
		t.Errorf("no day: %v", err)
	}
}
