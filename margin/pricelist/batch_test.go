package pricelist_test

import (
	"context"
	"errors"
	"fmt"
	"io"
	"iter"
	"strings"
	"sync/atomic"
	"testing"
	"testing/synctest"
	"time"

	"github.com/google/go-cmp/cmp"
	"go.uber.org/goleak"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// forever is lots without an end; it counts those that were taken.
func forever(taken *int) iter.Seq2[pricelist.Lot, error] {
	return func(yield func(pricelist.Lot, error) bool) {
		for {
			*taken++
			if !yield(heron(fmt.Sprint("h", *taken), "1"), nil) {
				return
			}
		}
	}
}

// However many lots there are, few are taken before they are asked for.
func TestBatchTakesFewAhead(t *testing.T) {
	defer goleak.VerifyNone(t)
	shop := marshShop(t)
	for _, workers := range []int{0, 1, 2, 5} {
		synctest.Test(t, func(t *testing.T) {
			var taken atomic.Int64 // the iterator may run beside the loop
			lots := func(yield func(pricelist.Lot, error) bool) {
				for yield(heron(fmt.Sprint("h", taken.Add(1)), "1"), nil) {
				}
			}
			answered := 0
			for a, err := range (pricelist.Batch{Workers: workers}).Decide(t.Context(), shop, lots) {
				if err != nil || a.Products[0].ID != fmt.Sprint("h", answered+1) {
					t.Fatalf("%d workers, answer %d: %v, %v", workers, answered, a.Products, err)
				}
				if answered++; answered == 50 {
					break
				}
			}
			synctest.Wait()
			if ahead := int(taken.Load()) - answered; ahead > 20*max(workers, 1) {
				t.Errorf("%d workers took %d lots ahead", workers, ahead)
			}
		})
	}
}

func TestBatchIsCancelled(t *testing.T) {
	shop := marshShop(t)
	for _, workers := range []int{1, 3} {
		ctx, cancel := context.WithCancel(context.Background())
		taken, answered := 0, 0
		var last error
		for _, err := range (pricelist.Batch{Workers: workers, GoOn: true}).Decide(ctx, shop, forever(&taken)) {
			if last != nil {
				t.Fatalf("%d workers: more after %v", workers, last)
			}
			if last = err; err == nil {
				answered++
			}
			if answered == 10 {
				cancel()
			}
		}
		if !errors.Is(last, context.Canceled) || answered != 10 {
			t.Errorf("%d workers: %d answers, then %v", workers, answered, last)
		}
		cancel()
	}
	late, cancel := context.WithDeadline(context.Background(), time.Time{})
	defer cancel()
	taken := 0
	for _, err := range (pricelist.Batch{}).Decide(late, shop, forever(&taken)) {
		if !errors.Is(err, context.DeadlineExceeded) {
			t.Errorf("too late from the start: %v", err)
		}
	}
}

// What stands before a long document's products, and around them, is reported as in a
// document, and what stands in one under its number.
func TestLongDocumentsAtFault(t *testing.T) {
	const ok = `{"id": "heron"}`
	for _, c := range []struct {
		name, text string
		want       []string // prices' ids, and codes with paths
	}{
		{"two products", strings.TrimSuffix(press, "}") + `, "products": [` + ok + `, {"id": "rail"}]}`, []string{"heron", "rail"}},
		{"the second at fault", strings.TrimSuffix(press, "}") + `, "products": [` + ok + `, {"id": "rail", "bill": [{"supply": "ink"}]}, {}]}`, []string{"heron", "missing_field products[1].bill[0].quantity", "unknown_id products[1].bill[0].supply", "missing_field products[2].id"}},
		{"one not closed", strings.TrimSuffix(press, "}") + `, "products": [` + ok + `, {"id": "rail"`, []string{"heron", "bad_json "}},
		{"no products", press, []string{"missing_field products"}},
		{"products that are no list", strings.TrimSuffix(press, "}") + `, "products": {}}`, []string{"bad_json "}},
		{"a field behind", strings.TrimSuffix(press, "}") + `, "products": [` + ok + `], "choose": "least"}`, []string{"heron", "bad_json "}},
		{"something behind", strings.TrimSuffix(press, "}") + `, "products": [` + ok + `]} {}`, []string{"heron", "bad_json "}},
		{"a faulty shop", strings.Replace(strings.TrimSuffix(press, "}"), "2.1%", "210", 1) + `, "products": [` + ok + `]}`, []string{"bare_percentage channels[0].fees[0].rate"}},
		{"nothing", ``, []string{"bad_json "}},
		{"a list", `[]`, []string{"bad_json "}},
	} {
		var got []string
		for a, err := range (pricelist.Batch{GoOn: true}).Document(context.Background(), strings.NewReader(c.text)) {
			got = append(got, told(a, err)...)
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%s:\n%s", c.name, diff)
		}
	}
}

// told is the ids of the products of an answer, or codes and paths of what is wrong.
func told(a pricelist.Answer, err error) (out []string) {
	var ps quoin.Problems
	switch {
	case errors.As(err, &ps):
		for _, p := range ps {
			out = append(out, fmt.Sprintf("%s %s", p.Code, p.Path))
		}
	case err != nil:
		out = append(out, err.Error())
	}
	for _, p := range a.Products {
		out = append(out, p.ID)
	}
	return out
}

// failing is a reader that fails.
type failing struct{ io.Reader }

func (b failing) Read(p []byte) (int, error) {
	n, err := b.Reader.Read(p)
	if err == io.EOF {
		err = io.ErrClosedPipe
	}
	return n, err
}

func TestLinesAtFault(t *testing.T) {
	shop := marshShop(t)
	const ok = `{"products": [{"id": "heron"}]}`
	for _, c := range []struct {
		name string
		in   io.Reader
		want []string
	}{
		{"lines, some empty", strings.NewReader(ok + "\n\n  \n" + ok), []string{"heron", "heron"}},
		{"no JSON in one", strings.NewReader(ok + "\n{]\n" + ok), []string{"heron", "missing_field lots[1].products", "bad_json lots[1]", "heron"}},
		{"no products in one", strings.NewReader("{}\n" + ok), []string{"missing_field lots[0].products", "heron"}},
		{"an unknown field", strings.NewReader(`{"products": [{"id": "heron"}], "channels": []}`), []string{"unknown_field lots[0].channels"}},
		{"the same id twice", strings.NewReader(`{"products": [{"id": "heron"}, {"id": "heron"}]}`), []string{"duplicate_id lots[0].products[1].id"}},
		{"a rule with the id of one of the shop", strings.NewReader(`{"products": [{"id": "heron"}], "rules": [{"id": "keep", "rule": "price"}]}`), []string{"duplicate_id lots[0].rules[1].id"}},
		{"a rule about a product of another lot", strings.NewReader(`{"products": [{"id": "heron"}], "rules": [{"id": "own", "rule": "price", "products": ["rail"]}]}`), []string{"unknown_id lots[0].rules[1].products[0]"}},
		{"a reader that fails", failing{strings.NewReader(ok + "\n")}, []string{"heron", "line 2: io: read/write on closed pipe"}},
		{"a line without an end", strings.NewReader(strings.Repeat("x", 17<<20)), []string{"too_long lots[0]"}},
		{"a line too long", strings.NewReader(ok + "\n" + strings.Repeat(" ", 16<<20+1) + "\n" + ok), []string{"heron", "too_long lots[1]", "heron"}},
		{"a line just long enough", strings.NewReader(ok + strings.Repeat(" ", 16<<20-len(ok)) + "\n" + ok), []string{"heron", "heron"}},
	} {
		var got []string
		for a, err := range (pricelist.Batch{GoOn: true}).Lines(context.Background(), shop, c.in) {
			got = append(got, told(a, err)...)
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%s:\n%s", c.name, diff)
		}
	}
}

// What speaks of several products has no place in a shop whose products come in lots.
func TestShopsSpeakOfSingleProducts(t *testing.T) {
	_, err := pricelist.DecodeShop([]byte(`{
		"version": 1, "currency": "EUR", "channels": [{"id": "own"}],
		"rules": [{"id": "sizes", "rule": "size_ratio", "products": ["a", "b"], "at_least": "1.4"}, {"id": "of one", "rule": "price", "products": ["a"], "at_least": "9.00"}],
		"sets": [{"id": "pair", "channel": "own", "products": ["a", "b"]}]
	}`))
	want := []string{"several_products rules[0]", "several_products sets"}
	if diff := cmp.Diff(want, told(pricelist.Answer{}, err)); diff != "" {
		t.Error(diff)
	}
}

// Warnings of the shop are said once, those of products with their lot; bare answers
// have none.
func TestWarningsOfShopAndLot(t *testing.T) {
	shop, err := pricelist.DecodeShop([]byte(`{
		"version": 1, "currency": "EUR", "channels": [{"id": "own", "orders": [{"shipping": "4.00", "postage": "5.00"}]}],
		"rules": [{"id": "cheap", "rule": "price", "at_most": "4.00"}], "choose": "greatest"
	}`))
	if err != nil {
		t.Fatal(err)
	}
	codes := func(ps quoin.Problems) (out []string) {
		for _, p := range ps {
			out = append(out, string(p.Code))
		}
		return out
	}
	if diff := cmp.Diff([]string{"postage_partly_covered", "no_fee_in_channel", "no_rule_for_channel"}, codes(shop.Warnings())); diff != "" {
		t.Error(diff)
	}
	dear, err := pricelist.DecodeLot([]byte(`{"products": [{"id": "rail", "price": "5.00", "run": {"good": 10, "setup": "60.00"}}]}`))
	if err != nil {
		t.Fatal(err)
	}
	a, err := shop.Decide(dear, pricelist.Full)
	if err != nil {
		t.Fatal(err)
	}
	// Each print carries 6.00 of setting up, and sells for 4.00.
	if diff := cmp.Diff([]string{"today_breaks_rule", "price_below_today", "loses_money"}, codes(a.Warnings)); diff != "" {
		t.Error(diff)
	}
	if a.Warnings[0].Path != "products[0].price" {
		t.Errorf("a warning stands at %s", a.Warnings[0].Path)
	}
}

// A product with more problems than are listed says so, as a document does: it is JSON
// all the same.
func TestProductsWithTooManyProblems(t *testing.T) {
	var fields strings.Builder
	for i := range 1500 {
		fmt.Fprintf(&fields, `, "f%d": 1`, i)
	}
	text := strings.TrimSuffix(press, "}") + `, "products": [{"id": "heron"}, {"id": "rail"` + fields.String() + `}]}`
	var got []string
	for a, err := range (pricelist.Batch{}).Document(context.Background(), strings.NewReader(text)) {
		got = append(got, told(a, err)...)
	}
	if len(got) != 1002 || got[0] != "heron" || got[1] != "unknown_field products[1].f0" || got[1001] != "more_problems " {
		t.Errorf("%d, from %q to %q", len(got), got[:min(2, len(got))], got[len(got)-1])
	}
}
