package review

import (
	"maps"
	"math/bits"
	"slices"
	"strconv"

	"example.com/quoin"
)

// Method is how the movement of a floor is divided among the changed inputs.
type Method string

const (
	// Shapley is the mean of what an input moves over all orders in which the inputs
	// could have changed, computed over all their subsets (Lloyd S. Shapley, "A value
	// for n-person games", Contributions to the Theory of Games II, 1953; from memory).
	Shapley Method = "shapley"
	// FirstAndLast is the mean of what an input moves where it changes first, with all
	// others as they were, and last, with all others as they are. What that leaves of
	// the whole is a line of its own.
	FirstAndLast Method = "first_and_last"
)

const (
	mostShared  = 8   // inputs told apart over all subsets: 256 decisions
	mostChanged = 400 // inputs told apart at all: 800 decisions
	mostPaired  = 12  // inputs that do not stand alone, of which pairs are tried
)

// mixture is all documents between the last and the new one, and their floors.
type mixture struct {
	*node
	work
	changes []InputChange
	reaches []reach // of the changes
	weight  int     // of the new document
	groups  [][]int // changes that only stand together
	known   map[string]tried
}

type tried struct {
	floors floors
	err    error
}

// mix lays what floors rest on over each other and finds out which changes only
// stand together: a line is nothing without its supply.
func mix(of meaning, old, new object) (*mixture, error) {
	n, changes := compared(of, old, new)
	m := &mixture{node: n, changes: changes, reaches: reaches(changes, old, new), known: make(map[string]tried)}
	if len(changes) > mostChanged {
		return nil, fault(quoin.TooMany, "", strconv.Itoa(len(changes))+" changed inputs that floors rest on",
			"at most "+strconv.Itoa(mostChanged), "compare with a document in between")
	}
	if m.mixing(new) > mostWork {
		return nil, tooMuch()
	}
	m.weight = weight(new)
	for i := range changes {
		m.groups = append(m.groups, []int{i})
	}
	for len(m.groups) > 1 {
		halves := m.halves()
		if len(halves) == 0 {
			break
		}
		m.join(halves)
	}
	return m, nil
}

// floors are those of the document with the changes of some groups made.
func (m *mixture) floors(made func(group int) bool) (floors, error) {
	in := make([]bool, len(m.changes))
	for g, group := range m.groups {
		for _, i := range group {
			in[i] = made(g)
		}
	}
	return m.mixtureOf(in)
}

// mixtureOf decides the document with some changes made: all of it where none or all of
// them are, and else what differs from the nearer of these two.
func (m *mixture) mixtureOf(in []bool) (floors, error) {
	key := make([]byte, len(in))
	count := 0
	for i := range in {
		if in[i] {
			key[i] = 1
			count++
		}
	}
	known, ok := m.known[string(key)]
	if !ok {
		known.floors, known.err = m.decide(in, count)
		m.known[string(key)] = known
	}
	return known.floors, known.err
}

func (m *mixture) decide(in []bool, count int) (floors, error) {
	doc, _ := m.mixed(in).(object)
	all := 2*count > len(in)
	moved := m.moved(in, all)
	if count == 0 || count == len(in) || moved == nil {
		return m.floorsOf(doc)
	}
	base, err := m.mixtureOf(slices.Repeat([]bool{all}, len(in)))
	if err != nil {
		return m.floorsOf(doc)
	}
	some, err := m.floorsOf(part(doc, moved))
	if err != nil {
		return nil, err
	}
	out := maps.Clone(base)
	for id := range moved {
		delete(out, id)
		if f, ok := some[id]; ok {
			out[id] = f
		}
	}
	return out, nil
}

// moved is what the changes reach that are not as in a base; nil where that may be
// anything.
func (m *mixture) moved(in []bool, base bool) reach {
	out := make(reach)
	for i, r := range m.reaches {
		switch {
		case in[i] == base:
		case r == nil:
			return nil
		default:
			maps.Copy(out, r)
		}
	}
	return out
}

func only(groups ...int) func(int) bool {
	return func(g int) bool { return slices.Contains(groups, g) }
}

func allBut(groups ...int) func(int) bool {
	return func(g int) bool { return !slices.Contains(groups, g) }
}

func (m *mixture) stands(made func(int) bool) bool {
	_, err := m.floors(made)
	return err == nil
}

// halves are the groups that cannot change first, or cannot change last.
func (m *mixture) halves() []int {
	var out []int
	for g := range m.groups {
		if !m.stands(only(g)) || !m.stands(allBut(g)) {
			out = append(out, g)
		}
	}
	return out
}

