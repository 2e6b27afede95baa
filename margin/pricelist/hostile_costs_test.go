package pricelist_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// hostile is a way to make a document hurt: with a list, or a few that multiply with
// each other, at a quarter of their limits for n of 1, at the limits for 4, and below a
// megabyte.
type hostile struct {
	name string
	doc  func(n int) string
}

// costly is a shop with a kit to be made of, and what is given: more supplies,
// products, channels, and fields beside them.
type costly struct{ supplies, products, channels, beside string }

func (c costly) String() string {
	if c.products == "" {
		c.products = `{"id": "a", "bill": [{"supply": "kit", "quantity": "1 kit"}]}`
	}
	if c.channels == "" {
		c.channels = `{"id": "c"}`
	}
	return `{"version":1,"currency":"EUR","price_limit":"100.00","supplies":[{"id":"kit","quantity":"1 kit","price":"1.00"}` + c.supplies +
		`],"products":[` + c.products + `],"channels":[` + c.channels + `]` + c.beside + `}`
}

// rows writes so many entries, each with the figures of its number; behind others where
// the format begins with a comma.
func rows(n int, format string, args ...func(i int) any) string {
	out := repeated(n, func(i int) string {
		values := make([]any, len(args))
		for j, arg := range args {
			values[j] = arg(i)
		}
		return fmt.Sprintf(strings.TrimPrefix(format, ","), values...)
	})
	if strings.HasPrefix(format, ",") && n > 0 {
		return ", " + out
	}
	return out
}

func same(i int) any  { return i }
func next(i int) any  { return i + 1 }
func digit(i int) any { return fmt.Sprintf("%04d", i) }

// prints is so many plain products.
func prints(n int) string {
	return rows(n, `{"id":"p%d","sheet":"A4","mass":"50 g","bill":[{"supply":"kit","quantity":"1 kit"}]}`, same)
}

// hostileWork is what is worked out for products by themselves.
func hostileWork() []hostile {
	sure := func(yield string, good, sure func(i int) any) func(int) string {
		return func(n int) string {
			return costly{
				products: rows(2000*n, `{"id":"p%d","bill":[{"supply":"kit","quantity":"1 kit"}],"run":{"good":%d,"certainty":"%s"}}`, same, good, sure),
				beside:   `,"stages":[{"id":"s","yield":"` + yield + `"}]`,
			}.String()
		}
	}
	return []hostile{
		{"sure of many", sure("0.12", func(i int) any { return 10_000 - i }, func(int) any { return "0.99" })},
		{"sure of few, by next to no yield", sure("0.0004", func(i int) any { return 1 + i%3 }, func(i int) any { return fmt.Sprintf("0.9999999%05d", 10_000+i) })},
		{"sure of what is hardly spoiled", sure("0.99", func(i int) any { return 10_000 - i }, func(i int) any { return "0.9999999999" })},
		{"sure beyond all starts", sure("0.1", func(i int) any { return 10_000 - i%3 }, func(i int) any { return fmt.Sprintf("0.9%05d", i) })},
		{"bases", func(n int) string {
			return costly{products: `{"id":"p0","bill":[` + rows(30, `{"supply":"kit","quantity":"%d kit"}`, next) + `]},` + rows(1500*n, `{"id":"q%d","extends":"p0","bill":[{"supply":"kit","quantity":"1 kit"}]}`, same)}.String()
		}},
		{"machines and their service", func(n int) string {
			return costly{beside: `,"machines":[` + repeated(25*n, func(i int) string {
				return fmt.Sprintf(`{"id":"m%d","unit":"print","price":"900.00","life_months":60,"prints_per_month":"70","interest":"0.04","method":"capital_recovery","service":[%s]}`, i, rows(100, `{"name":"x%d","price":"7.00","every":"300"}`, same))
			}) + `]`, products: rows(250*n, `{"id":"p%d","bill":[{"supply":"m0","quantity":"1 print"}]}`, same)}.String()
		}},
		{"ink logs", func(n int) string {
			return costly{supplies: `,{"id":"ink","quantity":"1 l","price":"100.00"}`, products: repeated(14, func(i int) string {
				return fmt.Sprintf(`{"id":"p%d","image":"A4","bill":[{"supply":"ink","ink":{"log":[%s]}}]}`, i, rows(250*n, `{"area":"%d cm2","volume":"%d ml"}`, next, next))
			}) + rows(100*n, `,{"id":"q%d","extends":"p0","image":"A5","bill":[]}`, same)}.String()
		}},
		{"ink spent", func(n int) string {
			return costly{supplies: `,{"id":"ink","quantity":"1 l","price":"100.00"}`, products: repeated(7, func(i int) string {
				return fmt.Sprintf(`{"id":"p%d","image":"A4","bill":[{"supply":"ink","ink":{"spent":[%s]}}]}`, i, rows(250*n, `{"opening":"%d ml","bought":"900 ml","closing":"1 ml","area":"2 m2"}`, next))
			})}.String()
		}},
		{"stages", func(n int) string {
			return costly{
				beside:   `,"stages":[` + rows(50, `{"id":"s%d","yield":"0.99","recovery":"0.01"}`, same) + `]`,
				products: rows(250*n, `{"id":"p%d","bill":[`+rows(16, `{"supply":"kit","quantity":"1 kit","stage":"s%d"}`, same)+`]}`, same),
			}.String()
		}},
		{"ranges of a shop with long invoices", func(n int) string {
			return costly{
				supplies: rows(25*n, `,{"id":"r%d","quantity":"1 kit","price":"1.00","price_range":{"low":"0.90","high":"1.10"}}`, same), products: `{"id":"a","bill":[` + rows(25*n, `{"supply":"r%d","quantity":"1 kit"}`, same) + `]}`,
				beside: `,"date":"2026-03-01","purchases":[` + rows(20*n, `{"id":"i%d","date":"2026-01-01","lines":[`+rows(80, `{"supply":"kit","quantity":"%d kit","price":"3.33"}`, next)+`],"shared":[`+rows(10, `{"name":"f%d","amount":"9.99"}`, same)+`]}`, same) + `]`,
			}.String()
		}},
	}
}

