package pricelist_test

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
	"example.com/quoin/waste"
)

// Each law is a property and a fuzz target.

func TestAgreesWithOracle(t *testing.T) { t.Parallel(); rapid.Check(t, agreesWithOracle) }
func FuzzAgreesWithOracle(f *testing.F) { f.Fuzz(rapid.MakeFuzz(agreesWithOracle)) }

func TestAgreesWithOracleBesideOthers(t *testing.T) { t.Parallel(); rapid.Check(t, agreesBesideOthers) }
func FuzzAgreesWithOracleBesideOthers(f *testing.F) { f.Fuzz(rapid.MakeFuzz(agreesBesideOthers)) }

func TestStatementsOnlyGoDown(t *testing.T) { t.Parallel(); rapid.Check(t, statementsOnlyGoDown) }
func FuzzStatementsOnlyGoDown(f *testing.F) { f.Fuzz(rapid.MakeFuzz(statementsOnlyGoDown)) }

func TestAllowedIsWhatRulesAllow(t *testing.T) { t.Parallel(); rapid.Check(t, allowedIsWhatRulesAllow) }
func FuzzAllowedIsWhatRulesAllow(f *testing.F) { f.Fuzz(rapid.MakeFuzz(allowedIsWhatRulesAllow)) }

func TestDearerNeverLowers(t *testing.T) { t.Parallel(); rapid.Check(t, dearerNeverLowers) }
func FuzzDearerNeverLowers(f *testing.F) { f.Fuzz(rapid.MakeFuzz(dearerNeverLowers)) }

func TestUnitsChangeNothing(t *testing.T) { t.Parallel(); rapid.Check(t, unitsChangeNothing) }
func FuzzUnitsChangeNothing(f *testing.F) { f.Fuzz(rapid.MakeFuzz(unitsChangeNothing)) }

func TestOrderChangesNothing(t *testing.T) { t.Parallel(); rapid.Check(t, orderChangesNothing) }
func FuzzOrderChangesNothing(f *testing.F) { f.Fuzz(rapid.MakeFuzz(orderChangesNothing)) }

func TestConflictsAreSmallest(t *testing.T) { t.Parallel(); rapid.Check(t, conflictsAreSmallest) }
func FuzzConflictsAreSmallest(f *testing.F) { f.Fuzz(rapid.MakeFuzz(conflictsAreSmallest)) }

func TestEncodeDecode(t *testing.T) { t.Parallel(); rapid.Check(t, encodeDecode) }
func FuzzEncodeDecode(f *testing.F) { f.Fuzz(rapid.MakeFuzz(encodeDecode)) }

func TestExplanationsReplay(t *testing.T) { t.Parallel(); rapid.Check(t, explanationsReplay) }
func FuzzExplanationsReplay(f *testing.F) { f.Fuzz(rapid.MakeFuzz(explanationsReplay)) }

// agreesWithOracle: every price tried one by one with exact fractions gives the
// same answer.
func agreesWithOracle(t *rapid.T) { agrees(t, genDocument(t)) }

// agreesBesideOthers: so does it where goods of several rates of tax lie in an order.
func agreesBesideOthers(t *rapid.T) { agrees(t, genMixed(t)) }

func agrees(t *rapid.T, doc []byte) {
	want, err := oracle(doc)
	if err != nil {
		t.Fatalf("%v\n%s", err, doc)
	}
	got, err := json.Marshal(must(pricelist.Price(doc))(t))
	if err != nil {
		t.Fatal(err)
	}
	compareAnswers(t, want, got)
	if t.Failed() {
		t.Fatalf("%s", doc)
	}
}

