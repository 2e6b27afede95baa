package tables_test

import (
	"fmt"
	"maps"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/tables"
)

func first(t *testing.T) pricelist.Document {
	t.Helper()
	text, err := os.ReadFile("../../../examples/first/shop.json")
	if err != nil {
		t.Fatal(err)
	}
	doc, err := pricelist.Decode(text)
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

// The example of the layout is the shop that an example program has as JSON.
func TestExampleIsAShop(t *testing.T) {
	got, err := tables.Read(tables.Example())
	if want := first(t); err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("found %+v, %v, wanted %+v", got, err, want)
	}
}

// full has something in every column of every sheet, so that each has a field that the document
// knows; texts that are none of its field's would be refused.
var full = map[string]map[string]string{
	"Settings": {
		"Currency": "EUR", "Price step": "0.50", "Highest price": "500.00", "Contingency": "4%", "Overhead": "2280.00",
		"Prints with it": "600", "Income tax": "25%", "Choose": "least",
	},
	"Materials": {
		"Material": "paper", "Name": "Cotton rag", "Quantity": "50 sheet", "Price": "62.00", "Discount": "2.00", "Freight": "6.00",
		"Duty": "3.10", "Working time": "", "Spent in a year": "", "Printed with it": "", "Note": "from the roll",
	},
	"Losses": {"Step": "print", "Spoiled": "15%", "Note": "counted"},
	"Prints": {
		"Print": "heron", "Name": "Heron", "Design": "Heron", "Price of today": "40.00", "Image": "160 x 250 mm", "Sheet": "A4",
		"Sold in": "web", "On top of": "", "Note": "n",
	},
	"Bill": {
		"Print": "heron", "Packing": "", "Material": "paper", "Quantity": "1 sheet", "Area": "", "Lost at": "print", "Counted per": "",
	},
	"Ways of selling": {
		"Way of selling": "web", "Name": "Web", "Packing": "", "Trade discount": "", "Promotion": "10%", "Tax": "20%", "Tax in price": "Yes",
		"Tax on postage": "no", "Lost parcels": "1%", "Fixed cost": "28.00", "Prints with it": "14", "Note": "n",
	},
	"Orders": {
		"Way of selling": "web", "Name": "one", "Share": "100%", "Prints": "2", "Postage charged": "4.50", "Free from": "50.00",
		"Postage paid": "6.20", "Note": "n",
	},
	"Fees": {
		"Way of selling": "web", "Name": "card", "Rate": "2%", "Of": "items; shipping", "Fixed": "0.15", "Counted per": "item", "At least": "0.50",
		"At most": "10.00", "Note": "n",
	},
	"Rules": {
		"Rule": "r", "Kind": "contribution", "At least": "1.00", "Wish": "prefer", "Prints": "heron", "Ways of selling": "web",
		"Ends in": "", "From share": "", "To share": "", "Note": "n",
	},
	"Comparables": {
		"Print": "heron", "Venue": "autumn fair", "Seller": "stall 4", "Price": "21.00", "Date": "2026-03-01", "Sold": "6", "Size": "210 x 297 mm",
		"Tax": "20%", "Postage": "4.00", "Postage on top": "3.00",
	},
}

// more has what cannot stand in the same rows, for the columns that are empty there.
var more = map[string]map[string]string{
	"Materials": {"Material": "ink", "Spent in a year": "120.00", "Printed with it": "24 m2"},
	"Prints":    {"Print": "framed", "Name": "Framed", "On top of": "heron"},
	"Bill":      {"Print": "heron", "Packing": "parcel", "Material": "time", "Quantity": "5 min", "Counted per": "order"},
	"Ways of selling": {
		"Way of selling": "shops", "Name": "Shops", "Packing": "parcel", "Trade discount": "50%; 10%",
	},
	"Rules": {"Rule": "m", "Kind": "market", "From share": "25%", "To share": "75%"},
}

// most has a third row of some sheets.
var most = map[string]map[string]string{
	"Materials": {"Material": "time", "Quantity": "1 h", "Price": "17.00", "Working time": "own"},
	"Bill":      {"Print": "heron", "Material": "ink", "Area": "image"},
	"Rules":     {"Rule": "p", "Kind": "price", "At most": "90.00"},
}

// ending is the last kind of rule, with a column of its own.
var ending = map[string]map[string]string{
	"Rules": {"Rule": "e", "Kind": "ending", "Ends in": "0.00; 0.50"},
}

// filled are tables of rows by heads, in an order of columns that changes from run to run.
func filled(rows ...map[string]map[string]string) map[string][][]string {
	out := make(map[string][][]string)
	for sheet, row := range rows[0] {
		heads := slices.Collect(maps.Keys(row))
		out[sheet] = [][]string{heads}
		for _, r := range rows {
			texts := make([]string, len(heads))
			for i, head := range heads {
				texts[i] = r[sheet][head]
			}
			out[sheet] = append(out[sheet], texts)
		}
	}
	return out
}

