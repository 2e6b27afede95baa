package pricelist_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/sheet"
)

// everywhere is a document of many products in many channels that says nothing more of either.
func everywhere(products, channels int) string {
	return `{"version": 1, "currency": "EUR", "channels": [` + list(channels, func(i int) string { return fmt.Sprintf(`{"id": "c%d"}`, i) }) +
		`], "products": [` + list(products, func(i int) string { return fmt.Sprintf(`{"id": "p%d"}`, i) }) + `]}`
}

// code is that of the first problem, none where there is none.
func code(err error) quoin.Code {
	var ps quoin.Problems
	if !errors.As(err, &ps) || len(ps) == 0 {
		return ""
	}
	return ps[0].Code
}

// What would be an answer of 8 MB from a document of 3 kB is refused by both doors alike, and one product less is
// not: 197 products × (100 + 100 × 406) bytes are 8.0 MB.
func TestAnswersOutOfProportionAreRefused(t *testing.T) {
	_, err := pricelist.Price([]byte(everywhere(197, 100)))
	if code(err) != pricelist.AnswerTooLong || !strings.Contains(err.Error(), "197 products in 100 channels") {
		t.Fatalf("%v", err)
	}
	var doc pricelist.Document
	if err := json.Unmarshal([]byte(everywhere(197, 100)), &doc); err != nil {
		t.Fatal(err)
	}
	if _, err := pricelist.Decide(doc); code(err) != pricelist.AnswerTooLong {
		t.Errorf("from Go: %v", err)
	}
	if _, err := pricelist.Price([]byte(everywhere(196, 100))); err != nil {
		t.Errorf("of 196 products: %v", err)
	}
}

// A document that says enough of its products may have any number of them.
func TestLongDocumentsMayHaveLongAnswers(t *testing.T) {
	doc := strings.ReplaceAll(everywhere(6000, 4), `{"id": "p`, `{"name": "`+strings.Repeat("Curlew at low tide, ", 8)+`", "id": "p`)
	if _, err := pricelist.Decode([]byte(doc)); err != nil {
		t.Errorf("%d bytes for 6,000 products in 4 channels: %v", len(doc), err)
	}
	if _, err := pricelist.Decode([]byte(everywhere(6000, 4))); code(err) != pricelist.AnswerTooLong {
		t.Errorf("of products with nothing but an id: %v", err)
	}
}

// losing is a document of products that each lose 1.00 or more in the one channel.
func losing(products int) string {
	return `{"version": 1, "currency": "EUR", "choose": "least", "supplies": [{"id": "print", "quantity": "1 piece", "price": "6.00"}],
		"channels": [{"id": "shop"}], "rules": [{"id": "cheap", "rule": "price", "at_most": "5.00"}],
		"products": [` + list(products, func(i int) string {
		return fmt.Sprintf(`{"id": "p%d", "price": "4.00", "bill": [{"supply": "print", "quantity": "1 piece"}]}`, i)
	}) + `]}`
}

// The warnings of an answer stop at a thousand, and the last says what is not listed: 1,500 products lose money in
// one channel.
func TestWarningsStop(t *testing.T) {
	a := decidedShop(t, losing(1500))
	loses := 0
	for _, w := range a.Warnings {
		if w.Code == pricelist.LosesMoney {
			loses++
		}
	}
	last := a.Warnings[len(a.Warnings)-1]
	if len(a.Warnings) != 1001 || last.Code != pricelist.MoreWarnings || last.Severity != quoin.Warning {
		t.Fatalf("%d warnings, the last %v", len(a.Warnings), last)
	}
	unlisted := 0
	for _, arg := range last.Args {
		if arg.Name == string(pricelist.LosesMoney) {
			fmt.Sscan(arg.Value, &unlisted)
		}
	}
	if n := len(a.BreaksToday()); n != 0 {
		t.Errorf("%d break rules today", n)
	}
	if loses+unlisted != 1500 {
		t.Errorf("%d listed and %d not of 1,500 that lose money: %v", loses, unlisted, last)
	}
}

