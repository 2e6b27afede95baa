package annual_test

import (
	"fmt"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/quoin"
	"example.com/quoin/margin/history"
	"example.com/quoin/margin/pricelist/annual"
)

// All that a review can say. Of a hundred visits 0.01406 are 1.41 and 0.12654 earned are 12.65; 10.7% are 11 of
// 100 trials; 19.504 and 1.504 are 19.50 and 1.50.
func TestWholeReview(t *testing.T) {
	want := must(os.ReadFile("testdata/told-90.txt"))(t)
	if d := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(annual.Text(toldResults(t), 90), "\n")); d != "" {
		t.Error(d)
	}
	marks := regexp.MustCompile(`(?m)^\s*(#+|-) |^\|[-:|]+\|$|\*\*|\||\\`)
	markdown := strings.Replace(annual.Markdown(toldResults(t)), "## Cautions\n", "", 1)
	if d := cmp.Diff(strings.Fields(strings.ToLower(string(want))), strings.Fields(strings.ToLower(marks.ReplaceAllString(markdown, "")))); d != "" {
		t.Error(d)
	}
}

// Without anything to tell, there is a title and the advice on nothing.
func TestReviewOfNothing(t *testing.T) {
	r := annual.Results{Today: quoin.MustDate("2026-11-21"), Move: quoin.MustRate("10%"), Cautions: []string{"Estimates only."}}
	r.Review.Currency = quoin.MustCurrency("EUR")
	want := "Review of the price list on 2026-11-21, amounts in EUR\n\nWHAT TO DO WITH EACH PRICE, at most 10% at once\n\n\nEstimates only.\n"
	if got := annual.Text(r, 80); got != want {
		t.Errorf("got %q", got)
	}
}

// Each thing that can be told alone brings its own section and no other.
func TestSectionsStandAlone(t *testing.T) {
	all := toldResults(t)
	for name, c := range map[string]struct {
		keep func(r *annual.Results)
		want string
	}{
		"trials": {func(r *annual.Results) { r.Trials = all.Trials[2:] }, "WHAT THE TRIALS SAY"}, "alone": {func(r *annual.Results) { r.Alone = all.Alone[:1] }, "WHAT THE TRIALS SAY"},
		"next": {func(r *annual.Results) { r.Next = all.Next[:1] }, "WHICH PRICE TO TRY NEXT"}, "market": {func(r *annual.Results) { r.Market = all.Market[1:2] }, "WHERE THE PRICES STAND"},
		"reduced": {func(r *annual.Results) { r.Reduced = all.Reduced[:1] }, "BEFORE EACH REDUCTION"}, "editions": {func(r *annual.Results) { r.Editions = all.Editions[:1] }, "WHAT WAS SOLD OF EDITIONS"},
		"doubts": {func(r *annual.Results) { r.Doubts = all.Doubts }, "WHAT LOOKS WRONG IN THE HISTORY"}, "matter": {func(r *annual.Results) { r.Matter = all.Matter[:1] }, "WHICH FIGURES MATTER MOST"},
		"broken": {func(r *annual.Results) { r.Review.Broken = all.Review.Broken[:1] }, "WHICH LAST PRICES BREAK A RULE NOW"}, "changes": {func(r *annual.Results) { r.Review.Changes = all.Review.Changes[:1] }, "WHAT CHANGED"},
		"floors": {func(r *annual.Results) { r.Review.Floors = all.Review.Floors[1:] }, "WHAT EACH CHANGE DID"},
	} {
		var r annual.Results
		c.keep(&r)
		var got []string
		for line := range strings.Lines(annual.Text(r, 90)) {
			if m := regexp.MustCompile(`^[A-Z][A-Z ]{7,}[A-Z]\b`).FindString(line); m != "" && m != "WHAT TO DO WITH EACH PRICE" {
				got = append(got, m)
			}
		}
		if fmt.Sprint(got) != "["+c.want+"]" {
			t.Errorf("%s: %v, want %s", name, got, c.want)
		}
	}
}

// Prices to try are those that end in a half, are allowed, and lie within the move: a tenth of 24.00 reaches
// 26.40, a twentieth of 26.00 from 24.70 to 27.30. What a sale keeps at the fair is worked out in TestFairOnPaper: 24.50 with 4.08 of
// tax keeps 20.42 − 3.1644 − 0.7 × 0.39 = 16.9826, and 25.00 with 4.17 keeps 20.83 − 3.1644 − 0.7 × 0.40 = 17.3856.
// At the fair no trial is on; in the own shop one can't tell yet. Where no exposure is expected, nothing is tried.
func TestPricesInReach(t *testing.T) {
	y := year(t)
	all := y.ToCome
	for move, c := range map[string]struct {
		toCome []annual.Exposure
		a4     string // in force, and tried where 24.00 was
		want   string
	}{
		"10%": {all, "24.00", "bittern-a5 fair visitors 15.50 horizon_too_short: 17.00; bittern-a4 own-shop visits 24.00 trial_unfinished: 24.50 25.00 25.50 26.00; bittern-a4 fair visitors 24.00 horizon_too_short: 24.50 25.00 25.50 26.00; "},
		"5%":  {all[:1], "26.00", "bittern-a4 own-shop visits 26.00 trial_unfinished: 25.00 25.50 26.50 27.00; "},
	} {
		y.Move, y.ToCome = quoin.MustRate(move), c.toCome
		asked := strings.ReplaceAll(string(file(t, "history.jsonl")), `"price":"24.00"`, `"price":"`+c.a4+`"`)
		y.History = must(history.New(must(history.ReadAll(strings.NewReader(asked)))(t)))(t)
		got := ""
		for _, n := range must(annual.Review(y))(t).Next {
			got += fmt.Sprintf("%s %s %s %s %s:", n.Product, n.Channel, n.Counted, n.Today, n.Proposal.Reason)
			for _, c := range n.Proposal.Candidates {
				got += " " + c.Price.String()
				if kept := map[string]string{"24.50": "16.9826", "25.00": "17.3856"}[c.Price.String()]; n.Channel == "fair" && kept != "" && fmt.Sprintf("%.4f", c.Kept) != kept {
					t.Errorf("at %s a sale keeps %s", c.Price, c.Kept)
				}
			}
			got += "; "
		}
		if got != c.want {
			t.Errorf("%s: got\n%s, want\n%s", move, got, c.want)
		}
	}
}

// A document that cannot be decided is not reviewed.
func TestReviewRefuses(t *testing.T) {
	y := year(t)
	y.Now.Products[0].Price = quoin.Some(quoin.MustAmount("-1.00"))
	if r, err := annual.Review(y); err == nil || len(r.Cautions) > 0 {
		t.Errorf("%v", r)
	}
}
