package pricelist_test

import (
	"encoding/json"
	"math/big"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

func TestRefusalsAreTrue(t *testing.T)      { t.Parallel(); rapid.Check(t, refusalsAreTrue) }
func TestDeadZonesAreDead(t *testing.T)     { t.Parallel(); rapid.Check(t, deadZonesAreDead) }
func TestRemediesEndConflicts(t *testing.T) { t.Parallel(); rapid.Check(t, remediesEndConflicts) }

// refusalsAreTrue: the prices named beside a decided one are not allowed, what
// lies between is, and every refusal, also of the neighbours on a ladder, says
// what the rule says when it is evaluated forward.
func refusalsAreTrue(t *rapid.T) {
	doc := drawn(t)
	items := must(doc.Items(rule.Likely))(t)
	a := must(pricelist.Decide(doc))(t)
	for i, p := range a.Products {
		for _, beside := range []pricelist.WhyNot{p.Lower, p.Higher} {
			why, ok := beside.Why()
			if ok == beside.IsZero() {
				t.Fatalf("%s: reasons %t, and zero %t", p.ID, ok, beside.IsZero())
			}
			if !ok {
				continue
			}
			if p.Allowed.Contains(why.Price) || len(why.By) == 0 {
				t.Fatalf("%s: %v is allowed %t, refused by %v", p.ID, why.Price, p.Allowed.Contains(why.Price), why.By)
			}
			for _, r := range why.By {
				refused(t, doc, items, items[i].ID, why.Price, r)
			}
		}
	}
}

func refused(t *rapid.T, doc pricelist.Document, items []rule.Item, product string, price quoin.Amount, r rule.Refusal) {
	if r.Product != product || !r.Price.Equal(price) {
		t.Fatalf("a refusal of %s at %v stands under %s at %v", r.Product, r.Price, product, price)
	}
	ru := doc.Rules[slices.IndexFunc(doc.Rules, func(ru rule.Rule) bool { return ru.ID == r.Rule })]
	it := items[slices.IndexFunc(items, func(it rule.Item) bool { return it.ID == product })]
	if _, step := ru.Kind.(rule.SizeRatio); !step && ru.Holds(it, price) {
		t.Fatalf("%q is said to refuse %s %v, and allows it", r.Rule, product, price)
	}
	short := new(big.Rat).Sub(r.Got.Rat(), r.Asked.Rat()).Sign()
	if r.Got.Kind() == r.Asked.Kind() && (r.Bound == rule.AtLeast && short > 0 || r.Bound == rule.AtMost && short < 0) {
		t.Fatalf("%q: %v asked %s, %v got, and refused", r.Rule, r.Asked, r.Bound, r.Got)
	}
	for _, b := range r.Because {
		refused(t, doc, items, r.Neighbour, r.Because[0].Price, b)
	}
}

// deadZonesAreDead: a zone holds a price, every price in it keeps less than the one before
// it, and the first one after it does not. Where a price keeps less than the one below it, by
// more than rounding to cents takes, it lies in a zone.
func deadZonesAreDead(t *rapid.T) {
	doc := rapid.SampledFrom([]func(*rapid.T) pricelist.Document{drawn, drawnWays}).Draw(t, "kind of document")(t)
	items := must(doc.Items(rule.Likely))(t)
	for _, it := range items {
		for _, o := range it.Offers {
			zones := must(rule.DeadZones(it.Grid, o))(t)
			for _, z := range zones {
				dead(t, it.Grid, o, z)
			}
			fallsLieInZones(t, it.Grid, o, zones)
		}
	}
}

func fallsLieInZones(t *rapid.T, g quoin.Grid, o rule.Offer, zones []rule.DeadZone) {
	curve := o.Curve()
	for n := 1; n < len(curve); n++ {
		first := g.Price(curve[n].First)
		drop := o.Sale.At(first.Sub(g.Step())).Contribution.Sub(o.Sale.At(first).Contribution)
		if drop.Cmp(curve[n-1].Cents.Add(curve[n].Cents)) <= 0 {
			continue
		}
		if !slices.ContainsFunc(zones, func(z rule.DeadZone) bool { return z.Holds(first) }) {
			t.Fatalf("%v in %s keeps %v less than the price below it, and lies in none of %v", first, o.Channel, drop, zones)
		}
	}
}

func dead(t *rapid.T, g quoin.Grid, o rule.Offer, z rule.DeadZone) {
	if !o.Sale.At(z.After).Contribution.Equal(z.Contribution) || z.After.Cmp(z.First) >= 0 {
		t.Fatalf("%v keeps %v, not %v", z.After, o.Sale.At(z.After).Contribution, z.Contribution)
	}
	if z.First.Cmp(z.Last) > 0 {
		t.Fatalf("a zone from %v to %v holds no price", z.First, z.Last)
	}
	for i := g.Ceil(z.First); i <= g.Floor(z.Last); i++ {
		if kept := o.Sale.At(g.Price(i)).Contribution; kept.Cmp(z.Contribution) >= 0 {
			t.Fatalf("%v in %s keeps %v, and %v keeps %v", g.Price(i), o.Channel, kept, z.After, z.Contribution)
		}
	}
	again, ok := z.Again.Get()
	if ok && o.Sale.At(again).Contribution.Cmp(z.Contribution) < 0 {
		t.Fatalf("%v does not pay again", again)
	}
}

// remediesEndConflicts: with a fee, a discount or a rule changed as said, the
// group of rules holds together.
func remediesEndConflicts(t *rapid.T) {
	doc := drawn(t)
	a := must(pricelist.Decide(doc))(t)
	for _, r := range a.Remedies {
		if r.Change == pricelist.GoodsTo {
			continue // of one product, not of the document
		}
		again := changed(t, doc, r)
		again.Rules = slices.DeleteFunc(again.Rules, func(ru rule.Rule) bool { return !slices.Contains(a.Conflict, ru.ID) })
		if b := must(pricelist.Decide(again))(t); len(b.Conflict) > 0 {
			t.Fatalf("after %s from %v to %v, %q still conflict", r.Path, r.From, r.To, b.Conflict)
		}
	}
}

// changed writes the remedy into the document's JSON, where its path points.
func changed(t *rapid.T, doc pricelist.Document, r pricelist.Remedy) pricelist.Document {
	out := must(json.Marshal(doc))(t)
	var tree any
	if err := json.Unmarshal(out, &tree); err != nil {
		t.Fatal(err)
	}
	set(t, tree, r.Path, r.To.String())
	return must(pricelist.Decode(must(json.Marshal(tree))(t)))(t)
}

// What is known about the worked cases of the trade.
func TestCliffOfTheCommission(t *testing.T) {
	doc, err := pricelist.Decode(read(t)["03-cliff-in-the-commission"])
	if err != nil {
		t.Fatal(err)
	}
	doc.Rules = []rule.Rule{{ID: "from", Kind: rule.Price{AtLeast: quoin.Some(quoin.MustAmount("12.40"))}}}
	a, err := pricelist.Decide(doc)
	if err != nil {
		t.Fatal(err)
	}
	zones := a.Products[0].Channels[0].DeadZones
	if len(zones) != 1 {
		t.Fatalf("%d dead zones, want 1", len(zones))
	}
	// Worked by hand: 6% up to 12, 14% of the whole above; 12.00 keeps 11.28, and
	// so does 13.12 again, 1.8368 being 1.84.
	for _, c := range []struct{ what, got, want string }{
		{"after", zones[0].After.String(), "12.00"},
		{"first", zones[0].First.String(), "12.01"},
		{"last", zones[0].Last.String(), "13.11"},
		{"again", zones[0].Again.Or(quoin.Amount{}).String(), "13.12"},
	} {
		if c.got != c.want {
			t.Errorf("%s: %s, want %s", c.what, c.got, c.want)
		}
	}
	if !slices.ContainsFunc(a.Warnings, func(w quoin.Problem) bool { return w.Code == pricelist.InDeadZone }) {
		t.Errorf("no warning that 12.40 lies in the zone: %v", a.Warnings)
	}
}

func TestNothingFitsSaysWhatWould(t *testing.T) {
	a, err := pricelist.Price(read(t)["04-nothing-fits"])
	if err != nil {
		t.Fatal(err)
	}
	// The multiple is 6 times the goods of the dearest channel, 5.0366 and
	// 8.3068 (worked out independently for case 02): floors of 30.22 and 49.85.
	// The market ends at 26.90 and 42.00, so goods of a sixth of that would do,
	// or a multiple of 42.00 ÷ 8.3068 = 5.056.
	got := make(map[string]string)
	for _, g := range a.Gaps {
		got[g.Product+" floor"], got[g.Product+" ceiling"] = g.Floor.String(), g.Ceiling.String()
	}
	for _, r := range a.Remedies {
		got[r.Path] = r.To.String()
	}
	for what, want := range map[string]string{
		"warbler-a4 floor": "30.22", "warbler-a4 ceiling": "26.90", "warbler-a3 floor": "49.85", "warbler-a3 ceiling": "42.00",
		"products[0]": "4.48", "products[1]": "7.00", "rules[0].at_least": "5.05",
	} {
		if got[what] != want {
			t.Errorf("%s: %q, want %q", what, got[what], want)
		}
	}
}

// Filters keep the list and say which of its steps.
func TestFilters(t *testing.T) {
	a, err := pricelist.Price(read(t)["02-two-sizes-four-channels"])
	if err != nil {
		t.Fatal(err)
	}
	steps := a.Products[0].Channels[1].Steps.Steps()
	fees := quoin.Find(steps, channel.IsFee)
	// Four fees with a charge and what counts of it each, two of them with tax
	// on the fee and its sum, three of a base of two parts, three rates and one
	// fixed amount for each item, and their sum: 8 + 4 + 3 + 4 + 1 + 1.
	if len(fees) != 21 {
		t.Errorf("%d steps of fees, want 21", len(fees))
	}
	goods := quoin.Find(steps, func(s quoin.Step) bool { return s.Code == margin.StepGoods })
	for _, n := range quoin.Ancestors(steps, goods...) {
		if channel.IsFee(steps[n-1]) {
			t.Errorf("goods rest on a fee, step %d", n)
		}
	}
	defaults := quoin.OnDefault(steps)
	if !slices.Contains(defaults, len(steps)) {
		t.Error("net rests on no default, though the document leaves the exchange out")
	}
	if first := quoin.Find(steps, func(s quoin.Step) bool { return s.Code == "starts" }); slices.Contains(defaults, first[0]) {
		t.Error("starts rest on a default, though both yields are given")
	}
}