// hostileNames is references to nothing, among many names that are alike.
func hostileNames() []hostile {
	alike := strings.Repeat("heron-", 9)
	return []hostile{
		{"unknown supplies", func(n int) string {
			return costly{supplies: rows(250*n, `,{"id":"`+alike+`%s","quantity":"1 kit","price":"1.00"}`, digit), products: `{"id":"a","bill":[` + rows(1000*n, `{"supply":"`+strings.Repeat("heron-", 7)+`bittern-%s","quantity":"1 kit"}`, digit) + `]}`}.String()
		}},
		{"unknown zones", func(n int) string {
			return costly{
				products: `{"id":"a","sheet":"A4","mass":"50 g","bill":[],"packing":{"x":[]}}`,
				channels: rows(10, `{"id":"c%d","tariff":"t","orders":[`+rows(25*n, `{"id":"o%d","share":"0.01","zone":"`+alike+`x"}`, same)+`]}`, same),
				beside: `,"packings":[{"id":"x","inside":"A4","holds":1,"mass":"1 g","outside":{"length":"1 cm","width":"1 cm","height":"1 cm"}}],"tariffs":[{"id":"t","zones":[` +
					rows(25*n, `{"id":"`+alike+`%s","steps":[{"mass":"1 kg","price":"1.00"}]}`, digit) + `]}]`,
			}.String()
		}},
		{"unknown packing lists", func(n int) string {
			return costly{products: rows(2000*n, `{"id":"p%d","bill":[],"packing":{"`+alike+`%s":[]}}`, same, digit), channels: rows(25*n, `{"id":"c%d","packing":"`+alike+`x%d"}`, same, same)}.String()
		}},
		{"unknown fields", func(n int) string {
			return costly{products: rows(4000*n, `{"id":"p%d","bill":[],"prise%d":1}`, same, same)}.String()
		}},
		{"unknown bases", func(n int) string {
			return costly{products: rows(2000*n, `{"id":"`+alike+`%s","bill":[],"extends":"bittern-%s"}`, digit, digit)}.String()
		}},
		{"problems in long lists", func(n int) string {
			return costly{products: `{"id":"a","bill":[` + rows(1000, `{"supply":"kit","quantity":"1 %s"}`, func(i int) any { return "kits" }) + `]},` + rows(3000*n, `{"id":"p%d","sheet":"A4","image":"A3","bill":[]}`, same)}.String()
		}},
	}
}

