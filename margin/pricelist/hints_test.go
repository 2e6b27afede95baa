package pricelist_test

import (
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

// Each hint names fields that there are, of objects that there are, and its word is none of
// the object's fields.
func TestHintsNameFields(t *testing.T) {
	fields := objectFields(reflect.TypeFor[pricelist.Document]())
	hints := form.Meanings()
	for object, words := range hints {
		own := fields[object]
		if own == nil {
			t.Errorf("%s is no object of a document", object)
			continue
		}
		for word, all := range words {
			if slices.Contains(own, word) && object != "rule.Rule" {
				t.Errorf("%s: %s is a field", object, word)
			}
			for _, hint := range strings.Split(all, ", ") {
				if !hintNames(fields, own, hint) {
					t.Errorf("%s: %s stands for %s, which there is not", object, word, hint)
				}
			}
		}
	}
}

// hintNames reports whether a hint names a field: of an object, of the entries of a list of the
// document, or a kind of rule.
func hintNames(fields map[string][]string, own []string, hint string) bool {
	if kind, ok := strings.CutPrefix(hint, "rule "); ok {
		return slices.ContainsFunc(rule.Kinds(), func(k rule.Kind) bool { return k.String() == kind })
	}
	list, field, deep := strings.Cut(hint, ".")
	if !deep {
		return slices.Contains(own, hint) || slices.Contains(fields["pricelist.Document"], hint)
	}
	typ := reflect.TypeFor[pricelist.Document]()
	for i := range typ.NumField() {
		if name, _, _ := strings.Cut(typ.Field(i).Tag.Get("json"), ","); name == list {
			return slices.Contains(fields[typ.Field(i).Type.Elem().String()], field)
		}
	}
	return false
}

// objectFields is the names of the fields of all objects in a document, by their types.
func objectFields(root reflect.Type) map[string][]string {
	out := make(map[string][]string)
	var walk func(typ reflect.Type)
	walk = func(typ reflect.Type) {
		switch typ.Kind() {
		case reflect.Slice, reflect.Map, reflect.Pointer:
			walk(typ.Elem())
		case reflect.Struct:
			if out[typ.String()] != nil || typ.PkgPath() == "example.com/quoin" {
				return
			}
			out[typ.String()] = []string{}
			for _, f := range form.Of(typ).Fields {
				out[typ.String()] = append(out[typ.String()], f.Name)
				walk(typ.Field(f.Index).Type)
			}
		}
	}
	walk(root)
	out["rule.Rule"] = append(out["rule.Rule"], "rule")
	for _, k := range rule.Kinds() {
		for _, f := range form.Of(reflect.TypeOf(k)).Fields {
			out["rule.Rule"] = append(out["rule.Rule"], f.Name)
		}
	}
	return out
}

// A word that means a field gets that field as a hint, and not one that is spelt nearly so.
func TestNearMissesInMeaning(t *testing.T) {
	for _, c := range []struct{ at, put, says string }{
		{`"id": "web", `, `"id": "web", "discount": "50%", `, `did you mean trade_discount?; or "promotion"`},
		{`"id": "web", `, `"id": "web", "vat": "20%", `, `did you mean tax?`},
		{`"id": "web", `, `"id": "web", "margin": "20%", `, `say it by a rule gross_margin, or a rule net_margin`},
		{`"id": "mailer", `, `"id": "mailer", "cost": "1.00", `, `did you mean price?`},
		{`"id": "mailer", `, `"id": "mailer", "weight": "90 g", `, `did you mean mass?; or "grammage"`},
		{`"id": "mailer", `, `"id": "mailer", "units": "90 g", `, `did you mean quantity?`},
		{`"id": "heron-a4", `, `"id": "heron-a4", "waste": "10%", `, `say it by "stages.yield"`},
		{`"id": "heron-a4", `, `"id": "heron-a4", "markup": "3", `, `say it by a rule cost_multiple`},
		{`"id": "heron-a4", `, `"id": "heron-a4", "postage": "3", `, `say it by "channels.orders"`},
		{`"version": 1, `, `"version": 1, "materials": [], `, `did you mean supplies?`},
		{`"rule": "contribution", `, `"rule": "contribution", "minimum": "9.00", `, `did you mean at_least?`},
		{`"rule": "contribution", `, `"rule": "contribution", "max": "9.00", `, `say it by "at_most"`},
		{`"rate": "2%", `, `"rate": "2%", "cap": "9.00", `, `did you mean at_most?`},
		{`"shipping": "5.00"`, `"shipping": "5.00", "delivery": "1.00"`, `did you mean shipping?`},
		{`"id": "heron-a4", `, `"id": "heron-a4", "imag": "A4", `, `did you mean image?`},
	} {
		_, err := pricelist.Price([]byte(soundShop(t, c.at, c.put)))
		var ps quoin.Problems
		if !errors.As(err, &ps) || len(ps) != 1 || ps[0].Code != quoin.UnknownField || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s\n%v\nwant %s", c.put, err, c.says)
		}
	}
}
