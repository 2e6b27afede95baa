package sheet_test

import (
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist/sheet"
)

// Two across and three down on 100 x 61 mm with a rim of 5 mm: (100 − 10) ÷ 2 is 45 mm, (61 − 10) ÷ 3
// is 17 mm, and a fifth of that 3.4 mm. Nine labels take a sheet of six and one of three.
func TestLabelsInFull(t *testing.T) {
	page, err := sheet.Labels(toldAnswer(t), sheet.LabelSheet{
		Paper: quoin.MustSize("100 x 61 mm"), Across: 2, Down: 3, Rim: quoin.MustQuantity("5 mm"), Copies: 3,
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, css := range []string{
		"<title>Price labels, 100 x 61 mm</title>", "@page{size:100mm 61mm;", "width:100mm;height:61mm;padding:5mm;",
		"repeat(2,45mm)", "grid-auto-rows:17mm;", "font-size:min(4mm,3.4mm)",
	} {
		if !strings.Contains(page, css) {
			t.Errorf("no %s", css)
		}
	}
	_, body, _ := strings.Cut(page, "</head>\n")
	same(t, body, `<body>
<div class="sheet">
<div class="label"><b>Heron, A4</b><span>210 x 297 mm</span><strong>25.00 EUR</strong></div>
<div class="label"><b>Heron, A4</b><span>210 x 297 mm</span><strong>25.00 EUR</strong></div>
<div class="label"><b>Heron, A4</b><span>210 x 297 mm</span><strong>25.00 EUR</strong></div>
<div class="label"><b>wren</b><strong>8.00 EUR</strong></div>
<div class="label"><b>wren</b><strong>8.00 EUR</strong></div>
<div class="label"><b>wren</b><strong>8.00 EUR</strong></div>
</div>
<div class="sheet">
<div class="label"><b>Tern</b><strong>30.00 EUR</strong></div>
<div class="label"><b>Tern</b><strong>30.00 EUR</strong></div>
<div class="label"><b>Tern</b><strong>30.00 EUR</strong></div>
</div>
<footer>
<p>Estimates only.</p>
</footer>
</body>
</html>
`)
}

// A sheet holds 1 to 50 labels each way, 1 to 1000 of each product, none smaller than 10 mm.
func TestBoundsOfLabels(t *testing.T) {
	a := toldAnswer(t)
	a.Products = a.Products[:1]
	wide := quoin.MustSize("500 x 500 mm")
	for _, c := range []struct {
		of   sheet.LabelSheet
		want string
	}{
		{sheet.LabelSheet{Paper: wide, Across: 1, Down: 1, Copies: 1}, ""},
		{sheet.LabelSheet{Paper: wide, Across: 50, Down: 50, Copies: 1000}, ""},
		{sheet.LabelSheet{Paper: wide, Across: 51}, "Across: found 51, wanted a value of at least 1 and at most 50 [out_of_range]"},
		{sheet.LabelSheet{Paper: wide, Down: 51}, "Down: found 51, wanted a value of at least 1 and at most 50 [out_of_range]"},
		{sheet.LabelSheet{Paper: wide, Copies: 1001}, "Copies: found 1001, wanted a value of at least 1 and at most 1000 [out_of_range]"},
		{sheet.LabelSheet{Paper: wide, Across: -1}, "Across: found -1, wanted a value of at least 1 and at most 50 [out_of_range]"},
		{sheet.LabelSheet{Rim: quoin.MustQuantity("-1 mm")}, "Rim: found -1 mm, wanted a length of at least 0 [out_of_range]"},
		{sheet.LabelSheet{Rim: quoin.MustQuantity("3 g")}, "Rim: found 3 g, wanted a length of at least 0 [out_of_range]"},
		// 210 ÷ 22 is 9.54, and 297 ÷ 30 is 9.90.
		{sheet.LabelSheet{Across: 22}, "Across: found labels of 9.54 x 37.12 mm, wanted labels of at least 10 mm on each side [out_of_range]"},
		{sheet.LabelSheet{Across: 21, Down: 30}, "Across: found labels of 10 x 9.9 mm, wanted labels of at least 10 mm on each side [out_of_range]"},
	} {
		page, err := sheet.Labels(a, c.of)
		said := ""
		if err != nil {
			said = err.Error()
		}
		if said != c.want || (page == "") != (c.want != "") {
			t.Errorf("%+v: %q, want %q", c.of, said, c.want)
		}
	}
	a.Products = nil
	if _, err := sheet.Labels(a, sheet.LabelSheet{}); err == nil || err.Error() != "Products: found an answer without prices, wanted decided prices [missing_field]" {
		t.Error(err)
	}
}
