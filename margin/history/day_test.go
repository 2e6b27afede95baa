package history_test

import (
	"testing"
	"time"

	"example.com/quoin"

	"example.com/quoin/margin/history"
)

// Day numbers from Reingold and Dershowitz, Calendrical Calculations (from
// memory): fixed date 1 is 1 January of year 1, 12 November 1945 is 710,347;
// those of the Unix epoch, 719,163, and of Modified Julian Date 0, 17 November
// 1858, 678,576, are given there too. 2000-01-01 is Julian Date 2451544.5 at
// midnight, less 1721424.5.
func TestDayNumbers(t *testing.T) {
	for _, c := range []struct {
		date string
		day  int64
	}{
		{"0001-01-01", 1},
		{"1858-11-17", 678_576},
		{"1945-11-12", 710_347},
		{"1970-01-01", 719_163},
		{"2000-01-01", 730_120},
	} {
		d := quoin.MustDate(c.date)
		if got := history.DayOf(d); got != c.day {
			t.Errorf("%s is day %d, want %d", c.date, got, c.day)
		}
		if got := history.DateOf(c.day); got != d {
			t.Errorf("day %d is %s, want %s", c.day, got, c.date)
		}
	}
}

// The Gregorian rule: every fourth year is a leap year, but of the full
// hundreds only those that 400 divides; 400 years have 97 of them, and
// 146,097 days.
func TestLeapYears(t *testing.T) {
	between := func(a, b string) int64 { return history.DayOf(quoin.MustDate(b)) - history.DayOf(quoin.MustDate(a)) }
	for _, c := range []struct {
		from, to string
		days     int64
	}{
		{"1900-02-28", "1900-03-01", 1},
		{"2000-02-28", "2000-03-01", 2},
		{"2024-02-28", "2024-03-01", 2},
		{"2026-02-28", "2026-03-01", 1},
		{"2100-02-28", "2100-03-01", 1},
		{"1900-01-01", "1901-01-01", 365},
		{"2000-01-01", "2001-01-01", 366},
		{"0001-01-01", "0401-01-01", 146_097},
		{"1600-03-01", "2000-03-01", 146_097},
		{"2026-11-25", "2426-11-25", 146_097},
	} {
		if got := between(c.from, c.to); got != c.days {
			t.Errorf("from %s to %s: %d days, want %d", c.from, c.to, got, c.days)
		}
	}
}

// Go's package time has a Gregorian calendar of its own.
func TestDaysAgreeWithTime(t *testing.T) {
	on := time.Date(1, 1, 1, 0, 0, 0, 0, time.UTC)
	for n, step := int64(1), int64(1); n <= 3_652_059; n, on = n+step, on.AddDate(0, 0, int(step)) {
		if step = 17; n > 700_000 && n < 850_000 {
			step = 1
		}
		text := on.Format("2006-01-02")
		if got := history.DateOf(n).String(); got != text {
			t.Fatalf("day %d is %s, want %s", n, got, text)
		}
		if got := history.DayOf(quoin.MustDate(text)); got != n {
			t.Fatalf("%s is day %d, want %d", text, got, n)
		}
	}
}

func TestDaysBeyondTheCalendar(t *testing.T) {
	for n, want := range map[int64]string{-5: "0001-01-01", 0: "0001-01-01", 3_652_059: "9999-12-31", 3_652_060: "9999-12-31", 1 << 39: "9999-12-31", 1 << 40: ""} {
		if got := history.DateOf(n).String(); got != want {
			t.Errorf("day %d is %q, want %q", n, got, want)
		}
	}
}

func TestDays(t *testing.T) {
	march := history.Days{From: quoin.MustDate("2026-03-01"), Until: quoin.MustDate("2026-04-01")}
	open := history.Days{From: march.From}
	n, counted := march.Count()
	_, endless := open.Count()
	if n != 31 || !counted || endless {
		t.Errorf("March has %d days, %v; an open end %v", n, counted, endless)
	}
	for on, want := range map[string][2]bool{"2026-02-28": {}, "2026-03-01": {true, true}, "2026-03-31": {true, true}, "2026-04-01": {false, true}} {
		d := quoin.MustDate(on)
		if got := [2]bool{march.Holds(d), open.Holds(d)}; got != want {
			t.Errorf("%s: %v, want %v", on, got, want)
		}
	}
	if march.Holds(quoin.Date{}) {
		t.Error("March holds no day at all")
	}
	if a, b := march.String(), open.String(); a != "from 2026-03-01 until 2026-04-01" || b != "from 2026-03-01" {
		t.Errorf("written as %q and %q", a, b)
	}
}
