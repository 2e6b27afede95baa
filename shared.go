package quoin

import "slices"

// shared is what a trail keeps that several explanations are put on, one after the other: all
// of a journal.
type shared struct {
	told    []int // steps of the present explanation in order, some of them more than once
	once    map[Path]explained
	numbers []int // of steps in the journal, 0 where they are not there yet
}

// explained is what Trail.Once explained: what it came to, and the steps that lead there.
type explained struct {
	of   any
	told []int
}

// mostShared is with how many steps on it a trail is not used for a further explanation.
const mostShared = 2_000

// Once returns what explain returns, which puts steps on the trail. Where a journal explains
// several things, explain is called once for all of them, and its steps stand in each. So the path
// has to stand for the same figures wherever the journal meets it, and nobody may change what is
// returned.
func (t *Trail) Once(at Path, explain func() any) any {
	t.must()
	if explain == nil {
		return nil
	}
	if t.shared == nil {
		return explain()
	}
	if known, ok := t.shared.once[at]; ok {
		t.shared.told = append(t.shared.told, known.told...)
		return known.of
	}
	from := len(t.shared.told)
	of := explain()
	t.shared.once[at] = explained{of, slices.Clone(t.shared.told[from:])}
	return of
}

// next begins another explanation on a trail that is shared.
func (t *Trail) next() {
	clear(t.known)
	t.subject, t.origins, t.shared.told = "", nil, t.shared.told[:0]
	if len(t.steps) > mostShared {
		t.forget()
	}
}

// forget empties a trail that is shared.
func (t *Trail) forget() {
	clear(t.shared.once)
	t.steps, t.operands, t.shared.numbers = t.steps[:0], t.operands[:0], t.shared.numbers[:0]
}

// Explain adds the steps that explain puts on a trail, except those that the journal has already.
// It returns the number of each, counted from 1, some of them more than once. The trail is the
// journal's, which uses it again for the next explanation.
func (j *Journal) Explain(explain func(*Trail)) []int {
	if j.trail == nil {
		j.trail = &Trail{shared: &shared{once: make(map[Path]explained)}}
	}
	t := j.trail
	t.next()
	if explain != nil {
		explain(t)
	}
	for more := len(t.steps) - len(t.shared.numbers); more > 0; more-- {
		t.shared.numbers = append(t.shared.numbers, 0)
	}
	told := make([]int, 0, len(t.shared.told))
	in := telling{Journal: j, steps: t.steps, numbers: t.shared.numbers}
	for _, n := range t.shared.told {
		number := &in.numbers[n-1]
		if *number == 0 {
			*number = in.add(&t.steps[n-1])
		}
		told = append(told, *number)
	}
	return told
}
