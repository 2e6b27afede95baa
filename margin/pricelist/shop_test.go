package pricelist_test

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"iter"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

func TestLotsAreDocuments(t *testing.T) { t.Parallel(); rapid.Check(t, lotsAreDocuments) }
func FuzzLotsAreDocuments(f *testing.F) { f.Fuzz(rapid.MakeFuzz(lotsAreDocuments)) }

// lotsAreDocuments: each lot of a shop comes to what its products do alone in a
// document, to the last reason; one by one, in a batch by several workers, from lines of
// JSON and from one long document.
func lotsAreDocuments(t *rapid.T) {
	doc := apart(drawn(t))
	if rapid.Bool().Draw(t, "ways of selling") {
		doc = apart(drawnWays(t))
	}
	// Written and read again, what was given as zero is not given.
	doc, err := pricelist.Decode(must(json.Marshal(doc))(t))
	if err != nil {
		t.Skip(err) // something names a product that was left out
	}
	shop := must(pricelist.Open(doc))(t)
	workers := rapid.IntRange(1, 4).Draw(t, "workers")
	parts := parted(doc.Products)
	var want [][]byte
	for _, products := range parts {
		one := doc
		if one.Products = products; len(products) == 1 {
			one.Rules = slices.DeleteFunc(slices.Clone(doc.Rules), isStep)
		}
		a, err := pricelist.Decide(one)
		if err != nil {
			t.Skip(err) // something names a product that stands in another lot
		}
		want = append(want, essence(t, a))
	}
	batch := pricelist.Batch{Workers: workers}
	for name, answers := range map[string]iter.Seq2[pricelist.Answer, error]{
		"one by one":    oneByOne(shop, parts),
		"batch":         batch.Decide(context.Background(), shop, lots(parts)),
		"lines":         batch.Lines(context.Background(), shop, strings.NewReader(lines(t, parts))),
		"long document": batch.Document(context.Background(), bytes.NewReader(longDocument(t, doc))),
	} {
		i := 0
		for a, err := range answers {
			if err != nil {
				t.Fatalf("%s, lot %d: %v", name, i, err)
			}
			if diff := cmp.Diff(string(want[i]), string(essence(t, a))); diff != "" {
				t.Fatalf("%s, lot %d:\n%s", name, i, diff)
			}
			i++
		}
		if i != len(want) {
			t.Fatalf("%s: %d answers, want %d", name, i, len(want))
		}
	}
}

// apart is a document in which nothing speaks of products in several lots, nor rests on
// another one, nor has a range. Prints of a design stand together, and steps through
// designs behind all other rules.
func apart(doc pricelist.Document) pricelist.Document {
	doc = doc.Certain()
	doc.Sets, doc.Fairs, doc.Editions = nil, nil, nil
	doc.Comparables = nil
	doc.Rules = slices.DeleteFunc(slices.Clone(doc.Rules), func(r rule.Rule) bool {
		return len(r.Products) > 0 || len(r.Designs) > 0
	})
	slices.SortStableFunc(doc.Rules, func(a, b rule.Rule) int {
		if isStep(a) == isStep(b) {
			return 0
		}
		if isStep(a) {
			return 1
		}
		return -1
	})
	doc.Products = slices.DeleteFunc(slices.Clone(doc.Products), func(p pricelist.Product) bool { return p.Extends != "" })
	slices.SortStableFunc(doc.Products, func(a, b pricelist.Product) int { return strings.Compare(a.Design, b.Design) })
	if !slices.ContainsFunc(parted(doc.Products), func(lot []pricelist.Product) bool { return len(lot) > 1 }) {
		doc.Rules = slices.DeleteFunc(doc.Rules, isStep)
	}
	return doc
}

func isStep(r rule.Rule) bool { return r.Kind.String() == "size_ratio" }

// parted is products in lots: those of a design together, others one by one.
func parted(products []pricelist.Product) [][]pricelist.Product {
	var out [][]pricelist.Product
	for _, p := range products {
		if last := len(out) - 1; last >= 0 && p.Design != "" && out[last][0].Design == p.Design {
			out[last] = append(out[last], p)
			continue
		}
		out = append(out, []pricelist.Product{p})
	}
	return out
}

