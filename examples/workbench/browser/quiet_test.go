package browser

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// After the page has loaded it asks for nothing more, whatever is done with it. That it complains
// of nothing, and breaks no policy, every test looks at.
func TestNoRequests(t *testing.T) {
	p := open(t, desk)
	time.Sleep(time.Second) // until nothing is loaded any more
	loaded := p.requests()
	for _, r := range loaded {
		if !strings.HasPrefix(r, p.site.url) {
			t.Errorf("the page asked for %s", r)
		}
	}
	p.begin("scenario.json")
	p.click(`[data-product="bittern-a3"]`)
	p.write(field("supplies[0].price"), "80.00")
	p.click("#higher")
	p.click("#pin")
	p.run(`document.getElementById('more').open = document.getElementById('story').open = true`)
	p.until(`document.querySelector('#more svg') && document.querySelector('#story pre').textContent`)
	p.write(field("supplies[0].price"), "x")
	p.click("#undo")
	time.Sleep(300 * time.Millisecond)
	if after := p.requests(); len(after) != len(loaded) {
		t.Errorf("then the page asked for %q", after[len(loaded):])
	}
}

// Without the command that served it the page loads and works as before.
func TestOffline(t *testing.T) {
	p := open(t, desk)
	p.until(`navigator.serviceWorker.controller`)
	p.write(field("supplies[0].price"), "80.00")
	p.site.stop()
	p.do(chromedp.Reload())
	p.ready()
	_, answer, _ := decided(t, p.document())
	p.sameList(answer)
	p.begin("scenario.json")
	_, answer, _ = decided(t, p.document())
	p.sameList(answer)
}

// The policy is kept where somebody tries: no script in the page, no image and no request from
// elsewhere.
func TestPolicy(t *testing.T) {
	p := open(t, desk)
	p.run(`document.body.append(Object.assign(document.createElement('script'), {textContent: 'window.broken = 1'}))`)
	p.run(`fetch('http://127.0.0.1:9/').catch(() => {})`)
	p.run(`document.body.append(Object.assign(document.createElement('img'), {src: 'http://127.0.0.1:9/a.png'}))`)
	time.Sleep(300 * time.Millisecond)
	p.mu.Lock()
	defer p.mu.Unlock()
	for _, what := range []string{"script-src", "connect-src", "img-src"} {
		if !slices.ContainsFunc(p.bad, func(b string) bool { return strings.Contains(b, "policy: "+what) }) {
			t.Errorf("nothing refused a breach of %s: %q", what, p.bad)
		}
	}
	p.bad = nil
}

// Printed, the page is the price list and the print that is looked at, with the cautions and
// without the tables and the buttons.
func TestPrint(t *testing.T) {
	p := open(t, desk)
	p.begin("scenario.json")
	_, answer, _ := decided(t, p.document())
	pdf, err := chromedp.Run(p.ctx, chromedp.PrintToPDF())
	if err != nil {
		t.Fatal(err)
	}
	text := pdfText(t, pdf)
	for _, r := range answer.Products {
		for _, part := range []string{r.Name, r.Price.String()} {
			if !strings.Contains(text, part) {
				t.Errorf("the print lacks %q:\n%s", part, text)
			}
		}
	}
	for _, want := range append([]string{"stays with you", "a tenth is left"}, answer.Cautions...) {
		if !strings.Contains(text, want) {
			t.Errorf("the print lacks %q:\n%s", want, text)
		}
	}
	for _, without := range []string{"Add a material", "Undo", "Begin with", "Ways of selling"} {
		if strings.Contains(text, without) {
			t.Errorf("the print has %q", without)
		}
	}
}

func pdfText(t *testing.T, pdf []byte) string {
	t.Helper()
	return strings.Join(sheets(t, "printed", pdf), " ")
}

// pdfPages is the text of a PDF, with a form feed behind each page.
func pdfPages(t testing.TB, what string, pdf []byte) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "page.pdf")
	if err := os.WriteFile(name, pdf, 0o644); err != nil {
		t.Fatal(err)
	}
	if dir := os.Getenv("SCREENSHOTS"); dir != "" {
		os.WriteFile(filepath.Join(dir, what+".pdf"), pdf, 0o644)
	}
	out, err := exec.Command("pdftotext", "-layout", name, "-").Output()
	if err != nil {
		t.Fatal("pdftotext is needed (on Debian: apt-get install poppler-utils): ", err)
	}
	return string(out)
}

