package pricelist_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// soundShop is a shop of which nothing is to be said: a heron in two sizes, sold from an own web
// shop. Fees and prices are invented.
//
// A print of A4 costs 0.5 × 1.60 ÷ 80% = 1.00 of paper, 3.00 of time and 0.12 of sleeve, and an
// order 0.80 of mailer. Orders have 1.5 prints on average. At 24.00 an order of one brings 29.00 −
// 4.83 of tax and one of three 77.00 − 12.83, so a print brings (¾ × 24.17 + ¼ × 64.17) ÷ 1.5 =
// 22.78; the card takes (¾ × 0.78 + ¼ × 1.74) ÷ 1.5 = 0.68, postage 4.00 ÷ 1.5 = 2.67, and goods are
// 4.12 + 0.80 ÷ 1.5 = 4.65: it contributes 14.78. Of 5.00 of shipping 4.17 is left, which pays for the
// postage.
func soundShop(t *testing.T, edits ...string) string {
	t.Helper()
	data, err := os.ReadFile("testdata/warnings/sound.json")
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for i := 0; i+1 < len(edits); i += 2 {
		if !strings.Contains(text, edits[i]) {
			t.Fatalf("nothing to edit: %s", edits[i])
		}
		text = strings.Replace(text, edits[i], edits[i+1], 1)
	}
	return text
}

// toldBy is the figures of the first warning of a code.
func toldBy(t *testing.T, doc string, c quoin.Code) (args string, found bool) {
	t.Helper()
	a, err := pricelist.Price([]byte(doc))
	if err != nil {
		t.Fatalf("%v\n%s", err, doc)
	}
	for _, w := range a.Warnings {
		if w.Code == c {
			var said []string
			for _, arg := range w.Args {
				said = append(said, arg.Name+" "+arg.Value)
			}
			return strings.Join(said, ", "), true
		}
	}
	return "", false
}

func TestNothingIsSaidOfASoundShop(t *testing.T) {
	a, err := pricelist.Price([]byte(soundShop(t)))
	if err != nil || len(a.Warnings) > 0 {
		t.Errorf("%v\n%v", err, a.Warnings)
	}
	if got := a.Products[0].Channels[0].Statement.Contribution.Round(2, quoin.HalfUp).String(); got != "14.78" {
		t.Errorf("contributes %s", got)
	}
}

// Edits of the sound shop, each a list of what stands there and what is put in its place.
const (
	oneOrder   = `{"share": "75%", "items": 1, "shipping": "5.00", "postage": "4.00"}`
	threeOrder = `{"share": "25%", "items": 3, "shipping": "5.00", "postage": "4.00"}`
	surcharged = `{"share": "75%", "items": 1, "shipping": "5.00", "postage": "4.00", "surcharge": {"rate": "2.5%", "fixed": "0.10"}}`
	cardFee    = `{"name": "card payment", "rate": "2%", "of": ["items", "shipping"], "fixed": "0.20"}`
	theRules   = `"rules": [`
	theOnly    = `"channels": [
`
	theA4   = `"price": "24.00",`
	theTime = `{"supply": "time", "quantity": "10 min"}`
)

// comparedAt is the sound shop with comparables of five sellers, three at a fair and two on a shelf,
// and a market rule from 9.3333% to a quantile. That is 1% beyond the first position of 8.3333%, and
// the second stands at 25%: from 10.00 to 24.00 it is 1 ÷ 16.6667 × 14.00 = 0.84 more.
func comparedAt(to string, prices ...string) []string {
	var rows []string
	for i, p := range prices {
		rows = append(rows, fmt.Sprintf(`{"product": "heron-a4", "venue": %q, "seller": %q, "price": %q, "sold": 2}`, []string{"fair", "shelf"}[i/3], []string{"ada", "ben", "cy", "dora", "eve"}[i], p))
	}
	return []string{theRules, `"comparables": [` + strings.Join(rows, ", ") + `], ` + theRules + `{"id": "others", "rule": "market", "from_quantile": "9.3333%", "to_quantile": "` + to + `"}, `}
}

// oneSeller gives the first comparables to one seller.
func oneSeller(edits []string, first int) []string {
	for _, name := range []string{"ada", "ben", "cy", "dora", "eve"}[:first] {
		edits[1] = strings.Replace(edits[1], `"`+name+`"`, `"ada"`, 1)
	}
	return edits
}

