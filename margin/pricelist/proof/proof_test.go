package proof_test

import (
	"cmp"
	"fmt"
	"math/big"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/internal/zerotest"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/proof"
	"example.com/quoin/margin/rule"
)

func decoded(t testing.TB, path string) pricelist.Document {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := pricelist.Decode(text)
	if err != nil {
		t.Fatal(path, err)
	}
	return doc
}

func decided(t testing.TB, doc pricelist.Document) pricelist.Answer {
	t.Helper()
	a, err := pricelist.Decide(doc)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func near(x, y *big.Rat) bool {
	d := new(big.Rat).Sub(x, y)
	return d.Abs(d).Cmp(big.NewRat(1, 1_000_000)) < 0
}

// Every formula of every example and case, worked out by itself from the inputs, is the engine's
// figure, and the lines are those of the statements.
func TestFormulasGiveTheStatements(t *testing.T) {
	var paths []string
	for _, pattern := range []string{"examples/first/shop.json", "examples/pricesheet/scenario.json", "examples/shops/*.json", "margin/pricelist/testdata/cases/*.json"} {
		found, err := filepath.Glob("../../../" + pattern)
		if err != nil || len(found) == 0 {
			t.Fatalf("found no %s", pattern)
		}
		paths = append(paths, found...)
	}
	for _, path := range paths {
		if strings.HasSuffix(path, ".want.json") {
			continue
		}
		doc := decoded(t, path)
		a := decided(t, doc)
		if len(a.Conflict) > 0 {
			continue
		}
		sheets := proof.Of(doc, a)
		if len(sheets) != 3 {
			t.Fatalf("%s: %d sheets", path, len(sheets))
		}
		c := calculate(t, sheets)
		for row := 2; row <= len(sheets[2].Rows); row++ {
			at := func(column string) *big.Rat { return c.at(fmt.Sprintf("Proof!%s%d", column, row)) }
			if !near(at("E"), at("F")) || at("G").Sign() == 0 {
				t.Errorf("%s: Proof row %d: %v gives %s", path, row, sheets[2].Rows[row-1], at("E").FloatString(8))
			}
		}
		row := 4
		for _, p := range a.Products {
			for _, ch := range p.Channels {
				for code, amount := range ch.Statement.Lines() {
					if row > len(sheets[0].Rows) || sheets[0].Rows[row-1][2].Text != strings.ReplaceAll(string(code), "_", " ") {
						if !amount.IsZero() {
							t.Fatalf("%s: row %d is not %s of %s in %s", path, row, code, p.ID, ch.ID)
						}
						continue
					}
					line := sheets[0].Rows[row-1]
					if line[0].Text != cmp.Or(p.Name, p.ID) || line[1].Text != cmp.Or(ch.Name, ch.ID) || !near(c.at(fmt.Sprintf("Statements!D%d", row)), amount.Rat()) ||
						c.at(fmt.Sprintf("Statements!F%d", row)).Sign() == 0 {
						t.Errorf("%s: row %d is %v, wanted %s of %s in %s: %s", path, row, line, code, p.ID, ch.ID, amount)
					}
					row++
				}
			}
		}
		if row != len(sheets[0].Rows)+1 || row < 10 {
			t.Errorf("%s: %d rows of statements, wanted %d", path, len(sheets[0].Rows), row-1)
		}
		all := fmt.Sprintf("IF(AND(Statements!F4:F%d,Proof!G2:G%d),", row-1, len(sheets[2].Rows))
		if got := sheets[0].Rows[0][0].Formula; !strings.HasPrefix(got, all) {
			t.Errorf("%s: A1 is %s, wanted %s", path, got, all)
		}
	}
}

// Another price of paper among the inputs gives the engine's statements of the document that has
// it, at the prices that were decided before.
func TestChangedInput(t *testing.T) {
	doc := decoded(t, "../../../examples/first/shop.json")
	before := decided(t, doc)
	sheets := proof.Of(doc, before)
	changed := 0
	for _, row := range sheets[1].Rows {
		if row[3].Text == "supplies[0].price" {
			row[1].Number = quoin.Some(quoin.MustAmount("75.35").Figure())
			changed++
		}
	}
	if changed != 1 {
		t.Fatalf("the price of paper stands %d times among the inputs, wanted once", changed)
	}
	doc.Supplies[0].Price = quoin.MustAmount("75.35")
	c, row := calculate(t, sheets), 4
	for _, p := range before.Products {
		for _, ch := range p.Channels {
			sale, err := doc.Sale(p.ID, ch.ID)
			if err != nil {
				t.Fatal(err)
			}
			for code, amount := range sale.At(p.Price).Lines() {
				if row > len(sheets[0].Rows) || sheets[0].Rows[row-1][2].Text != strings.ReplaceAll(string(code), "_", " ") {
					continue
				}
				if got := c.at(fmt.Sprintf("Statements!D%d", row)); !near(got, amount.Rat()) {
					t.Errorf("%s of %s in %s: found %s, wanted %s", code, p.ID, ch.ID, got.FloatString(6), amount)
				}
				row++
			}
		}
	}
	if row != len(sheets[0].Rows)+1 {
		t.Errorf("compared %d rows of %d", row-1, len(sheets[0].Rows))
	}
}

// Two prints with one name and one price have an input each, as have two materials of one price; what the document says is written
// once, with where it says it.
func TestEachPriceIsAnInput(t *testing.T) {
	doc := decoded(t, "../../../examples/first/shop.json")
	doc.Products[1].Name = doc.Products[0].Name
	doc.Rules = append(doc.Rules, rule.Rule{ID: "one price", Kind: rule.Price{AtLeast: quoin.Some(quoin.MustAmount("50.00"))}})
	doc.Supplies[0].Price = doc.Supplies[3].Price
	prices, seen := 0, map[string]bool{}
	for _, row := range proof.Of(doc, decided(t, doc))[1].Rows[1:] {
		where := row[3].Text
		if where == "" || row[0].Text == "" || where != "decided" && seen[where+row[2].Text] {
			t.Errorf("found %v, wanted it once, with where it is from", row)
		}
		seen[where+row[2].Text] = true
		if where == "decided" {
			prices++
			if row[1].String() != "50.00" || row[2].Text != "50.00" {
				t.Errorf("found %v", row)
			}
		}
	}
	for _, where := range []string{"supplies[0].price", "supplies[3].price"} {
		if !seen[where+"40.00"] {
			t.Errorf("no %s of 40.00 among the inputs", where)
		}
	}
	if prices != 2 {
		t.Errorf("found %d prices, wanted 2", prices)
	}
}

// A conflict has nothing to prove.
func TestConflictHasNoProof(t *testing.T) {
	doc := decoded(t, "../../../examples/first/shop.json")
	doc.Rules = append(doc.Rules, rule.Rule{ID: "cheap", Kind: rule.Price{AtMost: quoin.Some(quoin.MustAmount("1.00"))}})
	a := decided(t, doc)
	if sheets := proof.Of(doc, a); len(a.Conflict) == 0 || sheets != nil {
		t.Errorf("conflict of %v, proof of %v", a.Conflict, sheets)
	}
}

func TestZeroValues(t *testing.T) {
	all := []any{proof.Sheet{}, proof.Cell{}, proof.Of}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
	zerotest.Printed(t, all...)
}

func ExampleOf() {
	doc := pricelist.Document{}
	text, err := os.ReadFile("../../../examples/first/shop.json")
	if err == nil {
		doc, err = pricelist.Decode(text)
	}
	if err != nil {
		fmt.Println(err)
		return
	}
	answer, err := pricelist.Decide(doc)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range proof.Of(doc, answer) {
		fmt.Println(s)
		for _, cell := range s.Rows[len(s.Rows)-1] {
			fmt.Println("  ", cell)
		}
	}
	// Output:
	// Statements
	//    Heron, A3
	//    Shops at half price
	//    net
	//    =Proof!$E$146
	//    4.837
	//    =ABS(D55-E55)<0.000001
	// Inputs
	//    Heron, A3, list price
	//    31.00
	//    31.00
	//    decided
	// Proof
	//    net
	//    Shops at half price
	//    operating + (-income tax)
	//    =Proof!$E$143+(-Proof!$E$145)
	//    =D146
	//    4.837
	//    =ABS(E146-F146)<0.000001
}
