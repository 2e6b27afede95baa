package quoin

import (
	"bytes"
	"cmp"
	"encoding/json"
	"io"
	"slices"
	"strconv"

	"example.com/quoin/internal/prose"
)

// UnmarshalJSON reads a list of steps, as MarshalJSON writes it, in which each rests only
// on steps before it. The error is a Problem.
func (j *Journal) UnmarshalJSON(data []byte) error {
	out := Journal{number: make(map[string]int)}
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
	text := string(s.appendJSON(nil, nil))
	j.steps, j.read = append(j.steps, text), append(j.read, s)
	if _, known := j.number[text]; !known {
		j.number[text] = len(j.steps)
	}
	return nil
}

// Steps returns the steps with the given numbers by themselves, each once and in their
// order, as Replay takes them: what Add was given, but for what stood there twice. Where
// one rests on a step that is not among them before it, that comes before it. Numbers of
// no step are passed over.
func (j *Journal) Steps(numbers []int) []Step {
	at := make(map[int]int, len(numbers)) // where each stands, counted from 1
	out := make([]Step, 0, len(numbers))
	for _, n := range numbers {
		if n < 1 || n > len(j.steps) || at[n] > 0 {
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
	if err := s.UnmarshalJSON([]byte(j.steps[n-1])); err != nil {
		s = Step{} // which was of no operation that there is, and replays as little
	}
	return numbered{s, n}
}