// parcels is a shop that sends by one tariff: so many products in so many packings
// by so many steps of as many zones as there are kinds of order.
func parcels(products, packings, steps, orders, zones, channels int, dimensional string) string {
	return costly{
		products: `{"id":"p0","sheet":"A5","mass":"20 g","bill":[],"packing":{` + rows(packings, `"k%d":[]`, same) + `}}` + rows(products-1, `,{"id":"q%d","extends":"p0","mass":"%d.%d g","bill":[]}`, same, func(i int) any { return 20 + i%7 }, same),
		channels: rows(channels, `{"id":"c%d","tariff":"t","orders":[`+rows(orders, `{"id":"o%d","share":"%s","items":%d,"zone":"z%d"}`, same, func(int) any { return fmt.Sprint(1 / float64(orders)) }, func(i int) any { return 997*i + 1 }, func(i int) any { return i % zones })+`]}`, same),
		beside: `,"board":{"mass":"70 g"},"packings":[` + rows(packings, `{"id":"k%d","inside":"A4","holds":%d,"mass":"%d.3 g","grows":"1.7 mm","outside":{"length":"31.%d cm","width":"22 cm","height":"1 cm"}}`, same, func(i int) any { return 100_000 - i }, next, same) +
			`],"tariffs":[{"id":"t","zones":[` + rows(zones, `{"id":"z%d","steps":[`+rows(steps, `{"mass":"%d g","price":"%d.%02d","additional":"%d.%02d","length_and_girth":"%d mm"}`,
			func(s int) any { return 1000 * (s + 1) }, func(s int) any { return 3 + s/3 }, func(s int) any { return s * 37 % 100 }, func(s int) any { return 1 + (steps-s)/3 }, func(s int) any { return s * 31 % 100 }, func(s int) any { return 900 + 170*s })+`]}`, same) + `]` + dimensional + `}]`,
	}.String()
}

func hostileSending() []hostile {
	volume := `,"dimensional":{"divisor":5000,"length":"cm","mass":"kg","sides":"up","increment":"0.5 kg"}`
	return []hostile{
		{"parcels of many products", func(n int) string { return parcels(1000*n, 10, 20, 1, 1, 1, "") }},
		{"parcels of many packings and steps", func(n int) string { return parcels(50, 25*n, 50*n, 1, 1, 1, "") }},
		{"parcels of many kinds of order", func(n int) string { return parcels(50, 10, 20, 25*n, 1, 1, "") }},
		{"parcels to many zones", func(n int) string { return parcels(20, 20, 80, 25*n, 25*n, 1, "") }},
		{"parcels charged by volume", func(n int) string { return parcels(10, 25*n, 12*n, 1, 1, 1, volume) }},
		{"parcels through many channels", func(n int) string { return parcels(20, 10, 20, 1, 1, 25*n, "") }},
		{"too many parcels", func(n int) string { return parcels(1000*n, 50, 100, 5, 5, 1, volume) }},
		{"packing lists of many channels", func(n int) string {
			return costly{products: rows(100, `{"id":"p%d","bill":[],"packing":{`+rows(25*n, `"k%d":[{"supply":"kit","quantity":"1 kit"}]`, same)+`}}`, same), channels: rows(25*n, `{"id":"c%d","packing":"k%d"}`, same, same)}.String()
		}},
	}
}

// hostileCosts is the documents made to hurt by what making, sending, sourcing and what
// stands beside the channels cost.
func hostileCosts() []hostile {
	var all []hostile
	for _, of := range [][]hostile{hostileWork(), hostileNames(), hostileSending(), hostileBuying(), hostileSourcing(), hostileCutting(), hostileBeside()} {
		all = append(all, of...)
	}
	return all
}

