package pricelist_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/sheet"
)

const most = `"999999999999.99999999"`

// repeated writes n entries, each with its number.
func repeated(n int, entry func(i int) string) string {
	out := make([]string, n)
	for i := range out {
		out[i] = entry(i)
	}
	return strings.Join(out, ", ")
}

// hostileShop is a small shop with two prints, whose channel and whose other fields
// are given.
func hostileShop(channel, beside string) string {
	return `{"version": 1, "currency": "EUR", "price_limit": "100.00",
	  "supplies": [{"id": "kit", "quantity": "10 kit", "price": "40.00"}],
	  "products": [
	    {"id": "a", "sheet": "A5", "mass": "50 g", "thickness": "1 mm", "bill": [{"supply": "kit", "quantity": "1 kit"}], "packing": {` + repeated(100, func(i int) string { return fmt.Sprintf(`"p%d": []`, i) }) + `}},
	    {"id": "b", "sheet": "A4", "mass": "90 g", "thickness": "1 mm", "bill": [{"supply": "kit", "quantity": "2 kit"}], "packing": {` + repeated(100, func(i int) string { return fmt.Sprintf(`"p%d": []`, i) }) + `}}],
	  "channels": [{"id": "c"` + channel + `}]` + beside + `,
	  "rules": [{"id": "from", "rule": "contribution", "at_least": "10.00"}, {"id": "worst", "rule": "contribution", "at_least": "1.00", "asked_of": "worst"}]}`
}

