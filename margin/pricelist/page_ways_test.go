package pricelist_test

import "testing"

// The figures of the page about trade, consignment, printing on demand and returns.
func TestPageFiguresOfWays(t *testing.T) {
	const tax = `, "tax": {"rate": "20%", "in_price": true}`
	trade := func(terms string) string {
		return overlaid(ofPrint(`"bill": [{"supply": "scan", "quantity": "0 piece"}]`),
			onWeb(`"trade_discount": ["50%"], "trade": {`+terms+`}, "orders": [{"items": 10, "postage": "12.00"}]`))
	}
	at100 := ofPrint(`"price": "100.00", "bill": [{"supply": "scan", "quantity": "1 piece"}]`)
	consigned := func(terms, more string) string { return overlaid(at100, onWeb(`"consignment": {`+terms+`}`+more)) }
	borne := func(by string) string {
		return consigned(`"commission": "40%", "discount": {"rate": "10%", "borne": "`+by+`"}`, "")
	}
	pays := func(price, terms, size string) string {
		return overlaid(ofPrint(`"price": "`+price+`"`), onWeb(`"on_demand": {`+terms+`, "sizes": [{"product": "heron", `+size+`}]}`+tax))
	}
	demand := func(terms, size string) string { return pays("24.00", terms, size) }
	returned := func(terms string) string { return overlaid(at100, onWeb(`"returns": {`+terms+`}`)) }
	const rest = `"pays": "share_of_rest", "rate": "50%"`
	const credit = `"credit": {"days": 30, "interest": "7.3%", "early": "2%", "early_days": 10, "taken": "50%"}`
	checkShown(t, []shown{
		{"the shop pays the carrier | 10.00 |", trade(`"freight": "collect"`), []string{"contribution 10.00"}},
		{"11.20 − 1.20 = 10.00; with", trade(`"freight": "added"`), []string{"revenue 11.20", "contribution 10.00"}},
		{"with `free_from` 100.00 it is 8.80 |", trade(`"freight": "added", "free_from": "100.00"`), []string{"contribution 8.80"}},
		{"you pay | 10.00 − 1.20 = 8.80 |", trade(`"freight": "prepaid"`), []string{"contribution 8.80"}},
		{"with 10%: 10.00 − 1.00 = 9.00 |", trade(`"freight": "allowance", "allowance": "10%"`), []string{"contribution 9.00"}},
		{
			"Of 100.00 that is 1.00 for early payment and 0.40 for waiting 20 days on average.", trade(`"freight": "collect", ` + credit),
			[]string{"products.0.channels.0.orders.0.fees.0.amount 1.00", "products.0.channels.0.orders.0.fees.1.amount 0.40"},
		},
		{"| `commission` 40% | 40.00 |", consigned(`"commission": "40%"`, ""), []string{"fees 40.00"}},
		{"| `on_maker` 50% | 33.33 |", consigned(`"on_maker": "50%"`, ""), []string{"fees 33.33"}},
		{"| `commission` 40%, `costs_first` 20.00 | 32.00 |", consigned(`"commission": "40%", "costs_first": "20.00"`, ""), []string{"fees 32.00"}},
		{"only `maker` registered | 40.00; you also owe 16.67 of tax |", consigned(`"commission": "40%", "registered": ["maker"]`, tax), []string{"fees 40.00", "tax 16.67"}},
		{"the same, `without_tax` | 33.33; you also owe 16.67 of tax |", consigned(`"commission": "40%", "without_tax": true, "registered": ["maker"]`, tax), []string{"fees 33.33", "tax 16.67"}},
		{"only `shop` registered | 48.00:", consigned(`"commission": "40%", "registered": ["shop"]`, tax), []string{"fees 48.00"}},
		{"90.00 − 36.00 = 54.00 |", borne("shared"), []string{"revenue 90.00", "fees 36.00"}},
		{"90.00 − 40.00 = 50.00 |", borne("maker"), []string{"revenue 90.00", "fees 40.00"}},
		{"100.00 − 40.00 = 60.00 |", borne("shop"), []string{"revenue 100.00", "fees 40.00"}},
		{
			"a shop's discount of 10% costs 76.50; if the maker bears the discount, the commission is 40% of 85.00: 34.00.",
			consigned(`"commission": "40%", "discount": {"rate": "10%", "borne": "maker"}`, `, "promotion": "10%", "orders": [{"codes": ["c"]}], "promotions": [{"id": "c", "amount": "5.00"}]`),
			[]string{"revenue 76.50", "fees 34.00"},
		},
		{"60 days at 7.3% cost 0.72 of 60.00.", consigned(`"commission": "40%", "days": 60, "interest": "7.3%"`, ""), []string{"products.0.channels.0.orders.0.fees.1.amount 0.72"}},
		{"base 10.00: 10.00 |", demand(`"pays": "above_base"`, `"base": "10.00"`), []string{"contribution 10.00"}},
		{"20%: 4.80 |", demand(`"pays": "royalty", "rate": "20%"`, `"base": 0`), []string{"contribution 4.80"}},
		{"20%: 4.00 |", demand(`"pays": "royalty", "rate": "20%", "without_tax": true`, `"base": 0`), []string{"contribution 4.00"}},
		{"50%, base 10.00: 7.00 |", demand(rest, `"base": "10.00"`), []string{"contribution 7.00"}},
		{"50%, base 10.00: 5.00 |", demand(rest+`, "without_tax": true`, `"base": "10.00"`), []string{"contribution 5.00"}},
		{"flat 3.00: 3.00 |", demand(`"pays": "flat_fee"`, `"flat": "3.00"`), []string{"contribution 3.00"}},
		{"would be 1.50; 0.83 is left and paid.", pays("13.00", rest, `"base": "10.00"`), []string{"contribution 0.83"}},
		{"at 9.00 there are 7.50 without tax, and you lose 2.50.", pays("9.00", rest, `"base": "10.00"`), []string{"revenue 7.50"}},
		{"4% of 100.00 cost 4.00", returned(`"returned": "4%"`), []string{"fees 4.00"}},
		{"With 50% it is 2.00", returned(`"returned": "4%", "part": "50%"`), []string{"fees 2.00"}},
		{"goods are 11.76", returned(`"returned": "4%", "resold": "50%"`), []string{"goods 11.76"}},
		{"6.00 adds 0.24 to an order", returned(`"returned": "4%", "postage": "6.00"`), []string{"products.0.channels.0.orders.0.fees.1.amount 0.24"}},
		{"1%, 60% and 15.00 cost 0.75 of 100.00", returned(`"returned": "0%", "disputed": "1%", "lost": "60%", "fee": "15.00"`), []string{"fees 0.75"}},
	})
}

