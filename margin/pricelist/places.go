package pricelist

import (
	"cmp"
	"reflect"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
)

// warningPlaces says in words where each warning is.
func (d *decidedList) warningPlaces(warnings quoin.Problems) []string {
	doc := d.asGiven()
	out := make([]string, len(warnings))
	for i, w := range warnings {
		out[i] = doc.Place(w.Path)
	}
	return out
}

// asGiven is the document as it was given; of a lot, which is worked out with its shop, as it was
// worked out.
func (d *decidedList) asGiven() Document {
	if len(d.given.Channels) == 0 {
		return d.Document
	}
	return d.given
}

// Place says in words where a path of the document leads, by the names and ids of what it goes
// through: channels[0].orders[1].shipping is Own shop, order 2, shipping. A line of a bill is
// called by its supply. What is not written as a path is returned as it is.
func (d Document) Place(path string) string {
	names := make(map[string]string)
	form.Along(reflect.ValueOf(d), path, func(at string, v reflect.Value) {
		if v.Kind() == reflect.Struct {
			names[at] = d.nameIn(v)
		}
	})
	return prose.Place(path, func(at string) string { return names[at] })
}

func (d Document) nameIn(v reflect.Value) string {
	text := func(field string) string {
		if f := v.FieldByName(field); f.Kind() == reflect.String {
			return f.String()
		}
		return ""
	}
	if name := cmp.Or(text("Name"), text("ID")); name != "" {
		return name
	}
	supply := text("Supply")
	for _, s := range d.Supplies {
		if supply != "" && s.ID == supply {
			return cmp.Or(s.Name, s.ID)
		}
	}
	return supply
}
