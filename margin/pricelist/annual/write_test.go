package annual_test

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/quoin"
	"example.com/quoin/internal/page"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/history"
	"example.com/quoin/margin/market"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/annual"
	"example.com/quoin/margin/pricelist/review"
	"example.com/quoin/margin/trial"
)

// Both ways of writing say the same: take the marks away, and the words are the same words, in
// the same order.
func TestTextAndMarkdownSayTheSame(t *testing.T) {
	r := found(t)
	marks := regexp.MustCompile(`(?m)^\s*(#+|-) |^\|[-:|]+\|$|\*\*|\||\\`)
	markdown := strings.Replace(annual.Markdown(r), "## Cautions\n", "", 1)
	want := strings.Fields(strings.ToLower(annual.Text(r, 79)))
	got := strings.Fields(strings.ToLower(marks.ReplaceAllString(markdown, "")))
	if len(want) < 500 {
		t.Errorf("%d words", len(want))
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("the Markdown says otherwise (-text +Markdown):\n%s", diff)
	}
}

// Lines are no longer than was asked for, down to what columns of figures take.
func TestWidths(t *testing.T) {
	r := found(t)
	for _, width := range []int{72, 79, 100, 200} {
		for line := range strings.Lines(annual.Text(r, width)) {
			if n := page.Width(strings.TrimSuffix(line, "\n")); n > width {
				t.Errorf("%d of %d: %s", n, width, line)
			}
		}
	}
}

// spoiled is results in which each text that comes from a document or a history is a name.
func spoiled(name string) annual.Results {
	one := quoin.Some(quoin.MustAmount("17.50"))
	missed := review.BrokenRule{Product: name, Price: name, Rule: name, Neighbour: name, NeighbourPrice: name}
	return annual.Results{
		Review: review.Review{
			Currency: quoin.MustCurrency("EUR"), Conflict: []string{name}, Broken: []review.BrokenRule{missed, {Product: name, Channel: name, Asked: name, Got: name}},
			Changes: []review.InputChange{{Input: name, Old: name, New: strings.Repeat(name, 20)}},
			Floors:  []review.Floor{{Product: name, Before: one, Shares: []review.Share{{Inputs: []string{name}}}, Channels: []review.ChannelFloor{{Channel: name}}}},
			Moves:   []review.Proposal{{Product: name, Still: []review.BrokenRule{missed}, Volumes: []review.Volume{{Channel: name}}}},
		},
		Trials: []annual.TriedPrice{{Product: name, Comparison: trial.Comparison{Groups: []trial.Group{{Channel: name}}, LeftOut: []trial.LeftOut{{ID: name}}}, LeftOut: []annual.LeftOutTrials{{Product: name, Channel: name, Occasion: name, Why: trial.OtherOccasion, Other: []string{name}}}}},
		Alone:  []annual.LeftOutTrials{{Product: name, Channel: name}},
		Names:  map[string]string{`products["p"]`: name, `channels["c"]`: name},
		Next:   []annual.Next{{Product: name, Channel: name}},
		Market: []annual.MarketStanding{{Product: name}, {
			Product: name, Position: quoin.Some(market.Position{}), Summary: market.Summary{Venues: []market.Venue{{Name: name}}, LeftOut: []market.LeftOut{{Record: 0}}},
			Noted: map[int]comparables.Record{0: {Venue: name, Seller: name}},
		}},
		Reduced:  []history.Lowest{{Product: name, Channel: name}},
		Editions: []history.EditionSales{{Edition: name}},
		Matter:   []review.InputEffect{{Input: name, Down: name, Value: name, Up: name, Products: []review.Swing{{Product: name}}}},
		Doubts:   quoin.Problems{{Found: name}},
		Cautions: pricelist.Cautions(),
	}
}

// A name does nothing to a terminal, and nothing to Markdown: no link, tag or column comes of it.
func TestHostileNames(t *testing.T) {
	for _, name := range []string{"[a](b)", "<b>", "|", "`x`", "*y*", "_z_", "\x1b[2J", "\u202egnp", "a\nb", "![i](j)", "&lt;", "# h"} {
		r := spoiled(name)
		text, markdown := annual.Text(r, 79), annual.Markdown(r)
		for _, out := range []string{text, markdown} {
			if strings.ContainsAny(out, "\x1b\u202e\r") {
				t.Errorf("%q is let through:\n%s", name, out)
			}
		}
		bare := regexp.MustCompile(`\\.`).ReplaceAllString(markdown, "")
		if strings.ContainsAny(bare, "[]<>`_!&") || strings.Contains(strings.ReplaceAll(bare, "**", ""), "*") {
			t.Errorf("%q means something:\n%s", name, bare)
		}
		columns := 0
		for line := range strings.Lines(bare) {
			switch n := strings.Count(line, "|"); {
			case n == 0:
				columns = 0
			case columns == 0:
				columns = n
			case n != columns:
				t.Errorf("%q makes %d bars of %d: %s", name, n, columns, line)
			}
		}
	}
}

