package review

import (
	"slices"
	"strconv"
	"strings"
)

// keys are what the entries of two lists are known by: the first of some ways of
// naming them by which no entry of either list is named twice. It is false where
// there is none. They are written as a path writes them.
func keys(old, new []any) (was, is []string, known bool) {
	if len(old) == 0 || len(new) == 0 {
		return nil, nil, false
	}
	for _, by := range [][]string{{"id"}, {"supply"}, {"supply", "per"}, {"supply", "stage", "per"}, {"product"}, {"name"}} {
		was, ok := named(old, by)
		is, also := named(new, by)
		if !ok || !also {
			continue
		}
		if by[0] == "name" {
			renamed(old, new, was, is)
		}
		return was, is, true
	}
	return nil, nil, false
}

// named names each entry by some of its fields; false where two have the same name,
// or one does not have the first of them.
func named(list []any, by []string) ([]string, bool) {
	out := make([]string, len(list))
	seen := make(map[string]bool, len(list))
	for i, e := range list {
		if word(e, by[0]) == "" {
			return nil, false
		}
		words := make([]string, len(by))
		for k, name := range by {
			words[k] = word(e, name)
		}
		for len(words) > 1 && words[len(words)-1] == "" {
			words = words[:len(words)-1]
		}
		out[i] = "[" + strconv.Quote(strings.Join(words, " ")) + "]"
		if seen[out[i]] {
			return nil, false
		}
		seen[out[i]] = true
	}
	return out, true
}

// renamed gives an entry that has a new name, and is otherwise as it was, the name
// that it had: a fee is the same fee under another name.
func renamed(old, new []any, was, is []string) {
	for j := range new {
		if slices.Contains(was, is[j]) {
			continue
		}
		i := slices.IndexFunc(old, func(e any) bool { return nameless(e) == nameless(new[j]) })
		if i >= 0 && !slices.Contains(is, was[i]) {
			is[j] = was[i]
		}
	}
}

func nameless(e any) string {
	o, _ := e.(object)
	return string(write(with(o, "name", nil)))
}
