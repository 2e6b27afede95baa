package pricelist

import (
	"bytes"
	"encoding/json"
	"slices"
	"sync"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/margin/rule"
)

// Reasons is the steps of a figure, computed when they are asked for. Their JSON is the steps.
// In the JSON of an Answer, which holds each step once, it is the places of the steps in the
// answer's list, in order: runs of numbers counted from 1, each from its first to its last.
type Reasons struct {
	explain func(*quoin.Trail)
	read    func() []quoin.Step // where they were read
	told    [][2]int            // where they stand in a list of steps, while that is read
}

// because is the reasons that are put on a trail.
func because(explain func(*quoin.Trail)) Reasons { return Reasons{explain: explain} }

// Steps returns the steps; the zero value has none.
func (r Reasons) Steps() []quoin.Step {
	switch {
	case r.read != nil:
		return r.read()
	case r.explain == nil:
		return []quoin.Step{}
	}
	t := quoin.NewTrail(64)
	r.explain(t)
	return t.Steps()
}

// IsZero reports whether there are no steps to ask for.
func (r Reasons) IsZero() bool { return r.explain == nil && r.read == nil && r.told == nil }

// MarshalJSON writes the steps.
func (r Reasons) MarshalJSON() ([]byte, error) { return r.AppendJSON(nil) }

// AppendJSON is MarshalJSON behind b.
func (r Reasons) AppendJSON(b []byte) ([]byte, error) {
	steps := r.Steps()
	return form.Append(b, &steps, nil)
}

// teller puts reasons into a journal, and says where they stand there.
type teller struct {
	quoin.Journal
	told [][2]int // where the last reasons stand in it
	said []int    // by which reasons a step was last told, by its number
	turn int
}

// tellers are those that have told, to be used again.
var tellers = sync.Pool{New: func() any { return new(teller) }}

func (t *teller) giveBack() {
	t.Journal.Reset()
	t.said, t.turn = t.said[:0], 0
	tellers.Put(t)
}

// IsZero reports whether nothing was told.
func (t *teller) IsZero() bool { return t.Len() == 0 }

// tell adds reasons to the journal, and notes where they stand there: each step once.
func (t *teller) tell(r *Reasons) {
	t.turn++
	t.told = t.told[:0]
	for _, n := range t.numbers(r) {
		if t.again(n) {
			continue
		}
		if last := len(t.told) - 1; last >= 0 && t.told[last][1] == n-1 {
			t.told[last][1] = n
			continue
		}
		t.told = append(t.told, [2]int{n, n})
	}
}

// numbers are those of the steps in the journal, in order.
func (t *teller) numbers(r *Reasons) []int {
	if r.explain != nil {
		return t.Explain(r.explain)
	}
	return t.Add(r.Steps())
}

// again reports whether the same reasons have told a step before.
func (t *teller) again(n int) bool {
	if more := t.Len() + 1 - len(t.said); more > 0 {
		t.said = append(t.said, make([]int, more)...)
	}
	before := t.said[n]
	t.said[n] = t.turn
	return before == t.turn
}

// MarshalJSON writes the answer, with the steps of all its reasons in one list.
func (a Answer) MarshalJSON() ([]byte, error) { return a.AppendJSON(nil) }

// AppendJSON is MarshalJSON behind b, and the fastest way to write an answer: json.Marshal goes
// once more through all that MarshalJSON returns. It leaves <, > and & as they are; json.HTMLEscape
// escapes them for HTML.
func (a Answer) AppendJSON(b []byte) ([]byte, error) {
	type fields Answer // without this method
	t := tellers.Get().(*teller)
	defer t.giveBack()
	written := struct {
		fields
		Steps *teller `json:"steps,omitzero"`
	}{fields(a), t}
	return form.Append(b, &written, t.inside)
}

// inside is what stands in the JSON of an answer for values that are more than their fields
// say. The list of steps is written behind all that refers to it.
func (t *teller) inside(v any) any {
	switch v := v.(type) {
	case *Reasons:
		t.tell(v)
		return &t.told
	case *AllowedPrices:
		runs := v.runs()
		return &runs
	}
	return nil
}

// WithoutSteps returns the answer without the steps of its figures, which are most of its JSON.
// Everything else stays.
func (a Answer) WithoutSteps() Answer {
	return a.withReasons(func(Reasons) Reasons { return Reasons{} })
}

// withReasons returns the answer with other reasons.
func (a Answer) withReasons(other func(Reasons) Reasons) Answer {
	a.Products, a.Fairs, a.Sets, a.Editions = slices.Clone(a.Products), slices.Clone(a.Fairs), slices.Clone(a.Sets), slices.Clone(a.Editions)
	for i := range a.Products {
		p := &a.Products[i]
		p.Channels = slices.Clone(p.Channels)
		for k := range p.Channels {
			p.Channels[k].Steps = other(p.Channels[k].Steps)
		}
	}
	for i := range a.Fairs {
		a.Fairs[i].Steps = other(a.Fairs[i].Steps)
	}
	for i := range a.Sets {
		a.Sets[i].Steps = other(a.Sets[i].Steps)
	}
	for i := range a.Editions {
		e := &a.Editions[i]
		e.Products = slices.Clone(e.Products)
		for k := range e.Products {
			e.Products[k].Reasons = other(e.Products[k].Reasons)
		}
	}
	return a
}

// Equal reports whether both have the same steps, however often a step is repeated.
func (r Reasons) Equal(q Reasons) bool {
	var s, t teller
	s.tell(&r)
	t.tell(&q)
	return slices.Equal(s.told, t.told) && sameJSON(&s.Journal, &t.Journal)
}

func sameJSON(a, b any) bool {
	x, err := json.Marshal(a)
	y, err2 := json.Marshal(b)
	return err == nil && err2 == nil && bytes.Equal(x, y)
}

// WhyNot says why a price is not lower, or not higher. It is computed when it is asked for.
type WhyNot struct {
	of   *decidedList
	at   int
	side int
	told *rule.WhyNot // where it was read
}

// Why returns the nearest price on that side that the endings would allow and another rule
// refuses, and the refusals. It returns false if there is none. The JSON of an answer has the
// first twelve refusals, and so has an answer that was read from JSON.
func (b WhyNot) Why() (rule.WhyNot, bool) {
	switch {
	case b.told != nil:
		return *b.told, true
	case b.of == nil:
		return rule.WhyNot{}, false
	case b.side < 0:
		return b.of.dec.Lower(b.at, b.of.dec.Prices[b.at])
	}
	return b.of.dec.Higher(b.at, b.of.dec.Prices[b.at])
}

// IsZero reports whether no price on that side is refused.
func (b WhyNot) IsZero() bool {
	if b.of == nil {
		return b.told == nil
	}
	return !b.of.dec.Ends(b.at, b.of.dec.Prices[b.at], b.side)
}

// MarshalJSON writes what Why returns, or null if there is nothing: the first twelve refusals,
// and whether there are more.
func (b WhyNot) MarshalJSON() ([]byte, error) { return b.AppendJSON(nil) }

// AppendJSON is MarshalJSON behind to.
func (b WhyNot) AppendJSON(to []byte) ([]byte, error) {
	why, ok := b.Why()
	if !ok {
		return append(to, "null"...), nil
	}
	by, more := firstNamed(why.By)
	why.By, why.More = by, why.More || more
	return form.Append(to, &why, nil)
}

// Equal reports whether both give the same reasons.
func (b WhyNot) Equal(c WhyNot) bool { return sameJSON(b, c) }