func hostileBuying() []hostile {
	lines := func(n int) string {
		return rows(n, `{"supply":"ink","quantity":"%d ml","price":"%d.33","weight":"%d g"}`, next, same, next)
	}
	stock := func(n int, basis string) string {
		return costly{
			supplies: `,{"id":"ink","stock":{"unit":"ml","basis":"` + basis + `"}}` + rows(7, `,{"id":"x%d","stock":{"unit":"ml","basis":"`+basis+`","received":[`+rows(250*n, `{"date":"2026-01-01","quantity":"9 ml","cost":"%d.33"}`, next)+`],"used":[`+rows(250*n, `{"date":"2026-01-0%d","quantity":"7 ml"}`, func(i int) any { return 1 + i%9 })+`]}}`, same),
			beside:   `,"date":"2026-03-01","purchases":[{"id":"i","date":"2026-01-01","lines":[` + lines(250) + `]}]`,
		}.String()
	}
	steps := func(n int) string {
		return rows(n, `{"from":%d,"each":"%d.%02d"}`, func(i int) any { return 1 + 97*i }, func(i int) any { return 300 - i }, func(i int) any { return i * 37 % 100 })
	}
	offer := func(mode string) func(n int) string {
		return func(n int) string {
			return costly{supplies: rows(150, `,{"id":"x%d","offer":{"pack":"1 kit","need":%d,"scale":{"mode":"`+mode+`","freight":"9.00","steps":[`+steps(25*n)+`]}}}`, same, func(i int) any { return 9000 + i })}.String()
		}
	}
	return []hostile{
		{"an invoice with much that is shared", func(n int) string {
			return costly{beside: `,"purchases":[{"id":"i","date":"2026-01-01","tax":"0.20","lines":[` + lines(250*n) + `],"shared":[` + rows(25*n, `{"name":"f%d","amount":"99.99","by":"weight"}`, same) + `]}]`}.String()
		}},
		{"long invoices with much that is shared", func(n int) string {
			return costly{beside: `,"purchases":[` + rows(10, `{"id":"i%d","date":"2026-01-01","lines":[`+lines(250*n)+`],"shared":[`+rows(25*n, `{"name":"f%d","amount":"99.99","discount":true}`, same)+`]}`, same) + `]`}.String()
		}},
		{"many invoices", func(n int) string {
			return costly{beside: `,"purchases":[` + rows(250*n, `{"id":"i%d","date":"2026-01-01","lines":[`+lines(6)+`],"shared":[`+rows(6, `{"name":"f%d","amount":"99.99","by":"weight"}`, same)+`]}`, same) + `]`}.String()
		}},
		{"stocks first in", func(n int) string { return stock(n, "first_in") }},
		{"stocks on average", func(n int) string { return stock(n, "average") }},
		{"a stock of many invoices", func(n int) string {
			return costly{
				supplies: `,{"id":"ink","stock":{"unit":"ml","basis":"average","used":[` + rows(250*n, `{"date":"2026-02-01","quantity":"1 ml"}`) + `]}}`,
				beside:   `,"date":"2026-03-01","purchases":[` + rows(8, `{"id":"i%d","date":"2026-01-01","lines":[`+lines(250*n)+`]}`, same) + `]`,
			}.String()
		}},
		{"offers for all units", offer("all_units")},
		{"offers by step", offer("incremental")},
	}
}

func hostileSourcing() []hostile {
	quote := func(mode string, steps, multiple int) string {
		return fmt.Sprintf(`{"id":"q%%d","setup":"%%d.00","scale":{"mode":"%s","multiple":%d,"steps":[%s]}}`, mode, multiple,
			rows(steps, `{"from":%d,"each":"%d.%02d"}`, func(i int) any { return 1 + 97*i }, func(i int) any { return 300 - i }, func(i int) any { return i * 37 % 100 }))
	}
	product := func(products, quotes int, quote, demand string) string {
		return costly{products: rows(products, `{"id":"p%d","volume":1000000,"run":{"good":500},"bill":[{"supply":"kit","quantity":"1 kit"}],"quotes":[`+rows(quotes, quote, same, same)+`]`+demand+`}`, same)}.String()
	}
	return []hostile{
		{"quotes by step", func(n int) string { return product(40*n, 10, quote("incremental", 10, 1), "") }},
		{"quotes by many steps", func(n int) string { return product(4, 10, quote("incremental", 25*n, 1), "") }},
		{"quotes for all units", func(n int) string { return product(4, 10, quote("all_units", 25*n, 1), "") }},
		{"quotes by multiples", func(n int) string { return product(25*n, 1, quote("all_units", 1, 1010), "") }},
		{"quotes by step of many products", func(n int) string { return product(11*n, 10, quote("incremental", 40, 1), "") }},
		{"quotes for a demand in cases", func(n int) string {
			return product(8, 10, quote("all_units", 3*n, 1), `,"demand":{"cases":[`+rows(250*n, `{"prints":%d,"share":"%s"}`, same, func(int) any { return fmt.Sprint(0.004 / float64(n)) })+`]}`)
		}},
		{"quotes for a normal demand", func(n int) string {
			return product(8, 10, quote("all_units", 12*n, 1), `,"demand":{"mean":"900","deviation":"300"}`)
		}},
		{"too many quotes", func(n int) string { return product(25*n, 10, quote("incremental", 2, 11000), "") }},
	}
}

