package history_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/internal/problemtest"
	"example.com/quoin/margin/history"
)

// What records that cannot both be true are said to be, with the figures of the sentences.
func TestFaultsTold(t *testing.T) {
	sold := func(number, proof int64, day string) history.Record {
		return history.Record{Entry: history.Sale{Edition: "e", Number: number, Proof: proof, Date: on(day)}}
	}
	at := func(line int, r history.Record) history.Record { r.Line = line; return r }
	for _, c := range []struct {
		what string
		text string
		want string
	}{
		{"overlaps", price("a/web", "9", "2026-01-01", "2026-02-02") + price("a/web", "8", "2026-02-01", ""), `fault 2:1: lines[1].from: found a price of "a" from 2026-02-01 that overlaps with that of line 1, from 2026-01-01 until 2026-02-02, wanted one price on a day in a channel; end one before the other begins [overlap] {product a, channel web, line 2, from 2026-02-01, other_line 1, other_from 2026-01-01, other_until 2026-02-02}`},
		{"without a channel", price("a", "9", "2026-01-01", "") + price("a", "8", "2026-01-01", ""), `fault 2:1: lines[1].from: found a price of "a" from 2026-01-01 that overlaps with that of line 1, from 2026-01-01, wanted one price on a day in a channel; end one before the other begins [overlap] {product a, line 2, from 2026-01-01, other_line 1, other_from 2026-01-01}`},
		{"an id thrice", trial("s", "a/web", "2026-01-01", "2026-01-11") + trial("s", "b/web", "2026-02-10", "2026-02-12") + trial("s", "c/web", "2026-03-10", "2026-03-12"), `fault 2:1: lines[1].id: found "s", from 2026-02-10 until 2026-02-12, and that of line 1, from 2026-01-01 until 2026-01-11, wanted an id of its own for each trial [duplicate_id] {line 2, from 2026-02-10, until 2026-02-12, other_line 1, other_from 2026-01-01, other_until 2026-01-11}
fault 3:1: lines[2].id: found "s", from 2026-03-10 until 2026-03-12, and that of line 1, from 2026-01-01 until 2026-01-11, wanted an id of its own for each trial [duplicate_id] {line 3, from 2026-03-10, until 2026-03-12, other_line 1, other_from 2026-01-01, other_until 2026-01-11}`},
		{"a number twice", sale("e", 7, "2026-01-05") + sale("e", 7, "2026-01-02"), `fault 2:1: lines[1].number: found number 7 of "e", sold on 2026-01-02 and, in line 1, on 2026-01-05, wanted each number once [number_twice] {edition e, number 7, line 2, date 2026-01-02, other_line 1, other_date 2026-01-05}`},
		{"a period of no days", price("a", "9", "2026-01-05", "2026-01-05"), `fault 1:73: lines[0].until: found 2026-01-05, wanted a day after 2026-01-05; until is the first day on which it no longer holds [empty_period]`},
	} {
		records, err := history.ReadAll(strings.NewReader(c.text))
		if err == nil {
			_, err = history.New(records)
		}
		if got := problemtest.Told(err); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", c.what, got, c.want)
		}
	}
	// By their places, where they were not read; a proof is not the number that it has.
	_, err := history.New([]history.Record{sold(1, 0, "2026-01-05"), sold(0, 1, "2026-01-05"), sold(0, 1, "2026-01-02")})
	if got := problemtest.Told(err); got != `fault records[2].proof: found proof 1 of "e", sold on 2026-01-02 and, in records[1], on 2026-01-05, wanted each number once [number_twice] {edition e, proof 1, line 0, date 2026-01-02, other_line 0, other_date 2026-01-05}` {
		t.Errorf("by places:\n%s", got)
	}
	// The line counts before the place.
	_, err = history.New([]history.Record{at(9, sold(1, 0, "2026-01-05")), at(2, sold(1, 0, "2026-01-02"))})
	if got := problemtest.Told(err); got != `fault 9:1: lines[8].number: found number 1 of "e", sold on 2026-01-05 and, in line 2, on 2026-01-02, wanted each number once [number_twice] {edition e, number 1, line 9, date 2026-01-05, other_line 2, other_date 2026-01-02}` {
		t.Errorf("by lines:\n%s", got)
	}
}

