package review_test

import (
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist/review"
	"example.com/quoin/margin/rule"
)

// TestMoves: the small shop a year later asks for 13.50 at least: paper at 5.80 and a fee
// of 20%, (5.00 + 5.80) ÷ 0.8. A price p leaves 0.8 p − 5.80.
func TestMoves(t *testing.T) {
	dearer := []string{`"4.00"`, `"5.80"`, `10%`, `20%`}
	rules := func(text string) []string { return append(dearer[:4:4], `"rules": [`, `"rules": [`+text+`, `) }
	for _, c := range []struct {
		name, last, move string
		edits            []string
		want             string // advice, price now, decided price: reasons; rules that a step leaves broken
	}{
		{"a step now", "10.00", "25%", dearer, "wait 12.50 13.50: last_price_breaks_rules rule=keeps beyond_move by=35% at_most=25% step_breaks_rules price=12.50; keeps 4.20 of 5.00"},
		{"at once", "12.00", "25%", dearer, "raise 13.50 13.50: last_price_breaks_rules rule=keeps within_move by=12.5% at_most=25%; "},
		{"right already", "13.50", "25%", dearer, "stay 13.50 13.50: last_price_still_holds; "},
		{"down by a step", "20.00", "25%", dearer, "wait 15.00 13.50: last_price_still_holds beyond_move by=-32.5% at_most=25% step_keeps_rules price=15.00; "},
		{"as far as it has to", "10.00", "0%", dearer, "raise 13.50 13.50: last_price_breaks_rules rule=keeps; "},
		{"a step that ends well", "10.00", "25%", rules(`{"id": "ends", "rule": "ending", "ends_in": ["0.90"]}`), "wait 11.90 13.90: last_price_breaks_rules rule=ends rule=keeps beyond_move by=39% at_most=25% step_breaks_rules price=11.90; keeps 3.72 of 5.00"},
		{"no step that ends well", "13.00", "25%", rules(`{"id": "tens", "rule": "ending", "ends_in": ["0.00"], "every": "10.00"}`), "wait 13.00 20.00: last_price_breaks_rules rule=tens rule=keeps beyond_move by=53.85% at_most=25% no_step price=13.00; tens 3.00 of 0.00, keeps 4.60 of 5.00"},
		{"the document's own bound", "10.00", "25%", rules(`{"id": "calm", "rule": "max_change", "at_most": "10%"}`), "wait 11.00 13.50: last_price_breaks_rules rule=keeps beyond_move by=35% at_most=10% step_breaks_rules price=11.00; keeps 3.00 of 5.00"},
		{"nearest to the last", "20.00", "25%", append(dearer[:4:4], `"choose": "least",`, ``), "stay 20.00 20.00: last_price_still_holds; "},
	} {
		t.Run(c.name, func(t *testing.T) {
			last := map[string]quoin.Amount{"heron": amount(c.last)}
			r := must(review.Compare(edited(t, small), last, edited(t, small, c.edits...), quoin.MustRate(c.move)))(t)
			if got := told(r.Moves[0]); got != c.want {
				t.Errorf("got  %s\nwant %s", got, c.want)
			}
		})
	}
}

func told(m review.Proposal) string {
	out := string(m.Advice) + " " + m.Now.String() + " " + m.Decided.String() + ":"
	for _, r := range m.Reasons {
		out += " " + string(r.Code)
		for _, a := range r.Args {
			out += " " + a.Name + "=" + a.Value
		}
	}
	var still []string
	for _, b := range m.Still {
		still = append(still, b.Rule+" "+b.Got+" of "+b.Asked)
	}
	return out + "; " + strings.Join(still, ", ")
}

// TestVolumes: at 12.00 a sale leaves 3.80 by the new costs, at 13.50 it leaves 5.00: 0.76 of
// the sales are enough. On the way down from 20.00, which leaves 10.20, to 15.00, which leaves
// 6.20, it takes 1.645161 for each.
func TestVolumes(t *testing.T) {
	now := edited(t, small, `"4.00"`, `"5.80"`, `10%`, `20%`)
	for last, want := range map[string]string{
		"12.00": `[{"channel":"web","before":"3.80","after":"5.00","needed":"0.76","may_lose":"24%"}]`,
		"20.00": `[{"channel":"web","before":"10.20","after":"6.20","needed":"1.645161290323"}]`,
		// 5.00 − 1.00 − 5.80 is a loss: whatever stays away is a gain, and there is nothing to make up for.
		"5.00":  `[{"channel":"web","before":"-1.80","after":"-0.80"}]`,
		"13.50": `null`,
	} {
		r := must(review.Compare(now, map[string]quoin.Amount{"heron": amount(last)}, now, quoin.MustRate("25%")))(t)
		if got := written(r.Moves[0].Volumes); got != want {
			t.Errorf("from %s: got %s, want %s", last, got, want)
		}
	}
}

