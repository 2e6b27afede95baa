package pricelist_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"runtime"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

// smallAnswer is an answer of two products with steps, a step between them, and an ending.
const smallAnswer = `{"version": 1, "currency": "EUR", "price_limit": "90.00", "channels": [{"id": "own", "fees": [{"name": "card", "rate": "7%", "of": ["items"]}]}],
	"products": [{"id": "a", "price": "12.00"}, {"id": "b", "price": "15.00"}],
	"rules": [{"id": "whole", "rule": "ending", "ends_in": ["0.00"]}, {"id": "rung", "rule": "size_ratio", "products": ["a", "b"], "at_least": "1.2"}, {"id": "keep", "rule": "contribution", "at_least": "5.00"}]}`

// What is no answer is refused, with where it is wrong, and leaves what was there.
func TestNoAnswers(t *testing.T) {
	text, err := json.Marshal(decidedShop(t, smallAnswer))
	if err != nil {
		t.Fatal(err)
	}
	sound := string(text)
	deep := strings.Repeat(`{"rule":"r","kind":"k","product":"p","price":"1","bound":"b","asked":"1","got":"1","because":[`, 3000)
	for _, c := range []struct {
		old, new, path string
		code           quoin.Code
	}{
		{`"currency":"EUR",`, ``, "currency", quoin.MissingField},
		{`"currency":"EUR"`, `"currency":"EURO"`, "currency", quoin.UnknownCurrency},
		{`"currency":"EUR"`, `"currency":978`, "currency", quoin.WrongType},
		{`"price_step":"0.01"`, `"price_step":"0.00"`, "products[0].allowed", quoin.BadGrid},
		{`"price_step":"0.01"`, `"price_step":"0.005"`, "products[0].allowed", quoin.BadGrid},
		{`"price_step":"0.01"`, `"price_step":"0.07"`, "products[0].allowed", quoin.BadGrid},
		{`"price_limit":"90.00"`, `"price_limit":"9.00"`, "products[0].allowed", quoin.BadGrid},
		{`"products":[`, `"products":[null,`, "products[0]", quoin.WrongType},
		{`"products":[`, `"products":{},"product":[`, "products", quoin.WrongType},
		{`"price":"12.00"`, `"price":12.00`, "products[0].price", quoin.WrongType},
		{`"price":"12.00"`, `"price":"≈12.00"`, "products[0].price", quoin.NotANumber},
		{`"price":"12.00"`, `"price":"12.00x"`, "products[0].price", quoin.NotANumber},
		{`"price":"12.00"`, `"price":null`, "products[0].price", quoin.WrongType},
		{`"price":"12.00"`, `"price":"12.00","price":"13.00"`, "products[0].price", quoin.DuplicateField},
		{`"price":"12.00"`, `"prices":"12.00"`, "products[0].price", quoin.MissingField},
		{`"allowed":[["`, `"allowed":[["0.005","1.00"],["`, "products[0].allowed", quoin.BadGrid},
		{`"allowed":[["`, `"allowed":[["1.00"],["`, "products[0].allowed[0]", quoin.WrongType},
		{`"allowed":[["`, `"allowed":[["1.00","1.00","1.00"],["`, "products[0].allowed[0]", quoin.WrongType},
		{`"allowed":[["`, `"allowed":[` + strings.Repeat(`["1.00","1.00"],`, 100) + `["`, "products[0].allowed", quoin.TooMany},
		{`"revenue":"`, `"revenue":"+`, "products[0].channels[0].statement.revenue", quoin.NotANumber},
		{`"sets_price":true`, `"sets_price":1`, "products[0].by_channel[0].sets_price", quoin.WrongType},
		{`"by":[`, `"by":[[],`, "products[0].lower.by[0]", quoin.WrongType},
		{`"asked":"`, `"asked":"€`, "products[0].lower.by[0].asked", quoin.NotANumber},
		{`"by":[`, `"by":[` + deep, "", quoin.BadJSON},
		{`"steps":[[1,`, `"steps":[[0,`, "products[0].channels[0].steps[0]", quoin.OutOfRange},
		{`"steps":[[1,`, `"steps":[[1,99999],[1,`, "products[0].channels[0].steps[0]", quoin.OutOfRange},
		{`"steps":[[1,`, `"steps":[` + strings.Repeat("[1,20],", 10) + `[1,`, "products[0].channels[0].steps[2]", quoin.OutOfRange}, // of 44
		{`"steps":[[1,`, `"steps":[[2,1],[1,`, "products[0].channels[0].steps[0]", quoin.OutOfRange},
		{`"steps":[[1,`, `"steps":[[1,1.5],[1,`, "products[0].channels[0].steps[0][1]", quoin.WrongType},
		{`"steps":[[1,`, `"steps":[[1,9223372036854775807],[1,`, "products[0].channels[0].steps[0]", quoin.OutOfRange},
		{`"op":"sum"`, `"op":"add"`, "steps[3].op", quoin.UnknownWord},
		{`"steps":[{`, `"step":[{`, "products[0].channels[0].steps[0]", quoin.OutOfRange},
		{`"steps":[{`, `"steps":{},"step":[{`, "steps", quoin.BadStep},
		{sound, `[]`, "", quoin.WrongType},
		{sound, sound + `{}`, "", quoin.BadJSON},
		{sound, sound[:len(sound)/2], "", quoin.BadJSON},
		{sound, ``, "", quoin.BadJSON},
	} {
		if !strings.Contains(sound, c.old) {
			t.Errorf("the sound answer has no %s:\n%s", c.old, sound)
			continue
		}
		a := pricelist.Answer{Key: "kept"}
		err := a.UnmarshalJSON([]byte(strings.Replace(sound, c.old, c.new, 1)))
		var p quoin.Problem
		if !errors.As(err, &p) || p.Code != c.code || p.Path != c.path && c.code != quoin.BadJSON || a.Key != "kept" || p.Line != 1 && p.Line != 0 {
			t.Errorf("%.60s for %.60s: %v, wanted %s at %s", c.new, c.old, err, c.code, c.path)
		}
	}
}

