package pricelist_test

import (
	"encoding/json"
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin/margin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

func TestStatementsAgreeWithOracle(t *testing.T) {
	t.Parallel()
	rapid.Check(t, statementsAgreeWithOracle)
}

func FuzzStatementsAgreeWithOracle(f *testing.F) {
	f.Fuzz(rapid.MakeFuzz(statementsAgreeWithOracle))
}

// statementsAgreeWithOracle: at prices all over the grid, whatever the rules
// would take, every figure is what exact fractions come to: of the average
// order, and of each kind by itself with its fees in full.
func statementsAgreeWithOracle(t *rapid.T) {
	doc := genDocument(t)
	w := must(newOracleWorks(must(readOracleShop(doc))(t)))(t)
	items := must(must(pricelist.Decode(doc))(t).Items(rule.Likely))(t)
	for p, it := range items {
		for _, o := range it.Offers {
			c := slices.IndexFunc(w.shop.Channels, func(c oracleOutlet) bool { return c.ID == o.Channel })
			at := fmt.Sprintf("%s in %s", it.ID, o.Channel)
			for _, n := range spreadPrices(t, len(w.grid)-1) {
				price := it.Grid.Price(int64(n))
				sameStatement(t, fmt.Sprintf("%s at %v", at, price), o.Sale.At(price), w.statementAt(p, c, n))
				worst, kinds := w.worstStatementsAt(p, c, n), o.Sale.Worst()
				if len(worst) != len(kinds) {
					t.Fatalf("%s: %d kinds of order, want %d\n%s", at, len(kinds), len(worst), doc)
				}
				for i, kind := range kinds {
					sameStatement(t, fmt.Sprintf("%s at %v, kind %d", at, price, i), kind.At(price), worst[i])
				}
			}
		}
	}
	if t.Failed() {
		t.Fatalf("%s", doc)
	}
}

// spreadPrices is the number of a price in each stretch of the grid.
func spreadPrices(t *rapid.T, top int) []int {
	const stretches = 12
	var out []int
	for i := range stretches {
		from, to := 1+top*i/stretches, top*(i+1)/stretches
		out = append(out, rapid.IntRange(from, max(from, to)).Draw(t, "price"))
	}
	return out
}

func sameStatement(t *rapid.T, at string, got margin.Statement, want *oracleLedger) {
	text := must(json.Marshal(got))(t)
	var written map[string]json.RawMessage
	if err := json.Unmarshal(text, &written); err != nil {
		t.Fatal(err)
	}
	figures := must(readOracleStatement(written))(t)
	for name, w := range want.figures() {
		if w != nil && !statementFigureAgrees(w, figures[name]) {
			t.Errorf("%s: %s %s, want %s", at, name, showOracleNumber(figures[name]), showOracleNumber(w))
		}
	}
}
