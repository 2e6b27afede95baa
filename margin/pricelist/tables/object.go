package tables

import "strings"

// object is an object of the document. What stands in it is text, truth, a list or an object.
type object map[string]any

// entries are those of a list in it.
func (o object) entries(list string) []any {
	entries, _ := o[list].([]any)
	return entries
}

// add adds an entry to a list in it.
func (o object) add(list string) object {
	entry := object{}
	o[list] = append(o.entries(list), entry)
	return entry
}

// object is an object in it, which is made where there is none.
func (o object) object(name string) object {
	in, _ := o[name].(object)
	if in == nil {
		in = object{}
		o[name] = in
	}
	return in
}

// set sets a field, also in an object inside of this one: yearly.spent.
func (o object) set(name string, v any) {
	if outer, inner, nested := strings.Cut(name, "."); nested {
		o.object(outer).set(inner, v)
		return
	}
	o[name] = v
}
