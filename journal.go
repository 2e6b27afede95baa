package quoin

import (
	"bytes"
	"cmp"
	"encoding/json"
	"hash/maphash"
	"io"
	"slices"
	"strconv"

	"example.com/quoin/internal/prose"
)

// Journal is the steps of many explanations in one list, each once. A step that several
// explanations share, such as the cost of a sheet, stands where it is first used, and the
// others refer to it. The zero value is empty.
type Journal struct {
	text []byte // of its steps as JSON, one after the other
	ends []int  // where each of them ends
	said []int  // where the value of each begins
	read []Step // the first of them, where the journal was read; operands count in it

	// Numbers of steps, each at the first free place from the hash of its text on. At most
	// half of the places are taken.
	places []int32
	seed   maphash.Seed

	trail *Trail // of what it explains
}

// Add adds the steps of one explanation, except those that the journal has already. It returns
// the number of each, counted from 1.
func (j *Journal) Add(steps []Step) []int {
	t := telling{Journal: j, steps: steps, numbers: make([]int, 0, len(steps))}
	for i := range steps {
		t.numbers = append(t.numbers, t.add(&steps[i]))
	}
	return t.numbers
}

// telling is steps that are written into a journal, and the numbers that some of them have there.
type telling struct {
	*Journal
	steps   []Step
	numbers []int
	value   int // where the value begins that was written last
}

// add writes a step behind the others, unless it stands there, and returns its number.
func (t *telling) add(s *Step) int {
	j, from := t.Journal, len(t.text)
	j.text = s.appendJSON(j.text, t)
	place := j.placeOf(j.text[from:])
	if n := j.places[place]; n > 0 {
		j.text = j.text[:from]
		return int(n)
	}
	j.ends, j.said = append(j.ends, len(j.text)), append(j.said, t.value)
	j.places[place] = int32(len(j.ends))
	return len(j.ends)
}

// appendValue writes the value of an operand that is a step's, most often as it was written there.
func (t *telling) appendValue(b []byte, o *Operand) []byte {
	if n := o.Step; n <= len(t.numbers) && t.numbers[n-1] > 0 && o.Value.identical(&t.steps[n-1].Value) {
		n = t.numbers[n-1]
		return append(b, t.text[t.said[n-1]:t.ends[n-1]-1]...)
	}
	return o.Value.appendJSON(b)
}

// placeOf is where the number of a step with a text stands, or would: there it is 0.
func (j *Journal) placeOf(text []byte) int {
	if 2*len(j.ends) >= len(j.places) {
		j.spread()
	}
	most := len(j.places) - 1
	place := int(maphash.Bytes(j.seed, text)) & most
	for j.places[place] > 0 && !bytes.Equal(j.step(int(j.places[place])), text) {
		place = (place + 1) & most
	}
	return place
}

// spread gives the numbers twice as many places, of which there is a power of 2.
func (j *Journal) spread() {
	if j.places == nil {
		j.seed = maphash.MakeSeed()
	}
	j.places = make([]int32, max(2*len(j.places), 256))
	for n := range j.ends {
		if place := j.placeOf(j.step(n + 1)); j.places[place] == 0 {
			j.places[place] = int32(n + 1)
		}
	}
}

// step is the text of step n.
func (j *Journal) step(n int) []byte {
	from := 0
	if n > 1 {
		from = j.ends[n-2]
	}
	return j.text[from:j.ends[n-1]]
}

// Len returns how many steps the journal has.
func (j *Journal) Len() int { return len(j.ends) }

// Reset empties the journal, to be used again.
func (j *Journal) Reset() {
	clear(j.places)
	j.text, j.ends, j.said, j.read = j.text[:0], j.ends[:0], j.said[:0], nil
	if j.trail != nil {
		j.trail.forget()
	}
}

// String says how many steps there are.
func (j Journal) String() string { return prose.Count(j.Len(), "step") }

