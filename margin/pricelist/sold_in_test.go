package pricelist_test

import (
	"encoding/json"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/promo"
	"example.com/quoin/margin/pricelist"
)

// A print with goods of 4.00 and its original with goods of 40.00. Shops pay half, and buy the
// print alone. All invented.
const originalOnWebAlone = `{
  "version": 1, "currency": "EUR", "price_limit": "200.00",
  "supplies": [{"id": "kit", "quantity": "10 kit", "price": "40.00"}],
  "products": [
    {"id": "heron", "price": "20.00", "bill": [{"supply": "kit", "quantity": "1 kit"}], "packing": {"parcel": [], "carton": []}},
    {"id": "heron-original", "channels": ["fair", "web"], "price": "50.00", "bill": [{"supply": "kit", "quantity": "10 kit"}], "packing": {"parcel": []}}
  ],
  "channels": [
    {"id": "shops", "trade_discount": ["50%"], "trade": {}, "packing": "carton"},
    {"id": "web", "packing": "parcel", "fees": [{"name": "card", "rate": "2%"}]},
    {"id": "fair", "packing": "parcel", "fees": [{"name": "card", "rate": "10%"}]}
  ],
  "rules": [{"id": "5 stays", "rule": "contribution", "at_least": "5.00"}],
  "choose": "least"
}`

// The print: half of 17.99, rounded, is 9.00, which leaves 5.00 of goods of 4.00. The original: 90% of 50.00
// leaves 5.00 of 40.00 at the fair; shops, which do not buy it, would have asked for 89.99: half of it is 45.00.
func TestAProductIsInItsChannelsAlone(t *testing.T) {
	a := decidedShop(t, originalOnWebAlone)
	original := a.Products[1]
	in := func(channels []string) string { return strings.Join(channels, " ") }
	var results, standings, floors []string
	for _, c := range original.Channels {
		results = append(results, c.ID)
	}
	for _, c := range original.ByChannel.Channels() {
		standings = append(standings, c.Channel)
		floors = append(floors, fmt.Sprintf("%v %t", c.Floor.Or(quoin.Amount{}), c.SetsPrice))
	}
	for _, c := range []struct{ what, got, want string }{
		{"print", fmt.Sprint(a.Products[0].Price), "17.99"},
		{"original", fmt.Sprint(original.Price), "50.00"},
		// In the order of the document, whatever that of the product.
		{"results", in(results), "web fair"},
		{"by channel", in(standings), "web fair"},
		// 98% of 45.92 is 45.00, to the cent.
		{"floors", in(floors), "45.92 false 50.00 true"},
		{"line sheet", fmt.Sprintf("%d %s %d", len(a.LineSheets), a.LineSheets[0].Lines[0].Product, len(a.LineSheets[0].Lines)), "1 heron 1"},
	} {
		if c.got != c.want {
			t.Errorf("%s: %s, want %s", c.what, c.got, c.want)
		}
	}
	page, err := os.ReadFile("document.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, says := range []string{"this asks 17.99", "half of it is 9.00", "this asks 50.00", "would have asked 89.99"} {
		if !strings.Contains(strings.Join(strings.Fields(string(page)), " "), says) {
			t.Errorf("the page does not say %q", says)
		}
	}
	everywhere := strings.Replace(originalOnWebAlone, `"channels": ["fair", "web"], `, "", 1)
	if _, err := pricelist.Price([]byte(everywhere)); err == nil || !strings.Contains(err.Error(), "products[1].packing") {
		t.Errorf("an original without a carton, sold to shops: %v", err)
	}
	everywhere = strings.Replace(everywhere, `"packing": {"parcel": []}`, `"packing": {"parcel": [], "carton": []}`, 1)
	if got := decidedShop(t, everywhere).Products[1].Price; got.String() != "89.99" {
		t.Errorf("sold to shops too, the original costs %s, want 89.99", got)
	}
}

