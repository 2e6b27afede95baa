package sheet_test

import (
	"encoding/json"
	"fmt"
	"regexp"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/sheet"
)

// Of more channels than fit side by side each takes a row: 24.17 − 12.00 is 12.17 and 12.00 − 7.50
// is 4.50; 20.83 − 15.50 is 5.33 and 15.50 − 10.12 is 5.38. It takes fewer lines, so nothing is left out.
func TestManyChannelsInBrief(t *testing.T) {
	a := toldAnswer(t)
	web, fair := a.Products[0].Channels[0], a.Products[0].Channels[1]
	web.ID, web.Name, fair.ID, fair.Name = "other", "Another shop", "mud", ""
	four := append(a.Products[0].Channels, web, fair)
	a.Products[0].Channels = append(four, web)
	_, text, _ := strings.Cut(sheet.Text(a, 80), "(today 24.00)\n")
	text, _, _ = strings.Cut(text, "\n\n")
	same(t, text, `  Not below 20.00: at 19.99 a print keeps 9.99 in Own shop from orders of kind
    2, not 10.00 ("leaves ten").
  Not above 25.00: "market" asks at most 25.00.
  If unsure figures turn out well, it would be 24.00; if badly, none, by "leaves
    ten" and "market". Most: ink (3 ml to 4 ml): 0.50 a print.
  One print, on average   receive  - costs  = stays   - rest  = yours discount
  Own shop                  24.17    12.17    12.00     4.50     7.50    15.5%
  Weekend fair              20.83     5.33    15.50     5.38    10.12      61%
  Another shop              24.17    12.17    12.00     4.50     7.50     none
  mud                       20.83     5.33    15.50     5.38    10.12     none
  Another shop              24.17    12.17    12.00     4.50     7.50     none
  A larger discount breaks "leaves ten" and others in Own shop; loses money in
    Weekend fair.
  Avoid 20.00–23.48: in Own shop you keep less there than at 19.00.
  Avoid 30.00 and up: in Own shop you keep less there than at 29.00.`)
	a.Products[0].Channels = four // of 14 characters each, behind 24
	if text := sheet.Text(a, 80); !strings.Contains(text, "  One print, on average       Own shop  Weekend fair  Another shop           mud\n") {
		t.Errorf("four channels do not stand side by side:\n%s", text)
	}
}

// Of what is told of the heron, the title, two lines of why it is no lower, the head of the table, 14
// lines of where the price goes, 4 of discount and sales, and 2 prices to avoid take 24 lines, a screen. With one more the
// price's reason is left out too; the table and what to avoid never are.
func TestWhatAScreenLeavesOut(t *testing.T) {
	const stand = `{"what": "stand", "path": "x", "cost": "60.00"}`
	for more, want := range map[int]string{0: "below", 1: "", 2: "", 6: ""} {
		costs := stand
		for i := range more {
			costs += fmt.Sprintf(`, {"what": "cost %d", "path": "x", "cost": "60.00"}`, i)
		}
		text := sheet.Text(toldAnswer(t, stand, costs), 80)
		said := ""
		for _, start := range []string{"below", "above"} {
			if strings.Contains(text, "  Not "+start+" 2") {
				said += start
			}
		}
		if said != want || !strings.Contains(text, "  Avoid 30.00 and up") || strings.Contains(text, "A larger discount") {
			t.Errorf("%d more: %q, want %q:\n%s", more, said, want, text)
		}
	}
}

// Where there is room for one channel, each has a table; one that takes nothing but tax still says what you receive.
func TestOneChannelATable(t *testing.T) {
	a := toldAnswer(t)
	a.Products = a.Products[:1]
	narrow := sheet.Text(a, 36) // 24 for labels and 12
	for _, head := range []string{"\n  One print, on average     Own shop\n", "\n                             Weekend\n  One print, on average         fair\n"} {
		if !strings.Contains(narrow, head) {
			t.Errorf("no %q:\n%s", head, narrow)
		}
	}
	a.Products[0].Channels = a.Products[0].Channels[1:]
	if text := sheet.Text(a, 80); !strings.Contains(text, "  - tax, passed on                4.17\n  = you receive                  20.83\n") {
		t.Errorf("it does not say what is received:\n%s", text)
	}
}

// How a channel stands by itself, with and without others.
func TestStandingsOfChannels(t *testing.T) {
	one := `{"channel": "web", "floor": "23.10", "sets_price": true, "contribution": "12.00"}`
	for channels, want := range map[string]string{
		one: "- Alone, Own shop would need 23.10.\n",
		one + `, {"channel": "stall", "floor": "15.00", "sets_price": false, "contribution": "1.00"}, {"channel": "fair", "sets_price": false, "contribution": "1.00"}`: "- Own shop needs the highest price: 23.10.\n" +
			"- Alone, stall would need 15.00.\n- Alone, Weekend fair would find no price.\n",
		`{"channel": "fair", "sets_price": false, "no_rule": true, "contribution": "15.50", "discount": {"by": "12.345%", "contribution": "0.25"}, "break_even": [
			{"what": "fixed_cost", "path": "x", "cost": "30.00", "items": "1"}, {"what": "stall", "path": "x", "cost": "31.00", "items": "1.01"}]}`: "- No rule protects you in Weekend fair. With 12.35% off you keep 0.25 of a sale. " +
			"1 sale here pays the fixed cost of 30.00. 2 sales here pay the stall of 31.00.\n",
	} {
		a := toldAnswer(t)
		a.Products = a.Products[:1]
		a.Products[0].ByChannel = decoded[pricelist.ByChannel](t, "["+channels+"]")
		a.Products[0].Channels[0].Orders, a.Products[0].Parcels, a.Products[0].WorkedOut = nil, nil, nil
		text := plain(sheet.FullMarkdown(a))
		if !strings.Contains(text, "\n\n"+want+"- Start 12") {
			t.Errorf("want %s, got\n%s", want, text)
		}
		if none := "A larger discount"; strings.Contains(text, none) {
			t.Errorf("it says %q:\n%s", none, text)
		}
	}
}

