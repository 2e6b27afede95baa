package pricelist

import (
	"bytes"
	"encoding/json"
	"slices"

	"example.com/quoin"
	"example.com/quoin/margin/rule"
)

// Reasons is the steps of a figure, computed when they are asked for. Their JSON is the steps.
// In the JSON of an Answer, which holds each step once, it is the places of the steps in the
// answer's list, in order: runs of numbers counted from 1, each from its first to its last.
type Reasons struct {
	steps func() []quoin.Step
	told  [][2]int // where they stand in a list of steps
}

// because is the reasons that are put on a trail.
func because(explain func(*quoin.Trail)) Reasons {
	return Reasons{steps: func() []quoin.Step {
		t := quoin.NewTrail(24)
		explain(t)
		return t.Steps()
	}}
}

// Steps returns the steps; the zero value has none.
func (r Reasons) Steps() []quoin.Step {
	if r.steps == nil {
		return []quoin.Step{}
	}
	return r.steps()
}

// IsZero reports whether there are no steps to ask for.
func (r Reasons) IsZero() bool { return r.steps == nil && r.told == nil }

// MarshalJSON writes the steps, or, in an answer, their places in its list.
func (r Reasons) MarshalJSON() ([]byte, error) {
	if r.told != nil {
		return json.Marshal(r.told)
	}
	return json.Marshal(r.Steps())
}

// teller puts reasons into a journal.
type teller struct {
	quoin.Journal
	said []int // by which reasons a step was last told, by its number
	turn int
}

// in returns the reasons as they stand in a journal, to which they are added: each step
// once.
func (r Reasons) in(t *teller) Reasons {
	if r.IsZero() {
		return r
	}
	t.turn++
	told := [][2]int{}
	for _, n := range t.Add(r.Steps()) {
		if t.again(n) {
			continue
		}
		if last := len(told) - 1; last >= 0 && told[last][1] == n-1 {
			told[last][1] = n
			continue
		}
		told = append(told, [2]int{n, n})
	}
	return Reasons{told: told}
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
func (a Answer) MarshalJSON() ([]byte, error) {
	type fields Answer // without this method
	var t teller
	written := struct {
		fields
		Steps *quoin.Journal `json:"steps,omitempty"`
	}{fields: fields(a.rewritten(&t))}
	if t.Len() > 0 {
		written.Steps = &t.Journal
	}
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false) // which is left to whoever writes the whole
	err := e.Encode(written)
	return out.Bytes(), err
}

// rewritten returns the answer with all its reasons in a journal.
func (a Answer) rewritten(t *teller) Answer {
	a = a.withReasons(func(r Reasons) Reasons { return r.in(t) })
	for i := range a.Products {
		a.Products[i].Allowed.inAnswer = true
	}
	return a
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
	x, y := r.in(&s), q.in(&t)
	return slices.Equal(x.told, y.told) && sameJSON(&s.Journal, &t.Journal)
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
func (b WhyNot) MarshalJSON() ([]byte, error) {
	why, ok := b.Why()
	if !ok {
		return []byte("null"), nil
	}
	by, more := firstNamed(why.By)
	why.By, why.More = by, why.More || more
	return json.Marshal(why)
}

// Equal reports whether both give the same reasons.
func (b WhyNot) Equal(c WhyNot) bool { return sameJSON(b, c) }
