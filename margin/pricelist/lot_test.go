package pricelist_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// placed is line and column, code and path of each problem.
func placed(err error) (out []string) {
	var ps quoin.Problems
	if !errors.As(err, &ps) && err != nil {
		return []string{err.Error()}
	}
	for _, p := range ps {
		out = append(out, fmt.Sprintf("%d:%d %s %s", p.Line, p.Column, p.Code, p.Path))
	}
	return out
}

// A fault that only the shop knows of stands where the text of the lot has it, as long as
// the lot is what the text says. Columns are counted by hand.
func TestFaultsOfLotsHaveTheirPlace(t *testing.T) {
	shop := marshShop(t)
	text := []byte("{\"key\": \"A-17\",\n \"products\": [\n  {\"id\": \"heron\",\n   \"bill\": [{\"supply\": \"papper\", \"quantity\": \"1 sheet\"}]}]}")
	lot, err := pricelist.DecodeLot(text)
	if err != nil {
		t.Fatal(err)
	}
	clear(text) // of which the lot has a copy
	renamed := lot
	renamed.Key = "B-1"
	changed := lot
	changed.Products = slices.Concat([]pricelist.Product{{ID: "rail"}}, lot.Products)
	for _, c := range []struct {
		name string
		lot  pricelist.Lot
		want string
	}{
		{"as it was read", lot, "4:24 unknown_id products[0].bill[0].supply"},
		{"under another key", renamed, "4:24 unknown_id products[0].bill[0].supply"},
		{"changed since", changed, "0:0 unknown_id products[1].bill[0].supply"},
		{"made in Go", pricelist.Lot{Products: lot.Products}, "0:0 unknown_id products[0].bill[0].supply"},
	} {
		_, err := shop.Decide(c.lot, pricelist.Full)
		if diff := cmp.Diff([]string{c.want}, placed(err)); diff != "" {
			t.Errorf("%s:\n%s", c.name, diff)
		}
	}
	for _, err := range (pricelist.Batch{}).Decide(t.Context(), shop, func(yield func(pricelist.Lot, error) bool) { yield(lot, nil) }) {
		if diff := cmp.Diff([]string{`4:24 unknown_id lots["A-17"].products[0].bill[0].supply`}, placed(err)); diff != "" {
			t.Error(diff)
		}
	}
}

