package pricelist_test

import (
	"encoding/json"
	"os"
	"reflect"
	"testing"

	"example.com/quoin/internal/form"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

// textual is a type with the same fields in which every number, size, date and word is a
// string, for encoding/json to read into; a rule has the fields of all kinds.
func textual(t reflect.Type) reflect.Type {
	switch {
	case t == reflect.TypeFor[rule.Rule]():
		fields := fieldsOf(t, nil)
		for _, k := range rule.Kinds() {
			fields = fieldsOf(reflect.TypeOf(k), fields)
		}
		return reflect.StructOf(append(fields, reflect.StructField{Name: "Rule", Type: reflect.TypeFor[string](), Tag: `json:"rule"`}))
	case t.Kind() == reflect.Pointer:
		return reflect.PointerTo(textual(t.Elem()))
	case t.Kind() == reflect.Slice:
		return reflect.SliceOf(textual(t.Elem()))
	case t.Kind() == reflect.Map:
		return reflect.MapOf(t.Key(), textual(t.Elem()))
	case t.Kind() == reflect.Bool || t.Kind() == reflect.Int64:
		return t
	case t.Kind() == reflect.Struct && !form.IsLeaf(t):
		return reflect.StructOf(fieldsOf(t, nil))
	}
	return reflect.TypeFor[string]()
}

func fieldsOf(t reflect.Type, out []reflect.StructField) []reflect.StructField {
	for _, f := range reflect.VisibleFields(t) {
		if name := f.Tag.Get("json"); name == "" || name == "-" || hasField(out, f.Name) {
			continue
		}
		out = append(out, reflect.StructField{Name: f.Name, Type: textual(f.Type), Tag: f.Tag})
	}
	return out
}

func hasField(fields []reflect.StructField, name string) bool {
	for _, f := range fields {
		if f.Name == name {
			return true
		}
	}
	return false
}

// BenchmarkReading reads faultless documents, and beside it encoding/json reads them into the same
// structs, with strings for whatever is no truth and no whole number.
func BenchmarkReading(b *testing.B) {
	text := reflect.New(textual(reflect.TypeFor[pricelist.Document]()))
	for _, name := range []string{"testdata/cases/02-two-sizes-four-channels.json", "../../examples/pricesheet/scenario.json"} {
		data, err := os.ReadFile(name)
		if err != nil {
			b.Fatal(err)
		}
		b.Run("form", func(b *testing.B) {
			b.ReportAllocs()
			b.SetBytes(int64(len(data)))
			for range b.N {
				var doc pricelist.Document
				var c form.Collector
				if !c.Read(data, &doc) || len(c.Problems) > 0 {
					b.Fatal(c.All())
				}
			}
		})
		b.Run("json", func(b *testing.B) {
			b.ReportAllocs()
			b.SetBytes(int64(len(data)))
			for range b.N {
				text.Elem().SetZero()
				if err := json.Unmarshal(data, text.Interface()); err != nil {
					b.Fatal(err)
				}
			}
		})
		b.Run("valid", func(b *testing.B) {
			b.SetBytes(int64(len(data)))
			for range b.N {
				if !json.Valid(data) {
					b.Fatal("no JSON")
				}
			}
		})
	}
}