// What stops a larger discount in several channels is said once for all of them.
func TestDiscountsThatStopAlike(t *testing.T) {
	off := func(id, stops string) string {
		return fmt.Sprintf(`{"channel": %q, "sets_price": false, "contribution": "1.00", "discount": {"by": "5%%", "contribution": "0.25"%s}}`, id, stops)
	}
	a := toldAnswer(t)
	a.Products[0].ByChannel = decoded[pricelist.ByChannel](t, "["+off("web", `, "rules": ["r"]`)+","+off("fair", `, "loss": true`)+","+off("post", `, "rules": ["r"]`)+","+off("mill", "")+"]")
	if text := sheet.Markdown(a); !strings.Contains(text, `- A larger discount breaks "r" in Own shop and post; loses money in Weekend fair.`+"\n") {
		t.Error(text)
	}
}

// In a page the sizes of a design are drawn once, and each line sheet has a section of its own.
func TestPageDrawsADesignOnce(t *testing.T) {
	a, err := pricelist.Price([]byte(`{"version": 1, "currency": "EUR", "channels": [{"id": "stall"}], "rules": [{"id": "ten", "rule": "price", "at_least": "10.00"}],
		"products": [{"id": "a4", "design": "Heron", "sheet": "A4"}, {"id": "a3", "design": "Heron", "sheet": "A3"}, {"id": "w4", "design": "Wren", "sheet": "A4"}, {"id": "w3", "design": "Wren", "sheet": "A3"}]}`))
	if err != nil {
		t.Fatal(err)
	}
	a.LineSheets = []pricelist.LineSheet{toShops(), toShops()}
	page := sheet.HTML(a)
	for what, times := range map[string]int{`<figcaption>The sizes of Heron`: 1, `<figcaption>The sizes of Wren`: 1, `<section class="lines">`: 2, `<section class="product">`: 4} {
		if got := len(regexp.MustCompile(what).FindAllString(page, -1)); got != times {
			t.Errorf("%s stands there %d times", what, got)
		}
	}
}

// Where nothing would end a conflict, nothing is promised; a gap needs no remedy.
func TestConflictWithoutAWayOut(t *testing.T) {
	var a pricelist.Answer
	if err := json.Unmarshal([]byte(clashing), &a); err != nil {
		t.Fatal(err)
	}
	a.Remedies, a.Gaps, a.Clashes = nil, nil, a.Clashes[:1]
	same(t, sheet.Text(a, 90), "No price list: \"leaves ten\", \"market\" and \"ladder\" cannot hold together. Drop or change\n"+
		"any one of them and the rest can.\n\nHeron, A5\n  \"leaves ten\" allows 12.50 and up\n\nEstimates only.\n")
	if page := sheet.HTML(a); strings.Contains(page, "Averages") || strings.Contains(page, `<section class="more">`) {
		t.Error("a conflict has averages")
	}
	same(t, sheet.Markdown(a), "# No price list\n\n\"leaves ten\", \"market\" and \"ladder\" cannot hold together. Drop or change any one of them and the rest can.\n\n"+
		"| product | rule | allows |\n|---|---|---|\n| Heron, A5 | leaves ten | 12.50 and up |\n\n## Cautions\n\n- Estimates only.\n")
}

// A line sheet that asks nothing says when its prices hold, and its note.
func TestLineSheetThatAsksNothing(t *testing.T) {
	const lines = "\nReed warbler, A5, 148 x 210 mm\n  trade 10.00, recommended retail 20.00, case of 6, minimum 12 if it is the only print you order\n\n" +
		"Retail prices are recommendations only: each shop sets its own.\n"
	full := toShops()
	for said, head := range map[string]channel.LineSheetHead{
		"":                            {},
		"Prices until 2026-08-31\n":   {ValidUntil: full.Head.ValidUntil},
		"Prices from 2026-03-01 on\n": {ValidFrom: full.Head.ValidFrom},
	} {
		s := pricelist.LineSheet{Channel: "shops", Name: "Shops at half", Currency: full.Currency, Lines: full.Lines[:1], Note: full.Note, Head: head}
		same(t, sheet.LineSheet(s, 200), "Line sheet, Shops at half, trade prices in EUR\n"+said+lines)
	}
}

// A day is one.
func TestLineSheetSentInADay(t *testing.T) {
	s := toShops()
	s.Head.LeadDays = 1
	if text := sheet.LineSheet(s, 200); !strings.Contains(text, "\n- sent within 1 day of the order\n") {
		t.Error(text)
	}
}

// Products with a tax of their own are named rate by rate.
func TestLineSheetNamesOwnTaxes(t *testing.T) {
	s := toShops()
	reduced, none := quoin.Some(quoin.MustRate("7%")), quoin.Some(quoin.MustRate("0%"))
	s.Lines = []pricelist.LineSheetLine{{Product: "a", Tax: reduced}, {Product: "b", Tax: none}, {Product: "c"}, {Product: "d", Name: "Dunlin", Tax: reduced}}
	if text := sheet.LineSheet(s, 200); !strings.Contains(text, "prices\n- tax of 7% on a, Dunlin\n- tax of 0% on b\n- freight") {
		t.Error(text)
	}
}
