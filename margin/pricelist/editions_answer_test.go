package pricelist_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/edition"
	"example.com/quoin/margin/pricelist"
)

// An edition of 30, of which five are sold, of a print with goods of 4.00 at 20.00:
// from ten sold on 1.27 times, 25.40 raised to the next whole price; from twenty on 1.55
// times, 31.00, which is above 30.00. The shop takes 10%, the shelf nothing. All
// invented.
const limitedEdition = `{
  "version": 1, "currency": "EUR", "price_limit": "60.00",
  "supplies": [{"id": "kit", "quantity": "10 kit", "price": "40.00"}],
  "products": [{"id": "bittern", "bill": [{"supply": "kit", "quantity": "1 kit"}]}],
  "channels": [{"id": "shelf"}, {"id": "shop", "fees": [{"name": "payment", "rate": "10%"}]}],
  "editions": [{"id": "marsh", "products": ["bittern"], "size": 30, "proofs": 3, "sold": 5, "per_month": "2",
    "steps": [{"sold": 0, "times": "1"}, {"sold": 10, "times": "1.27"}, {"sold": 20, "times": "1.55", "per_month": "1"}]}],
  "edition_limits": [
    {"name": "small editions", "at_most": 30}, {"name": "with proofs", "at_most": 32, "proofs": true, "source": "invented"}
  ],
  "rules": [
    {"id": "from twenty", "rule": "price", "at_least": "20.00"},
    {"id": "up to thirty", "rule": "price", "at_most": "30.00"},
    {"id": "whole", "rule": "ending", "ends_in": ["0.00"]}
  ]
}`

func risingSteps(r pricelist.EditionPrices) string {
	var out []string
	for _, s := range r.Steps {
		out = append(out, fmt.Sprintf("%d sold: %d at %.2f %q", s.Sold, s.Count, s.Price, s.Refused))
	}
	return strings.Join(out, "; ")
}

