package quoin

import (
	"bytes"
	"cmp"
	"encoding/json"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.com/quoin/internal/prose"
)

// Journal is the steps of many explanations in one list, each once. A step that several
// explanations share, such as the cost of a sheet, stands where it is first used, and the
// others refer to it. The zero value is empty.
type Journal struct {
	steps  []string // as JSON
	number map[string]int
	read   []Step // the first of them, where the journal was read; operands count in it
}

// Add adds the steps of one explanation, except those that the journal has already. It returns
// the number of each, counted from 1.
func (j *Journal) Add(steps []Step) []int {
	if j.number == nil {
		j.number = make(map[string]int)
	}
	numbers := make([]int, len(steps))
	var text []byte
	for i, s := range steps {
		text = s.appendJSON(text[:0], numbers)
		n, known := j.number[string(text)]
		if !known {
			j.steps = append(j.steps, string(text))
			n = len(j.steps)
			j.number[j.steps[n-1]] = n
		}
		numbers[i] = n
	}
	return numbers
}

// Len returns how many steps the journal has.
func (j *Journal) Len() int { return len(j.steps) }

// String says how many steps there are.
func (j Journal) String() string { return prose.Count(len(j.steps), "step") }

// MarshalJSON writes the steps in order. Operands refer to steps by their numbers in the
// journal.
func (j *Journal) MarshalJSON() ([]byte, error) {
	return []byte("[" + strings.Join(j.steps, ",") + "]"), nil
}

// MarshalJSON writes the step as one object. Before, Places and Rounding are left out if
// nothing was rounded.
func (s Step) MarshalJSON() ([]byte, error) { return s.appendJSON(nil, nil), nil }

// appendJSON writes the step; where numbers are given, operand.Step counts in them.
func (s Step) appendJSON(b []byte, numbers []int) []byte {
	b = appendText(append(b, `{"code":`...), string(s.Code))
	if s.Subject != "" {
		b = appendText(append(b, `,"subject":`...), s.Subject)
	}
	if at := s.At.String(); at != "" {
		b = appendText(append(b, `,"at":`...), at)
	}
	b = appendText(append(b, `,"op":`...), string(s.Op))
	b = append(b, `,"operands":[`...)
	for i := range s.Operands {
		if i > 0 {
			b = append(b, ',')
		}
		b = s.Operands[i].appendJSON(b, numbers)
	}
	b = append(b, ']')
	if s.Places >= 0 {
		b = appendText(append(b, `,"before":`...), s.Before.written())
		b = strconv.AppendInt(append(b, `,"places":`...), int64(s.Places), 10)
		b = appendText(append(b, `,"rounding":`...), s.Rounding.String())
	}
	b = appendText(append(b, `,"value":`...), s.Value.written())
	return append(b, '}')
}

// MarshalJSON writes the operand as it stands in a step. A quotient that does not end, and that
// is not the value of a step, has all its digits and begins with ≈.
func (o Operand) MarshalJSON() ([]byte, error) { return o.appendJSON(nil, nil), nil }

func (o *Operand) appendJSON(b []byte, numbers []int) []byte {
	b = appendText(append(b, `{"name":`...), o.Name)
	if path := o.Path.String(); path != "" {
		b = appendText(append(b, `,"path":`...), path)
	}
	value := o.Value.written()
	if o.Step == 0 {
		value = o.Value.digits() // which nothing before it gives again
	}
	b = appendText(append(b, `,"value":`...), value)
	if o.Form != Plain {
		b = appendText(append(b, `,"form":`...), string(o.Form))
	}
	if n := o.Step; n > 0 {
		if n <= len(numbers) {
			n = numbers[n-1]
		}
		b = strconv.AppendInt(append(b, `,"step":`...), int64(n), 10)
	}
	if o.Default {
		b = append(b, `,"default":true`...)
	}
	return append(b, '}')
}

// appendText writes a string of JSON.
func appendText(b []byte, s string) []byte {
	if strings.ContainsFunc(s, mustEscape) || !utf8.ValidString(s) {
		return appendEscaped(b, s)
	}
	b = append(b, '"')
	b = append(b, s...)
	return append(b, '"')
}

func mustEscape(r rune) bool { return r < ' ' || r == '"' || r == '\\' }

// appendEscaped leaves <, > and & to whoever writes the whole.
func appendEscaped(b []byte, s string) []byte {
	var text bytes.Buffer
	e := json.NewEncoder(&text)
	e.SetEscapeHTML(false)
	if err := e.Encode(s); err != nil {
		return append(b, `""`...) // no string is refused
	}
	return append(b, bytes.TrimRight(text.Bytes(), "\n")...)
}

// UnmarshalJSON reads a list of steps, as MarshalJSON writes it. A step may use only steps
// before it. The error is a Problem.
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

// Steps returns the steps with the given numbers as a list of their own, each once and in
// order, as Replay takes them. It is what Add was given, except for repeated steps. If a step
// uses one that is not among them, that one is added before it. Numbers without a step are
// ignored.
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
