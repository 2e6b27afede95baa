package picture_test

import (
	"os"
	"strings"
	"testing"

	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/picture"
)

// A plain picture differs from the other in its style alone, which has the light colours and
// neither variables nor schemes.
func TestPlain(t *testing.T) {
	text, err := os.ReadFile("../../../examples/first/shop.json")
	if err != nil {
		t.Fatal(err)
	}
	a, err := pricelist.Price(text)
	if err != nil {
		t.Fatal(err)
	}
	p, ok := picture.Keeps(a.WithCurves(), "heron-a4")
	if !ok {
		t.Fatal("no picture")
	}
	before, after, _ := strings.Cut(p.SVG(), picture.Style())
	style, found := strings.CutPrefix(p.Plain(), before)
	style, same := strings.CutSuffix(style, after)
	if !found || !same {
		t.Errorf("a plain picture differs in more than its style:\n%s", p.Plain())
	}
	if strings.Contains(style, "var(") || strings.Contains(style, "--") || strings.Contains(style, "@media") || strings.Contains(style, "halo") {
		t.Errorf("the style has variables or schemes: %s", style)
	}
	for _, want := range []string{".quoin .bg{fill:#fffdf7}", ".quoin text{fill:#23303a}", ".quoin .l1{stroke:#9a4a18;stroke-dasharray:8 3}", ".quoin .f9{fill:#fff3b8}"} {
		if !strings.Contains(style, want) {
			t.Errorf("the style lacks %s: %s", want, style)
		}
	}
	bars, ok := picture.Breakdown(a, "heron-a4")
	if plain := bars.Plain(); !ok || !strings.Contains(bars.SVG(), `fill="url(#`) || strings.Contains(plain, `"url(`) || !strings.Contains(plain, `fill="#e9e4d6"`) {
		t.Errorf("the bars have patterns, or no colours: %s", plain)
	}
	if (picture.Picture{}).Plain() != "" {
		t.Error("the zero picture has a plain one")
	}
}
