package pricelist_test

import (
	"bytes"
	"encoding/json"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

// TestNothingIsKeptByReference changes all that a document, or a lot, refers to after it was
// decided: answers, whose reasons are computed when they are asked for, say what they would
// have said.
func TestNothingIsKeptByReference(t *testing.T) {
	var scrambled int
	rapid.Check(t, func(t *rapid.T) {
		text := genDocument(t)
		doc, err := pricelist.Decode(text)
		if err != nil {
			t.Skip("not sound")
		}
		want := answered(t)(pricelist.Price(text))
		a, err := pricelist.Decide(doc)
		scrambled += scramble(reflect.ValueOf(&doc).Elem())
		if got := answered(t)(a, err); !bytes.Equal(got, want) {
			t.Fatalf("the document, changed, gives %s\nand left alone %s", got, want)
		}
	})
	if manyDrawn() && scrambled < 1000 {
		t.Errorf("only %d values were changed", scrambled)
	}
}

func TestNothingIsKeptByReferenceInLots(t *testing.T) {
	decided := 0
	rapid.Check(t, func(t *rapid.T) {
		text := genDocument(t)
		doc, err := pricelist.Decode(text)
		if err != nil {
			t.Skip("not sound")
		}
		decide := func(after func(*pricelist.Document, *pricelist.Lot)) []byte {
			doc, err := pricelist.Decode(text)
			if err != nil {
				t.Fatal(err)
			}
			lot := pricelist.Lot{Products: doc.Products}
			s, err := pricelist.Open(doc)
			if err != nil {
				return nil
			}
			a, err := s.Decide(lot, pricelist.Full)
			after(&doc, &lot)
			return answered(t)(a, err)
		}
		want := decide(func(*pricelist.Document, *pricelist.Lot) {})
		got := decide(func(d *pricelist.Document, l *pricelist.Lot) {
			scramble(reflect.ValueOf(d).Elem())
			scramble(reflect.ValueOf(l).Elem())
		})
		if !bytes.Equal(got, want) {
			t.Fatalf("changed, gives %s\nand left alone %s", got, want)
		}
		if want != nil && len(doc.Products) > 0 {
			decided++
		}
	})
	if manyDrawn() && decided < 10 {
		t.Errorf("only %d lots were decided", decided)
	}
}

// answered is an answer with all its reasons, or what was wrong.
func answered(t *rapid.T) func(pricelist.Answer, error) []byte {
	return func(a pricelist.Answer, err error) []byte {
		if err != nil {
			return []byte(err.Error())
		}
		text, err := json.Marshal(a)
		if err != nil {
			t.Fatal(err)
		}
		return text
	}
}

// scramble sets all that a value refers to to zero, and counts.
func scramble(v reflect.Value) (n int) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				n += scramble(v.Field(i))
			}
		}
	case reflect.Pointer:
		if !v.IsNil() {
			n = 1 + scramble(v.Elem())
			v.Elem().SetZero()
		}
	case reflect.Slice:
		for i := range v.Len() {
			n += 1 + scramble(v.Index(i))
			v.Index(i).SetZero()
		}
	case reflect.Interface:
		if !v.IsNil() && v.Elem().Kind() == reflect.Struct {
			for i := range v.Elem().NumField() { // its lists are shared, though it cannot be set itself
				if f := v.Elem().Field(i); f.Kind() == reflect.Slice {
					n += scramble(f)
				}
			}
		}
	case reflect.Map:
		for _, name := range v.MapKeys() {
			n += 1 + scramble(v.MapIndex(name))
			v.SetMapIndex(name, reflect.Value{})
		}
	}
	return n
}

// A rate of a fee and a rule that are changed after the price was decided, as a program
// does that goes on with its document.
func TestChangingADocumentChangesNoAnswer(t *testing.T) {
	doc := pricelist.Document{
		Version: pricelist.Version, Currency: quoin.MustCurrency("EUR"),
		Products: []pricelist.Product{{ID: "heron"}},
		Channels: []channel.Channel{{ID: "web", Fees: []channel.Fee{{Name: "card", Rate: quoin.MustRate("3%")}}}},
		Rules:    []rule.Rule{{ID: "floor", Kind: rule.Contribution{AtLeast: quoin.MustAmount("9.70")}}},
	}
	a, err := pricelist.Decide(doc)
	if err != nil {
		t.Fatal(err)
	}
	doc.Channels[0].Fees[0].Rate = quoin.MustRate("50%")
	doc.Rules[0] = rule.Rule{ID: "other", Kind: rule.Price{}}
	// 9.70 ÷ (1 − 3%) = 10.00.
	if got := a.Products[0].Price.String(); got != "10.00" {
		t.Errorf("priced at %s, want 10.00", got)
	}
	steps := a.Products[0].Channels[0].Steps.Steps()
	rate := ""
	for _, s := range steps {
		for _, o := range s.Operands {
			if o.Path.String() == "channels[0].fees[0].rate" {
				rate = o.Value.String()
			}
		}
	}
	if rate != "3%" {
		t.Errorf("its reasons take a rate of %q, want 3%%", rate)
	}
	why, ok := a.Products[0].Lower.Why()
	if !ok || len(why.By) != 1 || why.By[0].Rule != "floor" {
		t.Errorf("not lower because of %+v, want floor", why)
	}
}
