package schematest_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

const codeFiles = "../../margin/pricelist/testdata/codes/*.json"

// examples is the document that each code of a problem is shown by.
func examples(t testing.TB) map[string][]byte {
	t.Helper()
	files, err := filepath.Glob(codeFiles)
	if err != nil || len(files) == 0 {
		t.Fatalf("no examples: %v", err)
	}
	out := make(map[string][]byte)
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		out[f] = data
	}
	return out
}

// never is the fields of a problem that warnings do without, what is said of more than twelve
// rules, which has a test of its own, and what lapses with a refund, of which no document speaks.
var never = map[string]bool{"why_not.more": true, "deepest_discount.more": true, "product_result.more_ranges": true, "settlement.lapsed": true, "problem.near": true, "problem.line": true, "problem.column": true}

// An answer that names some of many rules is valid, and says that there are others.
func TestManyRulesAreValid(t *testing.T) {
	var rules []string
	for i := range 14 {
		rules = append(rules, fmt.Sprintf(`{"id": "r%d", "rule": "contribution", "at_least": "9.00"}`, i))
	}
	a, err := pricelist.Price([]byte(`{"version": 1, "currency": "EUR", "channels": [{"id": "shop"}], "products": [{"id": "a", "price": "12.00"}], "rules": [` +
		strings.Join(rules, ",") + `]}`))
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(a)
	if err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(string(text), `"more":true`); n != 2 { // of the next price that is refused, and of a discount
		t.Errorf("%d times more in %s", n, text)
	}
	if err := compiled(t, answerID, "").Validate(parsed(t, text)); err != nil {
		t.Error(err)
	}
}

func TestPatternIsValid(t *testing.T) {
	g, err := quoin.NewGrid(quoin.MustAmount("0.01"), quoin.MustAmount("9.00"))
	if err != nil {
		t.Fatal(err)
	}
	whole := rule.Rule{ID: "whole", Kind: rule.Ending{EndsIn: []quoin.Amount{quoin.MustAmount("0.00")}}}
	set, err := whole.Allowed(rule.Item{ID: "print", Grid: g})
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(set.Pattern())
	if err != nil {
		t.Fatal(err)
	}
	if err := compiled(t, answerID, "#/$defs/pattern").Validate(parsed(t, text)); err != nil {
		t.Errorf("%s: %v", text, err)
	}
}

// Every answer is valid, and among them every field is there once: a schema of
// a field that nothing has would be true of anything.
func TestAnswersAreValid(t *testing.T) {
	s := compiled(t, answerID, "")
	n := notes{root: parsed(t, pricelist.AnswerSchema()).(map[string]any), seen: make(map[string]bool)}
	all := documents(t)
	for name, data := range examples(t) {
		all[name] = data
	}
	for name, data := range all {
		a, err := pricelist.Price(data)
		var faults quoin.Problems
		if errors.As(err, &faults) && strings.Contains(name, "codes") {
			continue // an example of a fault
		}
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		text, err := json.Marshal(a.WithCurves())
		if err != nil {
			t.Fatal(err)
		}
		v := parsed(t, text)
		if err := s.Validate(v); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		n.note("answer", n.root, v)
	}
	for _, a := range lotAnswers(t) {
		text, err := json.Marshal(a)
		if err != nil {
			t.Fatal(err)
		}
		v := parsed(t, text)
		if err := s.Validate(v); err != nil {
			t.Errorf("detail of a lot: %v\n%s", err, text)
		}
		n.note("answer", n.root, v)
	}
	each("answer", n.root, func(at string, s map[string]any) {
		properties, _ := s["properties"].(map[string]any)
		if conditional(at) {
			return
		}
		for name := range properties {
			field := at[strings.LastIndex(at, "/")+1:] + "." + name
			if n.seen[field] == never[field] {
				t.Errorf("%s: in an answer %v", field, n.seen[field])
			}
		}
	})
}

