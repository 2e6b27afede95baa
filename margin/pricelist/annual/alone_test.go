package annual_test

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/quoin/margin/history"
	"example.com/quoin/margin/pricelist/annual"
)

// With 23.00 in force, at which nothing was counted, all trials of the A4 print stand alone, and with one of a print that is
// no more; those of the A5 print do not. On the web 27.00 sold 4 and 5, 24.00 sold 7 and 5, to 320 visits each; at
// the fair 24.00 sold 27 and 31 to 260 and 250 visitors, 32.00 sold 7 and 9 to 240 and 270.
func TestTrialsThatStandAlone(t *testing.T) {
	y := year(t)
	text := strings.NewReplacer(`"price":"24.00","from":"2025-11-15"`, `"price":"23.00","from":"2025-11-15"`).Replace(string(file(t, "history.jsonl")))
	text += `{"record":"trial","id":"gone","product":"teal","channel":"fair","price":"12.00","from":"2026-05-09","until":"2026-05-10","exposure":"90","exposure_unit":"visitors","sold":3}` + "\n"
	y.History = must(history.New(must(history.ReadAll(bytes.NewReader([]byte(text))))(t)))(t)
	y.Market = slices.Clone(y.Market)
	y.Market[2].Sold, y.Market[3].Sold = 0, 0
	r := must(annual.Review(y))(t)
	standsUnder(t, r)
	var got []string
	for _, l := range r.Alone {
		got = append(got, fmt.Sprintf("%s %s %s: %d, %d of %s, %s", l.Product, l.Channel, l.Price, l.Trials, l.Sold, l.Exposure, l.Why))
	}
	slices.Sort(got)
	want := []string{
		"bittern-a4 fair 24.00: 2, 58 of 510, today_not_tried", "bittern-a4 fair 32.00: 2, 16 of 510, today_not_tried",
		"bittern-a4 own-shop 24.00: 2, 12 of 640, today_not_tried", "bittern-a4 own-shop 27.00: 2, 9 of 640, today_not_tried",
		"teal fair 12.00: 1, 3 of 90, not_sold",
	}
	if !slices.Equal(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// standsUnder checks that what is said of reductions stands under a review that has one, and that each record that
// is left out is noted, not the last alone.
func standsUnder(t *testing.T, r annual.Results) {
	t.Helper()
	if n := len(r.Cautions); n != 4 || r.Cautions[3] != history.LowestCaution {
		t.Errorf("%q", r.Cautions)
	}
	noted := 0
	for _, m := range r.Market {
		for _, l := range m.Summary.LeftOut {
			noted++
			if m.Noted[l.Record].Price.IsZero() {
				t.Errorf("%s: record %d is not noted", m.Product, l.Record)
			}
		}
		if len(m.Summary.LeftOut) > 1 && len(m.Noted) < 2 {
			t.Errorf("%s: %d are noted", m.Product, len(m.Noted))
		}
	}
	if noted < 2 {
		t.Errorf("%d records are left out", noted)
	}
}
