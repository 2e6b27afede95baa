package review

import (
	"maps"
	"slices"
	"strconv"
	"strings"
)

// InputChange is one difference between the last document and the new one.
type InputChange struct {
	// Input is where it stands, with the id or name of each entry of a list:
	// supplies["paper"].price. It is the same in both documents, even if the entry stands at
	// another place of its list. Shares name their inputs by it.
	Input string     `json:"input"`
	Kind  ChangeKind `json:"kind"`
	// Path is where it stands in the new document; empty if it was removed. OldPath is where it
	// stood in the last document; empty if that is the same, or if it was added.
	Path    string `json:"path,omitempty"`
	OldPath string `json:"old_path,omitempty"`
	// Old and New are the values as they are written, an object or list as JSON.
	Old string `json:"old,omitempty"`
	New string `json:"new,omitempty"`
	// Floor says that it may touch floors. Today's prices, names, the price step, price points
	// and rules that ask nothing of channels do not.
	Floor bool `json:"floor"`
}

// ChangeKind says what happened to an input.
type ChangeKind string

const (
	Changed ChangeKind = "changed" // it has another value
	Added   ChangeKind = "added"   // the last document did not have it
	Removed ChangeKind = "removed" // the new document does not have it
	Moved   ChangeKind = "moved"   // a list has another order, and its order counts
)

// place is where something stands in both documents.
type place struct {
	input, path, old string
	meaning          meaning
	rule             bool // in a rule
}

func (p place) field(name string) place {
	step := "[" + strconv.Quote(name) + "]"
	if plain(name) {
		step = "." + name
	}
	join := func(s string) string { return strings.TrimPrefix(s+step, ".") }
	return place{join(p.input), join(p.path), join(p.old), p.meaning.field(name), p.rule || p.input == "" && name == "rules"}
}

func plain(name string) bool {
	for _, r := range name {
		if r != '_' && r != '-' && (r < '0' || r > '9') && (r < 'a' || r > 'z') {
			return false
		}
	}
	return name != ""
}

// entry is an entry of a list with its index in both; −1 where it is in none.
func (p place) entry(key string, was, is int) place {
	at := func(s string, i int) string { return s + "[" + strconv.Itoa(i) + "]" }
	return place{p.input + key, at(p.path, is), at(p.old, was), p.meaning.entry(), p.rule}
}

func (p place) kind() kind {
	if p.rule {
		return isOfRule
	}
	return p.meaning.kind()
}

// node is two documents, or a part of them, laid over each other.
type node struct {
	change   int // by which the two differ as a whole; none where they do not
	old, new any // what stands there; nil where nothing does
	fields   map[string]*node
	entries  []*node // of a list, in the new order
	was      []int   // entries in the last order, where it differs and counts
	order    int     // the change of the order
}

const none = -1

type differ struct {
	changes []InputChange
}

// compared lays two documents over each other.
func compared(m meaning, old, new object) (*node, []InputChange) {
	var d differ
	n := d.diff(place{meaning: m}, old, new)
	return n, d.changes
}

func (d *differ) diff(at place, old, new any) *node {
	a, objects := old.(object)
	b, also := new.(object)
	if objects && also {
		return d.object(at, a, b)
	}
	x, lists := old.([]any)
	y, also := new.([]any)
	if lists && also {
		return d.list(at, x, y)
	}
	n := &node{change: none, order: none, old: old, new: new}
	if old == nil || new == nil || objects || also || lists || !at.kind().same(old, new) {
		n.change = d.add(at, old, new)
	}
	return n
}

func (d *differ) add(at place, old, new any) int {
	c := InputChange{Input: at.input, Kind: Changed, Path: at.path, OldPath: at.old, Old: textOf(old), New: textOf(new)}
	switch {
	case old == nil:
		c.Kind, c.OldPath = Added, ""
	case new == nil:
		c.Kind, c.Path = Removed, ""
	case c.Path == c.OldPath:
		c.OldPath = ""
	}
	d.changes = append(d.changes, c)
	return len(d.changes) - 1
}