// Warnings with all that they say.
func TestWarningsTold(t *testing.T) {
	for _, c := range []struct{ what, text, want string }{
		{"nothing reduced", price("a/web", "9", "2026-01-01", "2026-01-07") + reduction("a/web", "8", "2026-01-05", "2026-01-09"), `warning 2:1: lines[1].price: a reduction of "a", from 2026-01-05 until 2026-01-09, and no price on 2026-01-07; write down the price that was reduced [reduction_without_price] {product a, price 8, on 2026-01-07}`},
		{"nothing reduced anywhere", price("a/web", "9", "2026-01-01", "2026-01-07") + reduction("a", "8", "2026-01-05", "2026-01-09"), `warning 2:1: lines[1].price: a reduction of "a", from 2026-01-05 until 2026-01-09, and no price on 2026-01-07; write down the price that was reduced [reduction_without_price] {product a, price 8, on 2026-01-07}`},
		{"not below, in the channel itself", price("a/web", "9", "2026-01-01", "") + reduction("a/web", "9", "2026-01-05", "2026-01-09"), `warning 2:1: lines[1].price: a reduction of "a", from 2026-01-05 until 2026-01-09, to 9, and the price on 2026-01-05 was 9; see which of both is meant [reduction_not_below_price] {product a, price 9, on 2026-01-05, full_price 9, price_line 1}`},
		{"not below, in a channel it does not name", price("a/web", "7", "2026-01-01", "") + reduction("a", "8", "2026-01-05", "2026-01-09"), `warning 2:1: lines[1].price: a reduction of "a", from 2026-01-05 until 2026-01-09, to 8, and the price on 2026-01-05 in "web" was 7; see which of both is meant [reduction_not_below_price] {product a, price 8, on 2026-01-05, channel web, full_price 7, price_line 1}`},
		{"a trial at another price", price("a", "12", "2026-01-01", "") + trial("t", "a/web", "2026-01-05", "2026-01-10"), `warning 2:1: lines[1].price: trial "t" at 9, and on 2026-01-05 the records have 12 in "web"; write down the price of the trial from its first day, and the one after it [trial_at_another_price] {trial t, price 9, on 2026-01-05, in_force 12, price_line 1}`},
		{"a trial on a day without one", price("a", "9", "2026-01-06", "") + trial("t", "a/web", "2026-01-05", "2026-01-10"), `warning 2:1: lines[1].price: trial "t" at 9, and on 2026-01-05 the records have no price in "web"; write down the price of the trial from its first day, and the one after it [trial_at_another_price] {trial t, price 9, on 2026-01-05}`},
	} {
		var got error
		if w := read(t, c.text).Warnings(); len(w) > 0 {
			got = w
		}
		if text := problemtest.Told(got); text != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", c.what, text, c.want)
		}
	}
	h, err := history.New([]history.Record{{Entry: history.Reduction{Product: "a", Channel: "web", Price: amount("8"), From: on("2026-01-05"), Until: on("2026-01-09")}}})
	if err != nil {
		t.Fatal(err)
	}
	if got := problemtest.Told(h.Warnings()); got != `warning a reduction of "a", from 2026-01-05 until 2026-01-09, and no price on 2026-01-05; write down the price that was reduced [reduction_without_price] {product a, price 8, on 2026-01-05}` {
		t.Errorf("not read from a line:\n%s", got)
	}
	var many strings.Builder
	for i := range 1001 {
		many.WriteString(reduction(fmt.Sprintf("p%04d/web", i), "8", "2026-01-05", "2026-01-09"))
	}
	all := read(t, many.String()).Warnings()
	if got := problemtest.Told(all[len(all)-1:]); len(all) != 1001 || got != `warning more than 1000 problems, wanted records without any; mend these first [more_problems]` {
		t.Errorf("%d warnings, the last\n%s", len(all), got)
	}
}