// A noted price that does not count, or stands far from the others, is told by what it is: the fourth,
// of stall 17, was asked in August, and nothing sold at it. Where three sold it stands far above.
func TestNotedPricesAreNamed(t *testing.T) {
	y := year(t)
	for sold, want := range map[int64]string{
		0: "left out: 240.00 at harbour market, stall 17, 2026-08-01 (asked, and nothing sold at it)",
		3: "have a look at 240.00 at harbour market, stall 17, 2026-08-01: with your tax, and without postage and frame, it is 240.00, which is far above the middle",
	} {
		y.Market = slices.Clone(y.Market)
		y.Market[3].Sold, y.Market[3].Tax = sold, y.Tax
		r := must(annual.Review(y))(t)
		if text := strings.Join(strings.Fields(annual.Text(r, 79)), " "); !strings.Contains(text, want) {
			t.Errorf("%d sold: no %q", sold, want)
		}
		for i := range r.Market {
			r.Market[i].Noted = nil
		}
		if text := annual.Text(r, 79); !strings.Contains(text, "price 4 of the market") {
			t.Errorf("%d sold: without what was noted: no place", sold)
		}
	}
	y.Market[3].Sold, y.Market[3].Seller, y.Market[3].Date = 0, "", quoin.Date{}
	if text := annual.Text(must(annual.Review(y))(t), 79); !strings.Contains(text, "left out: 240.00 at harbour market (asked") {
		t.Error("without seller and date")
	}
}

// A long value does not run into the one beside it: was and is are said in words.
func TestLongValuesAreSaid(t *testing.T) {
	r := annual.Results{Review: review.Review{Changes: []review.InputChange{{Input: "products", New: `[{"id":"heron","name":"` + strings.Repeat("Heron ", 20) + `"}]`}}}}
	if text := strings.Join(strings.Fields(annual.Text(r, 60)), " "); !strings.Contains(text, `products: was -, is [{"id":"heron"`) {
		t.Error(text)
	}
}

// Without a history, records or exposure to come, what rests on them is left out, and last
// prices are those that the last document decides.
func TestDocumentsAlone(t *testing.T) {
	y := year(t)
	r := must(annual.Review(annual.Year{Last: y.Last, Now: y.Now, Terms: annual.Terms{Today: y.Today, Move: y.Move}}))(t)
	text := annual.Text(r, 79)
	for _, not := range []string{"TRIALS", "TRY NEXT", "STAND", "REDUCTION"} {
		if strings.Contains(text, not) {
			t.Errorf("it speaks of %s:\n%s", not, text)
		}
	}
	decided := must(pricelist.Decide(y.Last))(t)
	for i, m := range r.Review.Moves {
		if last, ok := m.Last.Get(); !ok || !last.Equal(decided.Products[i].Price) {
			t.Errorf("%s was %v, want %s", m.Product, m.Last, decided.Products[i].Price)
		}
	}
	if len(r.Review.Moves) != 3 || len(r.Cautions) != 3 {
		t.Errorf("%d moves, %d cautions", len(r.Review.Moves), len(r.Cautions))
	}
}

// Terms are checked alike where they are read and where Go code makes them.
func TestTerms(t *testing.T) {
	for _, c := range []struct {
		old, with string
		code      quoin.Code
		path      string
	}{
		{`"today": "2026-11-21",`, ``, quoin.MissingField, "today"},
		{`"move": "10%"`, `"move": "0%"`, quoin.OutOfRange, "move"},
		{`"move": "10%"`, `"move": "51%"`, quoin.OutOfRange, "move"},
		{`"tax": "20%"`, `"tax": "-1%"`, quoin.OutOfRange, "tax"},
		{`"9000"`, `"0"`, quoin.OutOfRange, "to_come[0].exposure"},
		{`"channel": "fair", `, ``, quoin.MissingField, "to_come[1].channel"},
	} {
		text := strings.Replace(string(file(t, "review.json")), c.old, c.with, 1)
		_, err := annual.DecodeTerms([]byte(text))
		if got := problem(err); got != fmt.Sprint(c.path, " ", c.code) {
			t.Errorf("%s: %v", c.with, err)
		}
	}
	y := year(t)
	for path, terms := range map[string]func(*annual.Terms){
		"today missing_field":              func(t *annual.Terms) { t.Today = quoin.Date{} },
		"move out_of_range":                func(t *annual.Terms) { t.Move = quoin.MustRate("60%") },
		"to_come[0].channel unknown_id":    func(t *annual.Terms) { t.ToCome[0].Channel = "own-shp" },
		"to_come[1].channel duplicate_id":  func(t *annual.Terms) { t.ToCome[1].Channel = "own-shop" },
		"to_come[1].exposure out_of_range": func(t *annual.Terms) { t.ToCome[1].Exposure = quoin.FactorOf(-1) },
	} {
		spoiled := y
		spoiled.ToCome = slices.Clone(y.ToCome)
		terms(&spoiled.Terms)
		if _, err := annual.Review(spoiled); problem(err) != path {
			t.Errorf("%v, want %s", err, path)
		}
	}
}

// Records of a market are checked as they are read, and each problem has its line.
func TestMarket(t *testing.T) {
	for _, c := range []struct{ old, with, want string }{
		{`"sold": 40`, `"sold": -1`, "2:117: [0].sold: found -1, wanted a value of at least 0"},
		{`"seller": "stall 11"`, `"sellr": "stall 11"`, "4:65: [2].sellr: found the field \"sellr\", wanted a field of version 1; did you mean seller?"},
		{`"framed": true, `, ``, "7:134: [5].frame_worth"},
		{`"price": "39.00", `, ``, "6:3: [4].price"},
		{`[`, `{`, "1:1: "},
	} {
		text := strings.Replace(string(file(t, "market.json")), c.old, c.with, 1)
		if _, err := annual.DecodeMarket([]byte(text)); err == nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%s: %v, want %s", c.with, err, c.want)
		}
	}
}

// problem is the path and code of the only problem of an error.
func problem(err error) string {
	var all quoin.Problems
	if !errors.As(err, &all) || len(all) != 1 {
		return fmt.Sprint(err)
	}
	return all[0].Path + " " + string(all[0].Code)
}
