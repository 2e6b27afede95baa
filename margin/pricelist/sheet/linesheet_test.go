package sheet_test

import (
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/sheet"
)

// A line sheet of two prints at half of 20.00 and of 33.33; all invented.
func toShops() pricelist.LineSheet {
	return pricelist.LineSheet{
		Channel: "shops", Name: "Shops at half", Currency: quoin.MustCurrency("EUR"),
		Lines: []pricelist.LineSheetLine{
			{Product: "warbler-a5", Name: "Reed warbler, A5", Size: quoin.MustSize("148 x 210 mm"), Trade: quoin.MustAmount("10.00"), Recommended: quoin.MustAmount("20.00"), Case: 6, Opening: quoin.Some[int64](12)},
			{Product: "bittern-a4", Trade: quoin.MustAmount("16.665"), Recommended: quoin.MustAmount("33.33"), Case: 1},
		},
		Opening: quoin.MustAmount("120.00"), Reorder: quoin.MustAmount("60"), Tax: quoin.MustRate("20%"), Freight: channel.Added,
		FreeFrom: quoin.Some(quoin.MustAmount("150.00")),
		Credit:   channel.Credit{Days: 30, Early: quoin.MustRate("2%"), EarlyDays: 10}, Note: pricelist.Recommended,
		Head: channel.LineSheetHead{
			Seller: "Marsh Bird Prints", Contact: "prints at the old mill, by the sluice", ValidFrom: quoin.MustDate("2026-03-01"), ValidUntil: quoin.MustDate("2026-08-31"),
			LeadDays: 10, Note: "Each print is made by hand; small differences are part of it.",
		},
	}
}

// Everything that a shop has to know stands on the sheet, in text and as Markdown.
func TestLineSheetSaysEverything(t *testing.T) {
	s := toShops()
	text := strings.Join(strings.Fields(sheet.LineSheet(s, 60)), " ")
	table := sheet.LineSheetMarkdown(s)
	for _, want := range []string{
		"Line sheet, Marsh Bird Prints", "Prices from 2026-03-01 to 2026-08-31", "Orders: prints at the old mill, by the sluice", "sent within 10 days of the order", "small differences are part of it", "first order of at least 120.00 EUR", "later orders of at least 60.00 EUR", "tax of 20% is added to trade prices",
		"freight is prepaid and added to the invoice, and free from 150.00 EUR", "2% off within 10 days, net 30 days", pricelist.Recommended,
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the text does not say %q:\n%s", want, text)
		}
		if !strings.Contains(table, want) {
			t.Errorf("the table does not say %q:\n%s", want, table)
		}
	}
	for _, never := range append(pricelist.Cautions(), "Shops at half") { // are the artist's own
		if strings.Contains(text, never) || strings.Contains(table, never) {
			t.Errorf("buyers are told %q:\n%s", never, text)
		}
	}
	for _, want := range []string{
		"Reed warbler, A5, 148 x 210 mm trade 10.00, recommended retail 20.00, case of 6, minimum 12 if it is the only print you order",
		"bittern-a4 trade 16.67, recommended retail 33.33, case of 1",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the text does not say %q:\n%s", want, text)
		}
	}
	for _, want := range []string{"| Reed warbler, A5 | 148 x 210 mm | 10.00 | 20.00 | 6 | 12 |", "| bittern-a4 |  | 16.67 | 33.33 | 1 |  |"} {
		if !strings.Contains(table, "\n"+want+"\n") {
			t.Errorf("the table has no row %q:\n%s", want, table)
		}
	}
}