func (d *differ) object(at place, old, new object) *node {
	n := &node{change: none, order: none, fields: make(map[string]*node)}
	names := maps.Clone(old)
	maps.Copy(names, new)
	for _, name := range slices.Sorted(maps.Keys(names)) {
		n.fields[name] = d.diff(at.field(name), old[name], new[name])
	}
	return n
}

// list lays two lists over each other: entries that are known by something are
// matched by it, others by where they stand, where there are as many. A list of
// plain values is a value.
func (d *differ) list(at place, old, new []any) *node {
	was, is, known := keys(old, new)
	switch {
	case known:
		return d.keyed(at, old, new, was, is)
	case len(old) == len(new) && slices.ContainsFunc(new, func(v any) bool { _, ok := v.(object); return ok }):
		n := &node{change: none, order: none}
		for i := range new {
			n.entries = append(n.entries, d.diff(at.entry("["+strconv.Itoa(i)+"]", i, i), old[i], new[i]))
		}
		return n
	}
	n := &node{change: none, order: none, old: old, new: new}
	k := place{meaning: at.meaning.entry(), rule: at.rule}.kind()
	if !slices.EqualFunc(old, new, k.same) {
		n.change = d.add(at, old, new)
	}
	return n
}

func (d *differ) keyed(at place, old, new []any, was, is []string) *node {
	n := &node{change: none, order: none}
	merged, inOld, inNew := merge(is, was), indexes(was), indexes(is)
	for _, key := range merged {
		i, j := indexOf(inOld, key), indexOf(inNew, key)
		n.entries = append(n.entries, d.diff(at.entry(key, i, j), entryOf(old, i), entryOf(new, j)))
	}
	if !ordered(at.input) || slices.Equal(shared(was, is), shared(is, was)) {
		return n
	}
	place := indexes(merged)
	for _, key := range merge(was, is) {
		n.was = append(n.was, place[key])
	}
	n.order = d.add(at, sequence(was), sequence(is))
	d.changes[n.order].Kind = Moved
	return n
}

// sequence writes what entries are known by as a list.
func sequence(keys []string) string {
	out := make([]string, len(keys))
	for i, key := range keys {
		out[i] = key[1 : len(key)-1]
	}
	return "[" + strings.Join(out, ",") + "]"
}

func entryOf(list []any, i int) any {
	if i < 0 {
		return nil
	}
	return list[i]
}

// ordered reports whether the order of a list counts.
func ordered(input string) bool {
	return input == "stages" || input == "rules" || strings.HasSuffix(input, ".promotions")
}

// merge is the keys of one list with those of another put in behind what they
// stand behind there.
func merge(list, other []string) []string {
	out, in := slices.Clone(list), indexes(list)
	for i, key := range other {
		if _, known := in[key]; known {
			continue
		}
		behind := 0
		if i > 0 {
			behind = slices.Index(out, other[i-1]) + 1
		}
		out = slices.Insert(out, behind, key)
	}
	return out
}

func shared(list, other []string) []string {
	in := indexes(other)
	return slices.DeleteFunc(slices.Clone(list), func(key string) bool { return indexOf(in, key) == none })
}

func indexes(list []string) map[string]int {
	out := make(map[string]int, len(list))
	for i, key := range list {
		out[key] = i
	}
	return out
}

func indexOf(in map[string]int, key string) int {
	if i, ok := in[key]; ok {
		return i
	}
	return none
}

// mixed is the document with the new value of some changes and the last of the
// others; nil where nothing stands.
func (n *node) mixed(in []bool) any {
	switch {
	case n.change != none && in[n.change]:
		return n.new
	case n.change != none:
		return n.old
	case n.fields != nil:
		out := make(object, len(n.fields))
		for name, f := range n.fields {
			if v := f.mixed(in); v != nil {
				out[name] = v
			}
		}
		return out
	case n.entries != nil:
		return n.mixedList(in)
	}
	return n.new
}

func (n *node) mixedList(in []bool) any {
	var out []any
	for i, e := range n.entries {
		if n.order != none && !in[n.order] {
			e = n.entries[n.was[i]]
		}
		if v := e.mixed(in); v != nil {
			out = append(out, v)
		}
	}
	if len(out) == 0 {
		return nil
	}
	return out
}
