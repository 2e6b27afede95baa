package browser

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/sheet"
	"example.com/quoin/margin/rule"
)

// decided is what the library says of the document that the page shows.
func decided(t testing.TB, text string) (pricelist.Document, pricelist.Answer, []rule.Item) {
	t.Helper()
	doc, err := pricelist.Decode([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	answer, err := pricelist.Decide(doc)
	if err != nil {
		t.Fatal(err)
	}
	items, err := doc.Items(rule.Likely)
	if err != nil {
		t.Fatal(err)
	}
	return doc, answer, items
}

// table is the cells of a table of the page, row by row.
func (p *tab) table(selector string) [][]string {
	p.Helper()
	return value[[][]string](p, fmt.Sprintf(`[...document.querySelectorAll(%q)].map((r) => [...r.cells].map((c) => c.textContent))`, selector+" tbody tr"))
}

// sameList compares the price list of the page with the library's.
func (p *tab) sameList(a pricelist.Answer) {
	p.Helper()
	rows := p.table("table.list")
	if len(rows) != len(a.Products) {
		p.Fatalf("the page lists %d prints, the library %d", len(rows), len(a.Products))
	}
	for i, r := range a.Products {
		today, change := "–", "–"
		if t, ok := r.Today.Get(); ok {
			today = t.String()
		}
		if c, ok := r.Change.Get(); ok {
			change = c.Round(1).String()
			if c.Sign() > 0 {
				change = "+" + change
			}
		}
		var may []string
		for _, m := range r.MayLie {
			switch {
			case m.NoneHigher:
				may = append(may, m.First.String()+" and up")
			case m.First.Equal(m.Last):
				may = append(may, m.First.String())
			default:
				may = append(may, m.First.String()+" to "+m.Last.String())
			}
		}
		want := []string{r.Name, today, r.Price.String(), strings.Replace(change, "-", "−", 1), strings.Join(may, ", ")}
		if !slices.Equal(rows[i], want) {
			p.Errorf("the page shows %q, the library says %q", rows[i], want)
		}
	}
}

// sameFigures compares what the page says of a print at a price with the library's statements and
// verdicts.
func (p *tab) sameFigures(doc pricelist.Document, a pricelist.Answer, it rule.Item, price quoin.Amount) {
	p.Helper()
	if shown := value[string](p, `document.getElementById('number').value`); shown != price.String() {
		p.Fatalf("the page shows %s at %s, wanted %s", it.ID, shown, price)
	}
	for _, r := range p.table("#keeps") {
		for n, o := range it.Offers {
			st := o.Sale.At(price)
			exact, total := map[string]quoin.Amount{
				"you receive": st.Revenue, "stays with you": st.Contribution, "yours in the end": st.Net,
			}[r[0]]
			line := map[string]quoin.Amount{
				"price of one print": o.Sale.Terms.BuyerPays(price).Item, "− selling fees": st.Fees, "− tax, passed on": st.Tax,
				"− postage you pay": st.Fulfilment, "− part of yearly costs": st.Overhead, "− income tax": st.IncomeTax,
				"− your own time": st.OwnTime, "− materials and packing": st.Goods.Sub(st.OwnTime).Sub(st.PaidTime),
			}
			cell := strings.Replace(strings.Replace(r[n+1], "−", "-", 1), "–", "0", 1)
			got, err := quoin.ParseAmount(cell)
			if err != nil {
				p.Fatalf("%s: %q: %v", r[0], r[n+1], err)
			}
			cent := quoin.MustAmount("0.01")
			switch want, known := line[r[0]]; {
			case total && !got.Equal(doc.Currency.Round(exact, quoin.HalfUp)):
				p.Errorf("%s at %s in %s: %s is %s on the page, %s in the library", it.ID, price, o.Channel, r[0], cell, exact)
			case known && (got.Sub(want).Cmp(cent) > 0 || want.Sub(got).Cmp(cent) > 0): // lines are rounded so that they add up
				p.Errorf("%s at %s in %s: %s is %s on the page, %s in the library", it.ID, price, o.Channel, r[0], cell, want)
			}
		}
	}
	shown := value[map[string][]string](p, `Object.fromEntries([...document.querySelectorAll('#verdicts > li')].map((l) => [l.querySelector('strong').textContent, [l.className, ...[...l.querySelectorAll('li')].map((c) => c.className)]]))`)
	for _, r := range doc.Rules {
		if _, ladder := r.Kind.(rule.SizeRatio); ladder || !r.SpeaksOf(it.ID, it.Design) {
			continue
		}
		want := []string{"kept"}
		for _, v := range r.Judge(it, price) {
			want = append(want, map[bool]string{true: "ok", false: "not"}[v.OK])
			if !v.OK {
				want[0] = "broken"
			}
		}
		if len(want) == 1 {
			continue
		}
		if slices.Contains(a.Dropped, r.ID) {
			want[0] = "dropped"
		}
		if !slices.Equal(shown[r.ID], want) {
			p.Errorf("%s at %s: %q is %q on the page, %q in the library", it.ID, price, r.ID, shown[r.ID], want)
		}
	}
}

// Every figure that is shown is the library's: the list, and each print at prices far and near.
func TestFiguresAreTheLibrarys(t *testing.T) {
	p := open(t, desk)
	for _, name := range []string{"first.json", "scenario.json"} {
		p.begin(name)
		doc, answer, items := decided(t, p.document())
		p.sameList(answer)
		for i, r := range answer.Products {
			p.click(fmt.Sprintf(`[data-product="%s"]`, r.ID))
			p.sameFigures(doc, answer, items[i], r.Price)
			for _, price := range []string{"0.50", "9.00", "30.50", "62.00", "99.50"} {
				p.write("#number", price)
				p.sameFigures(doc, answer, items[i], quoin.MustAmount(price))
			}
			story, _ := sheet.Why(answer, r.ID, 64)
			p.run(`document.getElementById('story').open = true`)
			p.until(`document.querySelector('#story pre').textContent.length > 100`)
			if got := p.text("#story pre"); got != story {
				t.Errorf("the story of %s differs from the library's:\n%.300s", r.ID, got)
			}
			p.click("#back")
			p.run(`document.getElementById('story').open = false`)
		}
		for _, c := range answer.Cautions {
			if !strings.Contains(p.text("#cautions"), c) {
				t.Errorf("the page lacks the caution %q", c)
			}
		}
		if shown := value[int](p, `document.querySelectorAll('.warnings li').length`); shown != len(answer.Warnings) {
			t.Errorf("the page shows %d warnings, the library has %d", shown, len(answer.Warnings))
		}
	}
}

// Documents of every kind are shown as the library decides them, each with its first print.
func TestEveryDocument(t *testing.T) {
	all, err := filepath.Glob(root + "/examples/shops/*.json")
	if err != nil || len(all) == 0 {
		t.Fatal("no shops found: ", err)
	}
	p := open(t, desk)
	for _, name := range append(all, root+"/examples/designs/marsh.json") {
		text := read(t, strings.TrimPrefix(filepath.ToSlash(name), root+"/examples/"))
		p.drop("mine.json", text)
		doc, answer, items := decided(t, text)
		p.sameList(answer)
		p.click(fmt.Sprintf(`[data-product="%s"]`, answer.Products[0].ID))
		p.sameFigures(doc, answer, items[0], answer.Products[0].Price)
		if wide := value[int](p, `document.documentElement.scrollWidth`); wide > int(desk.width) {
			t.Errorf("%s: the page is %d wide", name, wide)
		}
		p.shot(strings.TrimSuffix(filepath.Base(name), ".json"))
	}
}

// A changed cost changes the price to what the library says, and nothing else of the text.
func TestChangedCost(t *testing.T) {
	p := open(t, desk)
	before := p.document()
	if before != read(t, "first/shop.json") {
		t.Fatal("the page begins with another document than the first one")
	}
	p.write(field("supplies[0].price"), "98.00")
	after := strings.Replace(before, `"price": "62.00"`, `"price": "98.00"`, 1)
	if got := p.document(); got != after {
		t.Fatalf("the text is now\n%s", got)
	}
	_, was, _ := decided(t, before)
	_, answer, _ := decided(t, after)
	if was.Products[0].Price.Equal(answer.Products[0].Price) {
		t.Fatal("this cost moves nothing")
	}
	p.sameList(answer)

	p.click("#undo")
	p.sameList(was)
	if p.document() != before {
		t.Error("undo left another text")
	}
	p.click("#redo")
	p.sameList(answer)

	p.write("#text", before) // the same by way of the text
	p.sameList(was)
	if got := value[string](p, `document.querySelector('[data-path="supplies[0].price"]').value`); got != "62.00" {
		t.Errorf("the table shows %s, the text 62.00", got)
	}
}

// Fields that were not there are written into the text, and taken out when they are emptied.
func TestFieldsComeAndGo(t *testing.T) {
	p := open(t, desk)
	before := p.document()
	p.write(field("products[0].price"), "20.00")
	if want := strings.Replace(before, `"packing": {"parcel": [{"supply": "mailer", "quantity": "1 piece", "per": "order"}]}`,
		`"packing": {"parcel": [{"supply": "mailer", "quantity": "1 piece", "per": "order"}]},`+"\n      "+`"price": "20.00"`, 1); p.document() != want {
		t.Errorf("the text is now\n%s", p.document())
	}
	_, answer, _ := decided(t, p.document())
	p.sameList(answer)
	p.write(field("products[0].price"), "")
	if p.document() != before {
		t.Errorf("the text is now\n%s", p.document())
	}
	p.click(`[data-row="rules[2]"] .remove`)
	_, answer, _ = decided(t, p.document())
	if p.sameList(answer); len(answer.Products) == 0 || strings.Contains(p.document(), "4.00 stays in shops") {
		t.Error("the rule was not taken away")
	}
	for _, add := range []string{"Add a material", "Add a print like the last", "Add a way of selling like the last", "Add a rule", "Add a fee", "Add an order"} {
		n := len(p.document())
		found := value[bool](p, fmt.Sprintf(`(() => { const b = [...document.querySelectorAll('#tables button')].find((b) => b.textContent === %q); b?.click(); return Boolean(b); })()`, add))
		if !found || len(p.document()) <= n {
			t.Errorf("%s: found %t, and the text has %d characters after %d", add, found, len(p.document()), n)
		}
		if faults := p.text("#faults"); faults != "" {
			t.Fatalf("%s: %s", add, faults)
		}
	}
	_, answer, _ = decided(t, p.document())
	p.sameList(answer)
}
