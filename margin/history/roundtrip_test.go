package history_test

import (
	"bytes"
	"encoding/json"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin/history"
)

var texts = rapid.StringMatching(`[a-zé☃<&"\\ ]{1,12}`)

func drawEntry(t *rapid.T) history.Entry {
	price := quoin.AmountOf(rapid.Int64Range(1, 1<<50).Draw(t, "price"), rapid.IntRange(4, 8).Draw(t, "places"))
	from := rapid.IntRange(-300_000, 300_000).Draw(t, "from")
	until := nth(from + rapid.IntRange(1, 1000).Draw(t, "length"))
	channel := ""
	if rapid.Bool().Draw(t, "somewhere") {
		channel = texts.Draw(t, "channel")
	}
	switch rapid.IntRange(0, 3).Draw(t, "kind") {
	case 0:
		if rapid.Bool().Draw(t, "open") {
			until = quoin.Date{}
		}
		return history.Price{Product: texts.Draw(t, "product"), Channel: channel, Price: price, From: nth(from), Until: until}
	case 1:
		return history.Reduction{Product: texts.Draw(t, "product"), Channel: channel, Price: price, From: nth(from), Until: until}
	case 2:
		s := history.Sale{Edition: texts.Draw(t, "edition"), Number: rapid.Int64Range(1, 100_000).Draw(t, "number"), Date: nth(from), Channel: channel}
		if rapid.Bool().Draw(t, "proof") {
			s.Number, s.Proof = 0, s.Number
		}
		if rapid.Bool().Draw(t, "priced") {
			s.Price = quoin.Some(quoin.AmountOf(rapid.Int64Range(0, 10_000).Draw(t, "paid"), 2))
		}
		return s
	}
	return history.Trial{
		ID: texts.Draw(t, "id"), Product: texts.Draw(t, "product"), Channel: texts.Draw(t, "channel"), Price: price, From: nth(from), Until: until,
		Exposure: quoin.FactorOf(rapid.Int64Range(1, 999_999).Draw(t, "exposure")), Sold: quoin.Some(rapid.Int64Range(0, 1_000_000_000).Draw(t, "sold")),
		ExposureUnit: rapid.SampledFrom([]history.ExposureUnit{history.Visits, history.Visitors, history.StandDays, history.DaysOnline}).Draw(t, "unit"), Occasion: channel,
	}
}

// Entries are compared by their JSON, which writes every field that is given.
func TestReadingUndoesAppending(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		entries := rapid.SliceOfN(rapid.Custom(drawEntry), 0, 8).Draw(t, "entries")
		var lines []byte
		for _, e := range entries {
			var err error
			if lines, err = history.Append(lines, e); err != nil {
				t.Fatal(err)
			}
		}
		back, err := history.ReadAll(bytes.NewReader(lines))
		if err != nil || len(back) != len(entries) {
			t.Fatalf("%d of %d read back, %v:\n%s", len(back), len(entries), err, lines)
		}
		var again []byte
		for i, r := range back {
			a, _ := json.Marshal(entries[i])
			b, _ := json.Marshal(r.Entry)
			if r.Line != i+1 || r.Entry.Kind() != entries[i].Kind() || !bytes.Equal(a, b) {
				t.Fatalf("line %d: %s, want %s", r.Line, b, a)
			}
			again, _ = history.Append(again, r.Entry)
		}
		if !bytes.Equal(lines, again) {
			t.Fatalf("%s\n%s", lines, again)
		}
	})
}

// Numbers sold and numbers free are all there are; months add up.
func TestNumbersAreParted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := rapid.Int64Range(1, 60).Draw(t, "size")
		var records []history.Record
		sold := make(map[int64]bool)
		for _, n := range rapid.SliceOfNDistinct(rapid.Int64Range(1, size), 1, int(size), rapid.ID).Draw(t, "numbers") {
			sold[n] = true
			records = append(records, history.Record{Line: len(records) + 1, Entry: history.Sale{Edition: "e", Number: n, Date: nth(rapid.IntRange(0, 900).Draw(t, "date"))}})
		}
		h, err := history.New(records)
		if err != nil {
			t.Fatal(err)
		}
		s, _ := h.Sold("e")
		left, err := s.Left(size, 0)
		if err != nil {
			t.Fatal(err)
		}
		free := make(map[int64]bool)
		for _, r := range left.FreeNumbers {
			for n := r.First; n <= r.Last; n++ {
				free[n] = true
			}
		}
		var months int64
		for _, m := range s.Months {
			months += m.Numbers
		}
		for n := int64(1); n <= size; n++ {
			if sold[n] == free[n] {
				t.Fatalf("%d is sold %v and free %v", n, sold[n], free[n])
			}
		}
		if left.Numbers != int64(len(free)) || months != int64(len(sold)) {
			t.Fatalf("%d left of %d, months %d", left.Numbers, size, months)
		}
	})
}

// Whatever is read comes back as it was, and what goes together answers.
func FuzzRead(f *testing.F) {
	f.Add([]byte(price("a", "9", "2026-01-01", "") + reduction("a/web", "8", "2026-01-05", "2026-01-09") + trial("t", "a/web", "2026-01-05", "2026-01-09") + sale("e", 7, "2026-01-02")))
	f.Add([]byte("{\"record\":\"sale\",\"edition\":\"\\u00e9\",\"proof\":\"7\",\"date\":\"9999-12-31\",\"price\":1e2}\n\n\x00"))
	f.Fuzz(func(t *testing.T, data []byte) {
		records, err := history.ReadAll(bytes.NewReader(data))
		if err != nil {
			if listed(err) == nil {
				t.Errorf("an error without problems: %v", err)
			}
			return
		}
		var lines []byte
		for _, r := range records {
			if lines, err = history.Append(lines, r.Entry); err != nil {
				t.Fatalf("line %d was read and is not written: %v", r.Line, err)
			}
		}
		back, err := history.ReadAll(bytes.NewReader(lines))
		if err != nil || len(back) != len(records) {
			t.Fatalf("%v, reading %s", err, lines)
		}
		h, err := history.New(records)
		if err != nil {
			return
		}
		h.Warnings()
		h.Trials()
		for _, p := range h.Products() {
			for _, c := range h.Channels(p) {
				line, _ := h.Timeline(p, c)
				line.Changes(quoin.Date{}, quoin.Date{})
				if _, err := line.LowestBeforeSeries(on("2026-01-07"), 30); err != nil {
					t.Error(err)
				}
			}
		}
		for _, e := range h.Editions() {
			if s, err := h.Sold(e); err == nil {
				s.Left(100, 10)
			}
		}
	})
}
