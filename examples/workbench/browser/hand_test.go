package browser

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

func (p *tab) price() string {
	p.Helper()
	return value[string](p, `document.getElementById('number').value`)
}

// The slider is dragged with the pointer: it stops at allowed prices, and the mark of the picture
// follows.
func TestDrag(t *testing.T) {
	p := open(t, desk)
	p.begin("scenario.json")
	p.click(`[data-product="bittern-a4"]`)
	doc, answer, items := decided(t, p.document())
	hand := func() float64 { return value[float64](p, `Number(document.querySelector('.hand').getAttribute('x1'))`) }
	thumb := func() (x, y float64) {
		p.reveal("#slider")
		at := value[[]float64](p, `(() => { const s = document.getElementById('slider'), r = s.getBoundingClientRect(), w = 24;
			return [r.x + w / 2 + (s.value - s.min) / (s.max - s.min) * (r.width - w), r.y + r.height / 2]; })()`)
		return at[0], at[1]
	}
	was := hand()
	x, y := thumb()
	p.do(chromedp.DragAndDropXY(x, y, x+40, y, 12))
	price := quoin.MustAmount(p.price())
	if price.Cmp(answer.Products[1].Price) <= 0 || !answer.Products[1].Allowed.Contains(price) {
		t.Errorf("dragged up to %s, which is not an allowed price above %s", price, answer.Products[1].Price)
	}
	p.sameFigures(doc, answer, items[1], price)
	if hand() <= was {
		t.Error("the mark of the picture stayed behind")
	}
	greatest := answer.Products[1].Greatest
	x, y = thumb()
	p.do(chromedp.DragAndDropXY(x, y, x+400, y, 12))
	if p.price() != greatest.String() {
		t.Errorf("dragged far up to %s, wanted the greatest allowed price, %s", p.price(), greatest)
	}
	p.click("#all")
	x, y = thumb()
	p.do(chromedp.DragAndDropXY(x, y, x-150, y, 12))
	if price = quoin.MustAmount(p.price()); answer.Products[1].Allowed.Contains(price) {
		t.Errorf("dragged down to %s: wanted a price that is not allowed, as all may be stopped at", price)
	}
	p.sameFigures(doc, answer, items[1], price)
	if !strings.Contains(p.text("#allowed"), "A rule says no to "+price.String()) {
		t.Errorf("the page says: %s", p.text("#allowed"))
	}
}

// Keys step through allowed prices, and through all where that is asked.
func TestKeys(t *testing.T) {
	p := open(t, desk)
	p.begin("scenario.json")
	p.reveal("#slider")
	p.run(`document.getElementById('slider').focus()`)
	for _, k := range []struct{ key, want string }{
		{kb.ArrowRight, "18.50"}, {kb.ArrowRight, "18.50"}, {kb.ArrowLeft, "18.00"}, {kb.ArrowDown, "18.00"}, {kb.ArrowUp, "18.50"}, {kb.Home, "18.00"}, {kb.End, "18.50"},
	} {
		p.do(chromedp.KeyEvent(k.key))
		if p.price() != k.want {
			t.Errorf("a key goes to %s, wanted %s", p.price(), k.want)
		}
	}
	p.click("#all")
	p.run(`document.getElementById('number').focus()`)
	p.do(chromedp.KeyEvent(kb.ArrowUp))
	if p.price() != "18.51" {
		t.Errorf("with all prices a key goes to %s, wanted 18.51", p.price())
	}
	p.until(`document.getElementById('said').textContent.startsWith('At 18.51')`)
	p.write("#number", "abc")
	if said := p.text("#allowed"); !strings.Contains(said, "abc") || !value[bool](p, `document.getElementById('number').hasAttribute('aria-invalid')`) {
		t.Errorf("a price that is none is answered with %q", said)
	}
}

