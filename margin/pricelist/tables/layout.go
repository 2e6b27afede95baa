// Package tables reads a shop document from tables: sheets of rows of text, each with a head, as
// people keep them in a spreadsheet or in CSV files.
//
//	doc, err := tables.Read(map[string][][]string{
//		"Materials": {{"Material", "Quantity", "Price"}, {"paper", "50 sheet", "62.00"}},
//		…
//	})
//
// Layout says which sheets and columns there are, what to write in each, and gives a small shop as
// an example. So any program can write a template to fill in: as a workbook, as CSV files, as a
// form. The package itself reads and writes no files.
//
// The sheets say less than a document can: they have no sets, parcels, machines or editions.
package tables

import (
	"cmp"
	"embed"
	"encoding/csv"
	"strings"
)

// files has a CSV file for each sheet: heads, fields of the document with a mark of their kind,
// comments, and then the rows of the example.
//
//go:embed layout
var files embed.FS

// Sheet is one sheet of the layout.
type Sheet struct {
	// Name of the sheet: Materials.
	Name string
	// The columns, in the order of a template. A table may have them in any order, and may leave
	// out those that it does not need.
	Columns []Column
	// Rows of an invented shop, with a text for each column. There may be none.
	Example [][]string

	list  string // the list of the document that a row is an entry of; none for the settings
	under string // where a row is an entry of a list inside of such an entry
}

// String returns the name of the sheet.
func (s Sheet) String() string { return cmp.Or(s.Name, "no sheet") }

func (s Sheet) heads() []string {
	heads := make([]string, len(s.Columns))
	for i, c := range s.Columns {
		heads[i] = c.Head
	}
	return heads
}

// Column is one column of a sheet.
type Column struct {
	// What stands above it: Price.
	Head string
	// What to write there, in a sentence with an example.
	Comment string
	// What its cells hold.
	Kind Kind

	field string // of the entry, or of an object in it
}

// String returns the head of the column.
func (c Column) String() string { return cmp.Or(c.Head, "no column") }

// Kind is what the cells of a column hold. A program formats the cells of a template by it: as
// text, all but those for numbers, since a spreadsheet makes 0123 and 1/2 into other things.
type Kind string

const (
	// Text is a name, a word, a quantity with its unit, or a share with its percent sign.
	Text Kind = "text"
	// Number is a number without a unit: 17.50.
	Number Kind = "number"
	// Date is a day: 2026-03-01.
	Date Kind = "date"
	// YesNo is yes or no.
	YesNo Kind = "yes_no"
	// List is one text or several, with semicolons between them.
	List Kind = "list"
)

// What stands in place of a field in the columns that say which entry a row belongs to.
const (
	parent  = "^"  // the entry, by the first column of its own sheet
	packing = "{}" // the packing list in it
)

// Layout returns the sheets that Read knows, in the order of a template. The caller owns them.
func Layout() []Sheet {
	sheets := []Sheet{
		{Name: "Settings"},
		{Name: "Materials", list: "supplies"},
		{Name: "Losses", list: "stages"},
		{Name: "Prints", list: "products"},
		{Name: "Bill", list: "products", under: "bill"},
		{Name: "Ways of selling", list: "channels"},
		{Name: "Orders", list: "channels", under: "orders"},
		{Name: "Fees", list: "channels", under: "fees"},
		{Name: "Rules", list: "rules"},
		{Name: "Comparables", list: "comparables"},
	}
	for i := range sheets {
		sheets[i].fill()
	}
	return sheets
}

// Example returns the example of the layout as Read takes it: each sheet with its heads and rows.
// It is a shop that can be priced. The caller owns it.
func Example() map[string][][]string {
	tables := make(map[string][][]string)
	for _, s := range Layout() {
		tables[s.Name] = append([][]string{s.heads()}, s.Example...)
	}
	return tables
}

// fill reads the columns and the example of a sheet from its file.
func (s *Sheet) fill() {
	f, err := files.Open("layout/" + s.Name + ".csv")
	if err != nil {
		panic("quoin: " + err.Error()) // it is embedded
	}
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		panic("quoin: " + err.Error())
	}
	kinds := map[string]Kind{"": Text, "#": Number, "@": Date, "?": YesNo, "[]": List}
	for i, head := range rows[0] {
		field := strings.TrimRight(rows[1][i], "#@?[]")
		kind := kinds[rows[1][i][len(field):]]
		s.Columns = append(s.Columns, Column{Head: head, Comment: rows[2][i], Kind: kind, field: field})
	}
	s.Example = rows[3:]
}