// Each way of freight and of tax has its words, and what is not asked has none.
func TestConditionsOfALineSheet(t *testing.T) {
	for _, c := range []struct {
		what      string
		change    func(*pricelist.LineSheet)
		want, not string
	}{
		{"collect", func(s *pricelist.LineSheet) { s.Freight = channel.Collect }, "paid by the buyer to the carrier", "added"},
		{"prepaid", func(s *pricelist.LineSheet) { s.Freight = channel.Prepaid }, "freight is included", "paid by the buyer"},
		{"an allowance", func(s *pricelist.LineSheet) { s.Freight = channel.Allowance }, "with an allowance towards it", "included"},
		{"never free", func(s *pricelist.LineSheet) { s.Freight, s.FreeFrom = channel.Added, quoin.Optional[quoin.Amount]{} }, "added to the invoice", "free from"},
		{"always free", func(s *pricelist.LineSheet) {
			s.Freight, s.FreeFrom = channel.Added, quoin.Some(quoin.Amount{})
		}, "free from 0.00 EUR", "included"},
		{"tax within", func(s *pricelist.LineSheet) { s.Tax, s.TaxInPrice = quoin.MustRate("20%"), true }, "trade prices include tax of 20%", "is added"},
		{"net only", func(s *pricelist.LineSheet) { s.Credit.Days = 45 }, "net 45 days", "off within"},
		{"nothing", func(*pricelist.LineSheet) {}, pricelist.Recommended, "first order"},
	} {
		s := pricelist.LineSheet{Channel: "shops", Currency: quoin.MustCurrency("EUR"), Note: pricelist.Recommended}
		c.change(&s)
		text := strings.Join(strings.Fields(sheet.LineSheet(s, 200)), " ")
		if !strings.Contains(text, c.want) || strings.Contains(text, c.not) {
			t.Errorf("%s: %s", c.what, text)
		}
	}
}

// No line is wider than asked for where the names allow it, whatever the width.
func TestLineSheetKeepsItsWidth(t *testing.T) {
	for _, wide := range []int{-1, 0, 30, 40, 72, 1000} {
		for line := range strings.Lines(sheet.LineSheet(toShops(), wide)) {
			if n := utf8.RuneCountInString(strings.TrimSuffix(line, "\n")); n > max(wide, 30) {
				t.Errorf("%d of %d characters: %s", n, wide, line)
			}
		}
	}
}

