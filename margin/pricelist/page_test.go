package pricelist_test

import (
	"os"
	"reflect"
	"strings"
	"testing"

	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

// The page on the format names every field that a document can have.
func TestPageNamesEveryField(t *testing.T) {
	page, err := os.ReadFile("document.md")
	if err != nil {
		t.Fatal(err)
	}
	seen := make(map[reflect.Type]bool)
	named := func(name string) bool { return strings.Contains(string(page), "`"+name+"`") }
	var walk func(at string, typ reflect.Type)
	walk = func(at string, typ reflect.Type) {
		switch typ.Kind() {
		case reflect.Slice, reflect.Map, reflect.Pointer:
			walk(at, typ.Elem())
		case reflect.Struct:
			if seen[typ] || typ.PkgPath() == "example.com/quoin" {
				return // a word of its own
			}
			seen[typ] = true
			for i := range typ.NumField() {
				name, _, _ := strings.Cut(typ.Field(i).Tag.Get("json"), ",")
				if name == "" || name == "-" {
					continue
				}
				if !named(name) {
					t.Errorf("%s.%s is not on the page", at, name)
				}
				walk(at+"."+name, typ.Field(i).Type)
			}
		}
	}
	walk("document", reflect.TypeFor[pricelist.Document]())
	for _, k := range rule.Kinds() {
		if !named(k.String()) {
			t.Errorf("the rule %s is not on the page", k)
		}
		walk(k.String(), reflect.TypeOf(k))
	}
}
