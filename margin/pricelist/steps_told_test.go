package pricelist_test

import (
	"bytes"
	"encoding/json"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

func TestStepsAreToldOnce(t *testing.T) { t.Parallel(); rapid.Check(t, stepsAreToldOnce) }

// jsonAnswer is what is read here of an answer's JSON.
type jsonAnswer struct {
	Steps    []jsonStep
	Products []struct {
		Channels []struct{ Steps [][2]int }
	}
	Sets, Fairs []struct{ Steps [][2]int }
	Editions    []struct {
		Products []struct{ Reasons [][2]int }
	}
}

// jsonStep is a step as it stands in JSON.
type jsonStep struct {
	Code, Subject, At, Op   string
	Operands                []jsonOperand
	Before, Rounding, Value string
	Places                  *int
}

type jsonOperand struct {
	Name, Path, Value, Form string
	Step                    int
	Default                 bool
}

// stepsAreToldOnce: no step stands twice in the list of an answer, each rests on those before it, and what an answer
// refers to are the very steps that it gives when it is asked.
func stepsAreToldOnce(t *rapid.T) {
	a := must(pricelist.Decide(drawnWays(t)))(t)
	w, text := writtenAs(t, a)
	toldOnce(t, w.Steps)
	for i, p := range a.Products {
		for j, c := range p.Channels {
			sameSteps(t, c.Steps.Steps(), w.Steps, w.Products[i].Channels[j].Steps)
		}
	}
	for i, s := range a.Sets {
		sameSteps(t, s.Steps.Steps(), w.Steps, w.Sets[i].Steps)
	}
	for i, f := range a.Fairs {
		sameSteps(t, f.Steps.Steps(), w.Steps, w.Fairs[i].Steps)
	}
	for i, e := range a.Editions {
		for k, r := range e.Products {
			sameSteps(t, r.Reasons.Steps(), w.Steps, w.Editions[i].Products[k].Reasons)
		}
	}
	bare, short := writtenAs(t, a.WithoutSteps())
	if len(bare.Steps) > 0 || bytes.Contains(short, []byte(`"op":`)) || len(a.Products) > 0 && len(short) >= len(text) {
		t.Fatalf("without steps: %s", short)
	}
}

func writtenAs(t *rapid.T, a pricelist.Answer) (w jsonAnswer, text []byte) {
	text = must(json.Marshal(a))(t)
	if err := json.Unmarshal(text, &w); err != nil {
		t.Fatal(err)
	}
	return w, text
}

func toldOnce(t *rapid.T, steps []jsonStep) {
	seen := make(map[string]bool)
	for n, s := range steps {
		text := string(must(json.Marshal(s))(t))
		if seen[text] {
			t.Fatalf("step %d stands there twice: %s", n+1, text)
		}
		seen[text] = true
		for _, o := range s.Operands {
			if o.Step > n || o.Step > 0 && steps[o.Step-1].Value != o.Value {
				t.Fatalf("step %d: %s %s is not the value of step %d before it", n+1, o.Name, o.Value, o.Step)
			}
		}
	}
}

// sameSteps holds steps as they are given against those that runs of numbers point at, each once.
func sameSteps(t *rapid.T, given []quoin.Step, steps []jsonStep, runs [][2]int) {
	var numbers []int
	for _, r := range runs {
		for n := r[0]; n <= r[1]; n++ {
			numbers = append(numbers, n)
		}
	}
	told, at := make(map[string]int), make([]int, len(given))
	for i, s := range given {
		var want jsonStep
		if err := json.Unmarshal(must(json.Marshal(s))(t), &want); err != nil {
			t.Fatal(err)
		}
		for k, o := range want.Operands {
			if o.Step > 0 {
				want.Operands[k].Step = at[o.Step-1]
			}
		}
		text := string(must(json.Marshal(want))(t))
		if told[text] == 0 {
			if len(told) == len(numbers) {
				t.Fatalf("step %d is not told in %v: %s", i+1, runs, text)
			}
			n := numbers[len(told)]
			if got := string(must(json.Marshal(steps[n-1]))(t)); got != text {
				t.Fatalf("step %d is told as number %d, %s, and is %s", i+1, n, got, text)
			}
			told[text] = n
		}
		at[i] = told[text]
	}
	if len(told) != len(numbers) || len(given) == 0 {
		t.Fatalf("%d steps, %d of them different, told as %v", len(given), len(told), runs)
	}
}