// MarshalJSON writes the steps in order. Operands refer to steps by their numbers in the
// journal.
func (j *Journal) MarshalJSON() ([]byte, error) { return j.AppendJSON(nil) }

// AppendJSON is MarshalJSON behind b.
func (j *Journal) AppendJSON(b []byte) ([]byte, error) {
	b = append(b, '[')
	for i := range j.ends {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(b, j.step(i+1)...)
	}
	return append(b, ']'), nil
}

// MarshalJSON writes the step as one object. Before, Places and Rounding are left out if
// nothing was rounded.
func (s Step) MarshalJSON() ([]byte, error) { return s.AppendJSON(nil) }

// AppendJSON is MarshalJSON behind b.
func (s Step) AppendJSON(b []byte) ([]byte, error) { return s.appendJSON(b, new(telling)), nil }

// appendJSON writes the step; where it is told, operand.Step counts in the numbers there.
func (s *Step) appendJSON(b []byte, in *telling) []byte {
	b = prose.AppendJSON(append(b, `{"code":`...), string(s.Code))
	if s.Subject != "" {
		b = prose.AppendJSON(append(b, `,"subject":`...), s.Subject)
	}
	b = s.At.appendField(b, `,"at":"`)
	b = prose.AppendJSON(append(b, `,"op":`...), string(s.Op))
	b = append(b, `,"operands":[`...)
	for i := range s.Operands {
		if i > 0 {
			b = append(b, ',')
		}
		b = s.Operands[i].appendJSON(b, in)
	}
	b = append(b, ']')
	if s.Places >= 0 {
		b = s.Before.appendJSON(append(b, `,"before":`...))
		b = strconv.AppendInt(append(b, `,"places":`...), int64(s.Places), 10)
		b = prose.AppendJSON(append(b, `,"rounding":`...), s.Rounding.String())
	}
	b = append(b, `,"value":`...)
	in.value = len(b)
	return append(s.Value.appendJSON(b), '}')
}

// MarshalJSON writes the operand as it stands in a step. A quotient that does not end, and that
// is not the value of a step, has all its digits and begins with ≈.
func (o Operand) MarshalJSON() ([]byte, error) { return o.AppendJSON(nil) }

// AppendJSON is MarshalJSON behind b.
func (o Operand) AppendJSON(b []byte) ([]byte, error) { return o.appendJSON(b, new(telling)), nil }

func (o *Operand) appendJSON(b []byte, in *telling) []byte {
	b = prose.AppendJSON(append(b, `{"name":`...), o.Name)
	b = o.Path.appendField(b, `,"path":"`)
	b = append(b, `,"value":`...)
	switch {
	case o.Step > 0:
		b = in.appendValue(b, o)
	case o.Step == 0 && !o.Value.d.Exact():
		b = prose.AppendJSON(b, o.Value.digits()) // which nothing before it gives again
	default:
		b = o.Value.appendJSON(b)
	}
	if o.Form != Plain {
		b = prose.AppendJSON(append(b, `,"form":`...), string(o.Form))
	}
	if n := o.Step; n > 0 {
		if n <= len(in.numbers) {
			n = in.numbers[n-1]
		}
		b = strconv.AppendInt(append(b, `,"step":`...), int64(n), 10)
	}
	if o.Default {
		b = append(b, `,"default":true`...)
	}
	return append(b, '}')
}

// appendField writes a field that holds the path, of which head is all up to the path; nothing
// of a path that is written as nothing.
func (p *Path) appendField(b []byte, head string) []byte {
	before := len(b)
	b = append(b, head...)
	from := len(b)
	if b = p.append(b); len(b) == from {
		return b[:before]
	}
	if bytes.IndexByte(b[from:], '"') < 0 {
		return append(b, '"') // of plain words
	}
	return prose.CloseJSON(b, from)
}

func (f *Figure) appendJSON(b []byte) []byte {
	from := len(b) + 1
	b, _ = f.AppendText(append(b, '"')) // no figure is refused
	if f.kind != IsQuantity {
		return append(b, '"') // of digits and a sign
	}
	return prose.CloseJSON(b, from)
}

