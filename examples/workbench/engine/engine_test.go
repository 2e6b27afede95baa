package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist/sheet"
)

func opened(t *testing.T, name string) *desk {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	d, err := open(text)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	if err := d.compile(); err != nil {
		t.Fatal(err)
	}
	return d
}

const scenario = "../../pricesheet/scenario.json"

func documents(t *testing.T) []string {
	t.Helper()
	shops, err := filepath.Glob("../../shops/*.json")
	if err != nil || len(shops) == 0 {
		t.Fatal("no shops found", err)
	}
	return append([]string{scenario, "../../first/shop.json"}, shops...)
}

// The list shows what the answer holds.
func TestListShowsTheAnswer(t *testing.T) {
	for _, name := range documents(t) {
		d := opened(t, name)
		l, err := d.list()
		if err != nil {
			t.Fatal(err)
		}
		if len(l.Products) != len(d.answer.Products) || len(l.Warnings) != len(d.answer.Warnings) || !slices.Equal(l.Cautions, d.answer.Cautions) {
			t.Errorf("%s: %d products, %d warnings, %d cautions", name, len(l.Products), len(l.Warnings), len(l.Cautions))
		}
		for i, w := range l.Warnings {
			if w.Place != d.answer.Places[i] || w.Path != d.answer.Warnings[i].Path || !strings.HasPrefix(w.Text, d.answer.Warnings[i].Found) {
				t.Errorf("%s: warning %d is %+v", name, i, w)
			}
		}
		for i, p := range d.answer.Products {
			shown, g := l.Products[i], d.items[i].Grid
			if shown.ID != p.ID || shown.Price != p.Price.String() || !g.Price(shown.At).Equal(p.Price) {
				t.Errorf("%s: %s shown at %s, place %d; decided %s", name, shown.ID, shown.Price, shown.At, p.Price)
			}
			if shown.From > shown.At || shown.At > shown.To {
				t.Errorf("%s: %s lies at %d, the slider goes from %d to %d", name, p.ID, shown.At, shown.From, shown.To)
			}
		}
	}
}

// At the decided price the rows are those of a printed sheet, figure by figure.
func TestRowsAreThoseOfTheSheet(t *testing.T) {
	for _, name := range documents(t) {
		d := opened(t, name)
		for i, p := range d.answer.Products {
			one, _ := d.alone(p.ID)
			printed := sheet.Markdown(one)
			for _, r := range d.rows(i, p.Price) {
				want := 0
				for _, cell := range r.Cells {
					if cell != "–" && strings.Contains(printed, strings.ReplaceAll(cell, "−", "-")) || cell == "–" || cell == "0.00" {
						want++
					}
				}
				if want != len(r.Cells) {
					t.Errorf("%s: %s: %s %q: %d of these are on the sheet\n%s", name, p.ID, r.Label, r.Cells, want, printed)
				}
			}
		}
	}
}

// Whatever the price, what is left after a section is what was left before it and its lines.
func TestColumnsAddUp(t *testing.T) {
	for _, name := range documents(t) {
		d := opened(t, name)
		for i := range d.items {
			g := d.items[i].Grid
			for _, place := range []int64{1, 2, 7, g.Len() / 3, g.Len() / 2, g.Len()} {
				rows := d.rows(i, g.Price(max(place, 1)))
				for n := range d.items[i].Offers {
					var sum quoin.Amount
					for _, r := range rows {
						if r.Total {
							if got := minus(sum.WithPlaces(d.doc.Currency.Digits())); got != r.Cells[n] {
								t.Errorf("%s: %s at %s: %s is %s, its lines come to %s", name, d.items[i].ID, g.Price(place), r.Label, r.Cells[n], got)
							}
							continue
						}
						sum = sum.Add(adds(r, n))
					}
				}
			}
		}
	}
}

// adds is what a line adds to what is left, as its label and cell read.
func adds(r row, n int) quoin.Amount {
	if r.Cells[n] == "–" {
		return quoin.Amount{}
	}
	a := quoin.MustAmount(strings.Replace(r.Cells[n], "−", "-", 1))
	if strings.HasPrefix(r.Label, "−") {
		return a.Neg()
	}
	return a
}

// No rule is broken at an allowed price, and one is at every other price near it: the verdicts
// and the allowed prices say the same.
func TestVerdictsAgreeWithAllowedPrices(t *testing.T) {
	for _, name := range documents(t) {
		d := opened(t, name)
		for i, p := range d.answer.Products {
			g := d.items[i].Grid
			at := g.Floor(p.Price)
			for place := max(1, at-300); place <= min(g.Len(), at+300); place++ {
				price := g.Price(place)
				var against []string
				compared := false // sizes are compared with the prices of the list, which are not all there are
				for _, v := range d.verdicts(i, price) {
					if v.State == broken {
						against = append(against, v.Rule)
						compared = compared || v.Words == "price against the next size"
					}
				}
				if allowed := p.Allowed.Contains(price); allowed != (len(against) == 0) && !compared {
					t.Fatalf("%s: %s at %s: allowed %t, broken %q", name, p.ID, price, allowed, against)
				}
			}
		}
	}
}