// No line sheet is printed for shops that no product is sold to, and no rule about them is missed.
func TestAChannelThatSellsNothing(t *testing.T) {
	a := decidedShop(t, strings.Replace(originalOnWebAlone, `{"id": "heron", `, `{"id": "heron", "channels": ["web"], `, 1))
	var codes []string
	for _, w := range a.Warnings {
		if strings.HasPrefix(w.Path, "channels[0]") {
			codes = append(codes, string(w.Code))
		}
	}
	if len(a.LineSheets) != 0 || !slices.Equal(codes, []string{"channel_sells_nothing"}) {
		t.Errorf("%d line sheets, warnings %v", len(a.LineSheets), codes)
	}
}

// What names a product beside a channel that does not sell it.
func TestNamedWhereItIsNotSold(t *testing.T) {
	const end = `"choose": "least"`
	for _, c := range []struct{ old, new, code, path string }{
		{`["fair", "web"]`, `["fair", "webb"]`, "unknown_id", "products[1].channels[1]"},
		{`["fair", "web"]`, `["web", "web"]`, "duplicate_id", "products[1].channels[1]"},
		{`["fair", "web"]`, `[]`, "empty_list", "products[1].channels"},
		{end, end + `, "sets": [{"id": "both", "channel": "shops", "products": ["heron", "heron-original"]}]`, "not_sold_there", "sets[0].products[1]"},
		{end, end + `, "sets": [{"id": "both", "channel": "web", "products": ["heron", "heron-original"]}]`, "", ""},
		{`"trade": {}, `, `"trade": {}, "promotions": [{"id": "c", "rate": "10%", "products": ["heron-original"]}], `, "not_sold_there", "channels[0].promotions[0].products[0]"},
		{`"trade": {}, "packing": "carton"`, `"on_demand": {"pays": "flat_fee", "sizes": [{"product": "heron", "flat": "9.00"}]}`, "", ""},
		{
			`"trade": {}, "packing": "carton"`, `"on_demand": {"pays": "flat_fee", "sizes": [{"product": "heron", "flat": "9.00"}, {"product": "heron-original", "flat": "9.00"}]}`,
			"not_sold_there", "channels[0].on_demand.sizes[1].product",
		},
		{
			end, end + `, "fairs": [{"id": "quay", "channel": "shops", "prints": 10, "mix": [{"product": "heron", "share": "50%"}, {"product": "heron-original", "share": "50%"}]}]`,
			"not_sold_there", "fairs[0].mix[1].product",
		},
		{end, end + `, "fairs": [{"id": "quay", "channel": "fair", "prints": 10, "mix": [{"product": "heron", "share": "50%"}, {"product": "heron-original", "share": "50%"}]}]`, "", ""},
	} {
		_, err := pricelist.Price([]byte(strings.Replace(originalOnWebAlone, c.old, c.new, 1)))
		got := ""
		if ps, ok := err.(quoin.Problems); ok && len(ps) == 1 {
			got = string(ps[0].Code) + " " + ps[0].Path
		} else if err != nil {
			got = err.Error()
		}
		if want := strings.TrimSpace(c.code + " " + c.path); got != want {
			t.Errorf("%s: %q, want %q", c.new, got, want)
		}
	}
	doc := decoded(t, originalOnWebAlone)
	for _, c := range []struct{ channel, want string }{{"shops", "not_sold_there"}, {"shop", "unknown_id"}, {"web", ""}} {
		_, err := doc.Sale("heron-original", c.channel)
		if err == nil && c.want == "" {
			continue
		}
		if ps, ok := err.(quoin.Problems); !ok || len(ps) != 1 || string(ps[0].Code) != c.want {
			t.Errorf("sold in %s: %v", c.channel, err)
		}
	}
}

// A larger print that is framed, and sold at the fair alone, extends the one that is sold everywhere.
func TestExtendingIsNotSellingAlike(t *testing.T) {
	doc := strings.Replace(originalOnWebAlone, `"bill": [{"supply": "kit", "quantity": "10 kit"}]`, `"extends": "heron", "bill": []`, 1)
	doc = strings.Replace(doc, `{"id": "heron", `, `{"id": "heron", "channels": ["shops"], `, 1)
	if c := decidedShop(t, doc).Products[1].Channels; len(c) != 2 || c[0].ID != "web" {
		t.Errorf("sold in %d channels", len(c))
	}
}

