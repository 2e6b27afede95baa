package pricelist_test

import "testing"

// The figures of the page about what is bought and made.
func TestPageFiguresOfMaking(t *testing.T) {
	scan := func(per string) string {
		return billed(`{"supply": "scan", "quantity": "1 piece", ` + per + `}`)
	}
	run := func(run string) string { return ofPrint(`"run": {` + run + `}`) }
	time := billed(`{"supply": "time", "quantity": "6 min"}`)
	stock := func(basis string) string {
		return overlaid(`{"date": "2026-06-01", "supplies": [{"id": "ink", "stock": {
			"unit": "ml", "basis": "`+basis+`", "replacement": "0.50",
			"received": [{"date": "2026-01-10", "quantity": "100 ml", "cost": "30.00"}, {"date": "2026-03-10", "quantity": "100 ml", "cost": "40.00"}],
			"used": [{"date": "2026-04-10", "quantity": "50 ml"}]}}]}`, billed(`{"supply": "ink", "quantity": "1 ml"}`))
	}
	sheets := func(later string) string {
		return overlaid(`{"date": "2026-06-01", "supplies": [{"id": "stocked", "stock": {"unit": "sheet", "basis": "replacement", "replacement": "12.00",
			"received": [{"date": "2026-01-10", "quantity": "10 sheet", "cost": "100.00"}`+later+`]}}]}`, billed(`{"supply": "stocked", "quantity": "1 sheet"}`))
	}
	machine := func(terms string) string {
		return overlaid(`{"machines": [{"id": "printer", "unit": "print", "price": "1200.00", "resale": "200.00", `+terms+`}]}`,
			billed(`{"supply": "printer", "quantity": "1 print"}`))
	}
	spoiled := func(stages string) string {
		return overlaid(`{"stages": [`+stages+`]}`, billed(`{"supply": "paper", "quantity": "1 sheet", "stage": "print"}`))
	}
	cut := func(layout string) string {
		return overlaid(`{"supplies": [{"id": "large", "quantity": "1 piece", "price": "10.00", "sheet": {"size": "500 x 700 mm"}}]}`,
			billed(`{"supply": "large", "cut": {"piece": "200 x 300 mm", "layout": "`+layout+`"}}`))
	}
	ink := func(ink string) string {
		return overlaid(`{"supplies": [{"id": "ink", "quantity": "80 ml", "price": "80.00"}]}`, ofPrint(`"image": "200 x 300 mm"`),
			billed(`{"supply": "ink", "ink": {`+ink+`}}`))
	}
	framed := func(supply, more string) string {
		return overlaid(`{"supplies": [{"id": "moulding", `+supply+`}]}`, ofPrint(`"frame": "300 x 400 mm"`),
			billed(`{"supply": "moulding", "moulding": {"width": "30 mm", "rabbet": "5 mm", `+more+`}}`))
	}
	const stick = `"quantity": "1 piece", "price": "24.00", "stick": {"length": "3 m", "kerf": "3 mm", "trim": "20 mm"}`
	const used = "products.0.worked_out.0.quantity "
	checkShown(t, []shown{
		{
			"50 sheets for 62.00 with a discount of 2.00, freight of 6.90, duty of 3.10 and an exchange of 1.10 cost 77.00; a sheet costs 1.54.",
			`{"supplies": [{"id": "paper", "discount": "2.00", "freight": "6.90", "duty": "3.10", "exchange": "1.10"}]}`,
			[]string{"goods 1.54"},
		},
		{"An hour is worth 20.00, and a print takes 6 minutes: 2.00 of own time.", time, []string{"own_time 2.00"}},
		{"With one test print for ten good prints it is 2.20.", overlaid(time, run(`"good": 10, "tests": 1`)), []string{"own_time 2.20"}},
		{
			"If half of the prints come back and are sold again, 1.00 of the 2.00 is left.",
			overlaid(time, onWeb(`"returns": {"returned": "50%", "resold": "100%"}`)),
			[]string{"own_time 1.00"},
		},
		{
			"so 15 are bought, and a tube costs 2.44.",
			overlaid(`{"supplies": [{"id": "tube", "offer": {"pack": "1 piece", "need": 14, "scale": {"steps": [{"from": 1, "each": "3.39"}, {"from": 15, "each": "2.44"}]}}}]}`,
				billed(`{"supply": "tube", "quantity": "1 piece"}`)),
			[]string{"goods 2.44", "bought.0.order.quantity 15"},
		},
		{"| `last` | what the last delivery cost | 0.40 |", stock("last"), []string{"goods 0.40"}},
		{"| `replacement` | what it costs to buy again | 0.50 |", stock("replacement"), []string{"goods 0.50"}},
		{"| `average` | the moving weighted average of the stock | 0.35 |", stock("average"), []string{"goods 0.35"}},
		{"| `first_in` | what the oldest unit in stock cost | 0.30 |", stock("first_in"), []string{"goods 0.30"}},
		{"With the basis `replacement` a print on a sheet costs 12.00; for the stock 100.00 was `paid`.", sheets(``), []string{"goods 12.00", "bought.0.standing.paid 100.00"}},
		{
			"for the stock 100.00 was `paid`. That figure rests on what came in and went out up to the date, so a month that is over never changes.",
			sheets(`, {"date": "2026-06-02", "quantity": "5 sheet", "cost": "90.00"}`),
			[]string{"bought.0.standing.paid 100.00"},
		},
		{"1000.00 ÷ 2000 = 0.50 |", machine(`"life_months": 50, "life_prints": 4000, "prints_per_month": 40`), []string{"goods 0.50"}},
		{"1000.00 ÷ 4000 = 0.25 |", machine(`"life_prints": 4000, "method": "by_use"`), []string{"goods 0.25"}},
		{"with 6% interest 0.5913 |", machine(`"life_months": 50, "prints_per_month": 40, "interest": "6%", "method": "capital_recovery"`), []string{"goods 0.5913"}},
		{"with `straight_line` the print bears 0.65.", machine(`"life_months": 50, "prints_per_month": 40, "service": [{"name": "head", "price": "90.00", "every": 600}]`), []string{"goods 0.65"}},
		{"Starts are 1 ÷ 0.72, and a good print takes 1.7222 of paper.", spoiled(`{"id": "print", "yield": "90%"}, {"id": "trim", "yield": "80%"}`), []string{"goods 1.7222"}},
		{"paper of 1.24 becomes 1.4588.", spoiled(`{"id": "print", "lost_of_started": "15%"}`), []string{"goods 1.4588"}},
		{"it becomes 1.426.", spoiled(`{"id": "print", "lost_of_good": "15%"}`), []string{"goods 1.426"}},
		{"a good print takes 1.25 sheets of 1.24 and saves 0.10: it costs 1.45.", spoiled(`{"id": "print", "yield": "80%", "recovery": "0.40"}`), []string{"goods 1.45"}},
		{"divided by the items of the order | 4.00 in an order of 3 |", overlaid(scan(`"per": "order"`), onWeb(`"orders": [{"items": 3}]`)), []string{"goods 4.00"}},
		{"0.48 in a run of 25", overlaid(scan(`"per": "run"`), run(`"good": 25`)), []string{"goods 0.48"}},
		{"25 prints on drying racks for 10 take 3 racks: 1.44", overlaid(scan(`"per": "batch", "shared_by": 10`), run(`"good": 25`)), []string{"goods 1.44"}},
		{"the prints that the design will sell | 0.12 over 100 prints", scan(`"per": "design", "shared_by": 100`), []string{"goods 0.12"}},
		{"the prints that a listing will sell | 0.12 over 100 prints", scan(`"per": "listing", "shared_by": 100`), []string{"goods 0.12"}},
		{"the prints sold in the period | 0.12 over 100 prints", scan(`"per": "period", "shared_by": 100`), []string{"goods 0.12"}},
		{"a set-up of 5.00 cost 1.24 + 7.48 ÷ 25 = 1.5392.", run(`"good": 25, "tests": 2, "setup": "5.00"`), []string{"goods 1.5392"}},
		{
			"start 30. With 28, the average number, 25 good prints come out in only 69.46% of runs.",
			overlaid(`{"stages": [{"id": "print", "yield": "90%"}]}`, run(`"good": 25, "certainty": "90%"`)),
			[]string{"products.0.run_start.start 30", "products.0.run_start.average 28", "products.0.run_start.average_chance 69.46%"},
		},
		{
			"gives 5 pieces of 200 x 300 mm in a `guillotine` layout and 4 in a `grid`. At 10.00 a sheet a piece costs 2.00, or 2.50.", cut("guillotine"),
			[]string{"goods 2.00", "products.0.worked_out.0.sheet.pieces 5"},
		},
		{"4 in a `grid`. At 10.00 a sheet a piece costs 2.00, or 2.50.", cut("grid"), []string{"goods 2.50", "products.0.worked_out.0.sheet.pieces 4"}},
		{"An image of 200 x 300 mm at 10 ml a m² takes 0.6 ml.", ink(`"per_m2": "10 ml"`), []string{"goods 0.6"}},
		{"it is 1.3 ÷ 0.8 = 1.625 ml.", ink(`"per_m2": "10 ml", "upkeep": {"per_month": "30 ml", "prints_per_month": 60, "per_session": "2 ml", "prints_per_session": 10, "share": "20%"}`), []string{"goods 1.625"}},
		{"A line with the quantity `1 print` costs 0.44.", overlaid(`{"supplies": [{"id": "year", "yearly": {"spent": "396.00", "printed": "900 prints"}}]}`, billed(`{"supply": "year", "quantity": "1 print"}`)), []string{"goods 0.44"}},
		{
			"6.00 for a square metre, and 0.36 for an image of 200 x 300 mm.",
			overlaid(`{"supplies": [{"id": "year", "yearly": {"spent": "396.00", "printed": "66 m2"}}]}`, ofPrint(`"image": "200 x 300 mm"`), billed(`{"supply": "year", "area": "image"}`)),
			[]string{"goods 0.36"},
		},
		{"1400 + 200 + 100 = 1700 mm.", framed(`"quantity": "1 m", "price": "8.00"`, `"allowance": "100 mm"`), []string{used + "1700 mm"}},
		{
			"one stick of 3 m is used for one frame, and 3 sticks for 5 frames: 0.6 of a stick for each.", framed(stick, `"together": 5`),
			[]string{"products.0.worked_out.0.sticks.sticks 3"},
		},
		{
			"280 x 360 mm come to 25.2 inches, so to 26 with `whole_up`.",
			overlaid(`{"supplies": [{"id": "frame", "quantity": "1 united_in", "price": "1.00"}]}`, billed(`{"supply": "frame", "width_plus_height": {"size": "280 x 360 mm", "whole_up": true}}`)),
			[]string{"goods 26"},
		},
		{
			"cost 4.1306 together, 2.0653 each.",
			overlaid(`{"contingency": "10%"}`, ofPrint(`"packing": {"parcel": [{"supply": "scan", "quantity": "0.1 piece", "per": "order"}]}`),
				onWeb(`"packing": "parcel", "lost_parcels": "2%", "orders": [{"items": 2}]`)),
			[]string{"goods 2.0653"},
		},
		{
			"has goods of 1.24, with a range from 1.00 to 1.40.", `{"supplies": [{"id": "paper", "price_range": {"low": "50.00", "high": "70.00"}}]}`,
			[]string{"goods 1.24", "products.0.channels.0.range.goods.low 1.00", "products.0.channels.0.range.goods.high 1.40"},
		},
		{
			"the lowest price of that print is 19.99, 19.75 in the cheapest case and 20.15 in the dearest.",
			`{"supplies": [{"id": "paper", "price_range": {"low": "50.00", "high": "70.00"}}], "rules": [{"id": "asked", "rule": "contribution", "at_least": "18.75"}]}`,
			[]string{"products.0.least 19.99", "products.0.uncertainty.cheapest.least 19.75", "products.0.uncertainty.dearest.least 20.15"},
		},
	})
}
