package pricelist

import (
	"reflect"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/waste"
)

// certain returns a copy of the document without ranges, each value that has
// one taken from the end that choose names; empty keeps the value.
func (d Document) certain(choose func(form.Unsure) string) Document {
	out := form.Copy(d)
	for _, u := range form.Unsures(nil, reflect.ValueOf(&out).Elem()) {
		if end := choose(u); end != "" {
			u.Value.Set(u.End(end))
		}
		u.Ends.SetZero()
	}
	return out
}

// cheapest and dearest are the document with every value that has a range at
// the end at which goods cost less, or more.
func (d Document) cheapest() Document { return d.certain(form.Unsure.Cheap) }
func (d Document) dearest() Document {
	return d.certain(func(u form.Unsure) string { return u.Dear })
}

// only is the document with one of its ranges at an end, and the rest likely.
func (d Document) only(at, end string) Document {
	return d.certain(func(u form.Unsure) string {
		if u.At.String() == at {
			return end
		}
		return ""
	})
}

// yields checks that what is lost at a stage has a range only where neither it
// nor a stage before it gives anything back: with a recovery, more spoiled
// pieces may cost less.
func (k checker) yields() {
	gives := slices.IndexFunc(k.doc.Stages, func(s waste.Stage) bool { return !s.Recovers().IsZero() })
	if gives < 0 {
		return
	}
	for _, u := range form.Unsures((*path)(nil).Field("stages"), reflect.ValueOf(k.doc.Stages)) {
		if u.At.Up().Index() < gives {
			continue
		}
		k.Add(u.At.Range(), quoin.Problem{
			Code: RangeWithRecovery, Found: "a range at or after a stage that gives something back",
			Wanted: "one " + u.Field.Name, Remedy: "price two documents, one with each end",
		})
	}
}