// Steps go from allowed price to allowed price, and miss none.
func TestStepsMissNoAllowedPrice(t *testing.T) {
	for _, name := range documents(t) {
		d := opened(t, name)
		for i, p := range d.answer.Products {
			at, _ := p.Allowed.Least()
			walked := []string{at.String()}
			for n := 0; n < 40; n++ {
				to := d.step(i, at, next)
				if to.Equal(at) {
					break
				}
				if back := d.step(i, to, previous); !back.Equal(at) {
					t.Fatalf("%s: %s: from %s up to %s and back to %s", name, p.ID, at, to, back)
				}
				at, walked = to, append(walked, to.String())
			}
			var all []string
			for price := range p.Allowed.Prices() {
				if all = append(all, price.String()); len(all) == len(walked) {
					break
				}
			}
			if !slices.Equal(all, walked) {
				t.Errorf("%s: %s: walked %q, allowed %q", name, p.ID, walked, all)
			}
		}
	}
}

func TestNearestAllowedPrice(t *testing.T) {
	d := opened(t, scenario) // A5 may be 18.00 or 18.50
	for _, c := range []struct{ asked, how, want string }{
		{"18.10", nearest, "18.00"},
		{"18.25", nearest, "18.00"}, // a tie goes down
		{"18.26", nearest, "18.50"},
		{"3", nearest, "18.00"},
		{"9999", nearest, "18.50"},
		{"18.10", asIs, "18.10"},
		{"18.109", asIs, "18.10"},
		{"18,10", asIs, "18.10"},
		{"18.00", next, "18.50"},
		{"18.50", next, "18.50"},
		{"18.50", previous, "18.00"},
		{"18.50", nextStep, "18.51"},
		{"18.50", priorStep, "18.49"},
		{"#1850", asIs, "18.50"},
		{"#0", asIs, "0.01"},
	} {
		v, err := d.look("bittern-a5", c.asked, c.how)
		if err != nil || v.Price != c.want {
			t.Errorf("%s of %s is %s, wanted %s (%v)", c.how, c.asked, v.Price, c.want, err)
		}
	}
	for _, bad := range []string{"", "abc", "#x", "1e3", "NaN"} {
		if _, err := d.look("bittern-a5", bad, asIs); err == nil {
			t.Errorf("%q was taken for a price", bad)
		}
	}
}

func TestCallsAnswerJSON(t *testing.T) {
	text, err := os.ReadFile(scenario)
	if err != nil {
		t.Fatal(err)
	}
	b := &bench{}
	if got := b.call("look", "bittern-a5", "18.00"); !strings.Contains(got, "no document") {
		t.Errorf("before decide: %s", got)
	}
	for _, c := range []struct{ call, want string }{
		{b.call("decide", string(text)), `"price":"18.00"`},
		{b.call("look", "bittern-a5", "18.00", "as_is"), `"allowed":true`},
		{b.call("look", "heron", "18.00", "as_is"), `"unknown_id"`},
		{b.call("pin", "bittern-a5", "18.50"), `"holds":true`},
		{b.call("reasons", "bittern-a5"), `Why not lower?`},
		{b.call("story", "bittern-a5"), `yield onward`},
		{b.call("picture", "bittern-a5", "keeps"), `data-from=`},
		{b.call("picture", "bittern-a5", "market"), `svg`},
		{b.call("picture", "bittern-a5", "goes"), `svg`},
		{b.call("picture", "bittern-a5", "dog"), `"svg":""`},
		{b.call("download", "list"), `price-list.html`},
		{b.call("download", "labels"), `labels.html`},
		{b.call("download", "csv", "own-shop"), `"problems"`},
		{b.call("download", "answer"), `\"curve\"`},
		{b.call("dance"), `"unknown_word"`},
		{b.call("decide", `{"version": 2}`), `"line":1`},
		{b.call("decide", `{`), `"bad_json"`},
		{b.call("look", "bittern-a5", "18.00", "as_is"), `"allowed":true`}, // the last good one still lies open
	} {
		if !json.Valid([]byte(c.call)) || !strings.Contains(c.call, c.want) {
			t.Errorf("wanted %s in %.300s", c.want, c.call)
		}
	}
}

func TestReasonsAreThoseOfTheSheet(t *testing.T) {
	d := opened(t, scenario)
	for _, p := range d.answer.Products {
		lines := d.reasons(p.ID)
		if len(lines) < 3 || lines[0] != "Why not lower?" || !slices.Contains(lines, "Why not higher?") {
			t.Errorf("%s: %q", p.ID, lines)
		}
		full, _ := sheet.Why(d.answer, p.ID, unbroken)
		for _, l := range lines {
			if !strings.Contains(full, l) {
				t.Errorf("%s: %q is not on the sheet", p.ID, l)
			}
		}
	}
}

// A shop that buys at trade price can be handed its line sheet in each form.
func TestLineSheets(t *testing.T) {
	d := opened(t, "../../shops/shops.json")
	l, err := d.list()
	if err != nil || len(l.Sheets) == 0 {
		t.Fatalf("%+v, %v", l.Sheets, err)
	}
	for _, kind := range []string{"line-sheet", "markdown", "csv"} {
		f, err := d.download(kind, l.Sheets[0].ID)
		if err != nil || !strings.Contains(f.Text, d.answer.LineSheets[0].Lines[0].Trade.String()) {
			t.Errorf("%s: %+v, %v", kind, f, err)
		}
	}
}

// On a conflict there are no prices, but the products can still be looked at.
func TestConflict(t *testing.T) {
	d := opened(t, "../../../margin/pricelist/testdata/cases/04-nothing-fits.json")
	l, err := d.list()
	if err != nil || l.Conflict == "" || len(l.Rules) < 2 || len(l.Products) == 0 {
		t.Fatalf("%+v, %v", l, err)
	}
	v, err := d.look(l.Products[0].ID, "20.00", nearest)
	if err != nil || v.Price != "20.00" || v.Allowed || len(v.Rows) == 0 {
		t.Errorf("%+v, %v", v, err)
	}
}
