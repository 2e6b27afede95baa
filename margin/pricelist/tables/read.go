package tables

import (
	"encoding/json"
	"errors"
	"maps"
	"slices"
	"strings"
	"unicode/utf8"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin/pricelist"
)

// Read reads a shop document from the tables of its sheets. A table has a row of heads, as Layout
// gives them, and then a row for each entry. Upper and lower case of heads, spaces around texts,
// rows and sheets without any text, and the lengths of rows do not matter. A date is 2026-03-01, or
// the number that a spreadsheet keeps it as: days since 1899-12-30, of five digits. All other texts
// are read as a document's are: 17.50 or 20%, with a point.
//
// The error is quoin.Problems: all that is wrong with the tables, and with the document that they
// make. The path of each is its cell, Materials!D2, or its sheet where something is missing that
// has no cell. A problem that belongs to a row and to none of its columns stands at its first cell.
func Read(tables map[string][][]string) (pricelist.Document, error) {
	r := reader{
		layout: Layout(), shop: object{"version": "1"},
		entries: make(map[string]entry), ids: make(map[string]map[string]int), faulty: make(map[string]bool),
	}
	for _, s := range r.layout {
		if rows := tables[s.Name]; len(rows) > 0 {
			r.sheet(s, rows)
		}
	}
	r.strangers(tables)
	text, err := json.Marshal(r.shop)
	if err != nil {
		return pricelist.Document{}, err // texts, truths and lists of them have JSON
	}
	doc, err := pricelist.Decode(text)
	var problems quoin.Problems
	if errors.As(err, &problems) {
		r.locate(problems)
	}
	if all := r.faults.All(); len(all) > 0 {
		return pricelist.Document{}, all
	}
	return doc, err
}

// reader is a document while it is read.
type reader struct {
	layout  []Sheet
	shop    object
	entries map[string]entry          // by the paths of what they are in the document
	ids     map[string]map[string]int // by list and id: where an entry stands in its list
	faults  form.Collector
	faulty  map[string]bool // cells of which the document need say nothing more
}

// entry is where an entry of a list stands.
type entry struct {
	*table
	row int
}

// table is a sheet with its rows.
type table struct {
	Sheet
	rows    [][]string
	columns map[string]int // by the fields that they stand for
}

// text is what stands in a row for a field.
func (t *table) text(row int, field string) string {
	if c, known := t.columns[field]; known && c < len(t.rows[row]) {
		return strings.TrimSpace(t.rows[row][c])
	}
	return ""
}

func (r *reader) fault(cell string, p quoin.Problem) {
	r.faults.AddAt(cell, p)
	r.faulty[cell] = true
}

// strangers refuses sheets that are not in the layout.
func (r *reader) strangers(tables map[string][][]string) {
	var names []string
	for _, s := range r.layout {
		names = append(names, s.Name)
	}
	for _, name := range slices.Sorted(maps.Keys(tables)) {
		written := slices.ContainsFunc(tables[name], func(row []string) bool { return !blank(row) })
		if written && !slices.Contains(names, name) {
			r.fault(cell(prose.Clean(name), 0, 0), quoin.Problem{
				Code: quoin.UnknownField, Found: "the sheet " + prose.Quoted(name),
				Wanted: "no others than " + strings.Join(names, ", "), Near: prose.Near(name, names),
			})
		}
	}
}

func blank(row []string) bool {
	return !slices.ContainsFunc(row, func(text string) bool { return strings.TrimSpace(text) != "" })
}

func (r *reader) sheet(s Sheet, rows [][]string) {
	t := &table{s, rows, make(map[string]int)}
	heads := s.heads()
	for i, head := range rows[0] {
		head = strings.TrimSpace(head)
		if head != "" {
			r.head(t, heads, i, head)
		}
	}
	for n, row := range rows[1:] {
		r.texts(t, heads, n+1)
		if !blank(row) {
			r.row(t, n+1)
		}
	}
}

// head reads the head of a column.
func (r *reader) head(t *table, heads []string, column int, head string) {
	at := cell(t.Name, 0, column)
	i := slices.IndexFunc(heads, func(h string) bool { return strings.EqualFold(h, head) })
	if i < 0 {
		r.fault(at, quoin.Problem{
			Code: quoin.UnknownField, Found: "the column " + prose.Quoted(head),
			Wanted: "one of " + strings.Join(heads, ", "), Near: prose.Near(head, heads),
		})
		return
	}
	field := t.Columns[i].field
	if _, twice := t.columns[field]; twice {
		r.fault(at, quoin.Problem{Code: quoin.DuplicateField, Found: "the column " + prose.Quoted(head) + " twice", Wanted: "it once"})
		return
	}
	t.columns[field] = column
}

