package quoin_test

import (
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.com/quoin"
)

// TestDateColumns: a date comes back as text, and out of a DATE column as the day that
// its own zone has, whatever the hour.
func TestDateColumns(t *testing.T) {
	east, west := time.FixedZone("east", 13*3600), time.FixedZone("west", -11*3600)
	for _, c := range []struct {
		in   any
		want string
	}{
		{"2026-03-01", "2026-03-01"},
		{[]byte("2024-02-29"), "2024-02-29"},
		{"", ""},
		{time.Date(2026, 3, 1, 0, 0, 0, 0, time.UTC), "2026-03-01"},
		{time.Date(2026, 3, 1, 0, 0, 0, 0, east), "2026-03-01"}, // still February in UTC
		{time.Date(2026, 2, 28, 23, 59, 59, 0, west), "2026-02-28"},
		{time.Date(2024, 12, 31, 0, 0, 0, 0, time.UTC), "2024-12-31"},
	} {
		d := quoin.MustDate("2000-01-01")
		if err := d.Scan(c.in); err != nil || d.String() != c.want {
			t.Errorf("%v is read as %v, %v, want %s", c.in, d, err, c.want)
		}
		if v, err := d.Value(); err != nil || v != c.want {
			t.Errorf("%v is stored as %v, %v", d, v, err)
		}
	}
	for in, sentence := range map[any]string{nil: "Optional", 20260301.0: "float64", int64(20260301): "int64", "1 March": "2026-03-01", "2026-02-30": "2026-03-01"} {
		d := quoin.MustDate("2000-01-01")
		if err := d.Scan(in); err == nil || !strings.Contains(err.Error(), sentence) || d.String() != "2000-01-01" {
			t.Errorf("%v is read as %v, %v", in, d, err)
		}
	}
	var d quoin.Date
	if err := d.Scan(time.Date(-1, 1, 1, 0, 0, 0, 0, time.UTC)); err == nil {
		t.Errorf("a year before the first is %v", d)
	}
	var none quoin.Optional[quoin.Date]
	if err := none.Scan(nil); err != nil || !none.IsZero() {
		t.Errorf("NULL is %v, %v", none, err)
	}
	if v, err := quoin.Some(quoin.MustDate("2026-03-01")).Value(); err != nil || v != "2026-03-01" {
		t.Errorf("an optional date is stored as %v, %v", v, err)
	}
}

// The calendar of the standard library says which day it is.
func TestDatesOfTimes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := time.Date(rapid.IntRange(1, 9999).Draw(t, "year"), 1, rapid.IntRange(1, 365).Draw(t, "day"), rapid.IntRange(0, 23).Draw(t, "hour"), 0, 0, 0, time.UTC)
		var d quoin.Date
		if err := d.Scan(at); err != nil || d.String() != at.Format(time.DateOnly) {
			t.Fatalf("%v is read as %v, %v", at, d, err)
		}
	})
}
