package pricelist_test

import (
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// ordersOf gives the order of one in the sound shop these fields, and sends no other.
func ordersOf(fields string) []string {
	return []string{oneOrder, `{"share": "75%", ` + fields + `}`, threeOrder, `{"share": "25%", "items": 3}`}
}

// What buyers are charged for shipping is compared with the postage as far as it is the shop's, in
// the shop's currency. Beside each the nearest document that covers it.
func TestPostageThatBuyersCover(t *testing.T) {
	with := func(edits []string, more ...string) []string { return append(edits, more...) }
	const untaxed = `, "on_shipping": true`
	abroad := func(rate string) []string {
		return []string{`"packing": "parcel",
`, `"packing": "parcel", "foreign_currency": {"currency": "CHF", "rate": "` + rate + `"},
`}
	}
	byClass := []string{`"rate": "20%", "in_price"`, `"rate": "20%", "classes": [{"class": "art", "rate": "5%"}], "in_price"`, `"design": "heron", "sheet": "A4"`, `"design": "heron", "tax_class": "art", "sheet": "A4"`}
	byTariff := []string{
		`"channels": [`, `"packings": [{"id": "parcel", "inside": "A3", "holds": 3, "mass": "20 g", "outside": {"length": "45 cm", "width": "32 cm", "height": "1 cm"}}],
		"tariffs": [{"id": "post", "zones": [{"id": "home", "steps": [{"mass": "100 g", "price": "4.00"}, {"mass": "500 g", "price": "5.20"}]}]}], "channels": [`,
		`"packing": "parcel",
`, `"tariff": "post",
`, `"sheet": "A4"`, `"sheet": "A4", "mass": "30 g"`, `"sheet": "A3"`, `"sheet": "A3", "mass": "90 g"`,
		threeOrder, `{"share": "25%", "zone": "home", "shipping": "6.24"}`,
	}
	for _, c := range []struct {
		what        string
		told        []string
		args, words string
		quiet       []string
	}{
		// 0.75 of 4.50 is tax: 1.45 of 5.20 is missing, and 6.24 has 1.04 in it.
		{
			"tax in it", ordersOf(`"shipping": "4.50", "postage": "5.20"`),
			"channel web, order 0, charged 4.50, paid 5.20, kept 3.75, short 1.45, enough 6.24",
			"postage for an order of 1 print in Own web shop costs 5.20, and buyers pay 4.50, which is 3.75 without tax; the price carries the other 1.45: charge 6.24, or leave it if you mean it",
			ordersOf(`"shipping": "6.24", "postage": "5.20"`),
		},
		{
			"tax in goods alone", with(ordersOf(`"shipping": "4.50", "postage": "5.20"`), untaxed, ``),
			"channel web, order 0, charged 4.50, paid 5.20, kept 4.50, short 0.70, enough 5.20",
			"postage for an order of 1 print in Own web shop costs 5.20, and buyers pay 4.50; the price carries the other 0.70: charge 5.20, or leave it if you mean it",
			with(ordersOf(`"shipping": "5.20", "postage": "5.20"`), untaxed, ``),
		},
		// 0.10 with 0.02 in it keeps 0.08, which is less than 5 sixths; 11.99 keeps 9.99.
		{
			"so little that its tax is rounded by much", ordersOf(`"shipping": "0.10", "postage": "10.00"`),
			"channel web, order 0, charged 0.10, paid 10.00, kept 0.08, short 9.92, enough 12.00", "",
			ordersOf(`"shipping": "12.00", "postage": "10.00"`),
		},
		// An order from where no tax is due keeps all.
		{
			"taxed elsewhere", ordersOf(`"shipping": "5.20", "postage": "5.20", "tax_rate": "4%"`),
			"channel web, order 0, charged 5.20, paid 5.20, kept 5.00, short 0.20, enough 5.41", "",
			ordersOf(`"shipping": "5.20", "postage": "5.20", "tax_rate": "0%"`),
		},
		// 5.20 − 0.87 is 4.33, at 0.90 3.897 and 0.103 missing. 5.34 − 0.89 is 4.45, which is 4.005. At
		// 1.25, 4.00 − 0.67 is 3.33, which is 4.1625.
		{
			"abroad, tax in it", with(ordersOf(`"shipping": "5.20", "postage": "4.00"`), abroad("0.90")...),
			"channel web, order 0, charged 5.20, paid 4.00, kept 3.90, short 0.10, enough 5.34, currency CHF",
			"postage for an order of 1 print in Own web shop costs 4.00, and buyers pay 5.20 CHF, which is 3.90 EUR without tax; the price carries the other 0.10: charge 5.34 CHF, or leave it if you mean it",
			with(ordersOf(`"shipping": "5.34", "postage": "4.00"`), abroad("0.90")...),
		},
		{
			"abroad, no tax in it", with(ordersOf(`"shipping": "4.10", "postage": "4.00"`), with(abroad("0.90"), untaxed, ``)...),
			"channel web, order 0, charged 4.10, paid 4.00, kept 3.69, short 0.31, enough 4.45, currency CHF",
			"postage for an order of 1 print in Own web shop costs 4.00, and buyers pay 4.10 CHF, which is 3.69 EUR; the price carries the other 0.31: charge 4.45 CHF, or leave it if you mean it",
			with(ordersOf(`"shipping": "4.00", "postage": "4.00"`), abroad("1.25")...),
		},
		// 1.45 is missing of an order of 1 print and 2 others: the print carries a third.
		{
			"beside other things", ordersOf(`"shipping": "4.50", "postage": "5.20", "others": {"items": "2", "worth": "20.00"}`),
			"channel web, order 0, charged 4.50, paid 5.20, kept 3.75, short 0.48, enough 6.24",
			"postage for an order of 1 print and other things in Own web shop costs 5.20, and buyers pay 4.50, which is 3.75 without tax; the price carries 0.48, its share of the other 1.45: charge 6.24, or leave it if you mean it",
			ordersOf(`"shipping": "6.24", "postage": "5.20", "others": {"items": "2", "worth": "20.00"}`),
		},
		// 5.00 with 5% in it leaves A4 4.76, and with 20% A3 4.17.
		{
			"classes of tax", with(ordersOf(`"shipping": "5.00", "postage": "4.70"`), byClass...),
			"channel web, order 0, charged 5.00, paid 4.70, kept 4.17, short 0.53, enough 5.64, product heron-a3",
			"postage for an order of 1 print of Heron, A3 in Own web shop costs 4.70, and buyers pay 5.00, which is 4.17 without tax; the price carries the other 0.53: charge 5.64, or leave it if you mean it",
			with(ordersOf(`"shipping": "5.00", "postage": "4.70"`), with(byClass, `"design": "heron", "sheet": "A3"`, `"design": "heron", "tax_class": "art", "sheet": "A3"`)...),
		},
		// A4 goes for 4.00 and A3, of 110 g, for 5.20; 5.00 − 0.83 pays for A4.
		{
			"by a tariff", with(byTariff, oneOrder, `{"share": "75%", "zone": "home", "shipping": "5.00"}`),
			"channel web, order 0, charged 5.00, paid 5.20, kept 4.17, short 1.03, enough 6.24, product heron-a3", "",
			with(byTariff, oneOrder, `{"share": "75%", "zone": "home", "shipping": "6.24"}`),
		},
	} {
		got, said := toldBy(t, soundShop(t, c.told...), pricelist.PostageShort)
		if !said || got != c.args {
			t.Errorf("%s: %t %s, want %s", c.what, said, got, c.args)
		}
		if words := wordsOf(t, soundShop(t, c.told...), pricelist.PostageShort); c.words != "" && words != c.words {
			t.Errorf("%s:\n%s\nwant\n%s", c.what, words, c.words)
		}
		if got, said := toldBy(t, soundShop(t, c.quiet...), pricelist.PostageShort); said {
			t.Errorf("%s: said of the other, too: %s", c.what, got)
		}
	}
}

// Of postage that is absorbed, each print carries its share by count: 5.20 over a print and 3 others
// is 1.30, and over 3 prints and 1 other 3.90 of them all.
func TestPostageAbsorbedBesideOthers(t *testing.T) {
	others := ordersOf(`"postage": "5.20", "others": {"items": "3", "worth": "20.00"}`)
	if got, _ := toldBy(t, soundShop(t, others...), pricelist.PostageAbsorbed); got != "channel web, order 0, items 1, paid 5.20, each 1.30" {
		t.Error(got)
	}
	free := []string{threeOrder, `{"share": "25%", "items": 3, "shipping": "7.00", "free_from": "70.00", "postage": "5.20", "others": {"items": "1", "worth": "20.00"}}`}
	if got, _ := toldBy(t, soundShop(t, free...), pricelist.PostageFree); got != "channel web, product heron-a4, products 2, from 70.00, paid 5.20, each 1.30" {
		t.Error(got)
	}
}

// wordsOf is what the first warning of a code says and asks for.
func wordsOf(t *testing.T, doc string, code quoin.Code) string {
	t.Helper()
	a, err := pricelist.Price([]byte(doc))
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range a.Warnings {
		if w.Code == code {
			return strings.Join([]string{w.Found, w.Remedy}, "; ")
		}
	}
	return ""
}