// Everything can be reached with the Tab key, in the order of the page, and the focus is seen.
func TestTabbing(t *testing.T) {
	p := open(t, desk)
	p.run(`document.body.tabIndex = -1; document.body.focus()`)
	var seen []string
	for range 220 {
		p.do(chromedp.KeyEvent("\t"))
		at := value[[]string](p, `(() => { const e = document.activeElement, s = getComputedStyle(e); return [e.id || e.dataset.path || e.dataset.product || e.tagName, s.outlineStyle, String(e.checkVisibility())]; })()`)
		if at[0] == "BODY" {
			break
		}
		if at[1] == "none" || at[2] != "true" {
			t.Errorf("the focus on %s cannot be seen: %q", at[0], at)
		}
		seen = append(seen, at[0])
	}
	last := -1
	for _, want := range []string{"begin", "open", "save", "print", "supplies[0].price", "channels[0].fees[0].rate", "rules[0].at_least", "heron-a4", "slider", "number", "higher", "all", "pin"} {
		i := slices.Index(seen, want)
		if i <= last {
			t.Errorf("%s is reached at %d, after %d: %q", want, i, last, seen)
		}
		last = i
	}
}

// A pinned price shows what gives, and can be written into the rules.
func TestPin(t *testing.T) {
	p := open(t, desk)
	p.begin("scenario.json")
	p.click(`[data-product="bittern-a4"]`)
	p.write("#number", "29.00")
	p.click("#pin")
	p.until(`document.getElementById('write')`)
	said := p.text("#pinned")
	p.click("#write")
	doc, answer, items := decided(t, p.document())
	if !answer.Products[1].Price.Equal(quoin.MustAmount("29.00")) {
		t.Fatalf("the rule that was written decides %s", answer.Products[1].Price)
	}
	p.sameList(answer)
	p.sameFigures(doc, answer, items[1], answer.Products[1].Price)
	_, was, _ := decided(t, read(t, "pricesheet/scenario.json"))
	for i, r := range answer.Products {
		if told := strings.Contains(said, r.Name+" goes from"); told != (i != 1 && !r.Price.Equal(was.Products[i].Price)) {
			t.Errorf("%s: the pin says %q", r.Name, said)
		}
	}

	p.write("#number", "14.00")
	p.click("#pin")
	p.until(`document.getElementById('write')`)
	if said = p.text("#pinned"); !strings.Contains(said, "does not hold") {
		t.Errorf("14.00 is less than some rule allows, and the pin says %q", said)
	}
	p.click("#write")
	if _, answer, _ = decided(t, p.document()); len(answer.Conflict) == 0 {
		t.Fatal("wanted a conflict")
	}
	if strings.Count(p.document(), `"my price of Bittern in the reeds, A4"`) != 1 {
		t.Error("a second pin did not take the place of the first")
	}
	for _, id := range answer.Conflict {
		if !strings.Contains(p.text("#list"), id) || !strings.Contains(said, id) {
			t.Errorf("the page does not name %q of the conflict: %s", id, p.text("#list"))
		}
	}
	p.click("#undo")
	p.click("#undo")
	p.sameList(was)
}

// Mistakes are said at their fields and at their lines, all at once, and the prices from before
// stay until they are mended.
func TestBreakAndMend(t *testing.T) {
	p := open(t, desk)
	before := p.document()
	_, was, _ := decided(t, before)
	p.write(field("supplies[0].price"), "6o.00")
	p.write(field("channels[0].fees[0].rate"), "2")
	_, err := pricelist.Price([]byte(p.document()))
	problems, ok := err.(quoin.Problems)
	if !ok || len(problems) != 2 {
		t.Fatalf("the library finds %v", err)
	}
	for _, q := range problems {
		e := field(q.Path)
		if !value[bool](p, fmt.Sprintf(`document.querySelector(%q).getAttribute('aria-invalid') === 'true'`, e)) {
			t.Errorf("%s is not marked", q.Path)
		}
		at := value[string](p, fmt.Sprintf(`document.getElementById(document.querySelector(%q).getAttribute('aria-describedby')).textContent`, e))
		for _, part := range []string{q.Found, q.Wanted} {
			if !strings.Contains(at, part) || !strings.Contains(p.text("#faults"), part) {
				t.Errorf("%s: %q is not said at the field (%q) or above (%q)", q.Path, part, at, p.text("#faults"))
			}
		}
		if !strings.Contains(p.text("#faults"), fmt.Sprintf("line %d", q.Line)) {
			t.Errorf("line %d is not named: %s", q.Line, p.text("#faults"))
		}
	}
	marked := value[[]string](p, `[...document.querySelectorAll('#lines mark')].map((m) => m.textContent.trim())`)
	if want := []string{fmt.Sprint(problems[0].Line), fmt.Sprint(problems[1].Line)}; !slices.Equal(marked, want) {
		t.Errorf("lines %q are marked, wanted %q", marked, want)
	}
	p.click("#faults button")
	if chosen := value[string](p, `(() => { const a = document.getElementById('text'); return a.value.slice(a.selectionStart, a.selectionEnd); })()`); chosen != `"6o.00"` {
		t.Errorf("the way to the text chooses %q", chosen)
	}
	p.sameList(was)
	p.write(field("supplies[0].price"), "62.00")
	p.write(field("channels[0].fees[0].rate"), "2%")
	if p.text("#faults") != "" || p.document() != before {
		t.Errorf("mended, and still: %s", p.text("#faults"))
	}
	p.sameList(was)

	p.write("#text", before[:len(before)/2]) // no JSON at all
	if p.text("#faults") == "" || !value[bool](p, `document.getElementById('tables').inert`) {
		t.Error("a text that is no JSON is not said, or its tables can be written in")
	}
	p.click("#undo")
	if p.text("#faults") != "" || p.document() != before {
		t.Errorf("undone, and still: %s", p.text("#faults"))
	}
}