func hostileCutting() []hostile {
	cut := func(n int, sheet, cut string, piece func(i int) any) string {
		return costly{supplies: `,{"id":"sheet","quantity":"1 sheet","price":"9.00",` + sheet + `}`, products: rows(n, `{"id":"p%d","bill":[{"supply":"sheet","cut":{"piece":"%s"`+cut+`}}]}`, same, piece)}.String()
	}
	sides := func(w, h int) func(i int) any {
		return func(i int) any { return fmt.Sprintf("%d.%d x %d.%d mm", w+i, i%10, h+2*i, (3*i)%10) }
	}
	large := `"sheet":{"size":"1000 x 2000 mm","border":"1 mm"}`
	return []hostile{
		{"coarse layouts", func(n int) string {
			return cut(120*n, `"sheet":{"size":"100 x 100 m"}`, "", func(i int) any { return fmt.Sprintf("%d.%d x %d.%d mm", 1+i/50, i%10, 2+i/30, 3*i%10) })
		}},
		{"fine layouts", func(n int) string { return cut(120*n, large, "", sides(20, 31)) }},
		{"layouts of many points", func(n int) string {
			return cut(120*n, `"sheet":{"size":"2900 x 2999 mm"}`, "", func(i int) any { return fmt.Sprintf("%d x %d mm", 31+i%60, 43+i/10) })
		}},
		{"layouts on rolls", func(n int) string {
			return cut(120*n, `"roll":{"width":"1118 mm","length":"300 m"}`, "", func(i int) any { return fmt.Sprintf("%d.%d x %d.%d mm", 31+i, i%10, 43+i, 7*i%10) })
		}},
		{"layouts in a grid", func(n int) string {
			return cut(1000*n, large, `,"layout":"grid"`, func(i int) any { return fmt.Sprintf("%d.%d x %d.%d mm", 20+i%900, i%10, 31+i%1900, 3*i%10) })
		}},
		{"frames of sticks", func(n int) string {
			return costly{
				supplies: `,{"id":"rail","quantity":"1 stick","price":"9.00","stick":{"length":"3 m","kerf":"3 mm"}}`,
				products: rows(120*n, `{"id":"p%d","bill":[{"supply":"rail","moulding":{"glass":"%d x %d mm","width":"20 mm","rabbet":"5 mm","together":%d}}]}`, same, func(i int) any { return 100 + i }, func(i int) any { return 131 + 2*i }, func(i int) any { return 150 - i%7 }),
			}.String()
		}},
	}
}