// What stands in a column reaches its field, in any order of columns.
func TestColumnsReachTheirFields(t *testing.T) {
	for _, s := range tables.Layout() {
		for _, c := range s.Columns {
			if full[s.Name][c.Head]+more[s.Name][c.Head]+most[s.Name][c.Head]+ending[s.Name][c.Head] == "" {
				t.Errorf("the test has nothing in the column %s of %s", c, s)
			}
		}
	}
	doc, err := tables.Read(filled(full, more, most, ending))
	if err != nil {
		t.Fatal(err)
	}
	web, heron, seen, fee := doc.Channels[0], doc.Products[0], doc.Comparables[0], doc.Channels[0].Fees[0]
	for _, c := range []struct{ what, got, want string }{
		{"step", doc.PriceStep.Or(quoin.Amount{}).String(), "0.50"},
		{"limit", doc.PriceLimit.Or(quoin.Amount{}).String(), "500.00"},
		{"overhead", doc.Overhead.Cost.String(), "2280.00"},
		{"contingency", doc.Contingency.String(), "4%"},
		{"income tax", doc.IncomeTax.String(), "25%"},
		{"discount", doc.Supplies[0].Discount.String(), "2.00"},
		{"freight", doc.Supplies[0].Freight.String(), "6.00"},
		{"duty", doc.Supplies[0].Duty.String(), "3.10"},
		{"price of today", heron.Price.Or(quoin.Amount{}).String(), "40.00"},
		{"sold in", strings.Join(heron.Channels, "|"), "web"},
		{"line", heron.Bill[0].Quantity.String(), "1 sheet"},
		{"tax", web.Tax.Rate.String(), "20%"},
		{"lost", web.LostParcels.String(), "1%"},
		{"fixed cost", web.FixedCost.Cost.String(), "28.00"},
		{"free from", web.Orders[0].FreeFrom.Or(quoin.Amount{}).String(), "50.00"},
		{"postage", web.Orders[0].Postage.String(), "6.20"},
		{"fee", fee.Rate.String(), "2%"},
		{"fixed", fee.Fixed.String(), "0.15"},
		{"least", fee.AtLeast.String(), "0.50"},
		{"most", fee.AtMost.Or(quoin.Amount{}).String(), "10.00"},
		{"seen", seen.Price.String(), "21.00"},
		{"date", seen.Date.String(), "2026-03-01"},
		{"spent", doc.Supplies[1].Yearly.Spent.String(), "120.00"},
		{"printed", fmt.Sprint(doc.Supplies[1].Yearly.Printed), "24 m2"},
		{"labour", fmt.Sprint(doc.Supplies[2].Labour), "own"},
		{"on top of", doc.Products[1].Extends, "heron"},
		{"packed", heron.Packing["parcel"][0].Quantity.String(), "5 min"},
		{"per", fmt.Sprint(heron.Packing["parcel"][0].Per), "order"},
		{"area", fmt.Sprint(heron.Bill[1].Area), "image"},
		{"trade", fmt.Sprint(doc.Channels[1].TradeDiscount), "[50% 10%]"},
		{"packing", doc.Channels[1].Packing, "parcel"},
	} {
		if c.got != c.want {
			t.Errorf("%s: found %s, wanted %s", c.what, c.got, c.want)
		}
	}
	if tax := web.Tax; !tax.InPrice || tax.OnShipping {
		t.Errorf("found %+v, wanted tax in prices and none on postage", tax)
	}
	if len(fee.Of) != 2 {
		t.Errorf("a fee of %v, wanted of items and shipping", fee.Of)
	}
}

// Each column says what to write, and the caller may do with the layout what it likes.
func TestLayoutIsComplete(t *testing.T) {
	kinds := make(map[tables.Kind]int)
	for _, s := range tables.Layout() {
		for _, c := range s.Columns {
			kinds[c.Kind]++
			if len(c.Comment) < 8 || c.Head == "" || s.String() != s.Name || c.String() != c.Head {
				t.Errorf("%s: %+v", s, c)
			}
		}
		for _, row := range s.Example {
			if len(row) != len(s.Columns) {
				t.Errorf("%s: an example of %d texts, wanted %d", s, len(row), len(s.Columns))
			}
		}
	}
	// Counted in the files of the layout: marks of their kind behind fields.
	for kind, least := range map[tables.Kind]int{tables.Text: 40, tables.Number: 20, tables.Date: 1, tables.YesNo: 2, tables.List: 6} {
		if kinds[kind] < least {
			t.Errorf("%d columns of %s, wanted at least %d", kinds[kind], kind, least)
		}
	}
	if len(kinds) != 5 {
		t.Errorf("found kinds %v", kinds)
	}
	mine := tables.Layout()
	mine[1].Columns[0].Head, mine[1].Example[0][0] = "", ""
	if again := tables.Layout(); again[1].Columns[0].Head != "Material" || again[1].Example[0][0] != "paper" {
		t.Error("a layout that was handed out was written to, and another one changed")
	}
}
