package annual_test

import (
	"bytes"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/history"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/annual"
	"example.com/quoin/margin/pricelist/review"
	"example.com/quoin/margin/trial"
)

// scenario is the year of the example: a linocut artist of marsh birds, two supplies dearer, a fee
// changed, two fairs and a web trial behind.
const scenario = "../../../examples/review/year/"

func file(t testing.TB, name string) []byte {
	t.Helper()
	return must(os.ReadFile(scenario + name))(t)
}

func must[T any](v T, err error) func(testing.TB) T {
	return func(t testing.TB) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

func year(t testing.TB) annual.Year {
	t.Helper()
	return annual.Year{
		Last: must(pricelist.Decode(file(t, "last.json")))(t), Now: must(pricelist.Decode(file(t, "now.json")))(t),
		History: must(history.New(must(history.ReadAll(bytes.NewReader(file(t, "history.jsonl"))))(t)))(t),
		Terms:   must(annual.DecodeTerms(file(t, "review.json")))(t),
		Market:  must(annual.DecodeMarket(file(t, "market.json")))(t),
	}
}

func found(t testing.TB) annual.Results {
	t.Helper()
	r := must(annual.Review(year(t)))(t)
	if len(r.Doubts) > 0 {
		t.Errorf("the history does not agree with itself: %v", r.Doubts)
	}
	return r
}

func TestSharesSum(t *testing.T) {
	for _, f := range found(t).Review.Floors {
		var sum quoin.Amount
		for _, s := range f.Shares {
			sum = sum.Add(s.By)
		}
		change, ok := f.Change.Get()
		if !ok || !sum.Equal(change) || !change.Equal(f.After.Or(quoin.Amount{}).Sub(f.Before.Or(quoin.Amount{}))) {
			t.Errorf("%s moved by %v, and the shares sum to %v", f.Product, f.Change, sum)
		}
	}
}

// The floor of the A3 print is five times its goods in the own shop. Two come out of
// a sheet, and 90% of the prints are good.
//
//	                    last            now
//	paper   70.00÷25÷2  1.40  91.00÷25÷2 1.82
//	ink     30.00÷250×6 0.72             0.72
//	time    18.00÷60×8  2.40             2.40
//	                    4.52             4.94
//	÷ 0.9               5.0222           5.4889
//	sleeve  21.00÷50    0.42             0.42
//	time    18.00÷60×2  0.60             0.60
//	mailer  33.00÷50    0.66  45.00÷50   0.90
//	goods               6.7022           7.4089
//	× 5                33.5111          37.0444
//	least cent         33.52            37.05
//
// With the new paper alone 35.8444, so 35.85, with the new mailer alone 34.7111, so
// 34.72. Paper first moves it by 35.85 − 33.52 = 2.33, paper last by 37.05 − 34.72 =
// 2.33; the mailer by 1.20 first and last.
func TestFloorOnPaper(t *testing.T) {
	floors := found(t).Review.Floors
	f := floors[slices.IndexFunc(floors, func(f review.Floor) bool { return f.Product == "bittern-a3" })]
	if f.Before.String() != "33.52" || f.After.String() != "37.05" {
		t.Errorf("the floor was %v and is %v, want 33.52 and 37.05", f.Before, f.After)
	}
	got := map[string]string{}
	for _, s := range f.Shares {
		got[s.Inputs[0]] = s.By.String()
	}
	if len(got) != 2 || got[`supplies["paper"].price`] != "2.33" || got[`supplies["mailer"].price`] != "1.20" {
		t.Errorf("shares are %v", got)
	}
}

// One to raise, one to leave, one to wait with. From 15.50 to 17.00 is 9.7%, from
// 34.00 to 37.50 10.3%; the dearest half within a tenth of 34.00 is 37.00.
func TestAdvice(t *testing.T) {
	want := map[string]string{"bittern-a5": "raise 17.00 17.00", "bittern-a4": "stay 24.00 24.00", "bittern-a3": "wait 37.00 37.50"}
	for _, m := range found(t).Review.Moves {
		if got := fmt.Sprintf("%s %.2f %.2f", m.Advice, m.Now, m.Decided); got != want[m.Product] {
			t.Errorf("%s: %s, want %s", m.Product, got, want[m.Product])
		}
	}
}

// Exact limits of a Poisson count at 95%: 9 has 4.115 to 17.085 and 12 has 6.201 to
// 20.962 (Garwood's table, Biometrika 28, 1936; from memory). Over 640 visits that
// is 0.643% to 2.670%, and 0.969% to 3.275%.
func TestRatesByTable(t *testing.T) {
	web := comparison(t, "27.00")
	if web.Answer != trial.CannotTell || len(web.Groups) != 1 || len(web.LeftOut) != 2 {
		t.Fatalf("%s of %d groups, %d left out", web.Answer, len(web.Groups), len(web.LeftOut))
	}
	g := web.Groups[0]
	for _, c := range []struct {
		units  int64
		rate   trial.Rate
		expect string
	}{
		{g.A.Units, g.Once.A.Rate, "9: 1.406 0.643 2.670"},
		{g.B.Units, g.Once.B.Rate, "12: 1.875 0.969 3.275"},
	} {
		of := func(f quoin.Factor) quoin.Factor { return f.Times(quoin.FactorOf(100)) }
		got := fmt.Sprintf("%d: %.3f %.3f %.3f", c.units, of(c.rate.Value), of(c.rate.Interval.Low), of(c.rate.Interval.High))
		if got != c.expect {
			t.Errorf("got %s, want %s", got, c.expect)
		}
	}
}

func comparison(t *testing.T, price string) trial.Comparison {
	t.Helper()
	all := found(t).Trials
	i := slices.IndexFunc(all, func(c annual.TriedPrice) bool { return c.Price.Equal(quoin.MustAmount(price)) })
	if i < 0 {
		t.Fatalf("no trial at %s", price)
	}
	return all[i].Comparison
}

// At the fair an A4 print for 24.00 brings 24.00 ÷ 1.2 = 20.00. Its goods are paper
// 91.00 ÷ 25 ÷ 4 = 0.91, ink 0.36, time 1.20, so 2.47 ÷ 0.9 = 2.7444, and a sleeve of
// 0.42: 3.1644. Seven of ten pay by card, at 1.6% of 24.00 = 0.38: 0.266. That keeps
// 16.5696. 27 + 31 = 58 were sold to 260 + 250 = 510 visitors: 188.44 for a hundred.
//
// For 32.00 the tax is 5.33, to the cent: 26.67 − 3.1644 − 0.7 × 0.51 = 23.1486, and 16
// to 510: 72.62.
func TestFairOnPaper(t *testing.T) {
	fair := comparison(t, "32.00")
	if fair.Answer != trial.Worse || len(fair.Groups) != 1 {
		t.Fatalf("%s of %d groups", fair.Answer, len(fair.Groups))
	}
	once := fair.Groups[0].Once
	hundred := quoin.FactorOf(100)
	if got := fmt.Sprintf("%.2f %.2f", once.A.Earnings.Times(hundred), once.B.Earnings.Times(hundred)); got != "72.62 188.44" {
		t.Errorf("a hundred visitors earn %s", got)
	}
}

// A reduction without a channel is looked up in each: the print was 34.00 where nothing
// else was said, and 27.00 on the web until 20 May, within the thirty days.
func TestReducedEverywhere(t *testing.T) {
	records, err := history.ReadAll(strings.NewReader(`{"record":"price","product":"bittern-a3","price":"34.00","from":"2025-11-15"}
{"record":"price","product":"bittern-a3","channel":"own-shop","price":"27.00","from":"2026-02-01","until":"2026-05-20"}
{"record":"reduction","product":"bittern-a3","price":"25.00","from":"2026-06-12","until":"2026-06-26"}
`))
	if err != nil {
		t.Fatal(err)
	}
	h, err := history.New(records)
	if err != nil {
		t.Fatal(err)
	}
	all, err := annual.Reduced(annual.Year{History: h})
	if err != nil {
		t.Fatal(err)
	}
	got := ""
	for _, l := range all {
		got += fmt.Sprintf("%q %s; ", l.Channel, l.Price)
	}
	if want := `"" 34.00; "own-shop" 27.00; `; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

// Thirty days before 12 June begin on 13 May; until 20 May the price was 32.00.
func TestLowestBeforeReduction(t *testing.T) {
	all := found(t).Reduced
	if len(all) != 1 {
		t.Fatalf("found %d reductions", len(all))
	}
	if l := all[0]; l.Window.From.String() != "2026-05-13" || l.Price.String() != "32.00" || l.Covered != 30 {
		t.Errorf("from %s, %v, %d days", l.Window.From, l.Price, l.Covered)
	}
}