func TestStepsOfAnEdition(t *testing.T) {
	l := decidedShop(t, limitedEdition).Editions[0]
	r := l.Products[0]
	if got, want := risingSteps(r), `0 sold: 5 at 20.00 []; 10 sold: 10 at 26.00 []; 20 sold: 10 at 31.00 ["up to thirty"]`; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	// 5 × 20 + 10 × 26 + 10 × 31; in the shop 14.00, 19.40 and 23.90 are kept of each; 15
	// at two a month, 10 at one.
	if got, want := fmt.Sprintf("%d for %.2f, keeps %.2f, in %s months", r.Count, r.Proceeds, r.Contribution, places(r.Months, 2)), "25 for 670.00, keeps 503.00, in 17.50 months"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	n := l.Numberings[0].Numbers
	if n.Of != 30 || n.Sold != 5 || n.Free != 25 || l.Numberings[0].Proofs.Of != 3 {
		t.Errorf("numberings: %+v", l.Numberings)
	}
	var limits []string
	for _, b := range l.Limits {
		limits = append(limits, fmt.Sprintf("%s: %d of %d, %t, %q", b.Name, b.Counts, b.AtMost, b.Within, b.Source))
	}
	if got, want := strings.Join(limits, "; "), `small editions: 30 of 30, true, ""; with proofs: 33 of 32, false, "invented"`; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// The reasons have takings, what is kept and the months.
func TestEditionsAreExplained(t *testing.T) {
	r := decidedShop(t, limitedEdition).Editions[0].Products[0]
	steps := r.Reasons.Steps()
	if err := quoin.Replay(steps); err != nil {
		t.Fatal(err)
	}
	months, _ := r.Months.Get()
	for code, want := range map[quoin.StepCode]quoin.Figure{edition.StepGross: r.Proceeds.Figure(), edition.StepKept: r.Contribution.Figure(), edition.StepMonths: months.Figure()} {
		found := quoin.Find(steps, func(s quoin.Step) bool { return s.Code == code })
		if len(found) == 0 || steps[found[len(found)-1]-1].Value.Rat().Cmp(want.Rat()) != 0 {
			t.Errorf("%s: %d steps, and not %v", code, len(found), want)
		}
	}
}

// A step's own price stays as it is, and the rule on endings refuses it; a dropped
// preference refuses nothing.
func TestStepsWithPricesOfTheirOwn(t *testing.T) {
	document := strings.Replace(limitedEdition, `"times": "1.27"`, `"price": "25.40"`, 1)
	document = strings.Replace(document, `"rules": [`, `"rules": [{"id": "fifty are left", "strength": "prefer", "rule": "contribution", "at_least": "50.00"}, `, 1)
	a := decidedShop(t, document)
	if got, want := risingSteps(a.Editions[0].Products[0]), `0 sold: 5 at 20.00 []; 10 sold: 10 at 25.40 ["whole"]; 20 sold: 10 at 31.00 ["up to thirty"]`; got != want || len(a.Dropped) != 1 {
		t.Errorf("%s, want %s; dropped %q", got, want, a.Dropped)
	}
}

// Four times 20.00 is 80.00, above the limit of 60.00, and 4.01 times it 80.20: endings go on
// there, so that it is raised to the next whole price, or in whole fives to 85.00.
func TestStepsAboveTheLimit(t *testing.T) {
	for _, c := range []struct{ times, endings, want string }{
		{"4", `"ends_in": ["0.00"]`, "80.00"},
		{"4.01", `"ends_in": ["0.00"]`, "81.00"},
		{"4.01", `"ends_in": ["0.00"], "every": "5.00"`, "85.00"},
	} {
		document := strings.NewReplacer(`"times": "1.55"`, `"times": "`+c.times+`"`, `"ends_in": ["0.00"]`, c.endings).Replace(limitedEdition)
		s := decidedShop(t, document).Editions[0].Products[0].Steps[2]
		if !s.Price.Equal(quoin.MustAmount(c.want)) || strings.Join(s.Refused, " ") != "up to thirty" {
			t.Errorf("%s times, %s: %s, refused by %q, want %s", c.times, c.endings, s.Price, s.Refused, c.want)
		}
	}
}

// A step without a pace sells as many a month as the edition says, whatever the step
// before sells: 5 at five a month, 10 at two, 10 at one are 1 + 5 + 10 months.
func TestPaceOfTheEdition(t *testing.T) {
	r := decidedShop(t, strings.Replace(limitedEdition, `"times": "1"`, `"times": "1", "per_month": "5"`, 1)).Editions[0].Products[0]
	if got := places(r.Months, 2); got != "16.00" {
		t.Errorf("%s months, want 16.00", got)
	}
}

// What an edition keeps is the figure of one channel, the one that keeps least of all its
// prints. The first takes 30%: 20.00 keep 10.00, 26.00 14.20 and 31.00 17.70. The second
// takes 7.00 whatever is paid: 9.00, 15.00 and 20.00.
//
//	5 × 10.00 + 10 × 14.20 + 10 × 17.70 = 369.00
//	5 ×  9.00 + 10 × 15.00 + 10 × 20.00 = 395.00
//
// So it is 369.00, although the second channel keeps less of the first prints.
func TestKeepsOfOneChannel(t *testing.T) {
	document := strings.Replace(limitedEdition, `{"id": "shelf"}, {"id": "shop", "fees": [{"name": "payment", "rate": "10%"}]}`,
		`{"id": "share", "fees": [{"name": "share", "rate": "30%"}]}, {"id": "rent", "fees": [{"name": "rent", "fixed": "7.00"}]}`, 1)
	r := decidedShop(t, document).Editions[0].Products[0]
	if !r.Contribution.Equal(quoin.MustAmount("369.00")) || r.Channel != "share" {
		t.Errorf("keeps %s in %s, want 369.00 in share", r.Contribution, r.Channel)
	}
}

// Without steps all that are left cost what the print costs; without a pace nobody
// knows how long they take.
func TestAnEditionWithoutSteps(t *testing.T) {
	a, b, _ := strings.Cut(limitedEdition, `, "per_month": "2",`)
	_, b, _ = strings.Cut(b, `"per_month": "1"}]`)
	r := decidedShop(t, a+b).Editions[0].Products[0]
	if got, want := risingSteps(r), `0 sold: 25 at 20.00 []`; got != want || !r.Months.IsZero() || !r.Proceeds.Equal(quoin.MustAmount("500.00")) {
		t.Errorf("%s for %s, want %s", got, r.Proceeds, want)
	}
}

// The next print is still the fifth of the first step, and the last step is dearer than
// the shop's rules allow.
func ExampleEditionStatus() {
	answer, err := pricelist.Price([]byte(limitedEdition))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range answer.Editions[0].Products[0].Steps {
		fmt.Printf("from %d sold on %.2f, %d left %v\n", s.Sold, s.Price, s.Count, s.Refused)
	}
	// Output:
	// from 0 sold on 20.00, 5 left []
	// from 10 sold on 26.00, 10 left []
	// from 20 sold on 31.00, 10 left [up to thirty]
}

// Without endings a step above the limit is asked in money, and sums are of what is asked:
// 4.00055 × 20.00 is 80.011, so 80.02, of which ten are left.
func TestStepsAboveTheLimitAreMoney(t *testing.T) {
	document := strings.NewReplacer(`"times": "1.55"`, `"times": "4.00055"`, `{"id": "whole", "rule": "ending", "ends_in": ["0.00"]}`, `{"id": "above nothing", "rule": "price", "at_least": "0.01"}`).Replace(limitedEdition)
	r := decidedShop(t, document).Editions[0].Products[0]
	// 5 × 20.00 + 10 × 25.40 + 10 × 80.02.
	if !r.Steps[2].Price.Equal(quoin.MustAmount("80.02")) || !r.Proceeds.Equal(quoin.MustAmount("1154.20")) {
		t.Errorf("%s, and %s in all", r.Steps[2].Price, r.Proceeds)
	}
}