// Each warning beside the nearest document that it is silent about.
func TestWarningsAreToldAndSilent(t *testing.T) {
	shops := func(rest string) []string {
		return []string{theOnly, theOnly + `{"id": "shops", "name": "Shops at half", "trade_discount": ["50%"], "tax": {"rate": "20%", "in_price": true}` + rest + `},`}
	}
	credit := func(rest string) []string {
		return shops(`, "trade": {"credit": {"days": 30, "early": "2%", "early_days": 10` + rest + `}}`)
	}
	quoted := func(rest string) []string {
		return []string{
			theA4, theA4 + ` "quotes": [{"id": "house", "scale": {"steps": [{"from": 1, "each": "3.00"}]}` + rest + `}],`,
			`"overhead"`, `"editions": [{"id": "heron", "products": ["heron-a4"], "size": 50, "sold": 0, "per_month": "4"}], "overhead"`,
		}
	}
	inked := func(rest string) []string {
		return []string{
			`"supplies": [`, `"supplies": [{"id": "ink", "name": "Pigment ink", "quantity": "80 ml", "price": "40.00"},`,
			theTime, theTime + `, {"supply": "ink", "ink": {"image": "100 x 100 mm", "per_m2": "10 ml", "per_m2_range": {"low": "8 ml", "high": "12 ml"}` + rest + `}}`,
		}
	}
	bought := func(supply, line string) []string {
		return []string{`"supplies": [`, `"supplies": [` + supply + `,`, theTime, theTime + `, ` + line}
	}
	fair := func(id, rest string) []string {
		return []string{theOnly, theOnly + `{"id": "` + id + `", "tax": {"rate": "20%", "in_price": true}, "fees": [{"name": "till", "rate": "2%"}]` + rest + `},`}
	}
	for what, c := range map[string]struct {
		code  quoin.Code
		told  []string
		args  string
		quiet []string
	}{
		"a price below today's: 4.00 of 24.00": {
			pricelist.PriceBelowToday,
			[]string{theRules, theRules + `{"id": "cap", "rule": "price", "at_most": "20.00", "products": ["heron-a4"]}, `},
			"product heron-a4, price 20.00, today 24.00, less 4.00, share 16.7%, rule cap",
			[]string{theRules, theRules + `{"id": "floor", "rule": "price", "at_least": "26.00", "products": ["heron-a4"]}, `},
		},
		"a larger size that costs less": {
			pricelist.LargerCostsLess,
			[]string{`"36.00"`, `"22.00"`},
			"larger heron-a3, price 22.00, smaller heron-a4, smaller_price 24.00, less 2.00",
			[]string{`"36.00"`, `"25.00"`},
		},
		"a larger size of another design": {
			pricelist.LargerCostsLess,
			[]string{`"36.00"`, `"22.00"`},
			"larger heron-a3, price 22.00, smaller heron-a4, smaller_price 24.00, less 2.00",
			[]string{`"36.00"`, `"22.00"`, `"design": "heron", "sheet": "A3"`, `"design": "egret", "sheet": "A3"`},
		},
		// A3 at 25.00: an order of one brings 25.00 and one of three 66.67, (18.75 + 16.6675) ÷ 1.5 =
		// 23.6117; goods 6.62 + 0.5333, card (¾ × 0.80 + ¼ × 1.80) ÷ 1.5 = 0.70, postage 2.6667: 13.0917.
		"a larger size that keeps less": {
			pricelist.LargerKeepsLess,
			[]string{`"36.00"`, `"25.00"`},
			"channel web, larger heron-a3, keeps 13.09, smaller heron-a4, smaller_keeps 14.78",
			[]string{`"36.00"`, `"30.00"`},
		},
		"nobody works on a print": {
			pricelist.NoWorkingTime, []string{`, "labour": "own"`, ``}, "products 2, contribution 14.78", []string{`"labour": "own"`, `"labour": "paid"`},
		},
		"a fee on payments without the shipping: 2% of 5.00": {
			pricelist.FeeOmitsShipping,
			[]string{`"of": ["items", "shipping"], `, ``},
			"fee card payment, channel web, shipping 5.00, short 0.10",
			[]string{`"of": ["items", "shipping"], "fixed": "0.20"`, `"at_least": "0.20"`},
		},
		// 2.5% of 100.00 and 0.10 are 2.60; 2% of that is 0.052.
		"a fee on payments without the surcharge": {
			pricelist.FeeOmitsSurcharge,
			[]string{oneOrder, surcharged},
			"fee card payment, channel web, surcharge 2.60, short 0.05",
			[]string{oneOrder, surcharged, `"of": ["items", "shipping"]`, `"of": ["items", "shipping", "surcharge"]`},
		},
		"postage that buyers pay none of": {
			pricelist.PostageAbsorbed,
			[]string{threeOrder, `{"share": "25%", "items": 3, "postage": "6.00"}`},
			"channel web, order 1, items 3, paid 6.00, each 2.00",
			[]string{threeOrder, `{"share": "25%", "items": 3}`},
		},
		"postage that is free at the price: 72.00 of A4, 108.00 of A3": {
			pricelist.PostageFree,
			[]string{threeOrder, `{"share": "25%", "items": 3, "shipping": "5.00", "free_from": "70.00", "postage": "6.00"}`},
			"channel web, product heron-a4, products 2, from 70.00, paid 6.00, each 2.00",
			[]string{threeOrder, `{"share": "25%", "items": 3, "shipping": "6.00", "free_from": "108.01", "postage": "6.00"}`},
		},
		"only the larger size is free": {
			pricelist.PostageFree,
			[]string{threeOrder, `{"share": "25%", "items": 3, "shipping": "5.00", "free_from": "72.01", "postage": "6.00"}`},
			"channel web, product heron-a3, products 1, from 72.01, paid 6.00, each 2.00", nil,
		},
		"posted without packing": {
			pricelist.NoPacking,
			[]string{` "packing": "parcel",
`, ``},
			"channel web, product heron-a4, postage 4.00",
			[]string{` "packing": "parcel",
`, ``, theTime, theTime + `, {"supply": "mailer", "quantity": "1 piece", "per": "order"}`, `{"supply": "time", "quantity": "15 min"}`, `{"supply": "time", "quantity": "15 min"}, {"supply": "mailer", "quantity": "1 piece", "per": "order"}`},
		},
		"no fee on the web": {
			pricelist.NoFee,
			[]string{cardFee, ``},
			"channel web, price 24.00, percent 0.24",
			[]string{cardFee, ``, `"id": "web", "name": "Own web shop"`, `"id": "door", "name": "Studio door"`, oneOrder, `{"share": "75%"}`, threeOrder, `{"share": "25%", "items": 3}`},
		},
		"no fee where buyers pay from afar": {
			pricelist.NoFee, []string{cardFee, ``, `"id": "web", "name": "Own web shop"`, `"id": "letters", "name": "By letter"`}, "channel letters, price 24.00, percent 0.24", nil,
		},
		"no overhead beside a cost of every month": {
			pricelist.NoOverhead,
			[]string{`"overhead": {"cost": "600.00", "items": "300"},`, ``, cardFee + `]`, cardFee + `], "fixed_cost": {"cost": "30.00", "items": "20"}`},
			"channel web, known 30.00",
			[]string{`"overhead": {"cost": "600.00", "items": "300"},`, ``},
		},
		"a mailer for each print: 3 × 0.80": {
			pricelist.OrderCostPerItem,
			[]string{`"quantity": "1 piece", "per": "order"`, `"quantity": "1 piece"`},
			"supply mailer, items 3, each 0.80, all 2.40",
			[]string{`"quantity": "1 piece", "per": "order"`, `"quantity": "0.67 piece"`},
		},
		"a mailer for each print, in orders of one": {
			pricelist.OrderCostPerItem,
			[]string{`"quantity": "1 piece", "per": "order"`, `"quantity": "1 piece"`},
			"supply mailer, items 3, each 0.80, all 2.40",
			[]string{`"quantity": "1 piece", "per": "order"`, `"quantity": "1 piece"`, `"items": 3`, `"items": 1`},
		},
		"a fee on payments for each print: 3 × 0.20": {
			pricelist.OrderCostPerItem,
			[]string{`"fixed": "0.20"`, `"fixed": "0.20", "per": "item"`},
			"fee card payment, channel web, items 3, each 0.20, all 0.60",
			[]string{`"card payment"`, `"sales fee"`, `"fixed": "0.20"`, `"fixed": "0.20", "per": "item"`},
		},
		"a sleeve for each order: 2 × 0.12 are missing": {
			pricelist.ItemCostPerOrder,
			[]string{`{"supply": "sleeve", "quantity": "1 piece"}`, `{"supply": "sleeve", "quantity": "1 piece", "per": "order"}`},
			"supply sleeve, items 3, each 0.12, short 0.24",
			[]string{`{"supply": "sleeve", "quantity": "1 piece"}`, `{"supply": "sleeve", "quantity": "1 piece", "per": "order"}`, `"items": 3`, `"items": 1`},
		},
		"a listing for each order: 2 × 0.30 are missing": {
			pricelist.ItemCostPerOrder,
			[]string{cardFee, cardFee + `, {"name": "listing", "fixed": "0.30"}`},
			"fee listing, channel web, items 3, each 0.30, short 0.60",
			[]string{cardFee, cardFee + `, {"name": "listing", "fixed": "0.30", "per": "item"}`},
		},
		"ink without upkeep": {
			pricelist.InkWithoutUpkeep, inked(``), "supply ink, per_m2 10 ml", inked(`, "upkeep": {"share": "30%"}`),
		},
		"a stand on a bill: 220.00 over 60 prints": {
			pricelist.StandingCostInBill, bought(`{"id": "room", "name": "Stand at the fair", "quantity": "1 fair", "price": "220.00"}`, `{"supply": "room", "quantity": "1 fair", "per": "design", "shared_by": "60"}`), "supply room, each 3.67",
			bought(`{"id": "scan", "name": "Scan", "quantity": "1 scan", "price": "220.00"}`, `{"supply": "scan", "quantity": "1 scan", "per": "design", "shared_by": "60"}`),
		},
		"a year's cost on a bill: 120.00 over 400 prints": {
			pricelist.StandingCostInBill, bought(`{"id": "club", "name": "Studio club", "quantity": "1 year", "price": "120.00"}`, `{"supply": "club", "quantity": "1 year", "per": "period", "shared_by": "400"}`), "supply club, each 0.30", nil,
		},
		"a fair's cost in its prints": {
			pricelist.FairInPrint, fair("harbour fair", `, "fixed_cost": {"cost": "220.00", "items": "60"}`), "channel harbour fair, cost 220.00, each 3.67",
			fair("gallery", `, "fixed_cost": {"cost": "220.00", "items": "60"}`),
		},
		"a print house that may deliver 48 to 52 of 50": {
			pricelist.ToleranceOverEdition, quoted(`, "over_delivery": "5%", "under_delivery": "4%"`), "product heron-a4, quote house, edition heron, size 50, least 48, most 52", quoted(``),
		},
		"a tolerance of less than a print": {
			pricelist.ToleranceOverEdition, quoted(`, "over_delivery": "2%"`), "product heron-a4, quote house, edition heron, size 50, least 50, most 51", quoted(`, "over_delivery": "1.9%"`),
		},
		// 24.00 at a tenth is 2.40, 2.00 without tax, and goods are 4.00.
		"a multiple of cost is all that a losing channel is asked": {
			pricelist.ListPriceRuleOnly, append(shops(``), `["50%"]`, `["90%"]`, `"at_least": "8.00"`, `"at_least": "8.00", "channels": ["web"]`, theRules, theRules+`{"id": "three times", "rule": "cost_multiple", "at_least": "3"}, `),
			"rule three times, product heron-a4, channel shops, price 24.00, loss 2.00",
			append(shops(``), `"at_least": "8.00"`, `"at_least": "8.00", "channels": ["web"]`, theRules, theRules+`{"id": "three times", "rule": "cost_multiple", "at_least": "3"}, `),
		},
		"a loss that a rule was asked about, and gave way": {
			pricelist.ListPriceRuleOnly, append(shops(``), `["50%"]`, `["90%"]`, `"at_least": "8.00"`, `"at_least": "8.00", "channels": ["web"]`, theRules, theRules+`{"id": "three times", "rule": "cost_multiple", "at_least": "3"}, `),
			"rule three times, product heron-a4, channel shops, price 24.00, loss 2.00",
			append(shops(``), `["50%"]`, `["90%"]`, `"at_least": "8.00"`, `"at_least": "8.00", "channels": ["web"]`, theRules, theRules+`{"id": "three times", "rule": "cost_multiple", "at_least": "3"}, {"id": "cap", "rule": "price", "at_most": "40.00"}, {"id": "something", "rule": "contribution", "at_least": "1.00", "channels": ["shops"], "strength": "prefer"}, `),
		},
		"a market rule without comparables": {
			pricelist.RuleOfNothing,
			[]string{theRules, theRules + `{"id": "as others", "rule": "market", "from_quantile": "10%", "to_quantile": "90%"}, `},
			"rule as others, kind market",
			[]string{theRules, `"comparables": [{"product": "heron-a4", "venue": "web", "price": "24.00", "sold": 3}], ` + theRules + `{"id": "as others", "rule": "market", "from_quantile": "10%", "to_quantile": "90%"}, `},
		},
		"a rule about a change from no price": {
			pricelist.RuleOfNothing,
			[]string{theA4, ``, theRules, theRules + `{"id": "no jump", "rule": "max_change", "at_most": "10%", "products": ["heron-a4"]}, `},
			"rule no jump, kind max_change",
			[]string{theRules, theRules + `{"id": "no jump", "rule": "max_change", "at_most": "10%", "products": ["heron-a4"]}, `},
		},
		"a fee of a half": {
			pricelist.RateMistyped, []string{`"rate": "2%"`, `"rate": "0.5"`}, "rate 50%, meant 0.5%", []string{`"rate": "2%"`, `"rate": "0.49"`},
		},
		"parcels of which all are lost, nearly": {
			pricelist.RateMistyped,
			[]string{`"packing": "parcel",
`, `"packing": "parcel", "lost_parcels": "0.6",
`},
			"rate 60%, meant 0.6%",
			[]string{`"packing": "parcel",
`, `"packing": "parcel", "promotion": "60%",
`},
		},
		"a tax of 1": {
			pricelist.RateMistyped, []string{`{"rate": "20%"`, `{"rate": 1`}, "rate 100%, meant 1%", []string{`{"rate": "20%"`, `{"rate": "25%"`},
		},
		// 2 ÷ 98 × 365 ÷ 20 = 37.245%, the cost of 2/10 net 30 without compounding: common practice of
		// textbooks of finance.
		"2/10 net 30, and nothing said of money": {
			pricelist.CollectsLater, credit(``), "channel shops, early 2.00, of 100.00, days 20, yearly 37.24%", credit(`, "taken": "0%"`),
		},
		"2/10 net 30, money at 8%": {
			pricelist.CollectsLater, credit(`, "interest": "8%"`), "channel shops, early 2.00, of 100.00, days 20, yearly 37.24%, money 8%", credit(`, "interest": "37.3%"`),
		},
		// Venues weigh a half each: the three stand at 1/12, 1/4 and 5/12, the two at 5/8 and 7/8. At 95% it
		// is the last, 90.00, which is 63.00 from the next; all others lie within 5.00.
		"one comparable far from the others": {
			pricelist.ComparableFarOut, comparedAt("95%", "22.00", "24.00", "25.00", "27.00", "90.00"),
			"product heron-a4, rule others, price 90.00, neighbour 27.00, bound at most, asked 90.00",
			comparedAt("60%", "22.00", "24.00", "25.00", "27.00", "90.00"),
		},
		"one far below": {
			pricelist.ComparableFarOut, comparedAt("95%", "10.00", "24.00", "25.00", "27.00", "28.00"),
			"product heron-a4, rule others, price 10.00, neighbour 24.00, bound at least, asked 10.84",
			comparedAt("95%", "17.00", "24.00", "25.00", "27.00", "28.00"),
		},
		"comparables of one seller": {
			pricelist.OneSeller, oneSeller(comparedAt("95%", "22.00", "24.00", "25.00", "27.00", "28.00"), 5), "product heron-a4, rule others, seller ada, counted 5",
			oneSeller(comparedAt("95%", "22.00", "24.00", "25.00", "27.00", "28.00"), 4),
		},
	} {
		got, said := toldBy(t, soundShop(t, c.told...), c.code)
		if !said || got != c.args {
			t.Errorf("%s: %t %s, want %s", what, said, got, c.args)
		}
		if c.quiet == nil {
			continue
		}
		if got, said := toldBy(t, soundShop(t, c.quiet...), c.code); said {
			t.Errorf("%s: said of the other, too: %s", what, got)
		}
	}
}