// must fails the property on an error.
func must[T any](v T, err error) func(*rapid.T) T {
	return func(t *rapid.T) T {
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

func drawn(t *rapid.T) pricelist.Document { return must(pricelist.Decode(genDocument(t)))(t) }

// statementsOnlyGoDown is law 1: net ≤ operating ≤ contribution ≤ gross ≤
// revenue, and net margin ≤ gross margin, at any price.
func statementsOnlyGoDown(t *rapid.T) {
	doc := drawn(t)
	items := must(doc.Items(rule.Likely))(t)
	for _, it := range items {
		price := it.Grid.Price(rapid.Int64Range(1, it.Grid.Len()).Draw(t, "price"))
		for _, o := range it.Offers {
			goesDown(t, o.Sale.At(price))
		}
	}
}

func goesDown(t *rapid.T, s margin.Statement) {
	if s.Revenue.Sign() <= 0 || s.Goods.Sign() < 0 {
		return
	}
	lines := []quoin.Amount{s.Revenue, s.Gross, s.Contribution, s.Operating, s.Net}
	if !slices.IsSortedFunc(lines, func(a, b quoin.Amount) int { return b.Cmp(a) }) {
		t.Fatalf("a statement goes up: %+v", s)
	}
	gross, _ := s.GrossMargin()
	net, _ := s.NetMargin()
	if net.Cmp(gross) > 0 {
		t.Fatalf("net margin %v above gross margin %v", net, gross)
	}
	down := s.Revenue.Sub(s.Goods).Sub(s.Fees).Sub(s.Fulfilment).Sub(s.FixedCost).Sub(s.Overhead).Sub(s.IncomeTax)
	if !down.Equal(s.Net) {
		t.Fatalf("the lines sum to %v, not to net %v", down, s.Net)
	}
}

// allowedIsWhatRulesAllow is law 2: a price is allowed just when every kept
// rule, evaluated forward, holds at it and every step has a partner for it.
func allowedIsWhatRulesAllow(t *rapid.T) {
	doc := drawn(t)
	items := must(doc.Items(rule.Likely))(t)
	d := must(rule.Decide(items, doc.Rules, doc.Choose))(t)
	if len(d.Conflict) > 0 {
		return
	}
	for i, it := range items {
		for n := int64(1); n <= it.Grid.Len(); n++ {
			p := it.Grid.Price(n)
			if got, want := d.Allowed[i].Contains(p), holdsForward(doc, items, d, i, p); got != want {
				t.Fatalf("%s at %v: allowed %t, but the rules say %t", it.ID, p, got, want)
			}
		}
	}
}

// dearerNeverLowers is law 3: more cost, a higher fee or a lower yield never
// lowers the least price, and never widens what is allowed, where rules bound
// only costs and margins, from below.
func dearerNeverLowers(t *rapid.T) {
	data := genBoundedBelow(t)
	before, dear := must(pricelist.Decode(data))(t), must(pricelist.Decode(data))(t)
	change := makeDearer(t, &dear)
	a, b := must(pricelist.Decide(before))(t), must(pricelist.Decide(dear))(t)
	if len(b.Conflict) > 0 {
		return
	}
	if len(a.Conflict) > 0 {
		t.Fatalf("%s ended a conflict", change)
	}
	for i, p := range b.Products {
		if both := must(p.Allowed.And(a.Products[i].Allowed.Set))(t); !both.Equal(p.Allowed.Set) {
			t.Fatalf("%s: %s may cost more than before\n%s", change, p.ID, data)
		}
		if p.Least.Cmp(a.Products[i].Least) < 0 {
			t.Fatalf("%s lowered %s from %v to %v", change, p.ID, a.Products[i].Least, p.Least)
		}
	}
}

func makeDearer(t *rapid.T, doc *pricelist.Document) string {
	more := func(a quoin.Amount) quoin.Amount {
		return a.Add(quoin.AmountOf(rapid.Int64Range(1, 300).Draw(t, "more"), 2))
	}
	supply := &doc.Supplies[rapid.IntRange(0, len(doc.Supplies)-1).Draw(t, "supply")]
	sold := &doc.Channels[rapid.IntRange(0, len(doc.Channels)-1).Draw(t, "channel")]
	switch rapid.IntRange(0, 4).Draw(t, "change") {
	case 0:
		supply.Freight = more(supply.Freight)
		return "dearer freight"
	case 1:
		doc.Contingency = doc.Contingency.Add(quoin.MustRate("3%"))
		return "more contingency"
	case 2:
		if len(doc.Stages) > 0 && doc.Stages[0].Recovers().IsZero() {
			stage := &doc.Stages[len(doc.Stages)-1]
			stage.Recovery = quoin.Amount{}
			if stage.Yield.IsZero() {
				stage.Yield, stage.LostOfStarted, stage.LostOfGood = waste.Route{*stage}.Yield(), quoin.Rate{}, quoin.Rate{}
			}
			stage.Yield = stage.Yield.Of(quoin.MustRate("95%"))
			return "a lower yield"
		}
		return "nothing"
	case 3:
		if len(sold.Fees) > 0 {
			sold.Fees[0].Rate = sold.Fees[0].Rate.Add(quoin.MustRate("2.5%"))
			return "a higher fee"
		}
		return "nothing"
	default:
		if len(sold.Orders) > 0 {
			sold.Orders[0].Postage = more(sold.Orders[0].Postage)
			return "dearer postage"
		}
		return "nothing"
	}
}

// unitsChangeNothing is law 5: the same quantities in other units cost the same.
func unitsChangeNothing(t *rapid.T) {
	doc := drawn(t)
	a := must(pricelist.Decide(doc))(t)
	units := map[quoin.Unit]quoin.Unit{"h": "min", "min": "s", "s": "h", "kg": "lb", "g": "oz", "in": "cm", "cm": "in", "m": "ft", "ft": "mm", "l": "ml", "ml": "l", "m2": "in2"}
	doc.Supplies = slices.Clone(doc.Supplies)
	for i, s := range doc.Supplies {
		u, ok := units[s.Quantity.Unit()]
		if !ok {
			continue
		}
		// Scaled up so that the other unit holds it exactly.
		doc.Supplies[i].Quantity = must(s.Quantity.In(u))(t)
	}
	b := must(pricelist.Decide(doc))(t)
	if diff := cmp.Diff(a.Conflict, b.Conflict); diff != "" {
		t.Fatalf("other units, another conflict:\n%s", diff)
	}
	for i := range b.Products {
		if diff := cmp.Diff(plain(a.Products[i]), plain(b.Products[i])); diff != "" {
			t.Fatalf("other units, another answer:\n%s", diff)
		}
	}
}

// orderChangesNothing is law 8: the order of products, channels, fees and must
// rules changes nothing but the order of the output.
func orderChangesNothing(t *rapid.T) {
	doc := drawn(t)
	// On purpose, the order of products is that of the sizes of a design as they are listed,
	// and that in which sizes choose what is nearest.
	near := doc.Choose == rule.Nearest || doc.Choose == ""
	doc.Rules = slices.DeleteFunc(slices.Clone(doc.Rules), func(r rule.Rule) bool {
		step, ok := r.Kind.(rule.SizeRatio)
		return ok && (near || step.Order == rule.Listed)
	})
	a := must(pricelist.Decide(doc))(t)
	b := must(pricelist.Decide(shuffled(t, doc)))(t)
	if len(a.Conflict) != len(b.Conflict) || !slices.Equal(a.Dropped, b.Dropped) {
		t.Fatalf("conflict %q or %q, dropped %q or %q", a.Conflict, b.Conflict, a.Dropped, b.Dropped)
	}
	for _, p := range b.Products {
		i := slices.IndexFunc(a.Products, func(q pricelist.ProductResult) bool { return q.ID == p.ID })
		if diff := cmp.Diff(plain(a.Products[i]), plain(p)); diff != "" {
			t.Fatalf("another order, another answer:\n%s", diff)
		}
		if i > 0 {
			continue // how one price stands is enough
		}
		if diff := cmp.Diff(standings(a.Products[i]), standings(p)); diff != "" {
			t.Fatalf("another order, another standing:\n%s", diff)
		}
		if diff := cmp.Diff(refusing(a.Products[i]), refusing(p)); diff != "" {
			t.Fatalf("another order, other reasons:\n%s", diff)
		}
	}
}

// plain is a product of the answer without its reasons, which name places in
// the document, and with its channels in a fixed order.
func plain(p pricelist.ProductResult) pricelist.ProductResult {
	p.Lower, p.Higher, p.ByChannel = pricelist.WhyNot{}, pricelist.WhyNot{}, pricelist.ByChannel{}
	p.Channels = slices.Clone(p.Channels)
	for i := range p.Channels {
		p.Channels[i].Steps = pricelist.Reasons{}
		p.Channels[i].Orders = slices.Clone(p.Channels[i].Orders)
		for j, o := range p.Channels[i].Orders {
			o.Fees = slices.Clone(o.Fees)
			slices.SortFunc(o.Fees, func(a, b pricelist.NamedAmount) int { return strings.Compare(a.Name, b.Name) })
			p.Channels[i].Orders[j] = o
		}
	}
	sortByID(p.Channels)
	p.WorkedOut = slices.Clone(p.WorkedOut)
	for i := range p.WorkedOut {
		p.WorkedOut[i].Path = ""
	}
	return p
}

// refusing is the rules that refuse the next price on either side.
func refusing(p pricelist.ProductResult) map[string]bool {
	out := make(map[string]bool)
	for side, beside := range map[string]pricelist.WhyNot{"lower": p.Lower, "higher": p.Higher} {
		why, _ := beside.Why()
		for _, r := range why.By {
			out[side+" "+r.Rule+" "+r.Price.String()] = true
		}
	}
	return out
}

func sortByID(sold []pricelist.ChannelResult) {
	slices.SortFunc(sold, func(a, b pricelist.ChannelResult) int {
		if a.ID < b.ID {
			return -1
		}
		return 1
	})
}

func shuffled(t *rapid.T, doc pricelist.Document) pricelist.Document {
	doc.Products = rapid.Permutation(doc.Products).Draw(t, "products")
	doc.Channels = rapid.Permutation(doc.Channels).Draw(t, "channels")
	for i, c := range doc.Channels {
		doc.Channels[i].Fees = rapid.Permutation(c.Fees).Draw(t, "fees")
	}
	var musts, prefers []rule.Rule
	for _, r := range doc.Rules {
		if r.Strength == rule.Prefer {
			prefers = append(prefers, r)
		} else {
			musts = append(musts, r)
		}
	}
	doc.Rules = append(rapid.Permutation(musts).Draw(t, "rules"), prefers...)
	return doc
}

// conflictsAreSmallest is law 10: a conflict's rules cannot hold together; any
// of them taken away, the rest can.
func conflictsAreSmallest(t *rapid.T) {
	doc := drawn(t)
	conflict := must(pricelist.Decide(doc))(t).Conflict
	if len(conflict) == 0 {
		return
	}
	group := slices.DeleteFunc(slices.Clone(doc.Rules), func(r rule.Rule) bool { return !slices.Contains(conflict, r.ID) })
	doc.Rules = group
	if got := must(pricelist.Decide(doc))(t).Conflict; !slices.Equal(got, conflict) {
		t.Fatalf("by themselves, %q conflict as %q", conflict, got)
	}
	for i := range group {
		doc.Rules = slices.Delete(slices.Clone(group), i, i+1)
		if got := must(pricelist.Decide(doc))(t).Conflict; len(got) > 0 {
			t.Fatalf("without %q, %q still conflict", group[i].ID, got)
		}
	}
}

// encodeDecode is law 11: what is encoded is decoded as it was.
func encodeDecode(t *rapid.T) {
	doc := drawn(t)
	out := must(json.Marshal(doc))(t)
	if diff := cmp.Diff(doc, must(pricelist.Decode(out))(t)); diff != "" {
		t.Fatalf("encoded and decoded, a document changes:\n%s", diff)
	}
}

// explanationsReplay is law 12: the steps of every statement replay to the
// digit, and each line of it is the value of the step with its code.
func explanationsReplay(t *rapid.T) {
	a := must(pricelist.Decide(drawn(t)))(t)
	for _, p := range a.Products {
		for _, c := range p.Channels {
			if err := quoin.Replay(c.Steps.Steps()); err != nil {
				t.Fatalf("%s in %s: %v", p.ID, c.ID, err)
			}
			explained(t, c)
		}
	}
}

func explained(t *rapid.T, c pricelist.ChannelResult) {
	s := c.Statement
	lines := map[quoin.StepCode]quoin.Amount{
		margin.StepRevenue: s.Revenue, margin.StepTax: s.Tax, margin.StepGoods: s.Goods, margin.StepGross: s.Gross,
		margin.StepFees: s.Fees, margin.StepFulfilment: s.Fulfilment, margin.StepFixedCost: s.FixedCost,
		margin.StepContribution: s.Contribution, margin.StepOverhead: s.Overhead, margin.StepOperating: s.Operating,
		margin.StepIncomeTax: s.IncomeTax, margin.StepNet: s.Net,
	}
	for _, step := range c.Steps.Steps() {
		want, ok := lines[step.Code]
		if !ok {
			continue
		}
		if got, _ := step.Value.Amount(); !got.Equal(want) {
			t.Fatalf("%s is %v, but explained as %v", step.Code, want, got)
		}
		delete(lines, step.Code)
	}
	if len(lines) > 0 {
		t.Fatalf("not explained: %v", lines)
	}
}