func hostileWays() map[string]string {
	fair := func(fields string) string {
		return `, "fairs": [` + repeated(100, func(i int) string {
			return fmt.Sprintf(`{"id": "f%d", "channel": "c", "mix": [{"product": "a", "share": "0.00000001"}, {"product": "b", "share": "0.99999999"}]%s}`, i, fields)
		}) + `]`
	}
	edition := func(fields string) string {
		return `, "editions": [` + repeated(10, func(i int) string {
			return fmt.Sprintf(`{"id": "e%d", "products": ["a", "b"], "size": 100000, "proofs": 100000%s}`, i, fields)
		}) + `]`
	}
	steps := `"steps": [{"sold": 0, "times": ` + most + `}, ` + repeated(49, func(i int) string { return fmt.Sprintf(`{"sold": %d, "price": "0"}`, i+1) }) + `]`
	tariff := `, "packings": [` + repeated(10, func(i int) string {
		return fmt.Sprintf(`{"id": "p%d", "inside": "A4", "holds": %d, "mass": "1 g", "grows": "1 mm", "outside": {"length": "1 m", "width": "1 m", "height": "1 mm"}}`, i, i+1)
	}) + `], "board": {"mass": "1000000 kg", "thickness": "1 mm"}, "tariffs": [{"id": "post", "zones": [{"id": "home", "steps": [` + repeated(40, func(i int) string {
		return fmt.Sprintf(`{"mass": "%d g", "price": "%d.00", "additional": "0"}`, 100*(i+1), i+1)
	}) + `]}]}]`
	trade := `, "trade_discount": ["50%"], "trade": `
	return map[string]string{
		"a fair of enormous costs": hostileShop("", fair(`, "stand": `+most+`, "jury": `+most+`, "chance": "0.00000001", "travel": `+most+`, "nights": 365, "night": `+most+
			`, "helper": `+most+`, "display": `+most+`, "display_fairs": "0.00000001", "commission": "100%", "commission_at_least": `+most+`, "prints": `+most+`, "hours": "0.00000001", "hour_worth": `+most+`, "instead": `+most)),
		"a fair of next to nothing":     hostileShop("", fair(`, "prints": "0.00000001", "hours": `+most)),
		"a fair without anything":       hostileShop("", `, "fairs": [{"id": "f", "channel": "c", "mix": [], "prints": 1}]`),
		"editions of enormous steps":    hostileShop("", edition(`, "sold": 100000, "per_month": "0.00000001", `+steps)),
		"editions with nothing sold":    hostileShop("", edition(`, "per_month": `+most+`, `+steps)),
		"an edition with a long ledger": hostileShop("", `, "editions": [{"id": "e", "products": ["a", "b"], "size": 100000, "each": true, "ledger": [`+repeated(20000, func(i int) string { return fmt.Sprintf(`{"number": %d, "product": "a", "state": "sold"}`, 2*i+1) })+`]}]`),
		"an edition of nothing":         hostileShop("", `, "editions": [{"id": "e", "products": [], "size": 0, "steps": [], "ledger": []}], "edition_limits": []`),
		"limits beyond counting":        hostileShop("", edition("")+`, "edition_limits": [{"name": "n", "at_most": 100000000, "proofs": true, "together": true}, {"name": "m", "at_most": 0}]`),
		"sets upon sets": hostileShop("", `, "sets": [`+repeated(100, func(i int) string {
			return fmt.Sprintf(`{"id": "s%d", "channel": "c", "products": ["a", "b"], "alternatives": [%s]}`, i, repeated(100, func(int) string { return `{"share": "1%", "products": ["a", "b"]}` }))
		})+`]`),
		"a set of nothing":                 hostileShop("", `, "sets": [{"id": "s", "channel": "c", "products": [], "alternatives": []}]`),
		"trade at enormous minimums":       hostileShop(trade+`{"case": 1000000, "opening": `+most+`, "reorder": `+most+`, "freight": "added", "free_from": `+most+`}, "orders": [{"items": 1000000, "postage": `+most+`}]`, ""),
		"an early discount of nearly all":  hostileShop(trade+`{"credit": {"days": 2, "early": "99.999999%", "early_days": 1, "taken": "0%"}}`, ""),
		"an early discount within a day":   hostileShop(trade+`{"credit": {"days": 1000, "interest": "100%", "early": "0.00000001", "early_days": 1}}`, ""),
		"trade in empty terms":             hostileShop(`, "trade": {}`, ""),
		"a currency worth next to nothing": hostileShop(`, "foreign_currency": {"currency": "JPY", "rate": "0.00000001"}`+trade+`{"opening": `+most+`}`, ""),
		"a currency beyond all worth":      hostileShop(`, "foreign_currency": {"currency": "KWD", "rate": `+most+`}`+trade+`{"opening": "0.001"}`, ""),
		"a tag beyond all prices":          hostileShop(`, "price_points": {"step": "999999999999"}`, ""),
		"tags of nothing":                  hostileShop(`, "price_points": {"ends_in": [], "every": "0.01"}`, ""),
		"fees over enormously many orders": hostileShop(`, "fees": [`+repeated(20, func(i int) string { return `{"fixed": ` + most + `, "orders_together": ` + most + `, "tax": "100%"}` })+`]`, ""),
		"fees over next to no orders":      hostileShop(`, "fees": [{"name": "click", "fixed": "0.00000001", "orders_together": "0.00000001"}, {"name": "more", "rate": "1%", "orders_together": "0.00000001", "at_most": `+most+`}]`, ""),
		"a hundred promotions":             hostileShop(`, "promotions": [`+repeated(100, func(i int) string { return fmt.Sprintf(`{"id": "p%d", "rate": "1%%"}`, i) })+`], "orders": [{"codes": ["p1"]}]`, ""),
		"promotions upon each other": hostileShop(`, "promotions": [`+repeated(20, func(i int) string {
			return fmt.Sprintf(`{"id": "p%d", "amount": "%d.00", "from": "%d.00"}`, i, 1+200>>i, 1+200>>i)
		})+`], "orders": [{"codes": [`+repeated(20, func(i int) string { return fmt.Sprintf(`"p%d"`, i) })+`]}]`, ""),
		"empty promotions":                hostileShop(`, "promotions": [], "orders": [{"codes": []}]`, ""),
		"everything comes back":           hostileShop(`, "returns": {"returned": "100%", "part": "0%", "postage": `+most+`, "resold": "100%", "fees": "100%", "disputed": "0%", "fee": `+most+`}`, ""),
		"a million prints by post":        hostileShop(`, "tariff": "post", "orders": [{"items": 1000000, "zone": "home"}]`, tariff),
		"ten kinds of order by post":      hostileShop(`, "tariff": "post", "orders": [`+repeated(10, func(i int) string { return fmt.Sprintf(`{"share": "10%%", "items": %d, "zone": "home"}`, 9999*i+1) })+`]`, tariff),
		"lists of nothing":                hostileShop(`, "orders": [], "fees": []`, `, "sets": [], "fairs": [], "editions": [], "edition_limits": [], "packings": [], "tariffs": []`),
		"a house that prints for nothing": hostileShop(`, "on_demand": {"pays": "share_of_rest", "rate": "100%", "sizes": [{"product": "a", "base": `+most+`}, {"product": "b"}]}`, ""),
		"a house that pays enormous fees": hostileShop(`, "on_demand": {"pays": "flat_fee", "sizes": [{"product": "a", "flat": `+most+`}, {"product": "b", "flat": "0"}]}`, ""),
		"a gallery that takes nearly all": hostileShop(`, "consignment": {"on_maker": `+most+`, "costs_first": `+most+`, "discount": {"rate": "99.999999%", "share": "0.00000001"}, "days": 1000, "interest": "100%", "lost_pieces": "99.999999%"}`, ""),
		"orders that nobody places":       hostileShop(`, "consignment": {"commission": "40%", "discount": {"rate": "10%"}}, "orders": [{"share": "0%"}, {"share": "100%"}]`, ""),
		"time that takes next to no time": strings.Replace(hostileShop("", ""), `"bill": [`, `"bill": [{"supply": "time", "quantity": "0.00000001 s"}, `, 1),
		"a hundred channels": strings.Replace(hostileShop("", ""), `"channels": [`, `"channels": [`+repeated(99, func(i int) string {
			return fmt.Sprintf(`{"id": "c%d", "fees": [{"rate": "%d%%"}, {"fixed": "9.00", "orders_together": 7}]}`, i, i%50)
		})+", ", 1),
		"a break-even that nobody ever sees": hostileShop(`, "fixed_cost": {"cost": `+most+`, "items": `+most+`}`, `, "overhead": {"cost": `+most+`, "items": `+most+`}`),
	}
}