// lotAnswers are those to a lot with a key, one that has a price and one whose rules
// conflict, by each detail, and one with a rule of a program's own.
func lotAnswers(t *testing.T) (out []pricelist.Answer) {
	shop, err := pricelist.DecodeShop([]byte(`{"version": 1, "currency": "EUR", "price_limit": "50.00", "channels": [{"id": "own", "orders": [{"shipping": "4.00", "postage": "5.00"}]}]}`))
	if err != nil {
		t.Fatal(err)
	}
	for _, most := range []string{"20.00", "4.00"} {
		lot, err := pricelist.DecodeLot([]byte(`{"key": "A-17", "products": [{"id": "rail"}], "rules": [
			{"id": "some", "rule": "price", "at_least": "5.00"}, {"id": "cheap", "rule": "price", "at_most": "` + most + `"}
		]}`))
		if err != nil {
			t.Fatal(err)
		}
		for _, detail := range []pricelist.Detail{pricelist.Full, pricelist.Brief, pricelist.Figures} {
			a, err := shop.Decide(lot, detail)
			if err != nil {
				t.Fatal(err)
			}
			out = append(out, a)
		}
	}
	a, err := shop.Decide(pricelist.Lot{Products: []pricelist.Product{{ID: "rail"}}, Rules: []rule.Rule{{ID: "fives", Kind: fives}}}, pricelist.Full)
	if err != nil {
		t.Fatal(err)
	}
	return append(out, a)
}

// fives is a rule that only a program can say: 5.00 and no other price.
var fives = rule.Custom{
	Name: "fives",
	Allowed: func(it rule.Item, _ []rule.Offer) (rule.Set, error) {
		return rule.Only(it.Grid, quoin.AmountOf(5, 0)), nil
	},
	Judge: func(_ rule.Item, _ []rule.Offer, p quoin.Amount) []rule.Verdict {
		return []rule.Verdict{{OK: p.Equal(quoin.AmountOf(5, 0)), Asked: quoin.AmountOf(5, 0).Figure(), Got: p.Figure(), Reason: "all that fits the tin is a five"}}
	},
}

// notes says which fields of a schema answers had.
type notes struct {
	root map[string]any
	seen map[string]bool
}

// note goes down an answer and its schema; owner is the name of the definition.
func (n notes) note(owner string, v, value any) {
	s, _ := v.(map[string]any)
	if ref, ok := s["$ref"].(string); ok {
		owner = strings.TrimPrefix(ref, "#/$defs/")
		s = n.root["$defs"].(map[string]any)[owner].(map[string]any)
	}
	switch x := value.(type) {
	case []any:
		for _, e := range x {
			n.note(owner, s["items"], e)
		}
	case map[string]any:
		properties, _ := s["properties"].(map[string]any)
		for name, e := range x {
			n.seen[owner+"."+name] = true
			n.note(owner, properties[name], e)
		}
		branches, _ := s["allOf"].([]any)
		for _, b := range branches { // by the kind of a rule
			if b, _ := b.(map[string]any); b["if"] != nil && x["rule"] == kindIn(b["if"]) {
				n.note(owner, b["then"], value)
			}
		}
	}
}

// kindIn is the kind of rule that a condition asks for.
func kindIn(condition any) any {
	properties := condition.(map[string]any)["properties"].(map[string]any)
	kind, _ := properties["rule"].(map[string]any)
	return kind["const"]
}

// What no answer is: each break of a sound one is refused.
func TestBrokenAnswers(t *testing.T) {
	s := compiled(t, answerID, "")
	a, err := pricelist.Price(documents(t)[full])
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(a)
	if err != nil {
		t.Fatal(err)
	}
	sound := string(text)
	for _, c := range []struct{ old, new string }{
		{`"currency":"EUR",`, ``},
		{`"currency":"EUR"`, `"currency":"EUR","sum":"1.00"`},
		{`"dropped":[`, `"conflict":["bounds"],"dropped":[`},
		{`"dropped":[`, `"gaps":[{"product":"a","floor":"2","floor_by":[],"ceiling":"1","ceiling_by":[]}],"dropped":[`},
		{`"dropped":[`, `"emptied":[],"dropped":[`},
		{`"price":"26.00"`, `"price":26.00`},
		{`"price":"26.00"`, `"price":"-26.00"`},
		{`"least":"`, `"least":"€ `},
		{`"revenue":"`, `"revenue":"+`},
		{`"op":"sum"`, `"op":"add"`},
		{`"places":2`, `"places":-2`},
		{`"places":2`, `"places":"2"`},
		{`"places":2,`, ``},
		{`"steps":[[1,`, `"steps":[[0,`},
		{`"steps":[[1,`, `"steps":[[1,1,`},
		{`"rounding":"half_up"`, `"rounding":"half_odd"`},
		{`"default":true`, `"default":false`},
		{`"step":1}`, `"step":0}`},
		{`"severity":"warning"`, `"severity":"hint"`},
	} {
		if !strings.Contains(sound, c.old) {
			t.Errorf("the sound answer has no %s", c.old)
			continue
		}
		if s.Validate(parsed(t, []byte(strings.Replace(sound, c.old, c.new, 1)))) == nil {
			t.Errorf("%s for %s is valid", c.new, c.old)
		}
	}
}
