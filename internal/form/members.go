package form

import (
	"bytes"
	"reflect"
	"slices"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
	"github.com/go-json-experiment/json/jsontext"
)

// fill reads an object into the fields that all kinds have, of v, and those of its own kind.
func (r *reader) fill(of *variant, v, own reflect.Value) error {
	if _, err := r.json.ReadToken(); err != nil {
		return err
	}
	var given fields
	var others []string
	for after := 0; ; {
		if end := r.json.PeekKind(); end == '}' || end == ']' { // which ends it too, though not as JSON
			break
		}
		name, err := r.token()
		if err != nil {
			return err
		}
		i := of.in.find(name.text, after)
		if i < 0 {
			if others, err = r.other(of, string(name.text), others); err != nil {
				return err
			}
			continue
		}
		f := &of.in.Fields[i]
		r.Ranged = r.Ranged || f.Dear != ""
		r.enter(f.Name, 0)
		if given.has(i) {
			r.again(f.Name)
		}
		given.add(i)
		to := v
		if i >= of.common {
			to = own
		}
		if err := r.value(f, f.shape, f.value(to)); err != nil {
			return err
		}
		r.leave()
		after = i + 1
	}
	r.missing(of.in, &given)
	_, err := r.json.ReadToken()
	return err
}

func (r *reader) again(name string) {
	r.add(quoin.Problem{Code: quoin.DuplicateField, Found: prose.Quoted(name) + " again", Wanted: "each field once"})
}

// other passes over a field that is none of the object's; seen are those before.
func (r *reader) other(of *variant, name string, seen []string) ([]string, error) {
	if r.stored || name == "$schema" && len(r.at) == 0 && r.root == nil {
		return seen, r.json.SkipValue()
	}
	r.enter(name, 0)
	switch {
	case slices.Contains(seen, name):
		r.again(name)
	case !slices.Contains(of.aside, name):
		p := quoin.Problem{Code: quoin.UnknownField, Found: "the field " + prose.Quoted(name), Wanted: "a field of version 1"}
		known := slices.Concat(of.aside, Names(of.in.Fields))
		if r.Records {
			p.Wanted = "one of " + strings.Join(known, ", ")
		}
		if !hinted(&p, of.object, name, known) {
			p.Near = r.Near(name, known)
		}
		if i := slices.IndexFunc(of.in.Fields, func(f Field) bool { return f.Was == name }); i >= 0 {
			p.Near, p.Remedy = of.in.Fields[i].Name, "write "+prose.Quoted(of.in.Fields[i].Name)+", as it is called now"
		}
		r.add(p)
	}
	r.leave()
	if r.Full {
		return nil, errFull
	}
	return append(seen, name), r.json.SkipValue()
}

// missing reports what must be given, and what stands in the place of something given.
func (r *reader) missing(s *Struct, given *fields) {
	if !r.stored {
		if !s.complete(given) {
			r.Needed(r.path(), s.Fields, func(name string) bool {
				i := s.find([]byte(name), 0)
				return i >= 0 && given.has(i)
			})
		}
		return
	}
	for i := range s.Fields {
		if f := &s.Fields[i]; f.omit == never && !given.has(i) {
			r.Add(r.path().Field(f.Name), quoin.Problem{Code: quoin.MissingField, Found: "nothing", Wanted: "the field " + f.Name})
		}
	}
}

// union reads an object one field of which, wherever it stands, says what others it has.
func (r *reader) union(s *shape, v reflect.Value) error {
	of, known := r.kind(s.union)
	switch {
	case !known && of.common == 0: // and there is nothing to be judged
		return r.json.SkipValue()
	case !known:
		return r.fill(of, v, reflect.Value{})
	}
	own := reflect.New(of.of).Elem()
	err := r.fill(of, v, own)
	v.Field(s.in.Kind).Set(own)
	return err
}

// kind is that of the object which begins next; false where it has none, which is a problem
// unless the text is no JSON.
func (r *reader) kind(u *union) (*variant, bool) {
	if n := r.membersAhead(); n > mostFields {
		r.TooMany(r.path(), n, mostFields)
		return &u.none, false
	}
	t, names, err := r.ahead(u.word)
	at := func() *Path { return r.path().Field(u.word) }
	switch {
	case err != nil:
		return &u.none, false
	case t.kind == 0 || t.kind == 'n':
		p := quoin.Problem{Code: quoin.MissingField, Found: "nothing", Wanted: "the kind of " + u.word}
		if near := r.Near(u.word, names); near != "" && u.none.common == 0 {
			p.Found, p.Near = "the field "+prose.Quoted(near), u.word
		}
		r.Add(at(), p)
		return &u.none, false
	}
	of, known := u.called(string(t.text))
	if t.kind == '"' && known {
		return of, true
	}
	p := quoin.Problem{Code: u.other, Found: t.String(), Wanted: "one of " + strings.Join(u.names, ", ")}
	if t.kind == '"' {
		p.Code, p.Near = u.code, r.Near(string(t.text), u.names)
		if now := u.was[string(t.text)]; now != "" {
			p.Near, p.Remedy = now, "write "+prose.Quoted(now)+", as it is called now"
		}
	}
	r.Add(at(), p)
	return &u.none, false
}

// ahead looks for a field of the object that begins next, as member does, and reads nothing.
func (r *reader) ahead(name string) (token, []string, error) {
	r.scout.Reset(bytes.NewBuffer(r.rest()), options...)
	return member(&r.scout, name)
}

// rest is the text from the next value on.
func (r *reader) rest() []byte { return bytes.TrimLeft(r.json.UnreadBuffer(), " \t\r\n,:") }

// membersAhead is how many fields the record has that begins next; 0 where they are too few
// to be counted.
func (r *reader) membersAhead() int {
	rest := r.rest()
	if !r.Records || len(rest) < mostFields*len(`"":0,`) {
		return 0
	}
	r.scout.Reset(bytes.NewBuffer(rest), options...)
	n := 0
	for _, err := r.scout.ReadToken(); err == nil && r.scout.PeekKind() != '}'; n++ {
		if err = r.scout.SkipValue(); err == nil {
			err = r.scout.SkipValue()
		}
	}
	return n
}

// member reads an object up to the value of a field, and returns that, and the first names
// before it. Of what has no such field it reads all.
func member(d *jsontext.Decoder, name string) (token, []string, error) {
	var names []string
	if _, err := d.ReadToken(); err != nil {
		return token{}, nil, err
	}
	for d.PeekKind() != '}' {
		is, err := next(d)
		if err != nil {
			return token{}, nil, err
		}
		if string(is.text) == name {
			t, err := valueOf(d)
			return t, names, err
		}
		if len(names) <= mostFields {
			names = append(names, string(is.text))
		}
		if err := d.SkipValue(); err != nil {
			return token{}, nil, err
		}
	}
	return token{}, names, nil
}

// valueOf is the next value; of a list or an object what it is.
func valueOf(d *jsontext.Decoder) (token, error) {
	switch d.PeekKind() {
	case '{':
		return token{kind: '{', text: []byte("an object")}, nil
	case '[':
		return token{kind: '[', text: []byte("a list")}, nil
	}
	return next(d)
}