// The text that a lot was read from is no part of what it says.
func TestLotsAreEqualByWhatTheySay(t *testing.T) {
	const text = `{"key": "A-17", "products": [{"id": "heron", "price": "6.50"}]}`
	read, err := pricelist.DecodeLot([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	spaced, err := pricelist.DecodeLot([]byte("\n" + text))
	if err != nil {
		t.Fatal(err)
	}
	made := pricelist.Lot{Key: "A-17", Products: []pricelist.Product{{ID: "heron", Price: quoin.Some(quoin.MustAmount("6.50"))}}}
	if !cmp.Equal(read, spaced) || !cmp.Equal(read, made) {
		t.Error("lots that say the same are not equal")
	}
	if made.Key = "A-18"; cmp.Equal(read, made) {
		t.Error("lots with different keys are equal")
	}
	data, err := json.Marshal(read)
	if want := `{"key":"A-17","products":[{"id":"heron","price":"6.50"}]}`; err != nil || string(data) != want {
		t.Errorf("written as %s, %v", data, err)
	}
}

// A key comes back with the answer, and names the lot in paths, as a name does anywhere in a
// path. A lot without one, or whose key cannot be read, has its number.
func TestKeysComeBack(t *testing.T) {
	shop := marshShop(t)
	long := strings.Repeat("k", 70)
	lines := strings.Join([]string{
		`{"key": "A-17", "products": [{"id": "heron"}]}`,
		`{"products": [{"id": "heron"}]}`,
		`{"products": [{"id": ""}], "key": "A-18"}`,
		`{"products": [{"id": ""}], "key": "rail_2"}`,
		`{"products": [{"id": ""}], "key": "a \"b\""}`,
		`{"products": [{"id": ""}], "key": 7}`,
		`{"key": "", "products": [{"id": ""}]}`,
		`{"key": "A-19", "Channels": [], "products": [{"id": "heron"}]}`,
		`{"key": "A-20", "products": [`,
		`{"key": "` + long + `", "products": [{"id": ""}]}`,
		`{"key": "` + long + `", "products": [{"id": "heron"}]}`,
	}, "\n")
	want := []string{
		"A-17", "",
		`3:22 missing_field lots["A-18"].products[0].id`,
		`4:22 missing_field lots.rail_2.products[0].id`,
		`5:22 missing_field lots["a \"b\""].products[0].id`,
		`6:22 missing_field lots[5].products[0].id`, `6:35 wrong_type lots[5].key`,
		`7:33 missing_field lots[6].products[0].id`,
		`8:29 unknown_field lots["A-19"]["Channels"]`,
		`9:30 bad_json lots["A-20"]`,
		`10:103 missing_field lots["` + long[:64] + `"…].products[0].id`,
		long,
	}
	var got []string
	for a, err := range (pricelist.Batch{GoOn: true}).Lines(t.Context(), shop, strings.NewReader(lines)) {
		if err == nil {
			got = append(got, a.Key)
		}
		got = append(got, placed(err)...)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

// Problems of a long document stand where it has them, though it is not kept: columns are
// counted by hand.
func TestFaultsOfLongDocumentsHaveTheirPlace(t *testing.T) {
	text := "{\n \"version\": 1, \"currency\": \"EUR\", \"channels\": [{\"id\": \"own\"}],\n  \"products\": [\n" +
		"  {\"id\": \"heron\"}, {\"id\": \"\"},\n" +
		"  {\"id\": \"small\", \"design\": \"snipe\"},\n" +
		"  {\"id\": \"large\", \"design\": \"snipe\",\n   \"bill\": [{\"supply\": \"x\", \"quantity\": \"1 y\"}]}, {\"id\": \"teal\"},\n" +
		"  {\"id\": \"again\", \"design\": \"snipe\"}],\n \"choose\": \"least\"}"
	want := []string{
		"4:27 missing_field products[1].id",
		"7:24 unknown_id products[3].bill[0].supply",
		"8:3 design_apart products[5].design",
		"9:10 bad_json ",
	}
	var got []string
	for _, err := range (pricelist.Batch{GoOn: true}).Document(t.Context(), strings.NewReader(text)) {
		got = append(got, placed(err)...)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	got = nil
	for _, err := range (pricelist.Batch{GoOn: true}).Document(t.Context(), strings.NewReader(strings.Replace(text, `"id": "own"`, `"ib": "own"`, 1))) {
		got = append(got, placed(err)...)
	}
	if diff := cmp.Diff([]string{"2:55 unknown_field channels[0].ib", "2:48 missing_field channels[0].id"}, got); diff != "" {
		t.Error(diff)
	}
}

// A shop is asked from many goroutines at once, and says the same to each.
func TestShopsAreAskedAtOnce(t *testing.T) {
	shop, lot := scenarioShop(t)
	want := string(written(t, shop, lot))
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			for range 4 {
				if got := string(written(t, shop, lot)); got != want {
					t.Error("another answer")
				}
			}
		})
	}
	all.Wait()
}

func written(t *testing.T, shop *pricelist.Shop, lot pricelist.Lot) []byte {
	a, err := shop.Decide(lot, pricelist.Full)
	if err != nil {
		t.Error(err)
	}
	data, err := json.Marshal(a)
	if err != nil {
		t.Error(err)
	}
	return data
}

// What a lot may ask for does not hang on the lots before it, whose layouts are remembered:
// each may have 1,501 coarse ones, which count 200,000 of 300,000,000 each, and is refused with more, also when it is
// asked again.
func TestLayoutsAreCountedByLot(t *testing.T) {
	oneGoroutine(t)
	shop, err := pricelist.DecodeShop([]byte(`{
		"version": 1, "currency": "EUR", "channels": [{"id": "own"}],
		"supplies": [{"id": "paper", "quantity": "10 sheet", "price": "12.00", "sheet": {"size": "100 x 100 m"}}]
	}`))
	if err != nil {
		t.Fatal(err)
	}
	lot := func(from, n int) pricelist.Lot {
		var products []string
		for i := range n {
			products = append(products, fmt.Sprintf(`{"id": "p%d", "bill": [{"supply": "paper", "cut": {"piece": "%d.7 x 2.3 mm"}}]}`, i, 100+from+i))
		}
		out, err := pricelist.DecodeLot([]byte(`{"products": [` + strings.Join(products, ",") + `]}`))
		if err != nil {
			t.Fatal(err)
		}
		return out
	}
	for _, c := range []struct {
		from, n int
		fault   bool
	}{{0, 700, false}, {700, 900, false}, {0, 1502, true}, {0, 1502, true}, {0, 1501, false}} {
		a, err := shop.Decide(lot(c.from, c.n), pricelist.Figures)
		if c.fault != (len(told(a, err)) == 1 && strings.HasPrefix(told(a, err)[0], "too_many ")) || !c.fault && err != nil {
			t.Errorf("%d layouts from %d on: %d prices, %v", c.n, c.from, len(a.Products), err)
		}
	}
}
