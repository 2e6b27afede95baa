package pricelist

import (
	"encoding"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"slices"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin/rule"
)

// Decode reads a shop document from JSON and checks it. The error is
// quoin.Problems: everything wrong with the document, at once. It costs time
// and memory in proportion to data, whatever stands in it.
func Decode(data []byte) (Document, error) {
	doc, _, err := decode(data)
	return doc, err
}

func decode(data []byte) (Document, worked, error) {
	d := decoder{json: newTokens(data)}
	var doc Document
	var w worked
	if d.read(reflect.ValueOf(&doc).Elem(), data) {
		w = check(doc, &d.collector)
	}
	problems := d.All()
	locate(data, problems)
	if err := problems.Err(); err != nil {
		return Document{}, worked{}, err
	}
	return doc, w, nil
}

// decoder fills structs from JSON tokens by their tags. Its methods err only
// on text that is no JSON and when there are too many problems; everything else
// is a problem, and decoding goes on.
type decoder struct {
	json *tokens
	collector
}

var errFull = errors.New("too many problems")

// read reads all of a text into v. It returns false where that cannot be checked any
// further: the text is no JSON, which is a problem, or has too many.
func (d *decoder) read(v reflect.Value, text []byte) bool {
	err := d.whole(v)
	d.unread(err, text)
	return err == nil
}

// unread makes what keeps a text from being read a problem.
func (d *decoder) unread(err error, text []byte) {
	if err != nil && err != errFull {
		d.Add(nil, syntaxProblem(err, len(text)))
	}
}

// whole reads all of the text into v.
func (d *decoder) whole(v reflect.Value) error {
	t, err := d.json.Token()
	if err != nil {
		return err
	}
	if err := d.value(t, nil, form.Field{}, v); err != nil {
		return err
	}
	if _, err := d.json.Token(); err != io.EOF {
		return errors.New("something after the end of the document")
	}
	return nil
}

func syntaxProblem(err error, size int) quoin.Problem {
	p := quoin.Problem{Code: quoin.BadJSON, Found: err.Error(), Wanted: "a JSON document (RFC 8259)"}
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		p.Found = fmt.Sprintf("the end of the text, after %d bytes", size)
	}
	return p
}

// value reads what starts with token t into v.
func (d *decoder) value(t json.Token, at *path, f form.Field, v reflect.Value) error {
	switch {
	case v.Kind() == reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		return d.value(t, at, f, v.Elem())
	case isLeaf(v):
		return d.leaf(t, at, f, v)
	case v.Kind() == reflect.Struct:
		return d.object(t, at, v)
	case v.Kind() == reflect.Slice:
		return d.list(t, at, f, v)
	default:
		return d.lists(t, at, f, v)
	}
}

func isLeaf(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.String, reflect.Int64, reflect.Bool:
		return true
	case reflect.Slice, reflect.Map:
		return false
	}
	_, text := v.Addr().Interface().(encoding.TextUnmarshaler)
	_, any := v.Addr().Interface().(json.Unmarshaler)
	return text || any
}

func (d *decoder) object(t json.Token, at *path, v reflect.Value) error {
	if t != json.Delim('{') {
		return d.wrong(t, at, "an object")
	}
	return d.members(at, []part{{v, form.Fields(v.Type())}}, nil)
}

// part is a struct and its fields; an object may fill several.
type part struct {
	v      reflect.Value
	fields []form.Field
}

// members reads the fields of an object into the parts, and passes over those
// named in aside.
func (d *decoder) members(at *path, parts []part, aside []string) error {
	var seen names
	for d.json.More() {
		t, err := d.json.Token()
		if err != nil {
			return err
		}
		name, here := t.(string), at.Field(t.(string))
		if !seen.add(name) {
			d.Add(here, quoin.Problem{Code: quoin.DuplicateField, Found: prose.Quoted(name) + " again", Wanted: "each field once"})
		}
		if err := d.member(here, name, parts, aside); err != nil {
			return err
		}
	}
	for _, p := range parts {
		d.Needed(at, p.fields, seen.has)
	}
	_, err := d.json.Token()
	return err
}

// names are those of the fields of an object: of the few that objects have, a list is
// gone through as fast as anything, and of more a table is made.
type names struct {
	list  []string
	table map[string]bool
}

// add adds a name, and reports whether it is new.
func (n *names) add(name string) bool {
	if n.has(name) {
		return false
	}
	switch {
	case n.table != nil:
		n.table[name] = true
	case len(n.list) < 64:
		n.list = append(n.list, name)
	default:
		n.table = map[string]bool{name: true}
	}
	return true
}

func (n *names) has(name string) bool { return slices.Contains(n.list, name) || n.table[name] }

func (d *decoder) member(at *path, name string, parts []part, aside []string) error {
	if d.Full {
		return errFull
	}
	t, err := d.json.Token()
	if err != nil {
		return err
	}
	if slices.Contains(aside, name) {
		return skip(d.json, t)
	}
	for _, p := range parts {
		for i := range p.fields {
			if f := &p.fields[i]; f.Name == name {
				return d.value(t, at, *f, p.v.Field(f.Index))
			}
		}
	}
	known := slices.Clone(aside)
	for _, p := range parts {
		known = append(known, form.Names(p.fields)...)
	}
	d.Add(at, quoin.Problem{
		Code: quoin.UnknownField, Found: "the field " + prose.Quoted(name), Wanted: "a field of version 1",
		Near: d.Near(name, known),
	})
	return skip(d.json, t)
}

