package pricelist_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin/margin/pricelist"
)

// A product whose text is plain is read and priced by a plan as the general way does, in shops
// of any terms that have a plan, under low limits and high ones.
func TestPlainTextsArePriced(t *testing.T) {
	t.Parallel()
	var n counted
	rapid.Check(t, func(t *rapid.T) { n.textsPriced(t) })
	t.Logf("%+v", n)
	if n.products >= enoughDrawn && n.read*8 < n.products || n.products >= 3*enoughDrawn && n.dropped == 0 {
		t.Errorf("too few were read: %+v", n)
	}
}

func FuzzPlainTextsArePriced(f *testing.F) {
	f.Fuzz(rapid.MakeFuzz(func(t *rapid.T) { new(counted).textsPriced(t) }))
}

func (n *counted) textsPriced(t *rapid.T) {
	g := plainGen{t}
	shop, err := pricelist.DecodeShop([]byte(g.shop()))
	if err != nil {
		t.Fatal(err)
	}
	general := pricelist.General(shop)
	for i := range 3 {
		text := g.product(i)
		n.products++
		got, read := pricelist.ReadPlanned(shop, []byte(text))
		lot, err := pricelist.DecodeLot([]byte(`{"products": [` + text + `]}`))
		if !read || err != nil {
			if err != nil && read {
				t.Fatalf("read %s, which has %v", text, err)
			}
			continue
		}
		n.read++
		if len(got.Dropped) > 0 {
			n.dropped++
		}
		want, err := general.Decide(lot, pricelist.Figures)
		sameAnswer(t, text, want, err, got)
	}
}

// plainGen draws shops whose terms have plans. All figures are invented.
type plainGen struct{ *rapid.T }

func (g plainGen) n(from, to int) int   { return rapid.IntRange(from, to).Draw(g.T, "n") }
func (g plainGen) yes(percent int) bool { return g.n(1, 100) <= percent }

// money is an amount up to so many minor units, mostly of two digits after the point.
func (g plainGen) money(most int) string {
	cents := g.n(0, most)
	return fmt.Sprintf("%d.%02d", cents/100, cents%100)
}

// share is a rate from one per mille to another.
func (g plainGen) share(from, to int) string {
	n := g.n(from, to)
	return fmt.Sprintf("%d.%d%%", n/10, n%10)
}

// some joins a list of up to so many.
func (g plainGen) some(least, most int, one func(i int) string) string {
	var all []string
	for i := range g.n(least, most) {
		all = append(all, one(i))
	}
	return strings.Join(all, ", ")
}

// field is a field that is given more or less often.
func (g plainGen) field(percent int, format string, value func() string) string {
	if !g.yes(percent) {
		return ""
	}
	return ", " + fmt.Sprintf(format, value())
}

var plainSupplies = []string{"paper", "ink", "sleeve", "board", "time", "help"}

func (g plainGen) shop() string {
	var supplies []string
	for _, s := range []struct{ id, unit, labour string }{{"paper", "sheet", ""}, {"ink", "ml", ""}, {"sleeve", "sleeve", ""}, {"board", "board", ""}, {"time", "h", "own"}, {"help", "h", "paid"}} {
		labour := ""
		if s.labour != "" && g.yes(60) {
			labour = fmt.Sprintf(`, "labour": %q`, s.labour)
		}
		supplies = append(supplies, fmt.Sprintf(`{"id": %q, "quantity": "%d %s", "price": %q%s%s}`, s.id, g.n(1, 120), s.unit, g.money(9000), labour,
			g.field(30, `"freight": %q`, func() string { return g.money(900) })))
	}
	stage := func(id string) string {
		return fmt.Sprintf(`{"id": %q, "yield": %q%s}`, id, g.share(700, 1000), g.field(20, `"recovery": %q`, func() string { return g.money(50) }))
	}
	doc := fmt.Sprintf(`{"version": 1, "currency": "EUR", "supplies": [%s], "stages": [%s, %s]`, strings.Join(supplies, ", "), stage("print"), stage("finish"))
	doc += g.field(60, `"price_limit": "%s.00"`, func() string { return []string{"60", "500", "20000"}[g.n(0, 2)] })
	doc += g.field(20, `"price_step": %q`, func() string { return []string{"0.05", "0.50", "0.03"}[g.n(0, 2)] })
	doc += g.field(60, `"contingency": %q`, func() string { return g.share(0, 90) })
	doc += g.field(40, `"income_tax": %q`, func() string { return g.share(0, 400) })
	doc += g.field(40, `"overhead": {"cost": %s, "items": "400"}`, func() string { return fmt.Sprintf("%q", g.money(90000)) })
	doc += g.field(70, `"choose": %q`, func() string { return []string{"least", "nearest", "greatest"}[g.n(0, 2)] })
	doc += fmt.Sprintf(`, "channels": [%s]`, g.some(1, 3, g.channel))
	return doc + fmt.Sprintf(`, "rules": [%s]}`, g.some(0, 5, g.rule))
}

