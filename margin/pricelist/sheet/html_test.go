package sheet_test

import (
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/sheet"
)

func scenario(t *testing.T) pricelist.Answer {
	t.Helper()
	data, err := os.ReadFile("../../../examples/pricesheet/scenario.json")
	if err != nil {
		t.Fatal(err)
	}
	a, err := pricelist.Price(data)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// closed is whether each element of a page is closed in the element that it was opened in.
func closed(page string) string {
	var open []string
	for _, m := range regexp.MustCompile(`<(/?)([a-zA-Z0-9]+)([^<>]*?)(/?)>`).FindAllStringSubmatch(page, -1) {
		switch {
		case m[2] == "meta" || m[4] == "/":
		case m[1] == "":
			open = append(open, m[2])
		case len(open) == 0 || open[len(open)-1] != m[2]:
			return "</" + m[2] + "> in " + strings.Join(open, " > ")
		default:
			open = open[:len(open)-1]
		}
	}
	return strings.Join(open, " > ")
}

// A page has a section for the list, for each product, for what is said of all of them and for each line sheet; of each product
// its pictures with their figures, and how it is worked out.
func TestPageOfAnAnswer(t *testing.T) {
	a := scenario(t)
	for what, page := range map[string]string{"short": sheet.HTML(a), "full": sheet.FullHTML(a)} {
		if bad := closed(page); bad != "" {
			t.Errorf("%s: %s", what, bad)
		}
		if got, want := strings.Count(page, "<section"), 1+len(a.Products)+1+len(a.LineSheets); got != want {
			t.Errorf("%s: %d sections, want %d", what, got, want)
		}
		for i, part := range strings.Split(page, "<section")[2 : 2+len(a.Products)] {
			it := a.Products[i]
			pictures := strings.Count(part, "<svg")
			if least := 2; pictures < least || strings.Count(part, "<summary>The figures of this picture</summary>") != pictures {
				t.Errorf("%s: %d pictures of %s", what, pictures, it.ID)
			}
			story, _ := sheet.Why(a, it.ID, 100)
			if line := strings.Split(story, "\n")[0]; !strings.Contains(part, "<pre>"+line) {
				t.Errorf("%s: %s is not worked out", what, it.ID)
			}
		}
		for _, c := range a.Cautions {
			if strings.Count(page, "<p>"+c+"</p>") != 2 {
				t.Errorf("%s: %q stands %d times", what, c, strings.Count(page, "<p>"+c+"</p>"))
			}
		}
		if strings.Contains(page, "<script") || regexp.MustCompile(`(src|href)=|url\((https?:|//)|@import`).MatchString(page) {
			t.Errorf("%s: the page loads something", what)
		}
	}
	if full := sheet.FullHTML(a); !strings.Contains(full, "Cut out of ") || strings.Contains(sheet.HTML(a), "Cut out of ") {
		t.Error("layouts stand in the full page alone")
	}
}

// Whatever a document calls things, no page takes it for an element.
func TestPagesEscapeNames(t *testing.T) {
	const bad = `</pre></details><script>alert(1)</script><img src=x onerror=alert(1)>\"'&`
	a, err := pricelist.Price([]byte(`{"version": 1, "currency": "EUR", "supplies": [{"id": "` + bad + `", "name": "` + bad + `", "quantity": "1 sheet", "price": "1.00", "sheet": {"size": "500 x 700 mm"}}],
		"products": [{"id": "a` + bad + `", "name": "` + bad + `", "design": "` + bad + `", "sheet": "A4", "price": "30.00", "bill": [{"supply": "` + bad + `", "cut": {"of": "sheet"}}]},
			{"id": "b", "name": "` + bad + `", "design": "` + bad + `", "sheet": "A3"}],
		"channels": [{"id": "` + bad + `", "name": "` + bad + `", "trade_discount": ["50%"], "trade": {"line_sheet": {"seller": "` + bad + `", "contact": "` + bad + `", "note": "` + bad + `"}}, "fees": [{"name": "` + bad + `", "rate": "9%"}]}],
		"comparables": [{"product": "b", "venue": "` + bad + `", "price": "22.00", "sold": 2}],
		"rules": [{"id": "` + bad + `", "rule": "price", "at_least": "20.00"}]}`))
	if err != nil {
		t.Fatal(err)
	}
	labels, err := sheet.Labels(a, sheet.LabelSheet{})
	if err != nil {
		t.Fatal(err)
	}
	for what, page := range map[string]string{"list": sheet.HTML(a), "full": sheet.FullHTML(a), "line sheet": sheet.LineSheetHTML(a.LineSheets[0]), "labels": labels} {
		for _, element := range []string{"<script", "<img"} {
			if strings.Contains(page, element) {
				t.Errorf("%s: %s", what, element)
			}
		}
		if bad := closed(page); bad != "" {
			t.Errorf("%s: %s", what, bad)
		}
		if !strings.Contains(page, "&lt;script&gt;") {
			t.Errorf("%s: the names are not there", what)
		}
	}
}

// A line sheet is for buyers: it says what a shop has to know, and nothing of estimates.
func TestLineSheetPage(t *testing.T) {
	a := scenario(t)
	if len(a.LineSheets) == 0 {
		t.Skip("no channel sells to shops")
	}
	page := sheet.LineSheetHTML(a.LineSheets[0])
	for _, l := range a.LineSheets[0].Lines {
		if !strings.Contains(page, "<td class=\"r\">"+l.Trade.String()+"</td>") {
			t.Errorf("%s is not there", l.Product)
		}
	}
	if strings.Contains(page, "estimate") || !strings.Contains(page, pricelist.Recommended) {
		t.Error("a line sheet speaks of estimates, or not of what is only recommended")
	}
}

func TestLabels(t *testing.T) {
	a := scenario(t)
	n := len(a.Products)
	for _, c := range []struct {
		what           string
		of             sheet.LabelSheet
		labels, sheets int
		css            []string
	}{
		{"three by eight on A4", sheet.LabelSheet{}, n, 1, []string{"size:210mm 297mm", "repeat(3,70mm)", "grid-auto-rows:37.12mm", "min(4mm,7.42mm)"}},
		{"nine of each", sheet.LabelSheet{Copies: 9}, 9 * n, (9*n + 23) / 24, nil},
		// 8.5 × 11 in is 215.9 × 279.4 mm; less 10 mm on each side 195.9 ÷ 2 and 259.4 ÷ 5. Letters are a fifth as high.
		{
			"two by five on Letter",
			sheet.LabelSheet{Paper: quoin.MustSize("Letter"), Across: 2, Down: 5, Rim: quoin.MustQuantity("1 cm"), Copies: 6},
			6 * n, (6*n + 9) / 10,
			[]string{"size:215.9mm 279.4mm", "padding:10mm", "repeat(2,97.95mm)", "grid-auto-rows:51.88mm", "min(4mm,10.38mm)"},
		},
	} {
		page, err := sheet.Labels(a, c.of)
		if err != nil {
			t.Fatalf("%s: %v", c.what, err)
		}
		if got := strings.Count(page, `<div class="label">`); got != c.labels {
			t.Errorf("%s: %d labels, want %d", c.what, got, c.labels)
		}
		if got := strings.Count(page, `<div class="sheet">`); got != c.sheets {
			t.Errorf("%s: %d sheets, want %d", c.what, got, c.sheets)
		}
		for _, css := range c.css {
			if !strings.Contains(page, css) {
				t.Errorf("%s: no %s", c.what, css)
			}
		}
		if bad := closed(page); bad != "" {
			t.Errorf("%s: %s", c.what, bad)
		}
		if it := a.Products[0]; !strings.Contains(page, "<b>"+it.Name+"</b>") || !strings.Contains(page, "<strong>"+it.Price.String()+" EUR</strong>") {
			t.Errorf("%s: %s is not there", c.what, it.ID)
		}
	}
}

func TestLabelsRefused(t *testing.T) {
	a := scenario(t)
	for _, c := range []struct {
		what string
		a    pricelist.Answer
		of   sheet.LabelSheet
		want []string
	}{
		{"too many", a, sheet.LabelSheet{Across: 51, Down: -1, Copies: 1001}, []string{"Across", "Down", "Copies"}},
		{"a rim that weighs", a, sheet.LabelSheet{Rim: quoin.MustQuantity("3 g")}, []string{"Rim"}},
		{"a rim of nearly all", a, sheet.LabelSheet{Rim: quoin.MustQuantity("100 mm")}, []string{"Across"}},
		{"no prices", pricelist.Answer{}, sheet.LabelSheet{}, []string{"Products"}},
		{"labels of 9 mm", a, sheet.LabelSheet{Across: 23}, []string{"Across"}},
	} {
		text, err := sheet.Labels(c.a, c.of)
		ps, _ := err.(quoin.Problems)
		var got []string
		for _, p := range ps {
			got = append(got, p.Path)
		}
		if text != "" || !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.what, got, c.want)
		}
	}
}

