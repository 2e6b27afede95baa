package pricelist_test

import (
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/sheet"
)

func TestPrintedColumnsAddUp(t *testing.T) { t.Parallel(); rapid.Check(t, printedColumnsAddUp) }
func FuzzPrintedColumnsAddUp(f *testing.F) { f.Fuzz(rapid.MakeFuzz(printedColumnsAddUp)) }

// printedColumnsAddUp reads the printed text back: in every column the lines make the totals as they are printed, and
// every total is its exact figure rounded to money, halves up.
func printedColumnsAddUp(t *rapid.T) {
	var a pricelist.Answer
	if rapid.Bool().Draw(t, "ways of selling") {
		a = must(pricelist.Decide(drawnWays(t)))(t)
	} else {
		a = must(pricelist.Price(genDocument(t)))(t)
	}
	text := sheet.FullText(a, 80)
	tables := tablesIn(text)
	if len(a.Products) > 0 && len(tables) == 0 {
		t.Fatalf("no table:\n%s", text)
	}
	at := 0
	for _, it := range a.Products {
		for first := 0; first < len(it.Channels); first += 4 { // as many as fit
			for k := first; k < min(first+4, len(it.Channels)); k++ {
				addsUp(t, tables[at], k-first, it.Channels[k])
			}
			at++
		}
	}
	if t.Failed() {
		t.Fatalf("%s", text)
	}
}

// printedRow is a row of a table: how it begins, and its cells.
type printedRow struct {
	label string
	cells []string
}

// tablesIn are the tables of where prices go, down to the last line that adds up.
func tablesIn(text string) (tables [][]printedRow) {
	in := false
	for l := range strings.Lines(text) {
		l = strings.TrimRight(l, "\n")
		if strings.HasPrefix(l, "  One print, on average") {
			tables, in = append(tables, nil), true
			continue
		}
		if in = in && len(l) > 26 && (strings.IndexByte("+-=", l[2]) >= 0 || strings.HasPrefix(l, "    price of one print")); in {
			r := printedRow{label: strings.TrimSpace(l[:26]), cells: strings.Fields(l[26:])}
			tables[len(tables)-1] = append(tables[len(tables)-1], r)
		}
	}
	return tables
}

// addsUp goes down one column.
func addsUp(t *rapid.T, rows []printedRow, k int, in pricelist.ChannelResult) {
	exact := map[string]*big.Rat{
		"= you receive": in.Statement.Revenue.Rat(), "= stays with you": in.Statement.Contribution.Rat(), "= yours in the end": in.Statement.Net.Rat(),
	}
	sum := new(big.Rat)
	for _, r := range rows {
		cell := new(big.Rat)
		if text := r.cells[k]; text != "-" {
			if _, ok := cell.SetString(text); !ok {
				t.Errorf("%s: %q is no figure", r.label, text)
				return
			}
		}
		switch r.label[0] {
		case '-':
			sum.Sub(sum, cell)
			continue
		case '=':
		default:
			sum.Add(sum, cell)
			continue
		}
		if sum.Cmp(cell) != 0 {
			t.Errorf("%s, %s: %s is printed, and the lines above come to %s", in.ID, r.label, cell.FloatString(4), sum.FloatString(4))
		}
		if off := new(big.Rat).Sub(exact[r.label], cell); off.Abs(off).Cmp(big.NewRat(1, 200)) > 0 && strings.Contains(r.cells[k], ".") && strings.Index(r.cells[k], ".") == len(r.cells[k])-3 {
			t.Errorf("%s, %s: %s is printed for %s", in.ID, r.label, cell.FloatString(4), exact[r.label].FloatString(8))
		}
	}
}

// The price of A3 ends with the prices considered, and A4 below it by 1.4: no rule is the reason, and none is named.
// At most 35.00 for A3 is a rule, and 35.00 ÷ 1.4 is 25.00.
func TestWhatEndsAPrice(t *testing.T) {
	const document = `{"version": 1, "currency": "EUR", "price_limit": "70.00", "price_step": "0.50", "channels": [{"id": "web"}],
		"products": [{"id": "a4", "price": "20.00"}, {"id": "a3", "price": "30.00"}],
		"rules": [{"id": "sizes", "rule": "size_ratio", "products": ["a4", "a3"], "at_least": "1.4"},
			{"id": "floor", "rule": "price", "at_least": "10.00"}CEILING]}`
	for ceiling, want := range map[string][2]string{
		"": {"May be 10.00 and up; held from below by \"floor\"\n", "May be 14.00 and up; held from below by \"sizes\"\n"},
		`, {"id": "ceiling", "rule": "price", "products": ["a3"], "at_most": "35.00"}`: {
			"May be 10.00–25.00; held from below by \"floor\"; from above by \"sizes\"\n", "May be 14.00–35.00; held from below by \"sizes\"; from above by \"ceiling\"\n",
		},
	} {
		a, err := pricelist.Price([]byte(strings.Replace(document, "CEILING", ceiling, 1)))
		if err != nil {
			t.Fatal(err)
		}
		text := sheet.Text(a, 100)
		for _, line := range want {
			if !strings.Contains(text, line) {
				t.Errorf("no line %q in\n%s", line, text)
			}
		}
	}
}

// Where a rule forbids a higher price, a higher limit does not let it rise.
func TestLimitIsNoReason(t *testing.T) { t.Parallel(); rapid.Check(t, limitIsNoReason) }
func FuzzLimitIsNoReason(f *testing.F) { f.Fuzz(rapid.MakeFuzz(limitIsNoReason)) }

func limitIsNoReason(t *rapid.T) {
	doc := drawn(t)
	low := must(pricelist.Decide(doc))(t)
	limit, given := doc.PriceLimit.Get()
	if !given || len(low.Products) == 0 {
		t.Skip("no limit, or a conflict")
	}
	doc.PriceLimit = quoin.Some(limit.Add(limit))
	high := must(pricelist.Decide(doc))(t)
	if len(high.Products) == 0 || strings.Join(low.Dropped, " ") != strings.Join(high.Dropped, " ") {
		t.Skip("other rules are kept")
	}
	for i, it := range low.Products {
		rises := it.Greatest.Cmp(high.Products[i].Greatest) < 0
		if it.MoreRanges {
			continue
		}
		if rises && !it.MayLie[len(it.MayLie)-1].NoneHigher {
			t.Fatalf("%s: a rule forbids higher prices, and up to %s become up to %s with a limit of %s", it.ID, it.Greatest, high.Products[i].Greatest, limit.Add(limit))
		}
	}
}
