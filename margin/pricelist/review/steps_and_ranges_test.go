package review_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist/review"
	"example.com/quoin/margin/rule"
)

// A range is no change of a floor, which is that of the likely value, and moves no sensitivity; a
// field with another name, or without both ends, is no range.
func TestRangesDoNotTouchFloors(t *testing.T) {
	ranged := []string{`"price": "4.00"`, `"price": "4.00", "price_range": {"low": "3.00", "high": "9.00"}`}
	r := must(review.Compare(edited(t, small), nil, edited(t, small, ranged...), quoin.Rate{}))(t)
	f := floor(t, r, "heron")
	if f.Before.String() != "10.00" || f.After.String() != "10.00" || shares(f) != "" {
		t.Errorf("from %s to %s by %s", f.Before, f.After, shares(f))
	}
	if len(r.Changes) != 1 || r.Changes[0].Input != `supplies["paper"].price_range` || r.Changes[0].Floor {
		t.Errorf("%s", written(r.Changes))
	}
	for _, e := range must(review.Sensitivity(edited(t, small, ranged...), quoin.Rate{}))(t) {
		if strings.Contains(e.Input, "range") || e.Input == paper && e.Products[0].Swing.String() != "0.88" {
			t.Errorf("%s", written(e))
		}
	}
}

// Preferred endings bend a first step as far as they leave any, and are not broken rules. The small shop
// asks for 13.50: the next .90 is 13.90, and the nearest below 12.50 is 11.90; the next 50.00 lies far beyond, and none is
// within the step, so that it is 12.50, which leaves 12.50 − 2.50 − 5.80 = 4.20.
func TestStepsAndPreferences(t *testing.T) {
	prefer := func(text string) []string {
		return []string{`"4.00"`, `"5.80"`, `10%`, `20%`, `"rules": [`, `"rules": [` + text + `, `}
	}
	for _, c := range []struct {
		name, last string
		edits      []string
		want       string
	}{
		{
			"an ending", "10.00", prefer(`{"id": "ends", "rule": "ending", "ends_in": ["0.90"], "strength": "prefer"}`),
			"wait 11.90 13.90: last_price_breaks_rules rule=keeps beyond_move by=39% at_most=25% step_breaks_rules price=11.90; keeps 3.72 of 5.00",
		},
		{
			"an ending too far", "10.00", prefer(`{"id": "ends", "rule": "ending", "ends_in": ["0.00"], "every": "50.00", "strength": "prefer"}`),
			"wait 12.50 50.00: last_price_breaks_rules rule=keeps beyond_move by=400% at_most=25% step_breaks_rules price=12.50; keeps 4.20 of 5.00",
		},
		{
			"an ending for others", "10.00", prefer(`{"id": "ends", "designs": ["egret"], "rule": "ending", "ends_in": ["0.90"]}, {"id": "dear", "rule": "price", "at_least": "13.80", "strength": "prefer"}`),
			"wait 12.50 13.80: last_price_breaks_rules rule=keeps beyond_move by=38% at_most=25% step_breaks_rules price=12.50; keeps 4.20 of 5.00",
		},
		{
			"what must end goes before what is preferred", "10.00", prefer(`{"id": "nice", "rule": "ending", "ends_in": ["0.90"], "strength": "prefer"}, {"id": "must", "rule": "ending", "ends_in": ["0.50"]}`),
			"wait 12.50 13.50: last_price_breaks_rules rule=must rule=keeps beyond_move by=35% at_most=25% step_breaks_rules price=12.50; keeps 4.20 of 5.00",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			doc := small
			if strings.Contains(strings.Join(c.edits, ""), "egret") {
				doc = strings.Replace(doc, `"bill"`, `"design": "heron", "bill"`, 1)
				doc = strings.Replace(doc, `"products": [`, `"products": [{"id": "egret", "design": "egret", "bill": [{"supply": "paper", "quantity": "1 sheet"}]}, `, 1)
			}
			r := must(review.Compare(edited(t, small), map[string]quoin.Amount{"heron": amount(c.last)}, edited(t, doc, c.edits...), quoin.MustRate("25%")))(t)
			if got := told(r.Moves[len(r.Moves)-1]); got != c.want {
				t.Errorf("got  %s\nwant %s", got, c.want)
			}
		})
	}
}

