package browser

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/sheet"
)

// paper is a size of paper, in inches.
type paper struct {
	name       string
	wide, high float64
}

var (
	a4     = paper{"A4", 8.27, 11.69}
	letter = paper{"Letter", 8.5, 11}
)

// printer is a browser that pages are printed in.
type printer struct {
	testing.TB
	ctx context.Context
}

func newPrinter(t *testing.T) printer {
	t.Helper()
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(chromium(t)), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true), chromedp.UserDataDir(t.TempDir()))
	ctx, cancel := chromedp.NewExecAllocator(context.Background(), options...)
	t.Cleanup(cancel)
	ctx, cancel = chromedp.NewContext(ctx)
	t.Cleanup(cancel)
	ctx, cancel = context.WithTimeout(ctx, 2*time.Minute)
	t.Cleanup(cancel)
	return printer{t, ctx}
}

// print prints a page on paper, or on the size that its own style asks for, and returns the text of
// each sheet.
func (p printer) print(name, html string, on *paper) []string {
	p.Helper()
	file := filepath.Join(p.TempDir(), name+".html")
	if err := os.WriteFile(file, []byte(html), 0o644); err != nil {
		p.Fatal(err)
	}
	if err := chromedp.Do(p.ctx, chromedp.Navigate("file://"+file)); err != nil {
		p.Fatal(err)
	}
	own := on == nil
	pdf, err := chromedp.Run(p.ctx, chromedp.PrintToPDF(func(o *page.PrintToPDFParams) {
		if o.PreferCSSPageSize = &own; !own {
			o.PaperWidth, o.PaperHeight = on.wide, on.high
		}
	}))
	if err != nil {
		p.Fatal(err)
	}
	return sheets(p, name, pdf)
}

// A price list is one sheet, then a sheet for each product, one for what is said of all, and one for
// each line sheet; nothing that unfolds on the screen is printed. On A4 and on Letter.
func TestListIsPrintedProductByProduct(t *testing.T) {
	p := newPrinter(t)
	for _, file := range []string{"pricesheet/scenario.json", "first/shop.json", "shops/shops.json"} {
		a, err := pricelist.Price([]byte(read(t, file)))
		if err != nil {
			t.Fatal(err)
		}
		html := sheet.HTML(a)
		for _, on := range []paper{a4, letter} {
			all := p.print("list-"+on.name, html, &on)
			if want := 1 + len(a.Products) + 1 + len(a.LineSheets); len(all) != want {
				t.Errorf("%s on %s: %d sheets, want %d", file, on.name, len(all), want)
				continue
			}
			for _, it := range a.Products {
				if !strings.Contains(all[0], it.Price.String()) {
					t.Errorf("%s on %s: the list lacks %s", file, on.name, it.ID)
				}
			}
			for i, it := range a.Products {
				if text := all[1+i]; !strings.Contains(text, it.Name) || !strings.Contains(text, "= yours in the end") && !strings.Contains(text, "= stays with you") {
					t.Errorf("%s on %s: sheet %d is not that of %s:\n%s", file, on.name, 2+i, it.ID, text)
				}
			}
			for k, s := range a.LineSheets {
				if text := all[len(all)-len(a.LineSheets)+k]; !strings.Contains(text, s.Lines[0].Trade.String()) || strings.Contains(text, "estimates") {
					t.Errorf("%s on %s: the line sheet is\n%s", file, on.name, text)
				}
			}
			if text := strings.Join(all, " "); strings.Contains(text, "The figures of this picture") || !strings.Contains(all[0], a.Cautions[0]) {
				t.Errorf("%s on %s: what unfolds is printed, or cautions are not", file, on.name)
			}
		}
	}
}

// Labels fill their sheets, so many on each, whatever paper the browser would take.
func TestLabelsArePrintedToSize(t *testing.T) {
	p := newPrinter(t)
	a, err := pricelist.Price([]byte(read(t, "pricesheet/scenario.json")))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		of    sheet.LabelSheet
		wants []int // labels by sheet
	}{
		{sheet.LabelSheet{Copies: 9}, []int{24, 12}},
		{sheet.LabelSheet{Paper: quoin.MustSize("Letter"), Across: 2, Down: 5, Copies: 5, Rim: quoin.MustQuantity("10 mm")}, []int{10, 10}},
	} {
		html, err := sheet.Labels(a, c.of)
		if err != nil {
			t.Fatal(err)
		}
		var got []int
		for _, text := range p.print("labels", html, nil) {
			got = append(got, strings.Count(text, " EUR"))
		}
		if fmt.Sprint(got) != fmt.Sprint(c.wants) {
			t.Errorf("%+v: %v labels on each sheet, want %v", c.of, got, c.wants)
		}
	}
}

// sheets are the texts of the sheets of a PDF.
func sheets(t testing.TB, name string, pdf []byte) []string {
	t.Helper()
	all := strings.Split(pdfPages(t, name, pdf), "\f")
	var out []string
	for _, text := range all[:len(all)-1] { // each ends with one
		out = append(out, strings.Join(strings.Fields(text), " "))
	}
	return out
}