// essence is what a lot's answer has of a document's: all about its product, with
// its steps, and what became of the rules.
func essence(t *rapid.T, a pricelist.Answer) []byte {
	for i := range a.Products {
		a.Products[i].Uncertainty = nil
	}
	out, err := json.MarshalIndent(struct {
		P []pricelist.ProductResult
		D []string
		C []string
		G []rule.Gap
		R []pricelist.Remedy
	}{a.Products, a.Dropped, a.Conflict, a.Gaps, a.Remedies}, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func lots(parts [][]pricelist.Product) iter.Seq2[pricelist.Lot, error] {
	return func(yield func(pricelist.Lot, error) bool) {
		for _, p := range parts {
			if !yield(pricelist.Lot{Products: p}, nil) {
				return
			}
		}
	}
}

func oneByOne(shop *pricelist.Shop, parts [][]pricelist.Product) iter.Seq2[pricelist.Answer, error] {
	return func(yield func(pricelist.Answer, error) bool) {
		for lot := range lots(parts) {
			if !yield(shop.Decide(lot, pricelist.Full)) {
				return
			}
		}
	}
}

func lines(t *rapid.T, parts [][]pricelist.Product) string {
	var out strings.Builder
	for lot := range lots(parts) {
		out.Write(must(json.Marshal(lot))(t))
		out.WriteString("\n\n")
	}
	return out.String()
}

// longDocument writes the products last.
func longDocument(t *rapid.T, doc pricelist.Document) []byte {
	products := must(json.Marshal(doc.Products))(t)
	doc.Products = nil
	var fields map[string]json.RawMessage
	if err := json.Unmarshal(must(json.Marshal(doc))(t), &fields); err != nil {
		t.Fatal(err)
	}
	delete(fields, "products")
	head := must(json.Marshal(fields))(t)
	return fmt.Appendf(nil, `%s,"products":%s}`, head[:len(head)-1], products)
}

// A shop of invented figures, and lots for it.
func marshShop(t *testing.T) *pricelist.Shop {
	t.Helper()
	doc, err := pricelist.Decode([]byte(`{
		"version": 1, "currency": "EUR",
		"supplies": [{"id": "paper", "quantity": "10 sheet", "price": "12.00"}],
		"products": [{"id": "any"}],
		"channels": [{"id": "own", "fees": [{"name": "card", "rate": "3.3%", "fixed": "0.27"}]}],
		"rules": [{"id": "keep", "rule": "contribution", "at_least": "5.00"}]
	}`))
	if err != nil {
		t.Fatal(err)
	}
	shop, err := pricelist.Open(doc)
	if err != nil {
		t.Fatal(err)
	}
	return shop
}

func heron(id string, sheets string) pricelist.Lot {
	lot := `{"products": [{"id": "` + id + `", "bill": [{"supply": "paper", "quantity": "` + sheets + ` sheet"}]}]}`
	var out pricelist.Lot
	if err := json.Unmarshal([]byte(lot), &out); err != nil {
		panic(err)
	}
	return out
}

var errSource = errors.New("the list ends here")

// mixed are three lots, the second of which names a supply that is not there, and an
// error of the source.
func mixed(yield func(pricelist.Lot, error) bool) {
	bad := heron("bad", "1")
	bad.Products[0].Bill[0].Supply = "papper"
	_ = yield(heron("a", "1"), nil) && yield(bad, nil) && yield(heron("b", "2"), nil) && yield(pricelist.Lot{}, errSource) && yield(heron("c", "1"), nil)
}

func TestBatchReportsWhatFails(t *testing.T) {
	shop := marshShop(t)
	for _, c := range []struct {
		batch pricelist.Batch
		want  []string
	}{
		// Paper costs 1.20 a sheet: 6.69 − 0.49 (0.49077) − 1.20 = 5.00, and with two
		// 7.93 − 0.53 (0.53169) − 2.40 = 5.00.
		{pricelist.Batch{}, []string{"a 6.69", "lots[1] unknown"}},
		{pricelist.Batch{Workers: 3}, []string{"a 6.69", "lots[1] unknown"}},
		{pricelist.Batch{GoOn: true}, []string{"a 6.69", "lots[1] unknown", "b 7.93", errSource.Error(), "c 6.69"}},
		{pricelist.Batch{Workers: 2, GoOn: true, Detail: pricelist.Figures}, []string{"a 6.69", "lots[1] unknown", "b 7.93", errSource.Error(), "c 6.69"}},
	} {
		var got []string
		for a, err := range c.batch.Decide(context.Background(), shop, mixed) {
			var ps quoin.Problems
			switch {
			case errors.As(err, &ps):
				if ps[0].Path != "lots[1].products[0].bill[0].supply" || ps[0].Code != quoin.UnknownID || ps[0].Near != "paper" {
					t.Errorf("%+v: %v", c.batch, ps)
				}
				got = append(got, "lots[1] unknown")
			case err != nil:
				got = append(got, err.Error())
			default:
				got = append(got, a.Products[0].ID+" "+a.Products[0].Price.String())
			}
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%+v:\n%s", c.batch, diff)
		}
	}
}
