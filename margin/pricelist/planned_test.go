package pricelist_test

import (
	"encoding/json"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin/pricelist"
)

// A plan prices what it prices as the general way does, to the last digit.
func TestPlansPriceAsDecide(t *testing.T) {
	t.Parallel()
	var n counted
	rapid.Check(t, func(t *rapid.T) { n.priced(t, plannedDocument(t)) })
	t.Logf("%+v", n)
	if n.products >= enoughDrawn && n.planned*20 < n.products {
		t.Errorf("too few were priced by a plan: %+v", n)
	}
}

func FuzzPlansPriceAsDecide(f *testing.F) {
	f.Fuzz(rapid.MakeFuzz(func(t *rapid.T) { new(counted).priced(t, plannedDocument(t)) }))
}

// enoughDrawn is how many products have to be drawn for too few of a kind to be no chance.
const enoughDrawn = 100

// plannedDocument draws a document without what speaks of several products; most often one
// whose channels have plans.
func plannedDocument(t *rapid.T) pricelist.Document {
	doc := drawn(t).Certain()
	doc.Sets, doc.Fairs, doc.Editions = nil, nil, nil
	doc.Rules = slices.DeleteFunc(doc.Rules, isStep)
	doc.Products = slices.DeleteFunc(doc.Products, func(p pricelist.Product) bool { return p.Extends != "" })
	planned := slices.DeleteFunc(slices.Clone(doc.Channels), channel.Channel.ByProduct)
	if rapid.IntRange(0, 3).Draw(t, "as it is") == 0 || len(planned) == 0 {
		return doc
	}
	doc.Channels = planned
	known := func(id string) bool {
		return slices.ContainsFunc(planned, func(c channel.Channel) bool { return c.ID == id })
	}
	for i := range doc.Products {
		p := &doc.Products[i]
		if p.Channels = slices.DeleteFunc(p.Channels, func(id string) bool { return !known(id) }); len(p.Channels) == 0 {
			p.Channels = nil
		}
	}
	for i := range doc.Rules {
		r := &doc.Rules[i]
		r.Channels = slices.DeleteFunc(r.Channels, func(id string) bool { return !known(id) })
	}
	return doc
}

// counted is how many products were priced in which way.
type counted struct{ products, planned, read, dropped, compared int }

func (n *counted) priced(t *rapid.T, doc pricelist.Document) {
	shop, err := pricelist.Open(doc)
	if err != nil {
		t.Skip(err)
	}
	general := pricelist.General(shop)
	for _, p := range doc.Products {
		n.products++
		lot := pricelist.Lot{Products: []pricelist.Product{p}}
		n.compared += len(doc.Comparables)
		want, err := general.Decide(lot, pricelist.Figures)
		got, planned := pricelist.DecidePlanned(shop, lot)
		if planned {
			n.planned++
			sameAnswer(t, "planned", want, err, got)
		}
		text := must(json.Marshal(p))(t)
		if got, read := pricelist.ReadPlanned(shop, text); read {
			n.read++
			sameAnswer(t, "read from "+string(text), want, err, got)
			if !planned {
				t.Fatalf("read and not decided: %s", text)
			}
		}
		if len(got.Dropped) > 0 {
			n.dropped++
		}
	}
}

// sameAnswer compares answers with all digits, those that are not written too.
func sameAnswer(t *rapid.T, how string, want pricelist.Answer, err error, got pricelist.Answer) {
	t.Helper()
	if err != nil || len(want.Conflict) > 0 {
		t.Fatalf("%s: a price of %v, where there is %v, a conflict of %q", how, got.Products[0].Price, err, want.Conflict)
	}
	if diff := cmp.Diff(want, got, cmp.Comparer(toTheDigit)); diff != "" {
		t.Fatalf("%s:\n%s", how, diff)
	}
	a, b := must(json.Marshal(want))(t), must(json.Marshal(got))(t)
	if string(a) != string(b) {
		t.Fatalf("%s: %s\nwanted %s", how, b, a)
	}
}

func toTheDigit(a, b quoin.Amount) bool {
	return a.IsGiven() == b.IsGiven() && a.String() == b.String() && a.Sub(b).Rat().Sign() == 0
}