// texts refuses texts of a row that have no head, or that are none.
func (r *reader) texts(t *table, heads []string, row int) {
	for c, text := range t.rows[row] {
		text = strings.TrimSpace(text)
		switch {
		case text == "":
		case c >= len(t.rows[0]) || strings.TrimSpace(t.rows[0][c]) == "":
			r.fault(cell(t.Name, row, c), quoin.Problem{
				Code: quoin.UnknownField, Found: prose.Quoted(text) + " without a head above it",
				Wanted: "one of " + strings.Join(heads, ", "),
			})
		case !utf8.ValidString(text):
			r.fault(cell(t.Name, row, c), quoin.Problem{
				Code: quoin.BadText, Found: prose.Quoted(text), Wanted: "text as UTF-8", Remedy: "save the file as UTF-8",
			})
		}
	}
}

// row reads a row into an entry of its list.
func (r *reader) row(t *table, row int) {
	in, at, ok := r.entry(t, row)
	if !ok {
		return
	}
	r.entries[at.String()] = entry{t, row}
	for _, c := range t.Columns {
		if text := t.text(row, c.field); text != "" && c.field != parent && c.field != packing {
			in.set(c.field, value(text, c.Kind))
		}
	}
}

// entry makes the entry of the document that a row is, and returns its path. There is none where
// the row belongs to nothing.
func (r *reader) entry(t *table, row int) (object, quoin.Path, bool) {
	switch _, read := r.entries[""]; {
	case t.list == "" && read:
		r.fault(cell(t.Name, row, 0), quoin.Problem{Code: quoin.TooMany, Found: "a second row", Wanted: "one"})
		return nil, quoin.Path{}, false
	case t.list == "":
		return r.shop, quoin.Path{}, true
	case t.under == "":
		i := len(r.shop.entries(t.list))
		r.name(t.list, t.text(row, "id"), i)
		return r.shop.add(t.list), quoin.InList(t.list, i), true
	}
	id := t.text(row, parent)
	i, known := r.ids[t.list][id]
	if !known {
		r.orphan(t, row, id)
		return nil, quoin.Path{}, false
	}
	of := r.shop.entries(t.list)[i].(object)
	at := quoin.InList(t.list, i)
	if list := t.text(row, packing); list != "" {
		lists := of.object("packing")
		at = at.Named("packing", list, len(lists.entries(list)))
		return lists.add(list), at, true
	}
	at = at.Sub(t.under, len(of.entries(t.under)))
	return of.add(t.under), at, true
}

// name keeps the id of an entry, so that rows of other sheets find it. Of two the first has it.
func (r *reader) name(list, id string, i int) {
	ids := r.ids[list]
	if ids == nil {
		ids = make(map[string]int)
		r.ids[list] = ids
	}
	if _, twice := ids[id]; id != "" && !twice {
		ids[id] = i
	}
}

// orphan refuses a row that names an entry which is not there.
func (r *reader) orphan(t *table, row int, id string) {
	i := slices.IndexFunc(r.layout, func(s Sheet) bool { return s.list == t.list && s.under == "" })
	p := quoin.Problem{Code: quoin.UnknownID, Found: prose.Quoted(id), Wanted: "what stands in the first column of the sheet " + r.layout[i].Name}
	if ids := r.ids[t.list]; len(ids) <= form.MostNames && !r.faults.Full {
		p.Near = prose.Near(id, slices.Sorted(maps.Keys(ids)))
	}
	r.fault(cell(t.Name, row, t.columns[parent]), p)
}

// locate says problems of the document at their cells.
func (r *reader) locate(problems quoin.Problems) {
	for _, p := range problems {
		at, missing := r.place(p.Path)
		if p.Code == quoin.MissingField && missing != "" {
			p.Wanted = missing
		}
		p.Line, p.Column = 0, 0
		if !r.faulty[at] {
			r.faults.AddAt(at, p)
		}
	}
}

// place returns the cell of a path in the document, or the sheet where it has none, and what to
// write there if something is missing.
func (r *reader) place(path string) (at, missing string) {
	within := path
	for within != "" && r.entries[within].table == nil {
		within = outer(within)
	}
	e := r.entries[within]
	if e.table == nil { // there are no settings
		e.table = &table{Sheet: r.layout[0]}
	}
	for field := strings.TrimPrefix(path[len(within):], "."); field != ""; field = outer(field) {
		i := slices.IndexFunc(e.Columns, func(c Column) bool { return c.field == field })
		if i < 0 {
			continue
		}
		missing = "something in the column " + e.Columns[i].Head
		if c, known := e.columns[field]; known {
			return cell(e.Name, e.row, c), missing
		}
	}
	if within != "" {
		return cell(e.Name, e.row, 0), missing
	}
	for _, s := range r.layout {
		if s.list != "" && s.under == "" && strings.HasPrefix(path, s.list) {
			return s.Name, "at least one row"
		}
	}
	return e.Name, missing
}

// outer is a path without its last part.
func outer(path string) string { return path[:max(0, strings.LastIndexAny(path, ".["))] }
