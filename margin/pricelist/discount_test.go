package pricelist_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

func offBy(d *pricelist.DeepestDiscount) string {
	if d == nil {
		return "none"
	}
	text := movedTo(&d.PriceChange)
	for _, id := range d.Rules {
		text += ", then " + id
	}
	if d.Loss {
		text += ", then a loss"
	}
	return text
}

// A deeper discount may hold where a shallower one does not: at 25.00, shipping of
// 5.00 is free from 20.00 on and costs 4.00. A rule that 17.00 are left holds up to
// 16% off, 21.00 − 4.00; not at 17% to 20%; and again from 21% on, 19.75 + 5.00 −
// 4.00, down to 36%, 16.00 + 1.00. Whichever end is found, it holds there and not
// one per cent further.
func TestDiscountPastFreeShipping(t *testing.T) {
	a := decidedShop(t, `{"version": 1, "currency": "EUR", "price_limit": "40.00", "products": [{"id": "card"}],
		"channels": [{"id": "shop", "orders": [{"shipping": "5.00", "free_from": "20.00", "postage": "4.00"}]}],
		"rules": [{"id": "from", "rule": "price", "at_least": "25.00"}, {"id": "left", "rule": "contribution", "at_least": "17.00"}]}`)
	d := a.Products[0].ByChannel.Channels()[0].Discount
	if d == nil || !d.By.Equal(quoin.MustRate("16%")) && !d.By.Equal(quoin.MustRate("36%")) || !d.Contribution.Equal(quoin.MustAmount("17.00")) {
		t.Errorf("discount: %s", offBy(d))
	}
}

// A promotion that the channel has already is taken off too: 10% of 20.00 leave
// 18.00; another 50% leave 9.00 of a rule that asks 9.00; 51% leave 8.82.
func TestDiscountBesideAPromotion(t *testing.T) {
	a := decidedShop(t, `{"version": 1, "currency": "EUR", "price_limit": "40.00", "products": [{"id": "card"}],
		"channels": [{"id": "shop", "promotion": "10%"}],
		"rules": [{"id": "from", "rule": "price", "at_least": "20.00"}, {"id": "left", "rule": "contribution", "at_least": "9.00"}]}`)
	s := a.Products[0].ByChannel.Channels()[0]
	if got := offBy(s.Discount); got != "50% keeps 9.00, volume 2.000000, then left" {
		t.Errorf("discount: %s", got)
	}
	if got := movedTo(s.TenthOff); got != "10% keeps 16.20, volume 1.111111" {
		t.Errorf("a tenth off: %s", got)
	}
}

// A discount ends where a rule breaks, or where a sale would contribute less than
// nothing, whichever comes first, and says which.
func TestWhatStopsADiscount(t *testing.T) {
	for _, c := range []struct{ what, cost, channel, rules, want string }{
		// A print at 20.00 that costs 8.00. A multiple of the cost looks at the price alone: at 61%
		// off buyers pay 7.80, and each sale loses 0.20.
		{"a multiple of cost does not see it", "8.00", ``, `{"id": "twice", "rule": "cost_multiple", "at_least": "2"}`, "60% keeps 0.00, volume none, then a loss"},
		{"no rule asks anything", "8.00", ``, ``, "60% keeps 0.00, volume none, then a loss"},
		{"a rule comes first", "8.00", ``, `{"id": "two stay", "rule": "contribution", "at_least": "2.00"}`, "50% keeps 2.00, volume 6.000000, then two stay"},
		// 59% off leaves 8.20, and 0.20 of it is 2.4%; 8.00 at 60% leaves nothing, and no share of it.
		{"a margin of nothing is as deep as no loss", "8.00", ``, `{"id": "some", "rule": "gross_margin", "at_least": "1%"}`, "59% keeps 0.20, volume 60.000000, then some"},
		{
			"two rules at once", "8.00", ``, `{"id": "two stay", "rule": "contribution", "at_least": "2.00"}, {"id": "a fifth", "rule": "gross_margin", "at_least": "20%"}`,
			"50% keeps 2.00, volume 6.000000, then two stay, then a fifth",
		},
		// Postage of 4.00 counts: 12.00 − 8.00 − 4.00 at 40% off.
		{"postage is a loss too", "8.00", `"orders": [{"postage": "4.00"}]`, ``, "40% keeps 0.00, volume none, then a loss"},
		{"it loses money already", "21.00", ``, ``, "none"},
		// What costs nothing never loses: 0.20 is left of 99% off.
		{"nothing stops it", "0.00", ``, ``, "99% keeps 0.20, volume 100.000000"},
	} {
		channel := `{"id": "shop"}`
		if c.channel != "" {
			channel = `{"id": "shop", ` + c.channel + `}`
		}
		a := decidedShop(t, `{"version": 1, "currency": "EUR", "price_limit": "40.00",
			"supplies": [{"id": "kit", "quantity": "1 kit", "price": "`+c.cost+`"}],
			"products": [{"id": "card", "price": "20.00", "bill": [{"supply": "kit", "quantity": "1 kit"}]}],
			"channels": [`+channel+`], "rules": [`+c.rules+`]}`)
		if got := offBy(a.Products[0].ByChannel.Channels()[0].Discount); got != c.want {
			t.Errorf("%s: %s, want %s", c.what, got, c.want)
		}
	}
}

// The discount comes off before codes and what they are tested at. A code of 5.00 from
// 18.00 on: at 20.00 buyers pay 15.00. With 10% off 18.00 still get the code, 13.00; with 11% off
// 17.80 do not. A rule that 13.00 stay holds down to 35%, 13.00 without the code, and from 11% on.
func TestDiscountBeforeCodes(t *testing.T) {
	a := decidedShop(t, `{"version": 1, "currency": "EUR", "price_limit": "40.00", "products": [{"id": "card", "price": "20.00"}],
		"channels": [{"id": "shop", "orders": [{"codes": ["five"]}], "promotions": [{"id": "five", "amount": "5.00", "from": "18.00"}]}],
		"rules": [{"id": "left", "rule": "contribution", "at_least": "13.00"}]}`)
	s := a.Products[0].ByChannel.Channels()[0]
	if got := movedTo(s.TenthOff); got != "10% keeps 13.00, volume 1.153846" {
		t.Errorf("a tenth off: %s", got)
	}
	if got := offBy(s.Discount); got != "35% keeps 13.00, volume 1.153846, then left" {
		t.Errorf("discount: %s", got)
	}
}
