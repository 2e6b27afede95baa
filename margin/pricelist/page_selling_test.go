package pricelist_test

import "testing"

// The figures of the page about channels, their orders and their fees.
func TestPageFiguresOfChannels(t *testing.T) {
	const inPrice = `"tax": {"rate": "20%", "in_price": true}`
	ordered := func(order, more string) string { return onWeb(`"orders": [{` + order + `}]` + more) }
	const code = `"shipping": "4.50", "free_from": "20.00", "codes": ["c"]`
	const tenth = `, "promotions": [{"id": "c", "rate": "10%"}]`
	tiered := func(mode, per, items, price string) string {
		return overlaid(ofPrint(`"price": "`+price+`"`), ordered(`"items": `+items, ""),
			charged(`"per": "`+per+`", "tier_mode": "`+mode+`", "tiers": [{"from": 0, "fixed": "1.50"}, {"from": "10.00", "fixed": "3.00"}]`))
	}
	adding := func(per, items, price string) string {
		return overlaid(ofPrint(`"price": "`+price+`"`), ordered(`"items": `+items, ""),
			charged(`"per": "`+per+`", "tiers": [{"from": 0, "fixed": "1.50"}, {"from": "10.00", "fixed": "3.00"}]`))
	}
	rates := func(mode, per, items string) string {
		return overlaid(ofPrint(`"price": "12.00"`), ordered(`"items": `+items, ""),
			charged(`"per": "`+per+`", "tier_mode": "`+mode+`", "tiers": [{"from": 0, "rate": "10%"}, {"from": "10.00", "rate": "5%", "fixed": "0.40"}]`))
	}
	promoted := func(promotion, items string) string {
		return ordered(`"items": `+items+`, "codes": ["c"]`, `, "promotions": [{"id": "c", `+promotion+`}]`)
	}
	away := func(constant string) string {
		return overlaid(onWeb(`"tax": {"rate": "20%", "in_price": true, "constant": "`+constant+`"}`), ordered(`"tax_rate": "10%"`, ""))
	}
	beside := func(worth string) string {
		return overlaid(ordered(`"shipping": "4.50", "free_from": "50.00", "postage": "6.20", "others": {"items": 1, "worth": "`+worth+`"}`, ""),
			charged(`"rate": "2%", "of": ["items", "shipping"], "fixed": "0.30"`))
	}
	mixed := func(how, of string) string {
		return overlaid(ofPrint(`"price": "120.00", "tax_class": "prints"`),
			onWeb(`"tax": {"on_shipping": true, "shipping_rate": "`+how+`", "classes": [{"class": "prints", "rate": "5.5%"}, {"class": "frames", "rate": "20%"}]}`),
			ordered(`"shipping": "9.00", "others": {"items": 1, "worth": "60.00", "tax_class": "frames"}`, ""), charged(`"of": ["tax"], "tiers": [{"from": 0, "fixed": 0}, {"from": "`+of+`", "fixed": "2.00"}]`))
	}
	byCard := func(of string) string {
		return overlaid(onWeb(`"tax": {"rate": "20%", "in_price": true, "on_shipping": true}`), ordered(`"shipping": "5.00", "surcharge": {"rate": "2%", "fixed": "0.10"}`, ""),
			charged(`"rate": "2%", "of": ["items", "shipping"`+of+`], "fixed": "0.25"`))
	}
	checkShown(t, []shown{
		{"the buyer pays 0.60 more.", byCard(""), []string{"products.0.channels.0.buyer.surcharge 0.60"}},
		{"4.27 of the 25.60 are tax, and you receive 21.33.", byCard(""), []string{"tax 4.27", "revenue 21.33"}},
		{"surcharge takes 0.76.", byCard(`, "surcharge"`), []string{"fees 0.76"}},
		{"Without `surcharge` in its `of` it would take 0.75.", byCard(""), []string{"fees 0.75"}},
		{"The print bears 0.47 of it, and 6.60 for itself: 7.07.", mixed("proportion", "19.53"), []string{"tax 7.07"}},
		{"Of a fee of 2.00 if the tax comes to 19.53, the print bears 1.00", mixed("proportion", "19.53"), []string{"fees 1.00"}},
		{"if that fee begins at 19.54, it bears 0.00.", mixed("proportion", "19.54"), []string{"fees 0.00"}},
		{"At the highest rate it bears half of 1.80: 7.50.", mixed("highest", "20.40"), []string{"tax 7.50"}},
		{"At the main rate it bears half of 0.50: 6.85.", mixed("main", "19.10"), []string{"tax 6.85"}},
		{"Postage of 6.20 with 2% lost costs 6.3265", overlaid(ordered(`"postage": "6.20"`, ""), onWeb(`"lost_parcels": "2%"`)), []string{"fulfilment 6.3265"}},
		{"5% on 20.00 asks 21.00", onWeb(`"uplift": "5%"`), []string{"revenue 21.00"}},
		{"50% and then 10% leave 9.00 of 20.00", onWeb(`"trade_discount": ["50%", "10%"]`), []string{"revenue 9.00"}},
		{"10% leave 18.00 of 20.00", onWeb(`"promotion": "10%"`), []string{"revenue 18.00"}},
		{"20% is 3.33 of a price of 20.00", onWeb(inPrice), []string{"tax 3.33"}},
		{"if it is `in_price`, else 4.00 on top", onWeb(`"tax": {"rate": "20%"}`), []string{"tax 4.00"}},
		{
			"A print at 20.00 with 4.50 of postage is paid with 24.50. With 20% tax in both, 4.08 of that is tax, and the revenue is 20.42.", overlaid(onWeb(`"tax": {"rate": "20%", "in_price": true, "on_shipping": true}`), ordered(`"shipping": "4.50"`, "")),
			[]string{"products.0.channels.0.buyer.item 20.00", "products.0.channels.0.buyer.postage 4.50", "tax 4.08", "revenue 20.42"},
		},
		{"28.00 a month over 14 items is 2.00 an item", onWeb(`"fixed_cost": {"cost": "28.00", "items": 14}`), []string{"fixed_cost 2.00"}},
		{"with a code for 10% off, 22.50 together;", ordered(code, tenth), []string{"revenue 22.50"}},
		{"with `before` it is free: 18.00", ordered(code+`, "free_test": "before"`, tenth), []string{"revenue 18.00"}},
		{"postage of 6.20 an order is 4.1333 an item.", ordered(`"share": "75%", "postage": "6.20"}, {"share": "25%", "items": 3, "postage": "6.20"`, ""), []string{"fulfilment 4.1333"}},
		{"Of the postage the print bears 3.10. Of the fee of 1.50 it bears 0.40 and half of 0.30: 0.55.", beside("40.00"), []string{"fulfilment 3.10", "fees 0.55"}},
		{"2.25 of the 4.50 would be charged for the print, which brings 22.25.", beside("25.00"), []string{"revenue 22.25"}},
		{"8% of an item at 20.00 is 1.60", charged(`"rate": "8%"`), []string{"fees 1.60"}},
		{"8% of items at 20.00 and shipping of 4.50 is 1.96", overlaid(ordered(`"shipping": "4.50"`, ""), charged(`"rate": "8%", "of": ["items", "shipping"]`)), []string{"fees 1.96"}},
		{"8% of 20.00 with 20% tax in it is 1.33", overlaid(onWeb(inPrice), charged(`"rate": "8%", "without_tax": true`)), []string{"fees 1.33"}},
		{"0.30 on an order of 3 items is 0.10 an item", overlaid(ordered(`"items": 3`, ""), charged(`"fixed": "0.30"`)), []string{"fees 0.10"}},
		{"and 0.30 `per` item", overlaid(ordered(`"items": 3`, ""), charged(`"fixed": "0.30", "per": "item"`)), []string{"fees 0.30"}},
		{"1% of 20.00, at least 0.50, is 0.50", charged(`"rate": "1%", "at_least": "0.50"`), []string{"fees 0.50"}},
		{"`fixed` 20.00, `orders_together` 40: 0.50 an order", charged(`"fixed": "20.00", "orders_together": 40`), []string{"fees 0.50"}},
		{"`fixed` 0.03, `orders_together` 0.02: 1.50 an order", charged(`"fixed": "0.03", "orders_together": "0.02"`), []string{"fees 1.50"}},
		{"`orders_together` 40: 1.00 an order at 20.00", charged(`"rate": "8%", "at_most": "40.00", "orders_together": 40`), []string{"fees 1.00"}},
		{"1.23% of 20.00 is 0.246", charged(`"rate": "1.23%", "expected": true`), []string{"fees 0.246"}},
		{"8% on a quarter of sales is 0.40 of 20.00", charged(`"rate": "8%", "share": "25%"`), []string{"fees 0.40"}},
		{"With 20% a fee of 1.60 costs 1.92", charged(`"rate": "8%", "tax": "20%"`), []string{"fees 1.92"}},
		{"0.25 by `half_up` and `up`, 0.24 by `half_even`, `half_down` and `down`", charged(`"rate": "1.225%", "rounding": "up"`), []string{"fees 0.25"}},
		{"0.25 by `half_up` and `up`, 0.24 by `half_even`, `half_down` and `down`", charged(`"rate": "1.225%"`), []string{"fees 0.25"}},
		{"0.25 by `half_up` and `up`, 0.24 by `half_even`, `half_down` and `down`", charged(`"rate": "1.225%", "rounding": "half_even"`), []string{"fees 0.24"}},
		{"0.25 by `half_up` and `up`, 0.24 by `half_even`, `half_down` and `down`", charged(`"rate": "1.225%", "rounding": "half_down"`), []string{"fees 0.24"}},
		{"0.25 by `half_up` and `up`, 0.24 by `half_even`, `half_down` and `down`", charged(`"rate": "1.225%", "rounding": "down"`), []string{"fees 0.24"}},
		{"A print at 20.00 that costs 1.24 contributes 18.76.", `{}`, []string{"goods 1.24", "contribution 18.76"}},
		{"its operating income is 14.96; with 25% income tax 11.22 is left.", `{"overhead": {"cost": "2280.00", "items": 600}, "income_tax": "25%"}`, []string{"operating 14.96", "net 11.22"}},
		{"| 1 at 9.99 | 1.50 | 1.50 | 1.50 | 1.50 |", tiered("whole", "order", "1", "9.99"), []string{"fees 1.50"}},
		{"| 1 at 10.00, or 10.01 | 3.00 | 3.00 | 4.50 | 4.50 |", tiered("whole", "item", "1", "10.01"), []string{"fees 3.00"}},
		{"| 1 at 10.00, or 10.01 | 3.00 | 3.00 | 4.50 | 4.50 |", adding("order", "1", "10.00"), []string{"fees 4.50"}},
		{"12.00 × 5% + 0.40 = 1.00 |", rates("whole", "order", "1"), []string{"fees 1.00"}},
		{"| 10.00 × 10% + 2.00 × 5% + 0.40 = 1.50 |", rates("marginal", "order", "1"), []string{"fees 1.50"}},
		{"10%: 18.00 is left", promoted(`"rate": "10%"`, "1"), []string{"revenue 18.00"}},
		{"3.00: 17.00 is left", promoted(`"amount": "3.00"`, "1"), []string{"revenue 17.00"}},
		{"17.00: 17.00 is left", promoted(`"sale": "17.00"`, "1"), []string{"revenue 17.00"}},
		{"buy 3, 1 free: 3 items cost 40.00", promoted(`"buy": 3, "free": 1`, "3"), []string{"products.0.channels.0.orders.0.revenue 40.00"}},
		{"With `step` 0.50, 20.30 becomes 20.50.", onWeb(`"uplift": "1.5%", "price_points": {"step": "0.50"}`), []string{"revenue 20.50"}},
		{"With `ends_in` 0.90 it becomes 19.90", onWeb(`"uplift": "1.5%", "price_points": {"ends_in": ["0.90"]}`), []string{"revenue 19.90"}},
		{
			"a print at 20.00 costs 22.22 there, its revenue is 19.998, and a conversion of 2% costs 0.396.",
			onWeb(`"foreign_currency": {"currency": "USD", "rate": "0.90", "date": "2026-06-01", "conversion": "2%"}`),
			[]string{"products.0.channels.0.orders.0.unit 22.22", "revenue 19.998", "fees 0.396"},
		},
		{"it costs 20.00 and brings 18.18", away("gross"), []string{"products.0.channels.0.orders.0.unit 20.00", "revenue 18.18"}},
		{"or with `net` costs 18.33 and brings 16.66.", away("net"), []string{"products.0.channels.0.orders.0.unit 18.33", "revenue 16.66"}},
	})
}