// UnmarshalJSON reads a list of steps, as MarshalJSON writes it. A step may use only steps
// before it. The error is a Problem.
func (j *Journal) UnmarshalJSON(data []byte) error {
	var out Journal
	d := json.NewDecoder(bytes.NewReader(data))
	if t, err := d.Token(); err != nil || t != json.Delim('[') {
		return Problem{Code: BadStep, Severity: Fault, Found: prose.Quoted(string(data[:min(len(data), 200)])), Wanted: "a list of steps"}
	}
	for d.More() {
		if err := out.readNext(d); err != nil {
			return inEntry(len(out.read), err)
		}
	}
	if _, err := d.Token(); err != nil {
		return badStep(err)
	}
	if _, err := d.Token(); err != io.EOF {
		return Problem{Code: BadStep, Severity: Fault, Found: "more after a list of steps", Wanted: "nothing behind it"}
	}
	*j = out
	return nil
}

// inEntry returns an error as found in entry i of a list.
func inEntry(i int, err error) error {
	p, ok := err.(Problem)
	if !ok {
		p = badStep(err)
	}
	if p.Path != "" && p.Path[0] != '[' {
		p.Path = "." + p.Path
	}
	p.Path = "[" + strconv.Itoa(i) + "]" + p.Path
	return p
}

func (j *Journal) readNext(d *json.Decoder) error {
	var s Step
	if err := d.Decode(&s); err != nil {
		return err
	}
	for k, o := range s.Operands {
		if o.Step > len(j.read) {
			return InList("operands", k).Field("step").Locate(noStep())
		}
	}
	from := len(j.text)
	alone := telling{Journal: j}
	j.text, j.read = s.appendJSON(j.text, &alone), append(j.read, s)
	place := j.placeOf(j.text[from:])
	if j.ends, j.said = append(j.ends, len(j.text)), append(j.said, alone.value); j.places[place] == 0 {
		j.places[place] = int32(len(j.ends))
	}
	return nil
}

// Steps returns the steps with the given numbers as a list of their own, each once and in
// order, as Replay takes them. It is what Add was given, except for repeated steps. If a step
// uses one that is not among them, that one is added before it. Numbers without a step are
// ignored.
func (j *Journal) Steps(numbers []int) []Step {
	at := make(map[int]int, len(numbers)) // where each stands, counted from 1
	out := make([]Step, 0, len(numbers))
	for _, n := range numbers {
		if n < 1 || n > j.Len() || at[n] > 0 {
			continue
		}
		for _, e := range j.with(n, at) {
			for k := range e.Operands {
				e.Operands[k].Step = at[e.Operands[k].Step]
			}
			out = append(out, e.Step)
			at[e.number] = len(out)
		}
	}
	return out
}

// numbered is a step of a journal, with its number there.
type numbered struct {
	Step
	number int
}

// with returns step n, and before it all that it rests on and that is not told yet.
func (j *Journal) with(n int, told map[int]int) []numbered {
	out := []numbered{j.entry(n)}
	seen := map[int]bool{n: true}
	for i := 0; i < len(out); i++ {
		for _, o := range out[i].Operands {
			if m := o.Step; m > 0 && told[m] == 0 && !seen[m] {
				seen[m] = true
				out = append(out, j.entry(m))
			}
		}
	}
	slices.SortFunc(out, func(a, b numbered) int { return cmp.Compare(a.number, b.number) })
	return out
}

// entry returns step n, which nobody else holds.
func (j *Journal) entry(n int) numbered {
	if n <= len(j.read) {
		s := j.read[n-1]
		s.Operands = slices.Clone(s.Operands)
		return numbered{s, n}
	}
	var s Step
	if err := s.UnmarshalJSON(j.step(n)); err != nil {
		s = Step{} // which was of no operation that there is, and replays as little
	}
	return numbered{s, n}
}