// Prices that may each go another way at once are each held to their own, and those that may go as far to
// the same: a product at 13.50 is right and stays, one at 18.00 goes at most 10% to 16.20, and one at 20.00 at most
// 25% to 15.00.
func TestEachMovesByItsOwnBound(t *testing.T) {
	doc := strings.Replace(small, `"products": [{"id": "heron",`, `"products": [{"id": "a", "bill": [{"supply": "paper", "quantity": "1 sheet"}]}, {"id": "b", "bill": [{"supply": "paper", "quantity": "1 sheet"}]}, {"id": "c", "bill": [{"supply": "paper", "quantity": "1 sheet"}]}, {"id": "heron",`, 1)
	doc = strings.Replace(doc, `"rules": [`, `"rules": [{"id": "calm", "products": ["a", "c"], "rule": "max_change", "at_most": "10%"}, {"id": "calmer", "products": ["c"], "rule": "max_change", "at_most": "5%"}, `, 1)
	last := map[string]quoin.Amount{"a": amount("18.00"), "b": amount("20.00"), "c": amount("20.00"), "heron": amount("13.50")}
	r := must(review.Compare(edited(t, small), last, edited(t, doc, `"4.00"`, `"5.80"`, `10%`, `20%`), quoin.MustRate("25%")))(t)
	got := ""
	for _, m := range r.Moves {
		got += fmt.Sprintf("%s %s %s %s; ", m.Product, m.Advice, m.Now, m.Most)
	}
	if want := "a wait 16.20 10%; b wait 15.00 25%; c wait 19.00 5%; heron stay 13.50 none; "; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

// What moves a product furthest is named first, what may leave it no price before that; of equal ones the
// first; no more than three; and what moves others alone is not named.
func TestWhatMatters(t *testing.T) {
	effect := func(input, product, swing string, none bool) review.InputEffect {
		return review.InputEffect{Input: input, Products: []review.Swing{{Product: "other", Swing: amount("9.00")}, {Product: product, Swing: amount(swing), NoPrice: none}}}
	}
	for name, c := range map[string]struct {
		all  []review.InputEffect
		want string
	}{
		"by swing":         {[]review.InputEffect{effect("a", "heron", "1.00", false), effect("b", "heron", "3.00", false), effect("c", "heron", "2.00", false), effect("d", "heron", "4.00", false)}, "d b c"},
		"no price first":   {[]review.InputEffect{effect("a", "heron", "1.00", false), effect("b", "heron", "0.00", true), effect("c", "heron", "2.00", false), effect("d", "heron", "0.50", true)}, "d b c"},
		"equal ones":       {[]review.InputEffect{effect("b", "heron", "1.00", false), effect("a", "heron", "1.00", false)}, "b a"},
		"others and still": {[]review.InputEffect{effect("a", "egret", "1.00", false), effect("b", "heron", "0.00", false), effect("c", "heron", "0.01", false)}, "c"},
	} {
		var got []string
		for _, e := range review.Matter(c.all, "heron") {
			got = append(got, e.Input)
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%s: %v, want %s", name, got, c.want)
		}
	}
}

// Of nine changes, too many to try in every order, two act together: a packet of two for 8.00 instead of one for 4.00
// costs a sheet as much. The price first moves the floor from 10.00 by 4.44 and last by 10.00 − 7.78 = 2.22, so by
// 3.33, and the quantity by −3.33, as in TestShares; seven other supplies move nothing.
func TestNineChangesAreToldFirstAndLast(t *testing.T) {
	last, now := small, strings.Replace(small, `"1 sheet", "price": "4.00"`, `"2 sheet", "price": "8.00"`, 1)
	for i := range 7 {
		supply := fmt.Sprintf(`"supplies": [{"id": "s%d", "quantity": "1 sheet", "price": "%%d.00"}, `, i)
		last, now = strings.Replace(last, `"supplies": [`, fmt.Sprintf(supply, 1), 1), strings.Replace(now, `"supplies": [`, fmt.Sprintf(supply, 2), 1)
	}
	r := must(review.Compare(edited(t, last), nil, edited(t, now), quoin.Rate{}))(t)
	if f := floor(t, r, "heron"); r.Method != review.FirstAndLast || shares(f) != `supplies["paper"].price 3.33; supplies["paper"].quantity -3.33` {
		t.Errorf("%s: %s", r.Method, shares(f))
	}
	// With a second sheet and a fee of 20% four act together, and what first and last leave is theirs together: all of it
	// is (5.00 + 8.00) ÷ 0.8 = 16.25, 6.25 more than 10.00.
	four := strings.NewReplacer(`"heron", "bill": [{"supply": "paper", "quantity": "1 sheet"}]`, `"heron", "bill": [{"supply": "paper", "quantity": "2 sheet"}]`, "10%", "20%").Replace(now)
	r = must(review.Compare(edited(t, last), nil, edited(t, four), quoin.Rate{}))(t)
	f := floor(t, r, "heron")
	var sum quoin.Amount
	for _, s := range f.Shares {
		sum = sum.Add(s.By)
	}
	if f.Together != nil {
		sum = sum.Add(f.Together.By)
	}
	if r.Method != review.FirstAndLast || f.Together == nil || !sum.Equal(amount("6.25")) || !f.After.Or(quoin.Amount{}).Equal(amount("16.25")) {
		t.Errorf("%s: to %s by %s", r.Method, f.After, shares(f))
	}
}

// Preferred rules give way for all products together, so a change may move any.
func TestPreferencesGiveWayTogether(t *testing.T) {
	doc := strings.Replace(small, `"products": [`, `"products": [{"id": "egret", "bill": []}, `, 1)
	now := edited(t, doc, `"4.00"`, `"5.80"`)
	if n := review.Reached(edited(t, doc), now); n != 1 {
		t.Errorf("%d changes reach some products alone", n)
	}
	last, preferring := edited(t, doc), now
	last.Rules, preferring.Rules = append(last.Rules[:1:1], rule.Rule{ID: "nice", Strength: rule.Prefer, Kind: rule.Contribution{AtLeast: amount("6.00")}}), append(now.Rules[:1:1], rule.Rule{ID: "nice", Strength: rule.Prefer, Kind: rule.Contribution{AtLeast: amount("6.00")}})
	if n := review.Reached(last, preferring); n != 0 {
		t.Errorf("%d changes reach some products alone, though a rule may give way", n)
	}
}