// The columns can be read back: the table is of one currency, and money has its
// digits.
func TestLineSheetColumns(t *testing.T) {
	rows, err := csv.NewReader(strings.NewReader(sheet.LineSheetCSV(toShops()))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	all := []string{"Marsh Bird Prints", "prints at the old mill, by the sluice", "2026-03-01", "2026-08-31", "10", "120.00", "60.00", "2% off within 10 days, net 30 days"}
	want := [][]string{
		{"product", "name", "size", "currency", "trade_price", "recommended_retail", "case", "first_order", "seller", "contact", "valid_from", "valid_until", "lead_days", "minimum_first_order", "minimum_reorder", "terms"},
		append([]string{"warbler-a5", "Reed warbler, A5", "148 x 210 mm", "EUR", "10.00", "20.00", "6", "12"}, all...),
		append([]string{"bittern-a4", "", "", "EUR", "16.67", "33.33", "1", ""}, all...),
	}
	if !slices.EqualFunc(rows, want, slices.Equal) {
		t.Errorf("%q", rows)
	}
}

// Names do nothing to a spreadsheet, a table or a terminal.
func TestNamesOnALineSheet(t *testing.T) {
	for _, name := range []string{"=1+1", "+1", "-1", "@x", "\t=1", "\r=1", " =1", "a,b\"c\nd", "a|b", "\x1b[2J", "*not strong*", "<b>", "\u202egnp"} {
		s := toShops()
		s.Head.Seller, s.Head.Contact, s.Lines[0].Name, s.Lines[0].Product = name, name, name, name
		rows, err := csv.NewReader(strings.NewReader(sheet.LineSheetCSV(s))).ReadAll()
		if err != nil || len(rows) != 3 || len(rows[1]) != 16 {
			t.Errorf("%q: %q, %v", name, rows, err)
			continue
		}
		for _, cell := range slices.Concat(rows[1][:2], rows[1][8:10]) {
			if strings.ContainsAny(cell[:1], "=+-@\t\r\n") || strings.ContainsAny(cell, "\x1b\u202e\n\r") {
				t.Errorf("%q becomes the cell %q", name, cell)
			}
		}
		for what, text := range map[string]string{"text": sheet.LineSheet(s, 60), "table": sheet.LineSheetMarkdown(s)} {
			if strings.ContainsAny(text, "\x1b\u202e\r\t") {
				t.Errorf("%q is let through to the %s", name, what)
			}
		}
		row := strings.Split(sheet.LineSheetMarkdown(s), "\n")[8]
		if n := strings.Count(row, "|") - strings.Count(row, `\|`); n != 7 {
			t.Errorf("%q makes %d columns of %q", name, n-1, row)
		}
	}
}

// A sheet without lines is a sheet all the same.
func TestEmptyLineSheet(t *testing.T) {
	var s pricelist.LineSheet
	s.Currency = quoin.MustCurrency("JPY")
	if text := sheet.LineSheet(s, 40); !strings.HasPrefix(text, "Line sheet") {
		t.Errorf("%q", text)
	}
	if got := sheet.LineSheetCSV(s); strings.Count(got, "\n") != 1 {
		t.Errorf("%q", got)
	}
}

func ExampleLineSheet() {
	fmt.Print(sheet.LineSheet(toShops(), 64))
	// Output:
	// Line sheet, Marsh Bird Prints, trade prices in EUR
	// Prices from 2026-03-01 to 2026-08-31
	// Orders: prints at the old mill, by the sluice
	//
	// Reed warbler, A5, 148 x 210 mm
	//   trade 10.00, recommended retail 20.00, case of 6, minimum 12
	//   if it is the only print you order
	// bittern-a4
	//   trade 16.67, recommended retail 33.33, case of 1
	//
	// - first order of at least 120.00 EUR
	// - later orders of at least 60.00 EUR
	// - tax of 20% is added to trade prices
	// - freight is prepaid and added to the invoice, and free from
	//   150.00 EUR
	// - sent within 10 days of the order
	// - 2% off within 10 days, net 30 days
	// Each print is made by hand; small differences are part of it.
	// Retail prices are recommendations only: each shop sets its own.
}

func ExampleLineSheetMarkdown() {
	for _, line := range strings.Split(sheet.LineSheetMarkdown(toShops()), "\n")[:10] {
		fmt.Println(line)
	}
	// Output:
	// # Line sheet, Marsh Bird Prints
	//
	// Prices from 2026-03-01 to 2026-08-31
	//
	// Orders: prints at the old mill, by the sluice
	//
	// | item | size | trade, EUR | recommended retail | case | minimum, ordered alone |
	// |---|---|--:|--:|--:|--:|
	// | Reed warbler, A5 | 148 x 210 mm | 10.00 | 20.00 | 6 | 12 |
	// | bittern-a4 |  | 16.67 | 33.33 | 1 |  |
}

func ExampleLineSheetCSV() {
	fmt.Print(sheet.LineSheetCSV(toShops()))
	// Output:
	// product,name,size,currency,trade_price,recommended_retail,case,first_order,seller,contact,valid_from,valid_until,lead_days,minimum_first_order,minimum_reorder,terms
	// warbler-a5,"Reed warbler, A5",148 x 210 mm,EUR,10.00,20.00,6,12,Marsh Bird Prints,"prints at the old mill, by the sluice",2026-03-01,2026-08-31,10,120.00,60.00,"2% off within 10 days, net 30 days"
	// bittern-a4,,,EUR,16.67,33.33,1,,Marsh Bird Prints,"prints at the old mill, by the sluice",2026-03-01,2026-08-31,10,120.00,60.00,"2% off within 10 days, net 30 days"
}