func decoded(t *testing.T, doc string) pricelist.Document {
	t.Helper()
	d, err := pricelist.Decode([]byte(doc))
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func TestSoldInIsAsWithoutTheOthers(t *testing.T) {
	t.Parallel()
	rapid.Check(t, soldInIsAsWithoutTheOthers)
}

func FuzzSoldInIsAsWithoutTheOthers(f *testing.F) { f.Fuzz(rapid.MakeFuzz(soldInIsAsWithoutTheOthers)) }

// soldInIsAsWithoutTheOthers: products that are sold in some channels are decided as if there were no others.
func soldInIsAsWithoutTheOthers(t *rapid.T) {
	doc := drawn(t)
	stays := map[string]bool{}
	var sold []string
	for _, c := range doc.Channels {
		if len(sold) == 0 || rapid.Bool().Draw(t, "sold there") {
			sold, stays[c.ID] = append(sold, c.ID), true
		}
	}
	doc.Products = slices.Clone(doc.Products)
	for i := range doc.Products {
		doc.Products[i].Channels = nil
	}
	without := doc
	without.Channels, without.Rules = nil, nil
	doc.Channels = slices.Clone(doc.Channels)
	for j := range doc.Channels {
		c := &doc.Channels[j]
		// A channel may name no product that it does not sell, and each names all that it does.
		naming := func(p channel.Channel) bool {
			return p.OnDemand != nil || slices.ContainsFunc(p.Promotions, func(o promo.Offer) bool { return len(o.Products) > 0 })
		}
		if naming(*c) {
			*c = channel.Channel{ID: c.ID}
		}
		if stays[c.ID] {
			without.Channels = append(without.Channels, *c)
		}
	}
	for i := range doc.Products { // a class that only channels taken away know is none
		if p := &doc.Products[i]; !slices.ContainsFunc(without.Channels, func(c channel.Channel) bool { return slices.Contains(c.TaxClasses(), p.TaxClass) }) {
			p.TaxClass = ""
		}
	}
	var known []string
	for _, c := range without.Channels {
		known = append(known, c.TaxClasses()...)
	}
	for _, channels := range [][]channel.Channel{doc.Channels, without.Channels} {
		for j := range channels {
			channels[j].Orders = knownClasses(channels[j].Orders, known)
		}
	}
	for _, r := range doc.Rules {
		if !r.AsksChannels() {
			r.Channels = nil
		}
		if len(r.Channels) > 0 {
			r.Channels = slices.DeleteFunc(slices.Clone(r.Channels), func(c string) bool { return !stays[c] })
			if len(r.Channels) == 0 {
				continue
			}
		}
		without.Rules = append(without.Rules, r)
	}
	with := doc
	with.Products = slices.Clone(doc.Products)
	for i := range with.Products {
		with.Products[i].Channels = sold
	}
	a, b := must(pricelist.Decide(with))(t), must(pricelist.Decide(without))(t)
	if got, want := withoutPlaces(t, a), withoutPlaces(t, b); got != want {
		t.Fatalf("%s\nwithout the other channels\n%s", got, want)
	}
}

// knownClasses are orders in which others have no class of tax but known ones.
func knownClasses(orders []channel.Order, known []string) []channel.Order {
	orders = slices.Clone(orders)
	for i, o := range orders {
		if o.Others != nil && !slices.Contains(known, o.Others.TaxClass) {
			others := *o.Others
			others.TaxClass = ""
			orders[i].Others = &others
		}
	}
	return orders
}

// withoutPlaces is what an answer says, but for what stands at another place.
func withoutPlaces(t *rapid.T, a pricelist.Answer) string {
	type told struct {
		ID                     string
		Price, Least, Greatest quoin.Amount
		Allowed                string
		Channels               []pricelist.ChannelResult
		By                     []pricelist.InChannel
	}
	out := []any{a.Dropped, a.Conflict}
	for _, p := range a.WithoutSteps().Products {
		one := told{p.ID, p.Price, p.Least, p.Greatest, fmt.Sprint(p.Allowed.Pattern()), p.Channels, p.ByChannel.Channels()}
		for i := range one.By {
			one.By[i].BreakEven = nil
		}
		out = append(out, one)
	}
	return string(must(json.Marshal(out))(t))
}