// The figures of the page about rules, and about what each channel says of a price.
func TestPageFiguresOfRules(t *testing.T) {
	ruled := func(rule string) string { return `{"rules": [{"id": "asked", ` + rule + `}]}` }
	const least = "products.0.least "
	views := overlaid(ofPrint(`"bill": [{"supply": "paper", "quantity": "1 sheet"}, {"supply": "time", "quantity": "12 min"}]`),
		onWeb(`"fixed_cost": {"cost": "28.00", "items": 14}`), `{"channels": [{"id": "shops", "trade_discount": ["50%"]}]}`, ruled(`"rule": "contribution", "at_least": "3.00"`))
	sold := overlaid(ofPrint(`"sheet": "A4"`), `{"comparables": [{"product": "heron", "venue": "east", "price": "20.00", "sold": 3},
		{"product": "heron", "venue": "east", "price": "24.00", "sold": 1}, {"product": "heron", "venue": "west", "price": "30.00", "sold": 1}]}`,
		ruled(`"rule": "market", "from_quantile": "20%", "to_quantile": "80%", "min_sales": 3`))
	among := overlaid(ofPrint(`"sheet": "A4", "price": "25.00"`), `{"comparables": [{"product": "heron", "venue": "fair", "price": "22.00", "sold": 3},
		{"product": "heron", "venue": "fair", "price": "24.00", "sold": 1}, {"product": "heron", "venue": "fair", "price": "25.00", "sold": 1},
		{"product": "heron", "venue": "shelf", "price": "27.00", "sold": 1}, {"product": "heron", "venue": "shelf", "price": "28.00", "sold": 1},
		{"product": "heron", "venue": "shelf", "price": "99.00"}]}`, ruled(`"rule": "price", "at_least": "25.00", "at_most": "25.00"`))
	free := onWeb(`"orders": [{"shipping": "3.50", "postage": "3.50", "free_from": "20.00"}]`)
	free = overlaid(free, ofPrint(`"bill": [{"supply": "paper", "quantity": "1 sheet"}]`))
	const zone = "products.0.channels.0.dead_zones.0."
	checkShown(t, []shown{
		{
			"`may_lie` has one range from 18.00 to 18.50", `{"rules": [{"id": "floor", "rule": "price", "at_least": "17.80", "at_most": "18.70"}, {"id": "whole or half", "rule": "ending", "ends_in": ["0.00", "0.50"]}]}`,
			[]string{"products.0.may_lie.0.first 18.00", "products.0.may_lie.0.last 18.50"},
		},
		{"from 15.00 to 18.00 is 20%", overlaid(ofPrint(`"price": "15.00"`), `{"rules": [{"id": "floor", "rule": "price", "at_least": "18.00"}]}`), []string{"products.0.change 20%"}},
		{"5 times: 6.20 or more", ruled(`"rule": "cost_multiple", "at_least": "5"`), []string{least + "6.20"}},
		{"50%: 2.48 or more", ruled(`"rule": "gross_margin", "at_least": "50%"`), []string{least + "2.48"}},
		{"10.00: 11.24 or more", ruled(`"rule": "contribution", "at_least": "10.00"`), []string{least + "11.24"}},
		{"25%: 15.00 to 25.00", ruled(`"rule": "max_change", "at_most": "25%"`), []string{least + "15.00", "products.0.greatest 25.00"}},
		{"0.90: 19.90, 20.90", ruled(`"rule": "ending", "ends_in": ["0.90"]`), []string{"products.0.price 19.90"}},
		{"4.90 and 9.90 in 10.00: 14.90, 19.90", ruled(`"rule": "ending", "ends_in": ["4.90", "9.90"], "every": "10.00"`), []string{"products.0.price 19.90"}},
		{
			"1.4 times 20.00: 28.00 or more",
			`{"products": [{"id": "heron-a3", "bill": []}], "rules": [{"id": "floor", "at_least": "20.00", "products": ["heron"]}, {"id": "asked", "rule": "size_ratio", "products": ["heron", "heron-a3"], "at_least": "1.4"}]}`,
			[]string{"products.1.least 28.00"},
		},
		{"The 20% quantile is 21.20 and the 80% quantile is 30.00.", sold, []string{least + "21.20", "products.0.greatest 30.00"}},
		{"counts as 18.00 × 1.1 ÷ 1.2 = 16.50.", overlaid(ofPrint(`"sheet": "A4"`), `{"comparables": [{"product": "heron", "venue": "east", "price": "30.00", "sold": 1,
			"postage": "4.00", "postage_on_top": "1.00", "framed": true, "frame_worth": "9.00", "tax": "20%"}]}`,
			ruled(`"rule": "market", "from_quantile": "0%", "to_quantile": "100%", "min_sales": 1, "min_venues": 1, "basis": {"tax": "10%"}`)), []string{least + "16.50"}},
		{"so the quartiles are 24.00, 25.80 and 27.50.", among, []string{"products.0.market.lower_quartile 24.00", "products.0.market.median 25.80", "products.0.market.upper_quartile 27.50"}},
		{"`price_above` is 41.67%.", among, []string{"products.0.market.price_above 41.67%"}},
		{"| 10.24 | 16.47 |", views, []string{"products.0.by_channel.0.floor 10.24", "products.0.by_channel.1.floor 16.47"}},
		{"| 12.76 | 4.76 |", views, []string{"products.0.by_channel.0.contribution 12.76", "products.0.by_channel.1.contribution 4.76"}},
		{"| 83.80 | 43.80 |", views, []string{"products.0.by_channel.0.per_hour 83.80", "products.0.by_channel.1.per_hour 43.80"}},
		{"how many sales pay each fixed cost | 1.8970 |", views, []string{"products.0.by_channel.0.break_even.0.items 1.8970"}},
		{"what stops a larger one | 48% | 17% |", views, []string{"products.0.by_channel.0.discount.by 48%", "products.0.by_channel.1.discount.by 17%"}},
		{"| 10.76 | 3.76 |", views, []string{"products.0.by_channel.0.tenth_off.contribution 10.76", "products.0.by_channel.1.tenth_off.contribution 3.76"}},
		{"| 14.76 | 5.76 |", views, []string{"products.0.by_channel.0.rise.contribution 14.76", "products.0.by_channel.1.rise.contribution 5.76"}},
		{"it is 14.76 ÷ 12.76 = 1.1567", views, []string{"products.0.by_channel.0.tenth_off.volume 1.1567"}},
		{"rounding moves single cents | 19.99 |", free, []string{zone + "after 19.99"}},
		{"the contribution of an item at that price | 18.75 |", free, []string{zone + "contribution 18.75"}},
		{"| 20.00, 23.48 |", free, []string{zone + "last 23.48"}},
		{"left out if there is none up to the limit | 23.49 |", free, []string{zone + "again 23.49"}},
		{"With a `price_step` of 1.00 the zone of the example goes from 20.00 to 22.00", overlaid(free, `{"price_step": "1.00"}`), []string{zone + "last 22.00"}},
	})
}