// A document is saved as it is, and comes back by the button and by being dropped.
func TestSaveAndOpen(t *testing.T) {
	p := open(t, desk)
	dir := t.TempDir()
	if _, err := chromedp.Run(p.ctx, func(ctx context.Context, target *chromedp.Target) (chromedp.Void, error) {
		_, err := chromedp.CallBrowser(ctx, browser.SetDownloadBehavior, browser.SetDownloadBehaviorParams{Behavior: "allow", DownloadPath: dir})
		return chromedp.Void{}, err
	}); err != nil {
		t.Fatal(err)
	}
	p.write(field("supplies[0].price"), "77.00")
	saved := p.document()
	p.click("#save")
	if got := waited(t, filepath.Join(dir, "shop.json")); got != saved {
		t.Errorf("saved was\n%s", got)
	}
	p.begin("scenario.json")
	p.do(chromedp.SetUploadFiles(chromedp.CSS("#file"), []string{filepath.Join(dir, "shop.json")}))
	p.until(fmt.Sprintf(`document.getElementById('text').value === %q`, saved))
	_, answer, _ := decided(t, saved)
	p.sameList(answer)

	other := read(t, "shops/shops.json")
	p.drop("mine.json", other)
	_, answer, _ = decided(t, other)
	p.sameList(answer)

	for kind, name := range map[string]string{"list": "price-list.html", "full": "price-list-full.html", "labels": "labels.html", "answer": "answer.json", "line-sheet": "line-sheet.html", "csv": "line-sheet.csv"} {
		p.click(fmt.Sprintf(`[data-kind="%s"]`, kind))
		if got := waited(t, filepath.Join(dir, name)); !strings.Contains(got, answer.Products[0].Price.String()) {
			t.Errorf("%s lacks the price %s: %.300s", name, answer.Products[0].Price, got)
		}
	}
	p.click("#save")
	if got := waited(t, filepath.Join(dir, "mine.json")); got != other {
		t.Error("a document that was dropped is not saved under its own name")
	}
	p.do(chromedp.Reload())
	p.ready()
	if p.document() != other {
		t.Error("the document is gone after a reload")
	}
}

// drop lets go of a file over the page.
func (p *tab) drop(name, text string) {
	p.Helper()
	p.run(fmt.Sprintf(`(() => { const d = new DataTransfer(); d.items.add(new File([%q], %q));
		for (const type of ['dragover', 'drop']) document.body.dispatchEvent(new DragEvent(type, {dataTransfer: d, bubbles: true, cancelable: true})); })()`, text, name))
	p.until(fmt.Sprintf(`document.getElementById('text').value === %q`, text))
}

// waited is the text of a file that the browser is about to write.
func waited(t *testing.T, name string) string {
	t.Helper()
	for range 100 {
		if text, err := os.ReadFile(name); err == nil && len(text) > 0 {
			return string(text)
		}
		time.Sleep(100 * time.Millisecond)
	}
	t.Fatalf("%s was not written", filepath.Base(name))
	return ""
}
