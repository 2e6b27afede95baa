package tables

import (
	"reflect"
	"strconv"
	"testing"
	"time"
)

// Dates are those of package time, for every number of five digits; others are no dates.
func TestDatesOfNumbers(t *testing.T) {
	day := time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC).AddDate(0, 0, 10000)
	for n := 10000; n <= 99999; n++ {
		if got, ok := dateOf(strconv.Itoa(n)); !ok || got != day.Format(time.DateOnly) {
			t.Fatalf("%d is %s, wanted %s", n, got, day.Format(time.DateOnly))
		}
		day = day.AddDate(0, 0, 1)
	}
	if got, ok := dateOf("46027.75"); !ok || got != "2026-01-05" {
		t.Errorf("found %s, %v", got, ok)
	}
	for _, text := range []string{"", "2026", "9999", "100000", "20260301", "012345", "-46027", "46027.x", "46027,5", "4602e", "2026-03-01", "٤٦٠٢٧"} {
		if got, ok := dateOf(text); ok {
			t.Errorf("%q is %s, wanted no date", text, got)
		}
	}
}

func TestValues(t *testing.T) {
	for _, c := range []struct {
		text string
		kind Kind
		want any
	}{
		{"0123", Text, "0123"},
		{"yes", Text, "yes"},
		{"a; b ;c", List, []string{"a", "b", "c"}},
		{"0.90", List, []string{"0.90"}},
		{"YES", YesNo, true},
		{"false", YesNo, false},
		{"1", YesNo, "1"},
		{"46027", Date, "2026-01-05"},
		{"46027", Number, "46027"},
		{"123456789012.12345678", Number, "123456789012.12345678"},
	} {
		if got := value(c.text, c.kind); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%q as %s: found %#v, wanted %#v", c.text, c.kind, got, c.want)
		}
	}
}

func TestCellsAreNamed(t *testing.T) {
	for column, want := range map[int]string{0: "Fees!A1", 25: "Fees!Z1", 26: "Fees!AA1", 51: "Fees!AZ1", 52: "Fees!BA1", 701: "Fees!ZZ1", 702: "Fees!AAA1", 16383: "Fees!XFD1"} {
		if got := cell("Fees", 0, column); got != want {
			t.Errorf("column %d: found %s, wanted %s", column, got, want)
		}
	}
}