// Names that are written to do harm are shown as they are written.
func TestHostileNames(t *testing.T) {
	p := open(t, desk)
	bad := `<img src=x onerror=alert(1)>"'</script><style>*{display:none}</style>`
	p.write(field("products[0].name"), bad)
	p.write(field("channels[0].name"), bad)
	_, answer, _ := decided(t, p.document())
	if answer.Products[0].Name != bad {
		t.Fatalf("the name is %q", answer.Products[0].Name)
	}
	p.sameList(answer)
	p.run(`document.getElementById('more').open = document.getElementById('story').open = true`)
	p.click("#pin")
	if n := value[int](p, `document.querySelectorAll('main img, main script, main style').length`); n != 0 {
		t.Errorf("%d elements were made of a name", n)
	}
	if got := p.table("#keeps"); len(got) == 0 || !strings.Contains(p.text("#keeps thead"), bad) {
		t.Errorf("the table shows %q", p.text("#keeps thead"))
	}
}

// The page is accessible by the rules of axe-core: light and dark, wide and narrow, decided, with
// mistakes and on a conflict.
func TestAccessible(t *testing.T) {
	script, err := os.ReadFile(filepath.Join("node_modules", "axe-core", "axe.min.js"))
	if err != nil {
		t.Fatal("axe-core is needed: run npm ci in examples/workbench/browser: ", err)
	}
	for _, s := range []size{desk, phone} {
		p := open(t, s)
		p.run(string(script) + "; undefined")
		check := func(state string) {
			t.Helper()
			for _, dark := range []bool{false, true} {
				p.dark(dark)
				found := value[[]string](p, `axe.run(document, {runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']})
					.then((r) => r.violations.flatMap((v) => v.nodes.map((n) => v.id + ': ' + n.target + ' ' + n.failureSummary)))`)
				for _, f := range found {
					t.Errorf("%d wide, dark %t, %s: %s", s.width, dark, state, f)
				}
			}
		}
		check("the first document")
		p.begin("scenario.json")
		p.run(`for (const d of document.querySelectorAll('details')) d.open = true`)
		p.until(`document.querySelector('#more svg')`)
		check("everything unfolded")
		p.write("#number", "14.00")
		p.click("#pin")
		check("a pin that does not hold")
		p.click("#write")
		check("a conflict")
		p.click("#undo")
		p.write(field("supplies[0].price"), "7o")
		check("a mistake")
	}
}

// The benchmark of the page: see the README for what it prints.
func TestSpeed(t *testing.T) {
	p := open(t, desk)
	p.do(chromedp.Reload()) // warm: the files are kept by the browser
	p.ready()
	ready := value[float64](p, `performance.getEntriesByName('quoin:ready')[0].startTime`)
	p.begin("scenario.json")
	p.click(`[data-product="bittern-a4"]`)
	p.run(`document.getElementById('all').checked = true`)
	steps := value[[]float64](p, `(() => {
		const s = document.getElementById('slider'), times = [];
		for (let i = 0; i < 400; i++) {
			s.value = Number(s.min) + (i * 37) % (s.max - s.min);
			const begun = performance.now();
			s.dispatchEvent(new Event('input'));
			document.getElementById('keeps').getBoundingClientRect(); // laid out too
			times.push(performance.now() - begun);
		}
		return times.sort((a, b) => a - b);
	})()`)
	changes := value[[]float64](p, `(() => {
		const f = document.querySelector('[data-path="supplies[0].price"]'), times = [];
		for (let i = 0; i < 60; i++) {
			f.value = (80 + i / 10).toFixed(2);
			const begun = performance.now();
			f.dispatchEvent(new Event('change'));
			document.getElementById('list').getBoundingClientRect();
			times.push(performance.now() - begun);
		}
		const first = times.splice(0, 20)[0]; // the browser makes the engine faster while it runs
		return [...times.sort((a, b) => a - b), first];
	})()`)
	first := changes[len(changes)-1]
	changes = changes[:len(changes)-1]
	for _, m := range []struct {
		what         string
		took, budget float64
	}{
		{"ready, warm", ready, 1500},
		{"a step of the slider, 95th of 100", steps[len(steps)*95/100], 8},
		{"a changed cost to a new list, 95th of 100", changes[len(changes)*95/100], 100},
	} {
		line := fmt.Sprintf("%-45s %7.1f ms, wanted under %.0f ms", m.what, m.took, m.budget)
		fmt.Println(line)
		if m.took > 4*m.budget { // a machine that does much else is slower
			t.Error(line)
		}
	}
	fmt.Printf("in the middle: a step %.1f ms, a change %.1f ms; the first change %.1f ms\n", steps[len(steps)/2], changes[len(changes)/2], first)
}