// The lines of each channel are those of the page, and each total is the one before it with the lines between them.
func TestWhereItGoes(t *testing.T) {
	a := scenario(t)
	page := sheet.HTML(a)
	for _, it := range a.Products {
		for _, c := range it.Channels {
			var sum quoin.Amount
			totals := 0
			for _, l := range sheet.WhereItGoes(c, a.Currency) {
				if !l.Total {
					sum = sum.Add(l.Amount)
					continue
				}
				if totals++; !sum.Equal(l.Amount) {
					t.Errorf("%s in %s: %s is %s, the lines come to %s", it.ID, c.ID, l.Label, l.Amount, sum)
				}
				if !strings.Contains(page, ">"+l.Label+"<") || !strings.Contains(page, ">"+l.Amount.String()+"<") {
					t.Errorf("%s in %s: the page lacks %s %s", it.ID, c.ID, l.Label, l.Amount)
				}
			}
			if totals != 3 {
				t.Errorf("%s in %s: %d totals", it.ID, c.ID, totals)
			}
		}
	}
}

// What refuses the neighbours of a price is the beginning of its whole story.
func TestWhyNotIsAPartOfWhy(t *testing.T) {
	a := scenario(t)
	for _, it := range a.Products {
		part, ok := sheet.WhyNot(a, it.ID, 80)
		whole, _ := sheet.Why(a, it.ID, 80)
		if !ok || !strings.HasPrefix(part, "Why not lower?\n") || !strings.Contains(part, "Why not higher?\n") || !strings.Contains(whole, part) {
			t.Errorf("%s: %q is not in its story", it.ID, part)
		}
	}
	if _, ok := sheet.WhyNot(a, "heron", 80); ok {
		t.Error("a story of no product")
	}
}