// What a later version may add is passed over.
func TestLaterAnswersAreRead(t *testing.T) {
	a := decidedShop(t, smallAnswer)
	text, err := json.Marshal(a)
	if err != nil {
		t.Fatal(err)
	}
	later := string(text)
	for _, add := range [][2]string{
		{`"currency":`, `"more":{"ends_in":[1,{"all":null}]},"currency":`},
		{`"statement":{`, `"statement":{"bonus":"1.00",`},
		{`"op":"sum"`, `"op":"sum","since":2`},
		{`"by":[{`, `"by":[{"more":[[]],`},
	} {
		later = strings.Replace(later, add[0], add[1], 1)
	}
	var back pricelist.Answer
	if err := json.Unmarshal([]byte(later), &back); err != nil || len(later) < len(text)+50 {
		t.Fatalf("%v in %s", err, later)
	}
	if diff := cmp.Diff(a, back, cmpopts.EquateEmpty()); diff != "" {
		t.Errorf("%s", diff)
	}
}

// Parts of an answer are read by themselves.
func TestPartsAreReadBack(t *testing.T) {
	a := decidedShop(t, smallAnswer)
	p := a.Products[0]
	for what, c := range map[string]struct {
		part, back any
	}{
		"lower":     {p.Lower, new(pricelist.WhyNot)},
		"public":    {p.ByChannel, new(pricelist.ByChannel)},
		"steps":     {p.Channels[0].Steps, new(pricelist.Reasons)},
		"statement": {p.Channels[0], new(pricelist.ChannelResult)},
		"nothing":   {pricelist.WhyNot{}, new(pricelist.WhyNot)},
		"allowed":   {p.Allowed, new(pricelist.AllowedPrices)},
		"none":      {pricelist.AllowedPrices{}, new(pricelist.AllowedPrices)},
		"a product": {p, new(pricelist.ProductResult)},
	} {
		text, err := json.Marshal(c.part)
		if err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(text, c.back); err != nil {
			t.Fatalf("%s: %v in %s", what, err, text)
		}
		if again, err := json.Marshal(c.back); err != nil || string(again) != string(text) {
			t.Errorf("%s: %s is written again as %s, %v", what, text, again, err)
		}
	}
	for _, text := range []string{
		`[["1.00","2.00"]]`, `{"price_step":"0","price_limit":"9","between":[["1","2"]],"every":"1","ends_in":["0"]}`,
		`{"price_step":"0.01","price_limit":"9","between":[["2","1"]],"every":"1","ends_in":["0"]}`,
		`{"price_step":"0.01","price_limit":"9","between":[["1","20"]],"every":"1","ends_in":["0"]}`,
	} {
		var allowed pricelist.AllowedPrices
		if err := json.Unmarshal([]byte(text), &allowed); !errors.As(err, new(quoin.Problem)) {
			t.Errorf("%s is read, %v", text, err)
		}
	}
}