// A name that is said many times is of some length at most, by both doors alike.
func TestTextsAreBounded(t *testing.T) {
	for _, c := range []struct{ old, path string }{
		{`"name": "N"`, "products[0].name"},
		{`"id": "own"`, "channels[0].id"},
		{`"box": []`, "products[0].packing"},
	} {
		for _, long := range []int{400, 401} {
			name := strings.Repeat("n", long)
			text := `{"version": 1, "currency": "EUR", "channels": [{"id": "own"}], "products": [{"id": "a", "name": "N", "packing": {"box": []}}]}`
			switch c.old {
			case `"box": []`:
				text = strings.Replace(text, c.old, `"`+name+`": []`, 1)
			default:
				text = strings.Replace(text, c.old, c.old[:strings.Index(c.old, ":")+1]+`"`+name+`"`, 1)
			}
			_, err := pricelist.Decode([]byte(text))
			var doc pricelist.Document
			if err := json.Unmarshal([]byte(text), &doc); err != nil {
				t.Fatal(err)
			}
			byGo := doc.Check()
			if long == 400 && (err != nil || byGo != nil) || long == 401 && (code(err) != quoin.TooLong || code(byGo) != quoin.TooLong) {
				t.Errorf("%s of %d bytes: %v and %v", c.path, long, err, byGo)
			}
			if ps, ok := err.(quoin.Problems); ok && !strings.HasPrefix(ps[0].Path, c.path) {
				t.Errorf("found at %s, wanted under %s", ps[0].Path, c.path)
			}
		}
	}
}

// Of 1,500 products that all break a rule today, all are told to whoever asks for that.
func TestAllThatBreakToday(t *testing.T) {
	a := decidedShop(t, strings.ReplaceAll(losing(1500), `"4.00"`, `"5.50"`))
	if n := len(a.BreaksToday()); n != 1500 {
		t.Errorf("%d break a rule", n)
	}
	for _, w := range a.BreaksToday() {
		if w.Code != pricelist.TodayBreaksRule {
			t.Fatalf("%v", w)
		}
	}
}

// Of 40 rules that refuse the next price, and that a discount would break, an answer names twelve and says that there
// are others: one that asks for 9.00 and 39 that ask for it too.
func TestRulesThatRefuseAreNamedShort(t *testing.T) {
	a := decidedShop(t, `{"version": 1, "currency": "EUR", "choose": "least", "channels": [{"id": "shop"}], "products": [{"id": "a"}], "rules": [`+list(40, func(i int) string {
		return fmt.Sprintf(`{"id": "r%02d", "rule": "contribution", "at_least": "9.00"}`, i)
	})+`, {"id": "tens", "rule": "price", "at_least": "10.00"}]}`)
	text, err := json.Marshal(a)
	if err != nil {
		t.Fatal(err)
	}
	var w struct {
		Products []struct {
			Lower  struct{ By []struct{ Rule string } }
			Public []struct{ Discount pricelist.DeepestDiscount } `json:"by_channel"`
		}
	}
	if err := json.Unmarshal(text, &w); err != nil {
		t.Fatal(err)
	}
	d := w.Products[0].Public[0].Discount
	if len(d.Rules) != 12 || d.Rules[11] != "r11" || !d.More || d.By.String() != "10%" {
		t.Errorf("a deeper discount breaks %d rules: %v", len(d.Rules), d)
	}
	if got := sheet.Text(a, 400); !strings.Contains(got, `"r11" and others`) {
		t.Errorf("%s", got)
	}
	a = decidedShop(t, `{"version": 1, "currency": "EUR", "choose": "least", "channels": [{"id": "shop"}], "products": [{"id": "a"}], "rules": [`+list(40, func(i int) string {
		return fmt.Sprintf(`{"id": "r%02d", "rule": "contribution", "at_least": "9.00"}`, i)
	})+`]}`)
	if text, err = json.Marshal(a.Products[0].Lower); err != nil || strings.Count(string(text), `"rule":"`) != 12 || !strings.Contains(string(text), `"more":true`) {
		t.Errorf("%s, %v", text, err)
	}
	if why, _ := a.Products[0].Lower.Why(); len(why.By) != 40 || why.More {
		t.Errorf("in Go %d %t", len(why.By), why.More)
	}
	if got, _ := sheet.Why(a, "a", 400); !strings.Contains(got, "and other rules") || strings.Contains(got, `"r12"`) {
		t.Errorf("%s", got)
	}
}

