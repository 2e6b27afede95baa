package pricelist_test

import (
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/cost"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

// read returns the documents of testdata, by name.
func read(t testing.TB) map[string][]byte {
	t.Helper()
	files, err := filepath.Glob("testdata/cases/*.json")
	if err != nil || len(files) == 0 {
		t.Fatalf("no cases: %v", err)
	}
	out := make(map[string][]byte)
	for _, f := range files {
		if strings.HasSuffix(f, ".want.json") {
			continue
		}
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		out[strings.TrimSuffix(filepath.Base(f), ".json")] = data
	}
	return out
}

// What is decoded and encoded again is the same document, in the three ways
// there are of reading it.
func TestEncodingIsReadAsWritten(t *testing.T) {
	for name, data := range read(t) {
		doc, err := pricelist.Decode(data)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		out, err := json.Marshal(doc)
		if err != nil {
			t.Fatal(err)
		}
		again, err := pricelist.Decode(out)
		if err != nil {
			t.Errorf("%s: encoded: %v", name, err)
		}
		if diff := cmp.Diff(doc, again); diff != "" {
			t.Errorf("%s changes when it is encoded (-was +is):\n%s", name, diff)
		}
		var plain pricelist.Document
		if err := json.Unmarshal(data, &plain); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if diff := cmp.Diff(doc, plain); diff != "" {
			t.Errorf("%s reads differently by encoding/json (-ours +theirs):\n%s", name, diff)
		}
	}
}

// The structs are the document: one made in Go is decided like one decoded.
func TestDocumentMadeInGo(t *testing.T) {
	amount := quoin.MustAmount
	doc := pricelist.Document{
		Version: 1, Currency: quoin.MustCurrency("USD"), PriceLimit: quoin.Some(amount("80.00")),
		Supplies: []cost.Supply{{ID: "stuff", Quantity: quoin.MustQuantity("1 set"), Price: amount("5.00")}},
		Products: []pricelist.Product{{ID: "print", Bill: cost.Bill{{Supply: "stuff", Quantity: quoin.MustQuantity("1 set")}}}},
		Channels: []channel.Channel{{ID: "shop"}},
		Rules:    []rule.Rule{{ID: "multiple", Kind: rule.CostMultiple{AtLeast: quoin.MustFactor("3.5")}}},
	}
	a, err := pricelist.Decide(doc)
	if err != nil {
		t.Fatal(err)
	}
	// Common practice: 3.5 times a cost of 5.00 is 17.50.
	if got := a.Products[0].Price.String(); got != "17.50" {
		t.Errorf("priced at %s, want 17.50", got)
	}
}

// What a document made in Go leaves out is said like what JSON leaves out.
func TestCheckFindsWhatIsMissing(t *testing.T) {
	doc := pricelist.Document{
		Supplies: []cost.Supply{{ID: "paper", Price: quoin.MustAmount("60.00")}},
		Products: []pricelist.Product{{ID: "print", Bill: cost.Bill{{Supply: "paper"}}}, {}},
		Channels: []channel.Channel{{ID: "shop", Fees: []channel.Fee{{Rate: quoin.MustRate("110%")}}}},
		Rules:    []rule.Rule{{ID: "none"}},
	}
	err := doc.Check()
	var problems quoin.Problems
	if !errors.As(err, &problems) {
		t.Fatalf("no problems: %v", err)
	}
	got := make(map[string]quoin.Code)
	for _, p := range problems {
		got[p.Path] = p.Code
	}
	want := map[string]quoin.Code{
		"version": quoin.MissingField, "currency": quoin.MissingField, "supplies[0].quantity": quoin.MissingField,
		"products[0].bill[0].quantity": quoin.MissingField, "products[1].id": quoin.MissingField,
		"channels[0].fees[0].rate": quoin.OutOfRange, "rules[0].rule": quoin.MissingField,
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("found otherwise (-want +got):\n%s", diff)
	}
}
