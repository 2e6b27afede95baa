package sheet_test

import (
	"os"
	"strings"
	"testing"

	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/sheet"
)

// What Warnings says, Text prints, and nothing else.
func TestWarningsAreWhatTextPrints(t *testing.T) {
	text, err := os.ReadFile("../../../examples/pricesheet/scenario.json")
	if err != nil {
		t.Fatal(err)
	}
	a, err := pricelist.Price(text)
	if err != nil {
		t.Fatal(err)
	}
	_, after, _ := strings.Cut(sheet.Text(a, 10_000), "What needs a look:\n")
	printed, _, _ := strings.Cut(after, "\n\n")
	said := sheet.Warnings(a)
	if len(said) == 0 || "- "+strings.Join(said, "\n- ") != printed {
		t.Errorf("said\n%s\nprinted\n%s", strings.Join(said, "\n"), printed)
	}
}