func hostileBeside() []hostile {
	names := func(n int) string { return rows(n, `"p%d"`, same) }
	fair := func(n int, fields string) string {
		return `,"fairs":[` + rows(25*n, `{"id":"f%d","channel":"c","prints":50,"mix":[`+rows(25*n, `{"product":"p%d","share":"%s"}`, same, func(int) any { return fmt.Sprint(0.04 / float64(n)) })+`]`+fields+`}`, same) + `]`
	}
	edition := func(products, steps string, fields string) string {
		return `{"id":"e%d","products":[` + products + `],"size":1000,"steps":[` + steps + `]` + fields + `}`
	}
	steps := func(n int) string {
		return rows(n, `{"sold":%d,"times":"%d.%02d"}`, func(i int) any { return 19 * i }, func(i int) any { return 1 + i/100 }, func(i int) any { return i % 100 })
	}
	return []hostile{
		{"fairs", func(n int) string { return costly{products: prints(100), beside: fair(n, "")}.String() }},
		{"fairs with other costs", func(n int) string {
			return costly{products: prints(25 * n), beside: fair(n, `,"other":[`+rows(25*n, `{"name":"o%d","amount":"1.00"}`, same)+`]`)}.String()
		}},
		{"editions of many products", func(n int) string {
			return costly{products: prints(100), beside: `,"editions":[` + rows(25*n, edition(names(25*n), steps(50), ""), same) + `]`}.String()
		}},
		{"editions and limits", func(n int) string {
			return costly{products: prints(1), beside: `,"editions":[` + rows(25*n, edition(names(1), `{"sold":0,"times":"1"}`, ""), same) + `],"edition_limits":[` + rows(25*n, `{"name":"l%d","at_most":10,"proofs":true,"together":true}`, same) + `]`}.String()
		}},
		{"an edition with a ledger", func(n int) string {
			return costly{products: prints(2), beside: `,"editions":[{"id":"e","products":["p0","p1"],"size":100000,"ledger":[` + rows(6000*n, `{"number":%d,"state":"reserved"}`, next) + `]}]`}.String()
		}},
		{"editions through many channels", func(n int) string {
			return costly{products: prints(20), channels: rows(25*n, `{"id":"c%d"}`, same), beside: `,"editions":[` + rows(100, edition(names(20), steps(50), ""), same) + `]`}.String()
		}},
		{"sets", func(n int) string {
			return costly{products: prints(100), beside: `,"sets":[` + rows(18*n, `{"id":"s%d","channel":"c","products":["p0","p1"],"alternatives":[`+rows(25*n, `{"share":"0.001","products":["p%d"]}`, func(i int) any { return i % 100 })+`]}`, same) + `]`}.String()
		}},
		{"sets of many products", func(n int) string {
			return costly{products: prints(2000 * n), beside: `,"sets":[` + repeated(300*n, func(i int) string {
				return fmt.Sprintf(`{"id":"s%d","channel":"c","products":[%s]}`, i, rows(20, `"p%d"`, func(j int) any { return 2000*n - 1 - (i+j)%(2000*n) }))
			}) + `]`}.String()
		}},
		{"printed on demand", func(n int) string {
			return costly{products: prints(250 * n), channels: rows(12, `{"id":"c%d","on_demand":{"pays":"above_base","sizes":[`+rows(250*n, `{"product":"p%d","base":"5.00"}`, same)+`]}}`, same)}.String()
		}},
	}
}

// answerOf is the answer to a document without steps, or what refuses it, as JSON.
func answerOf(tb testing.TB, doc string) (answer []byte, refused error) {
	tb.Helper()
	a, err := pricelist.Price([]byte(doc))
	if err != nil {
		if ps, ok := err.(quoin.Problems); !ok || len(ps) == 0 || len(a.Products) > 0 {
			tb.Errorf("%T with %d products", err, len(a.Products))
		}
		text, _ := json.Marshal(err)
		return text, err
	}
	for i := range a.Products {
		for j := range a.Products[i].Channels {
			a.Products[i].Channels[j].Steps = pricelist.Reasons{}
		}
	}
	for i := range a.Fairs {
		a.Fairs[i].Steps = pricelist.Reasons{}
	}
	for i := range a.Sets {
		a.Sets[i].Steps = pricelist.Reasons{}
	}
	for i := range a.Editions {
		for j := range a.Editions[i].Products {
			a.Editions[i].Products[j].Reasons = pricelist.Reasons{}
		}
	}
	text, err := json.Marshal(a)
	if err != nil {
		tb.Errorf("no JSON: %v", err)
	}
	return text, nil
}

// A quarter of what is at the limit is answered, or refused with problems, as whole
// answers that can be written.
func TestHostileCostsAreAnswered(t *testing.T) {
	oneGoroutine(t)
	for _, h := range hostileCosts() {
		t.Run(h.name, func(t *testing.T) {
			if doc := h.doc(4); len(doc) > 1_000_000 || !json.Valid([]byte(doc)) {
				t.Errorf("%d bytes at the limit, JSON: %t", len(doc), json.Valid([]byte(doc)))
			}
			text, err := answerOf(t, h.doc(1))
			t.Logf("%d bytes, %.300v", len(text), err)
		})
	}
}

// BenchmarkHostileCosts answers what was made to hurt, at a quarter of the limits, at
// half of them and at the limits.
func BenchmarkHostileCosts(b *testing.B) {
	for _, h := range hostileCosts() {
		for _, n := range []int{1, 2, 4} {
			doc := h.doc(n)
			b.Run(fmt.Sprintf("%s/%d", strings.ReplaceAll(h.name, " ", "-"), n), func(b *testing.B) {
				b.ReportAllocs()
				var text []byte
				for b.Loop() {
					text, _ = answerOf(b, doc)
				}
				b.ReportMetric(float64(len(text))/float64(len(doc)), "answer/doc")
			})
		}
	}
}