func (g plainGen) channel(i int) string {
	c := fmt.Sprintf(`{"id": "channel-%d"`, i)
	c += g.field(70, `"packing": %q`, func() string { return []string{"parcel", "shelf"}[g.n(0, 1)] })
	c += g.field(50, `"lost_parcels": %q`, func() string { return g.share(0, 40) })
	c += g.field(40, `"uplift": %q`, func() string { return g.share(0, 200) })
	c += g.field(20, `"trade_discount": [%q]`, func() string { return g.share(100, 500) })
	c += g.field(20, `"promotion": %q`, func() string { return g.share(0, 150) })
	c += g.field(15, `"price_points": {"step": %q}`, func() string { return []string{"0.10", "0.50"}[g.n(0, 1)] })
	c += g.field(20, `"fixed_cost": {"cost": %q, "items": "30"}`, func() string { return g.money(9000) })
	c += g.field(70, `"tax": {"rate": %s, "on_shipping": true}`, func() string {
		return fmt.Sprintf(`%q, "in_price": %t`, g.share(0, 250), g.yes(70))
	})
	c += g.field(70, `"orders": [%s]`, func() string {
		kinds := g.n(1, 3)
		return g.some(kinds, kinds, func(i int) string {
			share := [][]int{{100}, {70, 30}, {60, 30, 10}}[kinds-1][i]
			return fmt.Sprintf(`{"share": "%d%%", "items": %d, "shipping": %q, "postage": %q%s}`, share, g.n(1, 3), g.money(900), g.money(900),
				g.field(30, `"free_from": "%s.00"`, func() string { return fmt.Sprint(g.n(10, 120)) }))
		})
	})
	return c + g.field(80, `"fees": [%s]`, func() string {
		return g.some(1, 3, func(i int) string {
			return fmt.Sprintf(`{"name": "fee %d", "rate": %q%s%s}`, i, g.share(0, 120), g.field(40, `"fixed": %q`, func() string { return g.money(60) }),
				g.field(60, `"of": [%s]`, func() string { return `"items", "shipping"` }))
		})
	}) + "}"
}

func (g plainGen) rule(i int) string {
	worst := func() string { return g.field(40, `"asked_of": %q`, func() string { return "worst" }) }
	kind := ""
	switch g.n(0, 6) {
	case 0:
		kind = fmt.Sprintf(`"cost_multiple", "at_least": "%d.%d"`, g.n(1, 4), g.n(0, 9))
	case 1:
		kind = fmt.Sprintf(`"net_margin", "at_least": %q%s`, g.share(0, 300), worst())
	case 2:
		kind = fmt.Sprintf(`"gross_margin", "at_least": %q%s`, g.share(0, 500), worst())
	case 3:
		kind = fmt.Sprintf(`"contribution", "at_least": %q%s`, g.money(900), worst())
	case 4:
		kind = fmt.Sprintf(`"price", "at_least": %q`, g.money(2000))
	case 5:
		kind = `"ending", "ends_in": ["0.00", "0.50"]`
	default:
		kind = fmt.Sprintf(`"max_change", "at_most": %q`, g.share(50, 400))
	}
	return fmt.Sprintf(`{"id": "rule-%d", "rule": %s%s%s}`, i, kind, g.field(40, `"strength": %q`, func() string { return "prefer" }),
		g.field(15, `"products": ["print-%s"]`, func() string { return fmt.Sprint(g.n(0, 2)) }))
}

func (g plainGen) product(i int) string {
	p := fmt.Sprintf(`{"id": "print-%d", "bill": [%s]`, i, g.some(0, 4, g.line))
	p += fmt.Sprintf(`, "packing": {"parcel": [%s], "shelf": [%s]}`, g.some(0, 3, g.line), g.some(0, 2, g.line))
	p += g.field(50, `"name": "Bittern No. %s"`, func() string { return fmt.Sprint(i) })
	p += g.field(70, `"price": %q`, func() string { return g.money(6000) })
	return p + g.field(60, `"run": {"good": %s}`, func() string {
		return fmt.Sprint(g.n(1, 60)) + g.field(50, `"tests": %s`, func() string { return fmt.Sprint(g.n(0, 3)) }) + g.field(50, `"setup": %q`, func() string { return g.money(900) })
	}) + "}"
}

func (g plainGen) line(int) string {
	at := g.n(0, len(plainSupplies)-1)
	unit := []string{"sheet", "ml", "sleeve", "boards", "min", "h"}[at]
	if at == 1 && g.yes(20) {
		unit = "l"
	}
	number := fmt.Sprintf("%d.%d", g.n(0, 3), g.n(0, 99))
	return fmt.Sprintf(`{"supply": %q, "quantity": "%s %s"%s%s}`, plainSupplies[at], number, unit, g.field(60, `"stage": %q`, func() string { return []string{"print", "finish"}[g.n(0, 1)] }),
		g.field(25, `"per": %q`, func() string { return []string{"order", "item"}[g.n(0, 1)] }))
}