// The figures of the page about parcels, sets, fairs and editions.
func TestPageFiguresOfWhatIsSoldTogether(t *testing.T) {
	const bill = `"price": "24.00", "bill": [{"supply": "time", "quantity": "15 min"}]`
	pair := func(alternatives string) string {
		return overlaid(ofPrint(bill+`}, {"id": "egret", `+bill), onWeb(`"orders": [{"postage": "8.00"}]`),
			`{"sets": [{"id": "pair", "channel": "web", "products": ["heron", "egret"]`+alternatives+`}]}`)
	}
	fair := overlaid(ofPrint(`"price": "24.00", "bill": [{"supply": "time", "quantity": "12 min"}]`), `{"fairs": [{
		"id": "spring", "channel": "web", "stand": "230.00", "jury": "20.00", "chance": "50%", "travel": "60.00", "nights": 1, "night": "70.00",
		"display": "300.00", "display_fairs": 6, "commission": "10%", "mix": [{"product": "heron", "share": "100%"}], "prints": 30, "hours": 16, "hour_worth": "15.00"}]}`)
	edition := overlaid(ofPrint(`"price": "24.00"`), `{"rules": [{"id": "nines", "rule": "ending", "ends_in": ["0.90"]}],
		"editions": [{"id": "plate", "products": ["heron"], "size": 50, "sold": 20, "steps": [{"times": "1"}, {"sold": 25, "times": "1.25"}]}]}`)
	parcels := func(divisor, zones, items, outside string) string {
		return overlaid(ofPrint(`"sheet": "A4", "mass": "30 g", "packing": {"mailer": [{"supply": "scan", "quantity": "0.05 piece", "per": "order"}]}`),
			`{"packings": [{"id": "mailer", "inside": "A4", "holds": 3, "mass": "60 g", "outside": {`+outside+`}}],
			"tariffs": [{"id": "post", `+divisor+`"zones": [{"id": "home", "steps": [`+zones+`]}]}]}`,
			onWeb(`"tariff": "post", "orders": [{"zone": "home", "items": `+items+`}]`))
	}
	const flat = `"length": "310 mm", "width": "220 mm", "height": "10 mm"`
	const shipment = "products.0.parcels.0.shipment."
	checkShown(t, []shown{
		{"4 prints cost 2.83 + 1.26 = 4.09.", parcels("", `{"mass": "100 g", "price": "2.30", "additional": "1.26"}, {"mass": "200 g", "price": "2.83"}`, "4", flat), []string{shipment + "postage 4.09"}},
		{"counts as 4000 g.", parcels(`"dimensional": {"divisor": 5000, "length": "cm", "mass": "kg"}, `, `{"mass": "5 kg", "price": "9.00"}`, "1", `"length": "50 cm", "width": "40 cm", "height": "10 cm"`), []string{shipment + "billable 4000 g"}},
		{"The lowest price of the set is 40.00, because 40.00 − 10.00 − 8.00 = 22.00.", pair(""), []string{"sets.0.least 40.00", "sets.0.contribution 22.00"}},
		{
			"`expected` is 14.30 and the lowest price is 32.30.", pair(`, "alternatives": [{"share": "50%", "products": ["heron", "egret"]}, {"share": "30%", "products": ["heron"]}]`),
			[]string{"sets.0.expected 14.30", "sets.0.least 32.30"},
		},
		{"Fixed costs are 450.00.", fair, []string{"fairs.0.fixed 450.00"}},
		{"The result is 600.00 − 450.00 − 72.00 = 78.00.", fair, []string{"fairs.0.commission 72.00", "fairs.0.result 78.00"}},
		{"goods of all prints taken along, without your own time | 198.00 |", overlaid(fair, `{"fairs": [{"id": "spring", "taken": 50}]}`), []string{"fairs.0.in_three.cash 198.00"}},
		{"earned: the result | 78.00 |", overlaid(fair, `{"fairs": [{"id": "spring", "taken": 50}]}`), []string{"fairs.0.in_three.profit 78.00"}},
		{"(taken − sold) × goods | 80.00 |", overlaid(fair, `{"fairs": [{"id": "spring", "taken": 50}]}`), []string{"fairs.0.in_three.stock_left 80.00"}},
		{"If the 4.00 were paper, cash would be −2.00.", overlaid(fair, `{"fairs": [{"id": "spring", "taken": 50}], "supplies": [{"id": "time", "quantity": "1 h", "price": "20.00", "labour": "paid"}]}`), nil},
		{"Break-even is at 26 prints, sales of 613.64.", fair, []string{"fairs.0.break_even.whole 26", "fairs.0.break_even.sales 613.64"}},
		{
			"At 23.90 with endings of 0.90, a step of 1.25 times is 29.875, so the price is 29.90.", edition,
			[]string{"products.0.price 23.90", "editions.0.products.0.steps.1.price 29.90"},
		},
	})
}