// Of 600 products that two rules leave no price, 500 are said to clash, with what each rule allows.
func TestClashesStop(t *testing.T) {
	doc := `{"version": 1, "currency": "EUR", "channels": [{"id": "shop"}], "products": [` + list(600, func(i int) string { return fmt.Sprintf(`{"id": "p%d"}`, i) }) +
		`], "rules": [{"id": "dear", "rule": "price", "at_least": "9.00"}, {"id": "cheap", "rule": "price", "at_most": "5.00"}]}`
	a, err := pricelist.Price([]byte(doc))
	if err != nil {
		t.Fatal(err)
	}
	if n := len(a.Clashes); n != 1000 || a.Clashes[999].Product != "p499" || a.Clashes[999].Rule != "cheap" {
		t.Errorf("%d clashes, the last %v", n, a.Clashes[n-1])
	}
}

// Each preferred step is tried with all sizes that ladders tie: 1,500 steps between two of 1,500 sizes, beside a
// ladder of all, are 1,500 × 4,500 tries and too many; 500 are 500 × 2,500 and are not.
func TestPreferredStepsAreBounded(t *testing.T) {
	for _, c := range []struct {
		steps int
		code  quoin.Code
	}{{500, ""}, {1500, quoin.TooMany}} {
		_, err := pricelist.Decode([]byte(`{"version": 1, "currency": "EUR", "channels": [{"id": "shop"}], "products": [` + list(1500, func(i int) string { return fmt.Sprintf(`{"id": "p%d"}`, i) }) +
			`], "rules": [{"id": "all", "rule": "size_ratio", "at_least": "1", "products": [` + list(1500, func(i int) string { return fmt.Sprintf(`"p%d"`, i) }) + `]}, ` +
			list(c.steps, func(i int) string {
				return fmt.Sprintf(`{"id": "r%d", "rule": "size_ratio", "strength": "prefer", "at_least": "1", "products": ["p%d", "p%d"]}`, i, i, (i+1)%1500)
			}) + `]}`))
		if code(err) != c.code || c.code != "" && !strings.Contains(err.Error(), "1500 preferred steps") {
			t.Errorf("%d: %v", c.steps, err)
		}
	}
}

// What products have from a base counts where it is written, and not once for each: 1,000 products of a line, based
// on one of 30 lines, in 40 channels are an answer of 16 MB from a document of 84 kB.
func TestBasesMakeNoDocumentLonger(t *testing.T) {
	lines := list(30, func(int) string { return `{"supply": "kit", "quantity": "1 kit"}` })
	doc := `{"version": 1, "currency": "EUR", "supplies": [{"id": "kit", "quantity": "1 kit", "price": "0.10"}], "channels": [` +
		list(40, func(i int) string { return fmt.Sprintf(`{"id": "c%d"}`, i) }) + `], "products": [{"id": "base", "bill": [` + lines + `]}, ` +
		list(1000, func(i int) string {
			return fmt.Sprintf(`{"id": "p%d", "extends": "base", "bill": [{"supply": "kit", "quantity": "1 kit"}]}`, i)
		}) + `]}`
	if _, err := pricelist.Decode([]byte(doc)); code(err) != pricelist.AnswerTooLong {
		t.Errorf("%d bytes: %v", len(doc), err)
	}
}
