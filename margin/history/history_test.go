package history_test

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/internal/problemtest"
	"example.com/quoin/margin/history"
)

// read puts lines together that have to go together.
func read(t testing.TB, text string) history.History {
	t.Helper()
	records, err := history.ReadAll(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	h, err := history.New(records)
	if err != nil {
		t.Fatal(err)
	}
	return h
}

// marsh is the example of format.md.
func marsh(t testing.TB) history.History {
	t.Helper()
	data, err := os.ReadFile("testdata/history.jsonl")
	if err != nil {
		t.Fatal(err)
	}
	return read(t, string(data))
}

// price, reduction and trial write a line in short: product/channel, price,
// from and until, where there is one.
func price(at, price, from, until string) string { return line("price", at, price, from, until) }

func reduction(at, price, from, until string) string {
	return line("reduction", at, price, from, until)
}

func trial(id, at, from, until string) string {
	return strings.Replace(line("trial", at, "9", from, until), "}", fmt.Sprintf(`,"id":%q,"exposure":1,"exposure_unit":"stand_days","sold":0}`, id), 1)
}

func line(kind, at, price, from, until string) string {
	product, channel, _ := strings.Cut(at, "/")
	s := fmt.Sprintf(`{"record":%q,"product":%q,"price":%q,"from":%q`, kind, product, price, from)
	if channel != "" {
		s += fmt.Sprintf(`,"channel":%q`, channel)
	}
	if until != "" {
		s += fmt.Sprintf(`,"until":%q`, until)
	}
	return s + "}\n"
}

func sale(edition string, number int, date string) string {
	return fmt.Sprintf(`{"record":"sale","edition":%q,"number":%d,"date":%q}`+"\n", edition, number, date)
}

// The problem stands at the later line and names the earlier one with its days.
func TestWhatCannotBothBeTrue(t *testing.T) {
	for _, c := range []struct {
		what, text string
		want       []string // what each problem begins with, or holds after …
	}{
		{"one after the other", price("a", "9", "2026-01-01", "") + price("a", "8", "2026-02-01", ""), nil},
		{"out of order", price("a", "9", "2026-02-01", "") + price("a", "8", "2026-01-01", ""), nil},
		{"neighbours", price("a", "9", "2026-01-01", "2026-02-01") + price("a", "8", "2026-02-01", ""), nil},
		{"a gap", price("a", "9", "2026-01-01", "2026-01-20") + price("a", "8", "2026-02-01", ""), nil},
		{"two channels", price("a/web", "9", "2026-01-01", "") + price("a/fair", "8", "2026-01-01", ""), nil},
		{"two products", price("a", "9", "2026-01-01", "") + price("b", "8", "2026-01-01", ""), nil},
		{"a channel and all", price("a/web", "9", "2026-01-01", "") + price("a", "8", "2026-01-01", ""), nil},
		{"a reduction of a price", price("a", "9", "2026-01-01", "") + reduction("a", "8", "2026-01-05", "2026-01-06"), nil},

		{
			"two on one day", price("a", "9", "2026-01-01", "") + price("a", "8", "2026-01-01", ""),
			[]string{"2 lines[1].from overlap: from 2026-01-01 … line 1, from 2026-01-01"},
		},
		{
			"three on one day", price("a", "9", "2026-01-01", "") + price("a", "8", "2026-01-01", "") + price("a", "7", "2026-01-01", "2026-01-09"),
			[]string{"2 lines[1].from overlap: from 2026-01-01 … line 1, from 2026-01-01", "3 lines[2].from overlap: from 2026-01-01 until 2026-01-09 … line 2, from 2026-01-01"},
		},
		{
			"a day too long", price("a", "9", "2026-01-01", "2026-02-02") + price("a", "8", "2026-02-01", ""),
			[]string{"2 lines[1].from overlap: from 2026-02-01 … line 1, from 2026-01-01 until 2026-02-02"},
		},
		{
			"the same, out of order", price("a", "8", "2026-02-01", "") + price("a", "9", "2026-01-01", "2026-02-02"),
			[]string{"2 lines[1].from overlap: from 2026-01-01 until 2026-02-02 … line 1, from 2026-02-01"},
		},
		{
			"one over two", price("a", "9", "2026-01-01", "2026-12-01") + price("a", "8", "2026-02-01", "2026-03-01") + price("a", "7", "2026-04-01", ""),
			[]string{"2 lines[1].from overlap: from 2026-02-01 until 2026-03-01 … line 1, from 2026-01-01 until 2026-12-01", "3 lines[2].from overlap: from 2026-04-01 … line 1, from 2026-01-01 until 2026-12-01"},
		},
		{
			"two reductions", reduction("a/web", "8", "2026-01-01", "2026-01-11") + reduction("a/web", "7", "2026-01-10", "2026-01-12"),
			[]string{"2 lines[1].from overlap: from 2026-01-10 until 2026-01-12 … line 1, from 2026-01-01 until 2026-01-11"},
		},
		{
			"two trials", trial("s", "a/web", "2026-01-01", "2026-01-11") + trial("t", "a/web", "2026-01-10", "2026-01-12"),
			[]string{"2 lines[1].from overlap: from 2026-01-10 until 2026-01-12 … line 1, from 2026-01-01 until 2026-01-11"},
		},
		{"neighbouring trials", trial("s", "a/web", "2026-01-01", "2026-01-10") + trial("t", "a/web", "2026-01-10", "2026-01-12"), nil},
		{"trials in two channels", trial("s", "a/web", "2026-01-01", "2026-01-11") + trial("t", "a/fair", "2026-01-10", "2026-01-12"), nil},
		{
			"an id twice", trial("s", "a/web", "2026-01-01", "2026-01-11") + trial("s", "b/web", "2026-02-10", "2026-02-12"),
			[]string{"2 lines[1].id duplicate_id: from 2026-02-10 until 2026-02-12 … line 1, from 2026-01-01 until 2026-01-11"},
		},
		{
			"a number twice", sale("e", 7, "2026-01-05") + sale("f", 7, "2026-01-05") + sale("e", 7, "2026-01-02"),
			[]string{"3 lines[2].number number_twice: 2026-01-02 … line 1, on 2026-01-05"},
		},
	} {
		records, err := history.ReadAll(strings.NewReader(c.text))
		if err != nil {
			t.Fatal(c.what, err)
		}
		_, err = history.New(records)
		problems, _ := err.(quoin.Problems)
		if len(problems) != len(c.want) {
			t.Errorf("%s: %v, want %d problems", c.what, err, len(c.want))
			continue
		}
		for i, p := range problems {
			head, rest, _ := strings.Cut(c.want[i], ": ")
			here, other, _ := strings.Cut(rest, " … ")
			if got := fmt.Sprintf("%d %s %s", p.Line, p.Path, p.Code); got != head || !strings.Contains(p.Found, here) || !strings.Contains(p.Found, other) {
				t.Errorf("%s: %s, want %s", c.what, p, c.want[i])
			}
		}
	}
}

// Records that were not read from lines are named by where they stand.
func TestRecordsWithoutLines(t *testing.T) {
	p := history.Price{Product: "a", Price: amount("9"), From: on("2026-01-01")}
	_, err := history.New([]history.Record{{Entry: p}, {Entry: p}, {Entry: history.Sale{Edition: "e", Number: 1, Date: on("2026-01-01")}}, {Entry: history.Sale{Edition: "e", Number: 1, Date: on("2026-01-03")}}})
	want := []string{"0:0 overlap records[1].from", "0:0 number_twice records[3].number"}
	if got := listed(err); !slices.Equal(got, want) || !strings.Contains(err.Error(), "records[0]") || !strings.Contains(err.Error(), "records[2]") {
		t.Errorf("%v, want %q", err, want)
	}
}

// held writes what was in force as "from–until price line", | for a gap.
func held(t history.Timeline) string {
	var parts []string
	for i, s := range t.Held {
		if i > 0 && t.Held[i-1].Until != s.From {
			parts = append(parts, "|")
		}
		parts = append(parts, fmt.Sprintf("%s–%s %s of %d", s.From, s.Until, s.Price, s.Line))
	}
	return strings.Join(parts, " ")
}

// What goes before what is worked out by hand from the four rules of format.md.
func TestTimeline(t *testing.T) {
	text := price("a", "80", "2026-01-01", "") + // line 1
		price("a/web", "90", "2026-01-11", "2026-01-21") + // line 2
		reduction("a", "70", "2026-01-16", "2026-01-19") + // line 3
		reduction("a/web", "60", "2026-01-18", "2026-01-23") + // line 4
		price("a", "81", "2026-02-01", "2026-02-05") + // line 5
		price("a", "82", "2026-02-07", "2026-02-09") + // line 6
		price("b/web", "5", "2026-01-01", "") // line 7
	h := read(t, text)
	for _, c := range []struct{ product, channel, want, gaps string }{
		{"a", "", "2026-01-01–2026-01-16 80 of 1 2026-01-16–2026-01-19 70 of 3 2026-01-19–2026-02-01 80 of 1 2026-02-01–2026-02-05 81 of 5 | 2026-02-07–2026-02-09 82 of 6", "[from 2026-02-05 until 2026-02-07]"},
		{"a", "web", "2026-01-01–2026-01-11 80 of 1 2026-01-11–2026-01-16 90 of 2 2026-01-16–2026-01-18 70 of 3 2026-01-18–2026-01-23 60 of 4 " +
			"2026-01-23–2026-02-01 80 of 1 2026-02-01–2026-02-05 81 of 5 | 2026-02-07–2026-02-09 82 of 6", "[from 2026-02-05 until 2026-02-07]"},
		{"a", "fair", "2026-01-01–2026-01-16 80 of 1 2026-01-16–2026-01-19 70 of 3 2026-01-19–2026-02-01 80 of 1 2026-02-01–2026-02-05 81 of 5 | 2026-02-07–2026-02-09 82 of 6", "[from 2026-02-05 until 2026-02-07]"},
		{"b", "web", "2026-01-01– 5 of 7", "[]"},
		{"b", "", "", "[]"},
	} {
		got, err := h.Timeline(c.product, c.channel)
		if err != nil || held(got) != c.want || fmt.Sprint(got.Gaps) != c.gaps {
			t.Errorf("%s in %q: %v\n%s, gaps %s\nwant\n%s, gaps %s", c.product, c.channel, err, held(got), got.Gaps, c.want, c.gaps)
		}
	}
	web, _ := h.Timeline("a", "web")
	for day, want := range map[string]string{"2025-12-31": "none", "2026-01-01": "80", "2026-01-17": "70", "2026-01-18": "60", "2026-01-22": "60", "2026-01-23": "80", "2026-02-04": "81", "2026-02-05": "none", "2026-02-09": "none"} {
		s, ok := web.On(on(day))
		got := "none"
		if ok {
			got = s.Price.String()
		}
		if got != want {
			t.Errorf("on %s: %s, want %s", day, got, want)
		}
	}
	if got := h.Channels("a"); !slices.Equal(got, []string{"", "web"}) {
		t.Errorf("channels are %q", got)
	}
	if got := h.Products(); !slices.Equal(got, []string{"a", "b"}) {
		t.Errorf("products are %q", got)
	}
}

func TestChanges(t *testing.T) {
	h := read(t, price("a", "80", "2026-01-01", "")+price("a", "80", "2026-01-05", "")+price("a", "81", "2026-02-01", "2026-02-05")+price("a", "82", "2026-02-07", "2026-02-09"))
	a, _ := h.Timeline("a", "")
	for _, c := range []struct {
		from, until string
		want        []string
	}{
		{"2026-01-01", "2026-12-31", []string{"2026-01-01 none→80 1", "2026-02-01 80→81 3", "2026-02-05 81→none 3", "2026-02-07 none→82 4", "2026-02-09 82→none 4"}},
		{"2026-01-02", "2026-02-01", nil},
		{"2026-02-01", "2026-02-05", []string{"2026-02-01 80→81 3"}},
		{"2026-02-09", "", []string{"2026-02-09 82→none 4"}},
		{"2026-02-09", "2026-02-09", nil},
	} {
		days := history.Days{From: on(c.from)}
		if c.until != "" {
			days.Until = on(c.until)
		}
		var got []string
		for _, x := range a.Changes(days.From, days.Until) {
			got = append(got, fmt.Sprintf("%s %s→%s %d", x.On, x.Before, x.After, x.Line))
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", days, got, c.want)
		}
	}
}

func TestWarnings(t *testing.T) {
	for _, c := range []struct {
		what, text string
		want       []string
	}{
		{"none", price("a", "9", "2026-01-01", "") + reduction("a", "8", "2026-01-05", "2026-01-09"), nil},
		{"a reduction of nothing", reduction("a", "8", "2026-01-05", "2026-01-09"), nil}, // of all channels, and none is known
		{"a reduction in a channel of nothing", reduction("a/web", "8", "2026-01-05", "2026-01-09"), []string{"1:1 reduction_without_price lines[0].price"}},
		{"a price that ends in it", price("a", "9", "2026-01-01", "2026-01-08") + reduction("a", "8", "2026-01-05", "2026-01-09"), []string{"2:1 reduction_without_price lines[1].price"}},
		{"a reduction to the price", price("a", "9", "2026-01-01", "") + reduction("a/web", "9.00", "2026-01-05", "2026-01-09"), []string{"2:1 reduction_not_below_price lines[1].price"}},
		{"a price that falls below it", price("a", "9", "2026-01-01", "") + reduction("a/web", "8", "2026-01-05", "2026-01-09") + price("a/web", "7", "2026-01-08", ""), []string{"2:1 reduction_not_below_price lines[1].price"}},
		// A reduction without a channel is one in every channel, but in those with one of their own.
		{"a price below it in a channel", price("a", "9", "2026-01-01", "") + price("a/web", "7", "2026-01-01", "") + reduction("a", "8", "2026-01-05", "2026-01-09"), []string{"3:1 reduction_not_below_price lines[2].price"}},
		{"where another reduction holds", price("a", "9", "2026-01-01", "") + price("a/web", "7", "2026-01-01", "") + reduction("a", "8", "2026-01-05", "2026-01-09") + reduction("a/web", "6", "2026-01-05", "2026-01-09"), nil},
		{"a day longer than that", price("a", "9", "2026-01-01", "") + price("a/web", "7", "2026-01-01", "") + reduction("a", "8", "2026-01-05", "2026-01-10") + reduction("a/web", "6", "2026-01-05", "2026-01-09"), []string{"3:1 reduction_not_below_price lines[2].price"}},
		{"prices in channels alone", price("a/web", "7", "2026-01-01", "") + price("a/fair", "8", "2026-01-01", "") + reduction("a", "8", "2026-01-05", "2026-01-09"), []string{"3:1 reduction_not_below_price lines[2].price", "3:1 reduction_not_below_price lines[2].price"}},
		{"a price below it, told once", price("a", "7", "2026-01-01", "") + price("a/web", "9", "2026-01-01", "2026-01-08") + reduction("a", "6.99", "2026-01-03", "2026-01-04") + reduction("a", "8", "2026-01-05", "2026-01-09"), []string{"4:1 reduction_not_below_price lines[3].price"}},
		{"a channel now and then", price("a/web", "9", "2026-01-01", "") + price("a/fair", "9", "2026-01-06", "2026-01-07") + reduction("a", "8", "2026-01-05", "2026-01-09"), nil},
		{"a day without a price anywhere", price("a/web", "9", "2026-01-01", "2026-01-07") + reduction("a", "8", "2026-01-05", "2026-01-09"), []string{"2:1 reduction_without_price lines[1].price"}},
		{"a trial", price("a", "9", "2026-01-01", "") + trial("t", "a/web", "2026-01-05", "2026-01-09"), nil},
		{"a trial by reduction", price("a", "12", "2026-01-01", "") + reduction("a/web", "9", "2026-01-05", "2026-01-09") + trial("t", "a/web", "2026-01-05", "2026-01-09"), nil},
		{"a trial a day longer", price("a", "12", "2026-01-01", "") + reduction("a/web", "9", "2026-01-05", "2026-01-09") + trial("t", "a/web", "2026-01-05", "2026-01-10"), []string{"3:1 trial_at_another_price lines[2].price"}},
		{"a trial without prices", trial("t", "a/web", "2026-01-05", "2026-01-10"), nil},
		{"a trial before the price", price("a", "9", "2026-01-06", "") + trial("t", "a/web", "2026-01-05", "2026-01-10"), []string{"2:1 trial_at_another_price lines[1].price"}},
	} {
		got := read(t, c.text).Warnings()
		var codes []string
		for _, w := range got {
			codes = append(codes, listed(quoin.Problems{w})...)
		}
		if !slices.Equal(codes, c.want) || got.Err() != nil {
			t.Errorf("%s: %q, want %q", c.what, codes, c.want)
		}
	}
	if got := marsh(t).Warnings(); len(got) > 0 {
		t.Errorf("the example has warnings: %v", got)
	}
}

func TestSold(t *testing.T) {
	h := read(t, sale("e", 7, "2026-04-12")+sale("e", 2, "2026-01-29")+sale("e", 1, "2026-01-17")+
		`{"record":"sale","edition":"e","proof":1,"date":"2026-04-30"}`)
	s, err := h.Sold("e")
	if err != nil {
		t.Fatal(err)
	}
	var months []string
	for _, m := range s.Months {
		months = append(months, fmt.Sprintf("%s %d %d", m.Month, m.Numbers, m.Proofs))
	}
	if got, want := strings.Join(months, "; "), "2026-01 2 0; 2026-02 0 0; 2026-03 0 0; 2026-04 1 1"; got != want {
		t.Errorf("months %s, want %s", got, want)
	}
	var lines []int
	for _, n := range append(slices.Clone(s.Numbers), s.Proofs...) {
		lines = append(lines, n.Line)
	}
	if !slices.Equal(lines, []int{3, 2, 1, 4}) {
		t.Errorf("by number, lines %d", lines)
	}
	for _, c := range []struct {
		size, proofs int64
		want         string
		problems     []string
	}{
		{10, 3, "unsold: numbers 7, free numbers [3–6 8–10], proofs 2, free proofs [2–3]", nil},
		{7, 1, "unsold: numbers 4, free numbers [3–6], proofs 0", nil},
		{6, 0, "no unsold", []string{"1:1 no_such_number lines[0].number", "4:1 no_such_proof lines[3].proof"}},
		{0, -1, "no unsold", []string{"0:0 out_of_range size", "0:0 out_of_range proofs"}},
		{100_001, 1, "no unsold", []string{"0:0 out_of_range size"}},
	} {
		left, err := s.Left(c.size, c.proofs)
		if got := fmt.Sprint(left); got != c.want || !slices.Equal(listed(err), c.problems) {
			t.Errorf("of %d and %d: %s, %q, want %s, %q", c.size, c.proofs, got, listed(err), c.want, c.problems)
		}
	}
}

func TestNotInHistory(t *testing.T) {
	h := marsh(t)
	_, noProduct := h.Timeline("bittern-a4", "web")
	_, noLowest := h.LowestBefore("heron-a55", "web", on("2026-04-01"), 30)
	_, noSeries := h.LowestBeforeSeries("heron-a55", "web", on("2026-04-01"), 30)
	_, noEdition := h.Sold("bitern")
	for near, errs := range map[string][]error{"bittern-a3": {noProduct}, "heron-a5": {noLowest, noSeries}, "bittern": {noEdition}} {
		for _, err := range errs {
			if p := problemtest.Only(err); p.Code != history.NotInHistory || p.Near != near {
				t.Errorf("%v, want near %s", err, near)
			}
		}
	}
}

func TestTrials(t *testing.T) {
	h := marsh(t)
	var got []string
	for _, g := range h.Trials() {
		for _, x := range g.Trials {
			got = append(got, fmt.Sprint(g.Product, " ", g.Channel, " ", x.Entry.ID, " ", x.Line))
		}
	}
	want := []string{"bittern-a3 winter-fair bittern-fair 8", "heron-a5 web heron-15 6", "heron-a5 web heron-17 7"}
	if !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	if got := h.TrialsOf("heron-a5", "web"); len(got) != 2 || got[1].Entry.Sold.Or(0) != 12 {
		t.Errorf("%v", got)
	}
	if got := h.TrialsOf("heron-a5", "fair"); got != nil {
		t.Errorf("%v", got)
	}
}

// The zero History has nothing in it.
func TestZeroHistory(t *testing.T) {
	var h history.History
	_, err := h.Timeline("a", "")
	if err == nil || h.Trials() != nil || len(h.Editions()) > 0 || len(h.Warnings()) > 0 || len(h.Products()) > 0 {
		t.Errorf("%v", err)
	}
	if e, err := history.New(nil); err != nil || len(e.Products()) > 0 {
		t.Errorf("a history of no records: %v", err)
	}
}