// join puts each group that does not stand together with those that it then stands
// with, and where there is none, with all that do not; one that is alone with all others.
func (m *mixture) join(halves []int) {
	with, joined := make([]int, len(m.groups)), len(halves) < 2 // the least group that each is put to
	for g := range with {
		if !joined {
			with[g] = g
		}
	}
	for a, g := range halves {
		for _, h := range halves[a+1:] {
			if len(halves) <= mostPaired && m.pair(g, h) {
				relabel(with, with[h], with[g])
				joined = true
			}
		}
	}
	if !joined {
		for _, g := range halves {
			with[g] = halves[0]
		}
	}
	m.gather(with)
}

// pair reports whether two groups stand together, first or last, of which one does not alone.
func (m *mixture) pair(g, h int) bool {
	first := !m.stands(only(g)) || !m.stands(only(h))
	last := !m.stands(allBut(g)) || !m.stands(allBut(h))
	return first && m.stands(only(g, h)) || last && m.stands(allBut(g, h))
}

func relabel(labels []int, from, to int) {
	for i := range labels {
		if labels[i] == from {
			labels[i] = to
		}
	}
}

// gather makes one group of those with the same label.
func (m *mixture) gather(labels []int) {
	var groups [][]int
	at := make(map[int]int)
	for g, label := range labels {
		n, ok := at[label]
		if !ok {
			n = len(groups)
			at[label], groups = n, append(groups, nil)
		}
		groups[n] = append(groups[n], m.groups[g]...)
	}
	m.groups = groups
}

// inputs names the changes of a group.
func (m *mixture) inputs(group int) []string {
	out := make([]string, len(m.groups[group]))
	for k, i := range m.groups[group] {
		out[k] = m.changes[i].Input
	}
	slices.Sort(out)
	return out
}

// split is what each group did to the floor of a product, times a divisor.
type split struct {
	sums     []quoin.Amount
	divisor  int64
	together quoin.Amount // what the sums leave, of first and last
}

// method picks how the groups are told apart: over all subsets where they are few, the
// document is not too long, and every mixture of them stands.
func (m *mixture) method() Method {
	n := len(m.groups)
	if n > mostShared || m.weight<<n > mostWork/2 {
		return FirstAndLast
	}
	for s := range 1 << n {
		if !m.stands(subset(s)) {
			return FirstAndLast
		}
	}
	return Shapley
}

func subset(s int) func(int) bool { return func(g int) bool { return s>>g&1 == 1 } }

// floor is the floor of a product; false where it has none.
func (m *mixture) floor(product string, made func(int) bool) (quoin.Amount, bool) {
	f, _ := m.floors(made)
	floor, ok := f[product]
	return floor, ok
}

// split tells apart what the groups did to a product; false where it has no floor
// in some mixture that this rests on.
func (m *mixture) split(by Method, product string) (split, bool) {
	if by == Shapley {
		return m.shapley(product)
	}
	return m.firstAndLast(product)
}

// shapley is Σ over subsets S without i: |S|! (n − 1 − |S|)! ÷ n! × (floor of S and
// i − floor of S).
func (m *mixture) shapley(product string) (split, bool) {
	n := len(m.groups)
	out := split{sums: make([]quoin.Amount, n), divisor: factorial(n)}
	for s := range 1 << n {
		floor, ok := m.floor(product, subset(s))
		if !ok {
			return out, false
		}
		size := bits.OnesCount(uint(s))
		for g := range n {
			// With g in it, the subset counts for g; without, against it.
			weight := -factorial(size) * factorial(n-1-size)
			if subset(s)(g) {
				weight = factorial(size-1) * factorial(n-size)
			}
			out.sums[g] = out.sums[g].Add(floor.Times(quoin.FactorOf(weight)))
		}
	}
	return out, true
}

func factorial(n int) int64 {
	out := int64(1)
	for k := 2; k <= n; k++ {
		out *= int64(k)
	}
	return out
}

func (m *mixture) firstAndLast(product string) (split, bool) {
	before, a := m.floor(product, only())
	after, b := m.floor(product, allBut())
	whole := after.Sub(before)
	out := split{divisor: 2, together: whole.Add(whole)}
	for g := range m.groups {
		first, c := m.floor(product, only(g))
		last, d := m.floor(product, allBut(g))
		if !c || !d {
			return out, false
		}
		sum := first.Sub(before).Add(after).Sub(last)
		out.sums = append(out.sums, sum)
		out.together = out.together.Sub(sum)
	}
	return out, a && b
}
