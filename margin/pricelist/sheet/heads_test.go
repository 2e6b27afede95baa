package sheet_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/sheet"
)

// manyNamed is a print in channels of these names, each with every line that a table can have.
func manyNamed(t *testing.T, names ...string) pricelist.Answer {
	t.Helper()
	var channels []string
	for i, name := range names {
		channels = append(channels, fmt.Sprintf(`{"id": "c%d", "name": %q, "tax": {"rate": "20%%", "in_price": true}, "fees": [{"name": "card", "rate": "2%%"}], "fixed_cost": {"cost": "30.00", "items": "20"},
			"orders": [{"shipping": "4.00", "postage": "5.00"}]}`, i, name))
	}
	a, err := pricelist.Price([]byte(`{"version": 1, "currency": "EUR", "overhead": {"cost": "30.00", "items": "20"}, "income_tax": "20%",
		"supplies": [{"id": "paper", "quantity": "50 sheet", "price": "64.00"}, {"id": "time", "quantity": "1 h", "price": "12.00", "labour": "own"}],
		"products": [{"id": "curlew", "price": "20.00", "bill": [{"supply": "paper", "quantity": "1 sheet"}, {"supply": "time", "quantity": "5 min"}]}],
		"rules": [{"id": "as today", "rule": "price", "at_least": "20.00", "at_most": "20.00"}], "channels": [` + strings.Join(channels, ",") + `]}`))
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// tableOf is the head of a product's table, and how many lines the product takes.
func tableOf(t *testing.T, text string) (head []string, lines int) {
	t.Helper()
	for _, block := range strings.Split(text, "\n\n") {
		if !strings.Contains(block, "One print, on average") {
			continue
		}
		all := strings.Split(strings.TrimSpace(block), "\n")
		for _, l := range all {
			if strings.Contains(l, "price of one print") {
				break
			}
			if strings.HasPrefix(l, "            ") || strings.Contains(l, "One print") {
				head = append(head, l)
			}
		}
		return head, len(all)
	}
	t.Fatalf("no table:\n%s", text)
	return nil, 0
}

// A name of a channel has 13 characters to a line. What is longer takes two lines, between words where
// it can, and is cut only where it has no room in two.
func TestNamesOfChannelsTakeTwoLines(t *testing.T) {
	for _, c := range []struct {
		names []string
		want  []string
	}{
		{[]string{"Own shop", "Weekend fair", "Shops at half"}, []string{
			"  One print, on average       Own shop  Weekend fair Shops at half",
		}},
		{[]string{"Own shop", "Shops at half price", "Shops at half, framed"}, []string{
			"                                       Shops at half      Shops at",
			"  One print, on average       Own shop         price  half, framed",
		}},
		{[]string{"Marshlandgalleries", "Society of marsh birds and printers"}, []string{
			"                         Marshlandgall    Society of",
			"  One print, on average          eries marsh …inters",
		}},
	} {
		head, _ := tableOf(t, sheet.Text(manyNamed(t, c.names...), 80))
		if got := strings.Join(head, "\n"); got != strings.Join(c.want, "\n") {
			t.Errorf("got\n%s\nwant\n%s", got, strings.Join(c.want, "\n"))
		}
	}
}

// Where a second line for each would not fit on a screen, names are cut.
func TestNamesOfChannelsKeepToAScreen(t *testing.T) {
	for n, cut := range map[int]bool{6: false, 12: true} {
		names := make([]string, n)
		for i := range names {
			names[i] = fmt.Sprintf("Society of marsh printers, %d", i+1)
		}
		text := sheet.Text(manyNamed(t, names...), 80)
		_, lines := tableOf(t, text)
		if lines > 24 {
			t.Errorf("%d channels take %d lines:\n%s", n, lines, text)
		}
		whole := strings.Contains(text, "\n  Society of marsh\n  printers, 3 ")
		if got := strings.Contains(text, "\n  Society of m…printers, 3 "); got != cut || whole == cut {
			t.Errorf("%d channels: cut %t, whole %t, want cut %t:\n%s", n, got, whole, cut, text)
		}
		if full := sheet.FullText(manyNamed(t, names...), 80); strings.Contains(full, "…") {
			t.Errorf("%d channels are cut in the full text:\n%s", n, full)
		}
	}
}
