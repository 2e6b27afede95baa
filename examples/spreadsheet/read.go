package main

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"example.com/quoin"
	"github.com/xuri/excelize/v2"
)

// sheetOf is a sheet, and the list of the document that its rows go to; or a list under an entry of
// that list, which the first column names.
type sheetOf struct{ name, list, under string }

var sheets = []sheetOf{
	{"Settings", "", ""},
	{"Materials", "supplies", ""},
	{"Losses", "stages", ""},
	{"Prints", "products", ""},
	{"Bill", "products", "bill"},
	{"Ways of selling", "channels", ""},
	{"Orders", "channels", "orders"},
	{"Fees", "channels", "fees"},
	{"Rules", "rules", ""},
	{"Comparables", "comparables", ""},
}

// columns are the heads of a sheet, the fields that they stand for, comments, and example rows.
func columns(sheet string) (heads, fields, comments []string, rows [][]string) {
	f, err := layout.Open("layout/" + sheet + ".csv")
	if err != nil {
		panic(err) // it is embedded
	}
	all, err := csv.NewReader(f).ReadAll()
	if err != nil {
		panic(err)
	}
	return all[0], all[1], all[2], all[3:]
}

// object is an object of the document. What stands in it is text, truth, a list or an object.
type object map[string]any

// shop is a document while it is read.
type shop struct {
	doc      object
	cells    map[string]string // where each field stands, by its path
	problems []string
}

func read(tables map[string]table) *shop {
	s := &shop{doc: object{"version": "1"}, cells: make(map[string]string)}
	known := make([]string, len(sheets))
	for i, sheet := range sheets {
		known[i] = sheet.name
		if t := tables[sheet.name]; len(t.rows) > 0 {
			s.sheet(t, sheet.name, sheet.list, sheet.under)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(tables)) {
		if !slices.Contains(known, name) {
			s.problem(tables[name].cell(0, 0), fmt.Sprintf("found the sheet %q, wanted no others than %s", name, strings.Join(known, ", ")))
		}
	}
	return s
}

func (s *shop) problem(at, text string) { s.problems = append(s.problems, at+": "+text) }

func (s *shop) sheet(t table, name, list, under string) {
	heads, fields, _, _ := columns(name)
	field := make([]string, len(t.rows[0])) // by columns of the table
	for c, head := range t.rows[0] {
		i := slices.IndexFunc(heads, func(h string) bool { return strings.EqualFold(h, strings.TrimSpace(head)) })
		switch {
		case i >= 0 && !slices.Contains(field, fields[i]):
			field[c] = fields[i]
		case i >= 0:
			s.problem(t.cell(c, 0), fmt.Sprintf("found the column %q twice, wanted it once", head))
		case strings.TrimSpace(head) != "":
			s.problem(t.cell(c, 0), fmt.Sprintf("found the column %q, wanted one of %s", head, strings.Join(heads, ", ")))
		}
	}
	for r, row := range t.rows[1:] {
		for c, text := range row {
			if text = strings.TrimSpace(text); text != "" && (c >= len(field) || strings.TrimSpace(t.rows[0][c]) == "") {
				s.problem(t.cell(c, r+1), fmt.Sprintf("found %q without a head above it, wanted one of %s", text, strings.Join(heads, ", ")))
			}
		}
		if strings.TrimSpace(strings.Join(row, "")) != "" {
			s.row(t, r+1, list, under, field)
		}
	}
}

// row reads a row into an entry of a list.
func (s *shop) row(t table, r int, list, under string, field []string) {
	in, at := s.doc, quoin.Path{}
	of := func(f string) string {
		if c := slices.Index(field, f); c >= 0 && c < len(t.rows[r]) {
			return strings.TrimSpace(t.rows[r][c])
		}
		return ""
	}
	switch {
	case under != "":
		entries, _ := s.doc[list].([]any)
		i := slices.IndexFunc(entries, func(e any) bool { return e.(object)["id"] == of("^") })
		if i < 0 {
			parent := slices.IndexFunc(sheets, func(sheet sheetOf) bool { return sheet.list == list })
			s.problem(t.cell(max(0, slices.Index(field, "^")), r), fmt.Sprintf("found %q, wanted what stands in the first column of the sheet %s", of("^"), sheets[parent].name))
			return
		}
		in, at = entries[i].(object), quoin.InList(list, i)
		if packing := of("{}"); packing != "" {
			lists, _ := in["packing"].(object)
			if lists == nil {
				lists = object{}
				in["packing"] = lists
			}
			at = at.Named("packing", packing, len(lists.entries(packing)))
			in = lists.add(packing)
			break
		}
		at = at.Sub(under, len(in.entries(under)))
		in = in.add(under)
	case list != "":
		at = quoin.InList(list, len(in.entries(list)))
		in = in.add(list)
	case s.cells[""] != "":
		s.problem(t.cell(0, r), "found a second row, wanted one")
		return
	}
	s.cells[at.String()] = t.cell(0, r)
	for c, f := range field {
		if f == "" || f == "^" || f == "{}" {
			continue
		}
		name := strings.TrimRight(f, "#?@[]")
		s.cells[strings.TrimPrefix(at.String()+"."+name, ".")] = t.cell(c, r)
		if text := of(f); text != "" {
			in.set(name, value(text, f[len(name):]))
		}
	}
}

func (o object) entries(list string) []any {
	entries, _ := o[list].([]any)
	return entries
}

func (o object) add(list string) object {
	entry := object{}
	o[list] = append(o.entries(list), entry)
	return entry
}

// set sets a field, also in an object inside of this one: yearly.spent.
func (o object) set(name string, v any) {
	outer, inner, nested := strings.Cut(name, ".")
	if !nested {
		o[name] = v
		return
	}
	in, _ := o[outer].(object)
	if in == nil {
		in = object{}
		o[outer] = in
	}
	in.set(inner, v)
}

// value is what a text means in a column: a list, yes or no, a date, or the text itself.
func value(text, kind string) any {
	switch kind {
	case "[]":
		parts := strings.Split(text, ";")
		for i, part := range parts {
			parts[i] = strings.TrimSpace(part)
		}
		return parts
	case "?":
		if truth, known := map[string]bool{"yes": true, "no": false, "true": true, "false": false}[strings.ToLower(text)]; known {
			return truth
		}
	case "@":
		if days, err := strconv.ParseFloat(text, 64); err == nil {
			if date, err := excelize.ExcelDateToTime(days, false); err == nil {
				return date.Format("2006-01-02")
			}
		}
	}
	return text
}

func (s *shop) json() []byte {
	text, err := json.Marshal(s.doc)
	if err != nil {
		panic(err) // texts, truths and lists of them have JSON
	}
	return text
}

// locate says problems of the document at their cells.
func (s *shop) locate(problems quoin.Problems) {
	for _, p := range problems {
		at, found := p.Path, false
		for cell := ""; at != "" && !found; at = at[:max(0, strings.LastIndexAny(at, ".["))] {
			if cell, found = s.cells[at]; found {
				p.Path, p.Line, p.Column = "", 0, 0
				s.problem(cell, p.Error())
			}
		}
		if !found {
			p.Line, p.Column = 0, 0
			s.problem("the shop", p.Error())
		}
	}
}