// Text of a megabyte that asks for much is answered with little.
func TestHostileAnswersTakeLittle(t *testing.T) {
	const head = `{"currency":"EUR","price_step":"0.01","price_limit":"9.00","dropped":[],"cautions":[],`
	for what, text := range map[string]string{
		"empty products": head + `"products":[` + strings.Repeat(`{},`, 300_000) + `{}]}`,
		"null":           head + `"products":[` + strings.Repeat(`null,`, 200_000) + `null]}`,
		"brackets":       head + `"products":` + strings.Repeat(`[`, 1_000_000),
		"unknown":        head + `"more":` + strings.Repeat(`[`, 500_000) + strings.Repeat(`]`, 500_000) + `,"products":[]}`,
		"runs":           head + `"products":[],"fairs":[{"steps":[` + strings.Repeat(`[1,9223372036854775807],`, 40_000) + `[1,1]]}]}`,
		"digits":         head + `"key":"` + strings.Repeat("9", 1_000_000) + `","products":[{"price":"` + strings.Repeat("9", 1_000_000) + `"}]}`,
		"operands":       head + `"products":[],"steps":[{"code":"a","op":"sum","operands":[` + strings.Repeat(`{},`, 300_000) + `{}],"value":"1"}]}`,
		"gaps":           head + `"products":[],"gaps":[` + strings.Repeat(`{"product":"","floor":"0","floor_by":null,"ceiling":"0","ceiling_by":null},`, 14_000) + `{}]}`,
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		var a pricelist.Answer
		if err := a.UnmarshalJSON([]byte(text)); err == nil {
			t.Errorf("%s: is an answer", what)
		}
		runtime.ReadMemStats(&after)
		if took := after.TotalAlloc - before.TotalAlloc; took > 64<<20 {
			t.Errorf("%s: %d bytes of text took %d", what, len(text), took)
		}
	}
}

// Kinds of refusals nested as deep as any are read.
func TestNestedRefusalsAreReadBack(t *testing.T) {
	why := rule.Refusal{Rule: "last", Bound: rule.AtLeast, Asked: quoin.MustRate("7.4%").Figure(), Got: quoin.MustAmount("1.00").Figure()}
	for i := range 32 {
		why = rule.Refusal{Rule: fmt.Sprint("r", i), Bound: rule.AtMost, Because: []rule.Refusal{why}}
	}
	text, err := json.Marshal(rule.WhyNot{By: []rule.Refusal{why}})
	if err != nil {
		t.Fatal(err)
	}
	var b pricelist.WhyNot
	if err := json.Unmarshal(text, &b); err != nil {
		t.Fatal(err)
	}
	if again, err := json.Marshal(b); err != nil || string(again) != string(text) {
		t.Errorf("%s, %v", again, err)
	}
}

// FuzzReadAnswer: no text does any harm; what is read as an answer is written and read to the same.
func FuzzReadAnswer(f *testing.F) {
	for _, doc := range []string{smallAnswer, losing(2)} {
		text, err := json.Marshal(decidedShop(f, doc))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
	}
	f.Add([]byte(`{"currency":"EUR","price_step":"0.01","price_limit":"9.00","products":[],"dropped":["a"],"conflict":["b"],"clashes":[{"product":"p","rule":"b"}],"cautions":[]}`))
	f.Add([]byte(`{"currency":"EUR","price_step":"0.50","price_limit":"9.00","products":[{"id":"p","price":"1.00","least":"1.00","greatest":"3.00","allowed":[["1.00","3.00"]],"lower":{"price":"0.50","by":null},"channels":[]}],"dropped":[],"cautions":[],` +
		`"fairs":[],"sets":[{"id":"s","channel":"c","sum_of_prices":"2.00","expected":"2.00","steps":[[1,2]]}],"steps":[{"code":"a","op":"sum","operands":[{"name":"x","value":"≈0.3x"}],"value":"0.3x"},{"code":"b","op":"product","operands":[{"name":"a","value":"0.3x","step":1}],"value":"0.3x"}]}`))
	for _, data := range shops(f) {
		text, err := json.Marshal(decidedShop(f, string(data)).WithoutSteps())
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		var a, back pricelist.Answer
		if json.Unmarshal(text, &a) != nil {
			return
		}
		written, err := json.Marshal(a)
		if err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(written, &back); err != nil {
			t.Fatalf("%v in %s", err, written)
		}
		if diff := cmp.Diff(a, back, cmpopts.EquateEmpty()); diff != "" {
			t.Fatalf("%s", diff)
		}
		if again, err := json.Marshal(back); err != nil || string(again) != string(written) {
			t.Fatalf("%v:\n%s\nis written again as\n%s", err, written, again)
		}
		for _, p := range a.Products {
			for _, c := range p.Channels {
				_ = quoin.Replay(c.Steps.Steps())
			}
			p.Lower.Why()
			p.Allowed.Contains(p.Price)
		}
	})
}