// skip passes over the rest of the value that starts with t.
func skip(d *tokens, t json.Token) error {
	depth := 0
	for {
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
		if t, err = d.Token(); err != nil {
			return err
		}
	}
}

func (d *decoder) list(t json.Token, at *path, f form.Field, v reflect.Value) error {
	if t != json.Delim('[') {
		return d.wrong(t, at, "a list")
	}
	n := 0
	for ; d.json.More(); n++ {
		if f.Most > 0 && n >= f.Most {
			if err := d.pass(); err != nil {
				return err
			}
			continue
		}
		// The new element is decoded where it will stay.
		v.Grow(1)
		v.SetLen(n + 1)
		if err := d.element(at.At(n), f, v.Index(n)); err != nil {
			return err
		}
	}
	if n == 0 && f.Need {
		v.Set(reflect.MakeSlice(v.Type(), 0, 0)) // given, and no field that is missing
	}
	if f.Most > 0 && n > f.Most {
		d.Add(at, quoin.Problem{Code: quoin.TooMany, Found: fmt.Sprintf("%d entries", n), Wanted: fmt.Sprintf("at most %d", f.Most)})
	}
	_, err := d.json.Token()
	return err
}

func (d *decoder) pass() error {
	t, err := d.json.Token()
	if err != nil {
		return err
	}
	return skip(d.json, t)
}

func (d *decoder) element(at *path, f form.Field, v reflect.Value) error {
	if d.Full {
		return errFull
	}
	if r, ok := v.Addr().Interface().(*rule.Rule); ok {
		return d.rule(at, r)
	}
	t, err := d.json.Token()
	if err != nil {
		return err
	}
	return d.value(t, at, f, v)
}

// lists reads an object of lists, such as the packing lists of a product.
func (d *decoder) lists(t json.Token, at *path, f form.Field, v reflect.Value) error {
	if t != json.Delim('{') {
		return d.wrong(t, at, "an object of lists by name")
	}
	v.Set(reflect.MakeMap(v.Type()))
	for d.json.More() {
		t, err := d.json.Token()
		if err != nil {
			return err
		}
		name := reflect.ValueOf(t)
		d.Text(at.Field(name.String()), name.String())
		if v.MapIndex(name).IsValid() {
			d.Add(at.Field(t.(string)), quoin.Problem{Code: quoin.DuplicateField, Found: prose.Quoted(t.(string)) + " again", Wanted: "each name once"})
		}
		if t, err = d.json.Token(); err != nil {
			return err
		}
		one := reflect.New(v.Type().Elem()).Elem()
		if err := d.value(t, at.Field(name.String()), f, one); err != nil {
			return err
		}
		v.SetMapIndex(name, one)
	}
	_, err := d.json.Token()
	return err
}

// rule reads a rule: its kind says which fields it has, wherever in the object
// the kind stands, so the object is read twice.
func (d *decoder) rule(at *path, r *rule.Rule) error {
	raw, err := d.json.Value()
	if err != nil {
		return err
	}
	outer := d.json
	defer func() { d.json = outer }()
	d.json = newTokens(raw)
	t, err := d.json.Token()
	if err != nil {
		return err
	}
	if t != json.Delim('{') {
		return d.wrong(t, at, "a rule")
	}
	kind, ok := d.kind(at, raw)
	parts := []part{{reflect.ValueOf(r).Elem(), form.Fields(reflect.TypeFor[rule.Rule]())}}
	if !ok {
		// Without a kind, only the fields that every rule has can be judged.
		return d.members(at, parts, append(allRuleFields(), "rule"))
	}
	v := reflect.New(kind).Elem()
	parts = append(parts, part{v, form.Fields(kind)})
	err = d.members(at, parts, []string{"rule"})
	r.Kind = v.Interface().(rule.Kind)
	return err
}

func (d *decoder) kind(at *path, raw []byte) (reflect.Type, bool) {
	var head struct {
		Rule any `json:"rule"`
	}
	if json.Unmarshal(raw, &head) != nil || head.Rule == nil {
		d.Add(at.Field("rule"), quoin.Problem{Code: quoin.MissingField, Found: "nothing", Wanted: "the kind of rule"})
		return nil, false
	}
	name, _ := head.Rule.(string)
	var names []string
	for _, k := range rule.Kinds() {
		if k.String() == name {
			return reflect.TypeOf(k), true
		}
		names = append(names, k.String())
	}
	d.Add(at.Field("rule"), quoin.Problem{
		Code: UnknownRule, Found: prose.Quoted(fmt.Sprint(head.Rule)), Wanted: "one of " + strings.Join(names, ", "), Near: d.Near(name, names),
	})
	return nil, false
}

func allRuleFields() []string {
	var out []string
	for _, k := range rule.Kinds() {
		out = append(out, form.Names(form.Fields(reflect.TypeOf(k)))...)
	}
	return out
}

func (d *decoder) wrong(t json.Token, at *path, wanted string) error {
	d.Add(at, quoin.Problem{Code: quoin.WrongType, Found: described(t), Wanted: wanted})
	return skip(d.json, t)
}

func described(t json.Token) string {
	switch x := t.(type) {
	case json.Delim:
		return map[json.Delim]string{'{': "an object", '[': "a list"}[x]
	case string:
		return prose.Quoted(x)
	case json.Number:
		return strings.Trim(prose.Quoted(string(x)), `"`)
	case nil:
		return "null"
	}
	return fmt.Sprint(t)
}
