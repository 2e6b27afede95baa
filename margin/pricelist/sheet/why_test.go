package sheet_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/sheet"
)

const twoWays = `{"version": 1, "currency": "EUR", "overhead": {"cost": "30.00", "items": 20},
	"supplies": [{"id": "paper", "quantity": "50 sheet", "price": "64.00"}],
	"channels": [{"id": "web", "fees": [{"name": "card", "rate": "3%"}]}, {"id": "fair"}],
	"products": [{"id": "curlew", "price": "20.00", "bill": [{"supply": "paper", "quantity": "1 sheet"}]}],
	"rules": [{"id": "as today", "rule": "price", "at_least": "20.00", "at_most": "20.00"}]}`

// What a print costs is said once and referred to from each channel; numbers run through the whole story, and a step
// refers to none behind it.
func TestWhySaysGoodsOnce(t *testing.T) {
	a, err := pricelist.Price([]byte(twoWays))
	if err != nil {
		t.Fatal(err)
	}
	both, ok := sheet.Why(a, "curlew", 400)
	if !ok {
		t.Fatal("no story")
	}
	for what, times := range map[string]int{"landed cost, paper": 1, "goods per item =": 1, "overhead = cost 30.00": 1, "fee, card": 1, "order cost =": 2} {
		if got := strings.Count(both, what); got != times {
			t.Errorf("%q stands there %d times, wanted %d:\n%s", what, got, times, both)
		}
	}
	one, ok := sheet.WhyIn(a, "curlew", "fair", 400)
	if !ok || strings.Contains(one, "card") || !strings.Contains(one, "landed cost, paper") || strings.Contains(one, "web: one item") {
		t.Errorf("in one channel: %t\n%s", ok, one)
	}
	for _, story := range []string{both, one} {
		numbered(t, story)
	}
	for _, of := range [][2]string{{"curlew", "shop"}, {"heron", "fair"}} {
		if _, ok := sheet.WhyIn(a, of[0], of[1], 80); ok {
			t.Errorf("a story of %s in %s", of[0], of[1])
		}
	}
}

// One kind of order needs no average: its sums are those of the channel. Two kinds are weighed, each line by line.
func TestWhyWeighsNothingAlone(t *testing.T) {
	two := strings.Replace(twoWays, `{"id": "fair"}`, `{"id": "fair", "orders": [{"share": "75%"}, {"share": "25%", "items": 2}]}`, 1)
	for doc, times := range map[string]int{twoWays: 0, two: 4} { // revenue, tax, goods and fees; nothing is posted
		a, err := pricelist.Price([]byte(doc))
		if err != nil {
			t.Fatal(err)
		}
		story, _ := sheet.WhyIn(a, "curlew", "fair", 400)
		if got := strings.Count(story, "  weighted total = "); got < times || times == 0 && got > 0 {
			t.Errorf("%d sums are weighed, wanted %d:\n%s", got, times, story)
		}
		if one := "revenue = order revenue ["; (times == 0) != strings.Contains(story, one) {
			t.Errorf("%q:\n%s", one, story)
		}
		numbered(t, story)
	}
}

// A total of one figure weighed by less than 100% says something, and is told: 3% of the one tier that an order of 20.00
// reaches is 0.60.
func TestWhyWeighsOneTier(t *testing.T) {
	tiered := strings.Replace(twoWays, `"rate": "3%"`, `"tiers": [{"from": "0", "rate": "3%"}, {"from": "50.00", "rate": "2%"}]`, 1)
	a, err := pricelist.Price([]byte(tiered))
	if err != nil {
		t.Fatal(err)
	}
	story, _ := sheet.WhyIn(a, "curlew", "web", 400)
	if !regexp.MustCompile(`fee rated, card = fee slice \[\d+\] 20.00 x tier rate 3% = 0.60`).MatchString(story) {
		t.Errorf("nothing is 3%% of 20.00:\n%s", story)
	}
	numbered(t, story)
}

func numbered(t *testing.T, story string) {
	t.Helper()
	n := 0
	for line := range strings.Lines(story) {
		var at int
		if _, err := fmt.Sscanf(line, "%d  ", &at); err != nil {
			continue
		}
		if n++; at != n {
			t.Errorf("line %d is numbered %d", n, at)
		}
		for _, ref := range regexp.MustCompile(`\[(\d+)\] `).FindAllStringSubmatch(line, -1) {
			if to := 0; ref[1] != "" {
				fmt.Sscan(ref[1], &to)
				if to >= n || to == 0 {
					t.Errorf("step %d refers to step %d", n, to)
				}
			}
		}
	}
	if n < 10 {
		t.Errorf("%d steps", n)
	}
}