// Enormous numbers, next to nothing and empty lists in what sells otherwise are
// refused with problems or answered like anything else, soon: all that is computed only
// when it is asked for is asked for.
func TestHostileWaysAreAnswered(t *testing.T) {
	for name, document := range hostileWays() {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			answeredSoon(t, strings.Replace(document, `"supplies": [`, `"supplies": [{"id": "time", "quantity": "1 h", "price": "20.00", "labour": "own"}, `, 1))
		})
	}
}

func answeredSoon(t *testing.T, document string) {
	a, err := pricelist.Price([]byte(document))
	if err != nil {
		if ps, ok := err.(quoin.Problems); !ok || len(ps) == 0 || len(a.Products) > 0 || len(a.Conflict) > 0 {
			t.Errorf("%T with %d products: %.300s", err, len(a.Products), err)
		}
		t.Logf("refused: %.200s", err)
		return
	}
	t.Logf("%d products, conflict %q", len(a.Products), a.Conflict)
	if len(a.Products) == 0 && len(a.Conflict) == 0 {
		t.Error("neither prices nor a conflict nor a problem")
	}
	if out, err := json.Marshal(a); err != nil || !json.Valid(out) {
		t.Errorf("no JSON: %v", err)
	}
	readOut(t, a)
}

// readOut writes an answer in every way, and replays all its steps.
func readOut(t *testing.T, a pricelist.Answer) {
	t.Helper()
	if sheet.Text(a, 80) == "" || sheet.Markdown(a) == "" {
		t.Error("nothing to read")
	}
	for _, s := range a.LineSheets {
		if sheet.LineSheet(s, 60) == "" || sheet.LineSheetMarkdown(s) == "" || sheet.LineSheetCSV(s) == "" {
			t.Error("a line sheet with nothing to read")
		}
	}
	for _, p := range a.Products {
		for _, c := range p.Channels {
			if err := quoin.Replay(c.Steps.Steps()); err != nil {
				t.Errorf("%s in %s: %v", p.ID, c.ID, err)
			}
		}
	}
	var reasons []pricelist.Reasons
	for _, s := range a.Sets {
		reasons = append(reasons, s.Steps)
	}
	for _, f := range a.Fairs {
		reasons = append(reasons, f.Steps)
	}
	for _, e := range a.Editions {
		for _, r := range e.Products {
			reasons = append(reasons, r.Reasons)
		}
	}
	for _, r := range reasons {
		if err := quoin.Replay(r.Steps()); err != nil {
			t.Error(err)
		}
	}
}
