package pricelist_test

import (
	"encoding/json"
	"fmt"
	"math/big"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// The oracle prices a shop from the description of the shop document alone:
// exact rationals, every price on the grid, every group of rules. It shares no
// code and no method with the library, so that the two can only agree by being
// right.

type oracleAnswer struct {
	Currency string
	Products []oracleProduct
	Dropped  []string
	Conflict []string
	Paid     []*big.Rat // for each stock
}

type oracleProduct struct {
	ID                     string
	Price, Least, Greatest *big.Rat
	Allowed                [][2]*big.Rat
	Pattern                *oraclePattern // of a written answer alone
	Channels               []oracleChannel
}

type oracleChannel struct {
	ID        string
	Statement map[string]*big.Rat
}

// oracle answers a valid document; it refuses one it cannot make sense of.
func oracle(doc []byte) (oracleAnswer, error) {
	shop, err := readOracleShop(doc)
	if err != nil {
		return oracleAnswer{}, err
	}
	w, err := newOracleWorks(shop)
	if err != nil {
		return oracleAnswer{}, err
	}
	return w.decide(), nil
}

var oracleFigures = []string{
	"revenue", "tax", "goods", "gross", "fees", "fulfilment", "fixed_cost",
	"contribution", "overhead", "operating", "income_tax", "net", "own_time", "paid_time",
}

// answerReporter is what a *testing.T and a *rapid.T have in common here.
type answerReporter interface {
	Helper()
	Errorf(format string, args ...any)
}

// compareAnswers reads an answer as the library writes it and reports every
// difference from the one wanted.
func compareAnswers(t answerReporter, want oracleAnswer, got []byte) {
	t.Helper()
	answer, err := readOracleAnswer(got)
	if err != nil {
		t.Errorf("the answer cannot be read: %v", err)
		return
	}
	compareReadAnswers(t, want, answer)
}

func compareReadAnswers(t answerReporter, want, got oracleAnswer) {
	t.Helper()
	if want.Currency != got.Currency {
		t.Errorf("currency %q, want %q", got.Currency, want.Currency)
	}
	if !slices.Equal(want.Dropped, got.Dropped) {
		t.Errorf("dropped %q, want %q", got.Dropped, want.Dropped)
	}
	if !slices.Equal(want.Conflict, got.Conflict) {
		t.Errorf("conflict %q, want %q", got.Conflict, want.Conflict)
	}
	if len(want.Products) != len(got.Products) {
		t.Errorf("%d products, want %d", len(got.Products), len(want.Products))
		return
	}
	if len(want.Paid) != len(got.Paid) {
		t.Errorf("%d stocks, want %d", len(got.Paid), len(want.Paid))
		return
	}
	for i, paid := range want.Paid {
		if !statementFigureAgrees(paid, got.Paid[i]) {
			t.Errorf("stock %d: %s paid, want %s", i, showOracleNumber(got.Paid[i]), showOracleNumber(paid))
		}
	}
	for i, p := range want.Products {
		compareProducts(t, p, got.Products[i])
	}
}

// comparePattern checks what an answer says of allowed prices that are too many to be listed: all of its prices are
// allowed, and the first and the last of every run are among them.
func comparePattern(t answerReporter, want, got oracleProduct) {
	t.Helper()
	said := make(map[string]bool)
	for _, b := range got.Pattern.Between {
		for _, ending := range got.Pattern.Endings {
			first := new(big.Rat).Sub(b[0].r, ending.r)
			turns := new(big.Rat).Quo(first, got.Pattern.Modulus.r)
			whole := new(big.Int).Div(turns.Num(), turns.Denom())
			for p := new(big.Rat).Add(ending.r, new(big.Rat).Mul(new(big.Rat).SetInt(whole), got.Pattern.Modulus.r)); p.Cmp(b[1].r) <= 0; p = new(big.Rat).Add(p, got.Pattern.Modulus.r) {
				if p.Cmp(b[0].r) >= 0 {
					said[p.RatString()] = true
				}
				in := func(r [2]*big.Rat) bool { return r[0].Cmp(p) <= 0 && p.Cmp(r[1]) <= 0 }
				if p.Cmp(b[0].r) >= 0 && !slices.ContainsFunc(want.Allowed, in) {
					t.Errorf("%s: the pattern has %s, which is not allowed", want.ID, p.RatString())
				}
			}
		}
	}
	for _, r := range want.Allowed {
		if !said[r[0].RatString()] || !said[r[1].RatString()] {
			t.Errorf("%s: the pattern leaves out %s to %s", want.ID, r[0].RatString(), r[1].RatString())
		}
	}
}

func compareProducts(t answerReporter, want, got oracleProduct) {
	t.Helper()
	if want.ID != got.ID {
		t.Errorf("product %q, want %q", got.ID, want.ID)
		return
	}
	comparePrice(t, want.ID+": price", want.Price, got.Price)
	comparePrice(t, want.ID+": least", want.Least, got.Least)
	comparePrice(t, want.ID+": greatest", want.Greatest, got.Greatest)
	listed := want.Allowed
	if got.Pattern != nil && len(listed) > 100 {
		listed = listed[:100]
		comparePattern(t, want, got)
	}
	if w, g := showOracleRuns(listed), showOracleRuns(got.Allowed); w != g {
		t.Errorf("%s: allowed %s, want %s", want.ID, g, w)
	}
	if len(want.Channels) != len(got.Channels) {
		t.Errorf("%s: %d channels, want %d", want.ID, len(got.Channels), len(want.Channels))
		return
	}
	for i, c := range want.Channels {
		compareStatements(t, want.ID, c, got.Channels[i])
	}
}

func comparePrice(t answerReporter, what string, want, got *big.Rat) {
	t.Helper()
	if showOracleNumber(want) != showOracleNumber(got) {
		t.Errorf("%s %s, want %s", what, showOracleNumber(got), showOracleNumber(want))
	}
}

func compareStatements(t answerReporter, product string, want, got oracleChannel) {
	t.Helper()
	if want.ID != got.ID {
		t.Errorf("%s: channel %q, want %q", product, got.ID, want.ID)
		return
	}
	for _, name := range oracleFigures {
		w, g := want.Statement[name], got.Statement[name]
		if !statementFigureAgrees(w, g) {
			t.Errorf("%s in %s: %s %s, want %s", product, want.ID, name, showOracleNumber(g), showOracleNumber(w))
		}
	}
}

var statementTolerance = big.NewRat(1, 100_000_000)

func statementFigureAgrees(a, b *big.Rat) bool {
	if a == nil || b == nil {
		return a == b
	}
	gap := new(big.Rat).Sub(a, b)
	return gap.Abs(gap).Cmp(statementTolerance) <= 0
}

// showOracleNumber writes a number so that equal numbers look the same.
func showOracleNumber(x *big.Rat) string {
	if x == nil {
		return "nothing"
	}
	if digits, exact := x.FloatPrec(); exact {
		return x.FloatString(digits)
	}
	return x.RatString() + " = " + x.FloatString(12) + "…"
}

func showOracleRuns(runs [][2]*big.Rat) string {
	var b strings.Builder
	for _, run := range runs {
		fmt.Fprintf(&b, "[%s–%s]", showOracleNumber(run[0]), showOracleNumber(run[1]))
	}
	return b.String()
}

// oracleWrittenAnswer is an answer as text; fields beyond the description's are
// passed over, as it permits them.
type oracleWrittenAnswer struct {
	Currency string
	Products []oracleWrittenProduct
	Dropped  []string
	Conflict []string
	Bought   []struct{ Standing *struct{ Paid oracleNumber } }
}

type oracleWrittenProduct struct {
	ID                     string
	Price, Least, Greatest oracleNumber
	Allowed                [][]oracleNumber
	Pattern                *oraclePattern `json:"allowed_pattern"`
	Channels               []struct {
		ID        string
		Statement map[string]json.RawMessage
	}
}

// oraclePattern says allowed prices short: those between two that leave an ending when divided by the modulus.
type oraclePattern struct {
	Between [][2]oracleNumber
	Modulus oracleNumber   `json:"every"`
	Endings []oracleNumber `json:"ends_in"`
}

func readOracleAnswer(text []byte) (oracleAnswer, error) {
	var written oracleWrittenAnswer
	if err := json.Unmarshal(text, &written); err != nil {
		return oracleAnswer{}, err
	}
	answer := oracleAnswer{Currency: written.Currency, Dropped: written.Dropped, Conflict: written.Conflict}
	for _, b := range written.Bought {
		if b.Standing != nil {
			answer.Paid = append(answer.Paid, b.Standing.Paid.r)
		}
	}
	for _, wp := range written.Products {
		p, err := readOracleProduct(wp)
		if err != nil {
			return oracleAnswer{}, fmt.Errorf("product %q: %w", wp.ID, err)
		}
		answer.Products = append(answer.Products, p)
	}
	return answer, nil
}

func readOracleProduct(written oracleWrittenProduct) (oracleProduct, error) {
	p := oracleProduct{
		ID:       written.ID,
		Price:    written.Price.r,
		Least:    written.Least.r,
		Greatest: written.Greatest.r,
		Pattern:  written.Pattern,
	}
	for _, run := range written.Allowed {
		if len(run) != 2 {
			return p, fmt.Errorf("a run of %d prices, not [first, last]", len(run))
		}
		p.Allowed = append(p.Allowed, [2]*big.Rat{run[0].r, run[1].r})
	}
	for _, wc := range written.Channels {
		statement, err := readOracleStatement(wc.Statement)
		if err != nil {
			return p, fmt.Errorf("channel %q: %w", wc.ID, err)
		}
		p.Channels = append(p.Channels, oracleChannel{ID: wc.ID, Statement: statement})
	}
	return p, nil
}

func readOracleStatement(written map[string]json.RawMessage) (map[string]*big.Rat, error) {
	statement := map[string]*big.Rat{}
	for _, name := range oracleFigures {
		text, given := written[name]
		if !given && strings.HasSuffix(name, "_time") {
			statement[name] = new(big.Rat) // left out where there is none
		}
		if !given {
			continue
		}
		var n oracleNumber
		if err := n.UnmarshalJSON(text); err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		statement[name] = n.r
	}
	return statement, nil
}

func TestOracleAgreesWithCases(t *testing.T) {
	wants, err := filepath.Glob("testdata/cases/*.want.json")
	if err != nil || len(wants) == 0 {
		t.Fatalf("no cases found: %v", err)
	}
	for _, wantFile := range wants {
		docFile := strings.TrimSuffix(wantFile, ".want.json") + ".json"
		t.Run(filepath.Base(docFile), func(t *testing.T) {
			t.Parallel()
			answer, err := oracle(readOracleCase(t, docFile))
			if err != nil {
				t.Fatal(err)
			}
			want, err := readOracleAnswer(readOracleCase(t, wantFile))
			if err != nil {
				t.Fatal(err)
			}
			compareReadAnswers(t, want, answer)
		})
	}
}

func readOracleCase(t *testing.T, file string) []byte {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return text
}
