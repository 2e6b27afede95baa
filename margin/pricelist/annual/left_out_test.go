package annual_test

import (
	"bytes"
	"strings"
	"testing"

	"example.com/quoin/margin/history"
	"example.com/quoin/margin/pricelist/annual"
	"example.com/quoin/margin/pricelist/review"
)

// Each row changes the history of the example, and says what the review then says of trials that
// cannot be compared. At the fair 24.00 was tried on 9 May, 27 sold to 260 visitors, and on 20
// September, 31 to 250: 58 to 510. On the web 7 and 5 were sold of 320 visits each: 12 of 640.
func TestTrialsLeftOut(t *testing.T) {
	for name, c := range map[string]struct {
		change []string
		want   string
	}{
		"another channel": {nil, `left out: 2 trials at 24.00 in Weekend fair (58 sold, 510 visitors): they count once 27.00 is tried there too`},
		"the same fair under two names": {
			[]string{`"exposure":"260","exposure_unit":"visitors","sold":27,"occasion":"fair"`, `"exposure":"260","exposure_unit":"visitors","sold":27,"occasion":"spring fair"`},
			`left out: 1 trial at 24.00 in Weekend fair on the occasion "spring fair" (27 sold, 260 visitors): 32.00 was tried there only on "fair"; ` +
				`if that is the same kind of occasion, write one name for it in "occasion" of all these trials`,
		},
		"an occasion and none": {
			[]string{`"sold":7,"occasion":"fair"`, `"sold":7`, `"sold":9,"occasion":"fair"`, `"sold":9`},
			`left out: 2 trials at 24.00 in Weekend fair on the occasion "fair" (58 sold, 510 visitors): 32.00 was tried there without an occasion; `,
		},
		"counted otherwise": {
			[]string{`"exposure":"260","exposure_unit":"visitors"`, `"exposure":"1","exposure_unit":"stand_days"`},
			`left out: 1 trial at 24.00 in Weekend fair (27 sold, 1 stand day): 32.00 was counted there in visitors; count both prices in the same`,
		},
		"today's price never tried": {
			[]string{`"price":"24.00","from":"2025-11-15"`, `"price":"23.00","from":"2025-11-15"`},
			`Bittern in the reeds, A4, 2 trials at 32.00 in Weekend fair (16 sold, 510 visitors): not compared; ` +
				`today's price of 23.00 was never tried; note the sales at it in the same channel, to compare them`,
		},
		"no price for today": {
			[]string{`{"record":"price","product":"bittern-a4","price":"24.00","from":"2025-11-15"}`, ``},
			`not compared; the history has no price for today; note the price in force, to compare them`,
		},
		"not sold there any more": {
			[]string{`"id":"web-27-a","product":"bittern-a4","channel":"own-shop"`, `"id":"web-27-a","product":"bittern-a4","channel":"pop-up"`},
			`Bittern in the reeds, A4, 1 trial at 27.00 in pop-up (4 sold, 320 visits): not compared; the new document does not sell it there`,
		},
	} {
		t.Run(name, func(t *testing.T) {
			y := year(t)
			text := string(file(t, "history.jsonl"))
			for i := 0; i+1 < len(c.change); i += 2 {
				if !strings.Contains(text, c.change[i]) {
					t.Fatalf("no %s", c.change[i])
				}
				text = strings.Replace(text, c.change[i], c.change[i+1], 1)
			}
			y.History = must(history.New(must(history.ReadAll(bytes.NewReader([]byte(text))))(t)))(t)
			r := must(annual.Review(y))(t)
			if got := strings.Join(strings.Fields(annual.Text(r, 400)), " "); !strings.Contains(got, c.want) {
				t.Errorf("it does not say %s:\n%s", c.want, annual.Text(r, 79))
			}
		})
	}
}

// People read names: no id of a product or a channel is printed. The ids are in the results.
func TestNamesAreCalled(t *testing.T) {
	text := annual.Text(found(t), 79)
	for _, id := range []string{"bittern-a", "own-shop", "marketplace", "spring-fair", "web-2", "supply paper"} {
		if strings.Contains(text, id) {
			t.Errorf("it speaks of %s:\n%s", id, text)
		}
	}
}

// Something stands under each title, whatever the year has and has not.
func TestNoEmptySection(t *testing.T) {
	y := year(t)
	full := must(annual.Review(y))(t)
	for name, take := range map[string]func(*annual.Results){
		"everything":       func(*annual.Results) {},
		"editions alone":   func(r *annual.Results) { r.Reduced = nil },
		"reductions alone": func(r *annual.Results) { r.Editions = nil },
		"no trials":        func(r *annual.Results) { r.Trials, r.Next = nil, nil },
		"nothing to do": func(r *annual.Results) {
			r.Review = review.Review{Currency: r.Review.Currency, Conflict: []string{"a"}}
		},
		"unchanged": func(r *annual.Results) { r.Review.Changes, r.Review.Floors, r.Review.Broken = nil, nil, nil },
	} {
		r := full
		take(&r)
		title := ""
		for line := range strings.Lines(annual.Markdown(r)) {
			switch line = strings.TrimSpace(line); {
			case strings.HasPrefix(line, "## "):
				if title != "" {
					t.Errorf("%s: nothing under %q", name, title)
				}
				title = line
			case line != "":
				title = ""
			}
		}
		if editions := strings.Contains(annual.Text(r, 79), "WHAT WAS SOLD OF EDITIONS"); editions != (len(r.Editions) > 0) {
			t.Errorf("%s: speaks of editions: %t", name, editions)
		}
	}
}
