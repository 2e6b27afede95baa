package review

import (
	"maps"
	"slices"
	"strconv"
	"strings"
)

// reach is the products whose floors a change can move: nil where it may be any.
type reach map[string]bool

// reaches finds the reach of each change. A change in a product moves that one and
// those based on it; one of a supply or machine those that use it. Where rules are
// preferred, which give way for all products together, or channels name products, a
// change may move anything.
func reaches(changes []InputChange, old, new object) []reach {
	out := make([]reach, len(changes))
	docs := []object{old, new}
	if slices.ContainsFunc(docs, func(d object) bool { return prefers(d) || namesProducts(d) }) {
		return out
	}
	users, elsewhere := usersOf(docs), append(texts(beside(old)), texts(beside(new))...)
	slices.Sort(elsewhere)
	for i, c := range changes {
		of := subject(c.Input)
		_, used := slices.BinarySearch(elsewhere, of.id)
		switch of.list {
		case "products":
			out[i] = reach{of.id: true}
		case "supplies", "machines":
			if out[i] = maps.Clone(users[of.id]); out[i] == nil {
				out[i] = reach{}
			}
			if used {
				out[i] = nil
			}
		}
		out[i].heirs(docs)
	}
	return out
}

// entryID is an entry of a list of the document by its id.
type entryID struct{ list, id string }

// subject is the entry that an input stands in; none where it is not known by its id.
func subject(input string) entryID {
	list, rest, ok := strings.Cut(input, "[")
	quoted, err := strconv.QuotedPrefix(rest)
	if !ok || err != nil {
		return entryID{}
	}
	id, err := strconv.Unquote(quoted)
	if err != nil {
		return entryID{}
	}
	return entryID{list, id}
}

func prefers(doc object) bool {
	return slices.ContainsFunc(listOf(doc, "rules"), func(r any) bool { return word(r, "strength") == "prefer" })
}

// namesProducts reports whether anything but products and rules names one.
func namesProducts(doc object) bool {
	ids := known(doc, "products")
	return slices.ContainsFunc(texts(beside(doc)), func(s string) bool { return ids[s] })
}

// beside is a document without products, and what they are made of, and rules.
func beside(doc object) object {
	out := maps.Clone(doc)
	for _, name := range []string{"products", "supplies", "machines", "rules"} {
		delete(out, name)
	}
	return out
}

// texts are all texts in a part of a document.
func texts(v any) (out []string) {
	leaves(v, func(v any) {
		if s, ok := v.(string); ok {
			out = append(out, s)
		}
	})
	return out
}

// usersOf is the products in which a text stands, by the text.
func usersOf(docs []object) map[string]reach {
	out := make(map[string]reach)
	for _, d := range docs {
		for _, p := range listOf(d, "products") {
			id := word(p, "id")
			for _, s := range texts(p) {
				if out[s] == nil {
					out[s] = make(reach)
				}
				out[s][id] = true
			}
		}
	}
	return out
}

// heirs adds the products that are based on those in reach. A base stands before them.
func (r reach) heirs(docs []object) {
	for more := len(r) > 0; more; {
		n := len(r)
		for _, d := range docs {
			for _, p := range listOf(d, "products") {
				if r[word(p, "extends")] {
					r[word(p, "id")] = true
				}
			}
		}
		more = len(r) > n
	}
}

// part is a document with some of its products, those that they are based on, and what
// rules say of them. Where it has none of them it keeps its first, so that all else is
// still checked.
func part(doc object, of reach) object {
	products := listOf(doc, "products")
	in, there, designs, all := maps.Clone(of), make(map[string]bool), make(map[string]bool), make(map[string]bool)
	if !slices.ContainsFunc(products, func(p any) bool { return of[word(p, "id")] }) && len(products) > 0 {
		in[word(products[0], "id")] = true
	}
	for i := len(products) - 1; i >= 0; i-- {
		id := word(products[i], "id")
		there[id], all[word(products[i], "design")] = true, true
		if in[id] {
			if base := word(products[i], "extends"); base != "" {
				in[base] = true
			}
			designs[word(products[i], "design")] = true
		}
	}
	return withOf(onlyOf(doc, "products", func(p object) bool { return in[word(p, "id")] }), "rules", func(r object) object {
		return spoken(spoken(r, "products", in, there), "designs", designs, all)
	})
}

// spoken is a rule that names no more than what is left; what was never there, which is a
// fault, stays. It is nil where a rule named something and nothing is left of it.
func spoken(rule object, list string, left, there map[string]bool) object {
	names := listOf(rule, list)
	kept := slices.DeleteFunc(slices.Clone(names), func(n any) bool {
		name, _ := n.(string)
		return there[name] && !left[name]
	})
	switch {
	case len(names) == 0:
		return rule
	case len(kept) == 0:
		return nil
	}
	return with(rule, list, kept)
}
