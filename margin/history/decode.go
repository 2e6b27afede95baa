package history

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"slices"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
)

// reading is one line as it is taken apart. Lines are flat: a record has no
// lists and no objects in it.
type reading struct {
	text  []byte
	line  int
	room  int // for how many problems
	found quoin.Problems
	json  *json.Decoder
}

// member is a field as it stands in a line.
type member struct {
	name   string
	value  json.Token
	column int
}

// readLine reads the record in a line of text. There is none where problems
// were found.
func readLine(text []byte, line, room int) (Record, quoin.Problems) {
	r := reading{text: text, line: line, room: room, json: json.NewDecoder(bytes.NewReader(text))}
	r.json.UseNumber()
	members, ok := r.members()
	if !ok {
		return Record{}, r.found
	}
	entry := r.entry(members)
	if len(r.found) > 0 {
		return Record{}, r.found
	}
	return Record{Line: line, Entry: entry}, nil
}

// add keeps a problem with a field, or with the whole line where that has no
// name.
func (r *reading) add(name string, column int, p quoin.Problem) {
	if len(r.found) >= r.room {
		return
	}
	at := quoin.InList("lines", r.line-1)
	if name != "" {
		at = at.Field(short(name))
	}
	p.Path, p.Severity, p.Line, p.Column = at.String(), quoin.Fault, r.line, column
	r.found = append(r.found, p)
}

func short(name string) string {
	if len(name) <= longestName {
		return name
	}
	return strings.ToValidUTF8(name[:longestName], "") + "…"
}

// start returns the column at which what is to be read next begins.
func (r *reading) start() int {
	i := min(int(r.json.InputOffset()), len(r.text))
	for i < len(r.text) && strings.IndexByte(" \t\r\n:,", r.text[i]) >= 0 {
		i++
	}
	return i + 1
}

// members takes an object apart into its fields; false where that is none, or
// none that a record can be.
func (r *reading) members() ([]member, bool) {
	column := r.start()
	t, err := r.json.Token()
	if err != nil {
		return r.broken(err)
	}
	if t != json.Delim('{') {
		r.add("", column, wrong(t, "an object, such as {\"record\": \"price\", …}"))
		return nil, false
	}
	var all []member
	count := 0
	for ; r.json.More(); count++ {
		m, err := r.member()
		if err != nil {
			return r.broken(err)
		}
		if count < mostFields {
			all = append(all, m)
		}
	}
	if _, err := r.json.Token(); err != nil {
		return r.broken(err)
	}
	after := r.start()
	if _, err := r.json.Token(); err != io.EOF {
		r.add("", after, quoin.Problem{Code: quoin.BadJSON, Found: "something after the record", Wanted: "one record on a line"})
		return nil, false
	}
	if count > mostFields {
		r.add("", column, quoin.Problem{Code: quoin.TooMany, Found: quoin.FactorOf(int64(count)).String() + " fields", Wanted: "those of one record"})
		return nil, false
	}
	return all, true
}

func (r *reading) broken(err error) ([]member, bool) {
	p := quoin.Problem{Code: quoin.BadJSON, Found: err.Error(), Wanted: "a JSON object (RFC 8259)"}
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		p.Found = "the end of the line"
	}
	r.add("", min(int(r.json.InputOffset())+1, len(r.text)+1), p)
	return nil, false
}

func (r *reading) member() (member, error) {
	t, err := r.json.Token()
	if err != nil {
		return member{}, err
	}
	name, _ := t.(string)
	m := member{name: name, column: r.start()}
	if m.value, err = r.json.Token(); err != nil {
		return member{}, err
	}
	return m, r.skip(m.value)
}

// skip passes over the rest of the value that starts with t.
func (r *reading) skip(t json.Token) error {
	for depth := 0; ; {
		switch t {
		case json.Delim('{'), json.Delim('['):
			depth++
		case json.Delim('}'), json.Delim(']'):
			depth--
		}
		if depth == 0 {
			return nil
		}
		var err error
		if t, err = r.json.Token(); err != nil {
			return err
		}
	}
}

func (r *reading) entry(members []member) Entry {
	kind, ok := r.kind(members)
	if !ok {
		return nil
	}
	switch kind {
	case PriceRecord:
		var p Price
		r.fill(members, p.fields())
		return p
	case ReductionRecord:
		var d Reduction
		r.fill(members, d.fields())
		return d
	case SaleRecord:
		var s Sale
		r.fill(members, s.fields())
		return s
	}
	var t Trial
	r.fill(members, t.fields())
	return t
}

func (r *reading) kind(members []member) (Kind, bool) {
	i := slices.IndexFunc(members, func(m member) bool { return m.name == "record" })
	if i < 0 {
		p := quoin.Problem{Code: quoin.MissingField, Found: "nothing", Wanted: "the kind of record"}
		names := make([]string, len(members))
		for i, m := range members {
			names[i] = m.name
		}
		if near := prose.Near("record", names); near != "" {
			p.Found = "the field " + prose.Quoted(near)
			p.Near = "record"
		}
		r.add("record", 1, p)
		return "", false
	}
	s, ok := members[i].value.(string)
	if !ok {
		r.add("record", members[i].column, wrong(members[i].value, "the kind of record"))
		return "", false
	}
	kind, err := ParseKind(s)
	if err != nil {
		r.add("record", members[i].column, asProblem(err))
	}
	return kind, err == nil
}

// fill sets fields from the members of a line.
func (r *reading) fill(members []member, fields []field) {
	columns := make(map[string]int, len(members))
	faulty := make(map[string]bool)
	for _, m := range members {
		i := slices.IndexFunc(fields, func(f field) bool { return f.name == m.name })
		_, again := columns[m.name]
		columns[m.name] = m.column
		switch {
		case again:
			r.add(m.name, m.column, quoin.Problem{Code: quoin.DuplicateField, Found: prose.Quoted(m.name) + " again", Wanted: "each field once"})
			continue
		case m.name == "record":
			continue
		case i < 0:
			r.add(m.name, m.column, unknown(m.name, fields))
			continue
		}
		if p := taken(m.value, fields[i]); p.Code != "" {
			faulty[m.name] = true
			r.add(m.name, m.column, p)
		}
	}
	given := func(f field) bool {
		_, ok := columns[f.name]
		return ok
	}
	together(fields, given, func(name string) bool { return faulty[name] }, func(name string, p quoin.Problem) {
		r.add(name, max(columns[name], 1), p)
	})
}

// taken sets a field, and returns what is wrong with what it was set to.
func taken(t json.Token, f field) quoin.Problem {
	if p := f.set(t); p.Code != "" {
		return p
	}
	if f.need && t == "" {
		return quoin.Problem{Code: quoin.MissingField, Found: `""`, Wanted: "the field " + f.name}
	}
	return f.fault()
}

func unknown(name string, fields []field) quoin.Problem {
	names := []string{"record"}
	for _, f := range fields {
		names = append(names, f.name)
	}
	return quoin.Problem{
		Code: quoin.UnknownField, Found: "the field " + prose.Quoted(name), Wanted: "one of " + strings.Join(names, ", "), Near: prose.Near(name, names),
	}
}