// TestVolumesThatChangeNothing: at the fair both 12.00 and 13.50 are asked as 10.00, which
// leaves 4.20 after 5.80 of paper: nobody may stay away. On the way down nothing is said.
func TestVolumesThatChangeNothing(t *testing.T) {
	now := edited(t, small, `"4.00"`, `"5.80"`, `10%`, `20%`, `"channels": [`, `"channels": [{"id": "fair", "price_points": {"step": "10.00"}}, `, `"rule": "contribution"`, `"channels": ["web"], "rule": "contribution"`)
	for last, want := range map[string]string{
		"12.00": `{"channel":"fair","before":"4.20","after":"4.20","needed":"1","may_lose":"0%"}`,
		"14.00": `{"channel":"fair","before":"4.20","after":"4.20","needed":"1"}`,
	} {
		now.Choose = rule.Least
		r := must(review.Compare(now, map[string]quoin.Amount{"heron": amount(last)}, now, quoin.MustRate("25%")))(t)
		if m := r.Moves[0]; !m.Now.Equal(amount("13.50")) || written(m.Volumes[0]) != want {
			t.Errorf("from %s to %s: got %s, want %s", last, m.Now, written(m.Volumes), want)
		}
	}
}

func TestBrokenByLastPrices(t *testing.T) {
	now := edited(t, small, `"4.00"`, `"5.80"`, `10%`, `20%`)
	r := must(review.Compare(now, map[string]quoin.Amount{"heron": amount("12.00")}, now, quoin.Rate{}))(t)
	want := `[{"product":"heron","price":"12.00","rule":"keeps","channel":"web","asked":"5.00","got":"3.80","bound":"at_least"}]`
	if got := written(r.Broken); got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

// TestLadders: a larger size, made like the smaller, has to cost 1.5 times as much, at
// least, or 1.2 times, at most.
func TestLadders(t *testing.T) {
	ladder := func(bounds string) string {
		return strings.NewReplacer(`"products": [`, `"products": [{"id": "crane", "bill": [{"supply": "paper", "quantity": "1 sheet"}]}, `,
			`"rules": [`, `"rules": [{"id": "sizes", "rule": "size_ratio", "products": ["heron", "crane"], `+bounds+`}, `,
			`"4.00"`, `"5.80"`, `10%`, `20%`).Replace(small)
	}
	for _, c := range []struct{ bounds, heron, crane, wantHeron, wantCrane string }{
		{
			`"at_least": "1.5"`, "10.00", "20.00",
			"wait 12.50 13.50: last_price_breaks_rules rule=keeps beyond_move by=35% at_most=25% step_breaks_rules price=12.50; keeps 4.20 of 5.00",
			"raise 20.25 20.25: last_price_still_holds within_move by=1.25% at_most=25%; ",
		},
		{
			`"at_least": "1.5"`, "13.50", "10.00",
			"stay 13.50 13.50: last_price_still_holds; ",
			"wait 12.50 20.25: last_price_breaks_rules rule=keeps rule=sizes beyond_move by=102.5% at_most=25% step_breaks_rules price=12.50; keeps 4.20 of 5.00, sizes  of ",
		},
		// Both could stay near their last prices, but not together: 1.2 × 16.87 is 20.24, and 22.50
		// is as far as the crane may come down.
		{
			`"at_most": "1.2"`, "13.50", "30.00",
			"stay 13.50 13.50: last_price_still_holds; ",
			"wait 22.50 13.50: last_price_breaks_rules rule=sizes beyond_move by=-55% at_most=25% step_breaks_rules price=22.50; sizes  of ",
		},
	} {
		doc := edited(t, ladder(c.bounds))
		r := must(review.Compare(doc, map[string]quoin.Amount{"heron": amount(c.heron), "crane": amount(c.crane)}, doc, quoin.MustRate("25%")))(t)
		if got := told(r.Moves[1]); got != c.wantHeron {
			t.Errorf("heron: got  %s\nwant %s", got, c.wantHeron)
		}
		if got := told(r.Moves[0]); got != c.wantCrane {
			t.Errorf("crane: got  %s\nwant %s", got, c.wantCrane)
		}
	}
}