// What questions are refused with, and what stands beside an answer.
func TestAnswersTold(t *testing.T) {
	h := read(t, price("a", "9", "2026-01-11", "2026-01-21")+sale("e", 3, "2026-01-05")+`{"record":"sale","edition":"e","proof":2,"date":"2026-01-30"}`)
	s, err := h.Sold("e")
	if err != nil {
		t.Fatal(err)
	}
	left := func(size, proofs int64) error { _, err := s.Left(size, proofs); return err }
	lowest := func(day string, days int64) error {
		d := quoin.Date{}
		if day != "" {
			d = on(day)
		}
		l, err := h.LowestBefore("a", "", d, days)
		if err == nil && len(l.Warnings) > 0 {
			err = l.Warnings
		}
		return err
	}
	_, product := h.Timeline("b", "")
	_, edition := h.Sold("f")
	for _, c := range []struct {
		what string
		err  error
		want string
	}{
		{"an unknown product", product, `fault found "b", wanted a product with a price [not_in_history]`},
		{"an unknown edition", edition, `fault found "f", wanted an edition of which something was sold [not_in_history]`},
		{"of too few", left(2, 1), `fault 2:1: lines[1].number: found number 3 of "e", sold on 2026-01-05, wanted a number of at most 2 [no_such_number]
fault 3:1: lines[2].proof: found proof 2 of "e", sold on 2026-01-30, wanted a proof of at most 1 [no_such_proof]`},
		{"of enough", left(3, 2), ""},
		{"of none", left(0, -1), `fault size: found 0, wanted a number from 1 to 100000 [out_of_range]
fault proofs: found -1, wanted a number from 0 to 100000 [out_of_range]`},
		{"of too many", left(100_001, 100_001), `fault size: found 100001, wanted a number from 1 to 100000 [out_of_range]
fault proofs: found 100001, wanted a number from 0 to 100000 [out_of_range]`},
		{"of the most", left(100_000, 100_000), ""},
		{"a window of all days", lowest("2026-01-21", 10), ""},
		{"of some", lowest("2026-01-21", 12), `warning "a" had a price on 10 of the 12 days before 2026-01-21; see whether your place asks for the price of all of the days, or of those on sale [not_always_on_sale] {product a, covered 10, asked 12}`},
		{"of none of them", lowest("2026-01-11", 3), `warning "a" had a price on 0 of the 3 days before 2026-01-11; see whether your place asks for the price of all of the days, or of those on sale [never_on_sale] {product a, covered 0, asked 3}`},
		{"no day, and none of them", lowest("", 0), `fault day: found nothing, wanted a date [missing_field]
fault days: found 0, wanted a value of at least 1 and at most 36525 [out_of_range]`},
		{"too many days", lowest("2026-01-21", 36_526), `fault days: found 36526, wanted a value of at least 1 and at most 36525 [out_of_range]`},
	} {
		if got := problemtest.Told(c.err); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", c.what, got, c.want)
		}
	}
	// Proofs by their number, whatever the day.
	two := read(t, `{"record":"sale","edition":"e","proof":2,"date":"2026-01-03"}`+"\n"+`{"record":"sale","edition":"e","proof":1,"date":"2026-01-30"}`+"\n"+sale("e", 5, "2026-01-01")+sale("e", 4, "2026-02-01"))
	sales, err := two.Sold("e")
	if err != nil || sales.Proofs[0].Entry.Proof != 1 || sales.Proofs[1].Entry.Proof != 2 || sales.Numbers[0].Entry.Number != 4 {
		t.Errorf("%v, %v", sales, err)
	}
}

// Numbers that an edition does not have, by the place of the sale where it was not read.
func TestNumbersThatThereAreNotTold(t *testing.T) {
	sold := func(line int, number, proof int64) history.Record {
		return history.Record{Line: line, Entry: history.Sale{Edition: "e", Number: number, Proof: proof, Date: on("2026-01-05")}}
	}
	for _, c := range []struct {
		what    string
		records []history.Record
		want    string
	}{
		{"read", []history.Record{sold(1, 4, 0), sold(2, 3, 0), sold(3, 0, 2)}, `fault 1:1: lines[0].number: found number 4 of "e", sold on 2026-01-05, wanted a number of at most 3 [no_such_number]
fault 3:1: lines[2].proof: found proof 2 of "e", sold on 2026-01-05, wanted a proof of at most 1 [no_such_proof]`},
		{"not read", []history.Record{sold(0, 4, 0)}, `fault number: found number 4 of "e", sold on 2026-01-05, wanted a number of at most 3 [no_such_number]`},
	} {
		h, err := history.New(c.records)
		if err != nil {
			t.Fatal(err)
		}
		sales, err := h.Sold("e")
		if err != nil {
			t.Fatal(err)
		}
		_, err = sales.Left(3, 1)
		if got := problemtest.Told(err); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", c.what, got, c.want)
		}
	}
}
