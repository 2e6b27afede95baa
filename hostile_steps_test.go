package quoin_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/quoin"
)

// What is no step says where, and leaves what was there.
func TestNoSteps(t *testing.T) {
	operand := func(fields string) string {
		return `[{"code":"a","op":"sum","operands":[{"name":"x",` + fields + `}],"value":"1"}]`
	}
	for _, c := range []struct {
		text, path string
		code       quoin.Code
	}{
		{`{}`, "", quoin.BadStep},
		{`["a"]`, "[0]", quoin.BadStep},
		{`[{"op":"sum","operands":[],"value":"0x"},{"op":"mean","operands":[],"value":"1"}]`, "[1].op", quoin.UnknownWord},
		{`[{"op":"sum","operands":{},"value":"1"}]`, "[0].operands", quoin.BadStep},
		{`[{"op":"sum","operands":[],"value":1}]`, "[0].value", quoin.BadStep},
		{`[{"op":"sum","operands":[],"value":"1 2"}]`, "[0].value", quoin.NotANumber},
		{`[{"op":"sum","operands":[],"at":"a..b","value":"1"}]`, "[0].at", quoin.BadPath},
		{`[{"op":"sum","operands":[],"value":"1","before":"1.2"}]`, "[0]", quoin.BadStep},
		{`[{"op":"sum","operands":[],"value":"1","before":"1.2","places":-1,"rounding":"up"}]`, "[0]", quoin.BadStep},
		{`[{"op":"sum","operands":[],"value":"1","before":"1,2","places":0,"rounding":"up"}]`, "[0].before", quoin.NotANumber},
		{`[{"op":"sum","operands":[],"value":"1","before":"1.2","places":0,"rounding":"off"}]`, "[0].rounding", quoin.UnknownWord},
		{operand(`"value":"€1"`), "[0].operands[0].value", quoin.NotANumber},
		{operand(`"value":1`), "[0].operands[0].value", quoin.BadStep},
		{operand(`"value":"1","path":"[0]"`), "[0].operands[0].path", quoin.BadPath},
		{operand(`"value":"1","form":"half"`), "[0].operands[0].form", quoin.UnknownWord},
		{operand(`"value":"1","step":-1`), "[0].operands[0].step", quoin.BadStep},
		{operand(`"value":"1","step":1`), "[0].operands[0].step", quoin.BadStep}, // itself
		{operand(`"value":"1","step":1.5`), "[0].operands[0].step", quoin.BadStep},
		{operand(`"value":"1","default":"yes"`), "[0].operands[0].default", quoin.BadStep},
		{`[{"op":"sum","operands":[],"value":"1"}`, "", quoin.BadStep},
		{`[] []`, "", quoin.BadStep},
	} {
		var j quoin.Journal
		kept := j.Add(sheetCost(1))
		err := j.UnmarshalJSON([]byte(c.text))
		var p quoin.Problem
		if !errors.As(err, &p) || p.Code != c.code || p.Path != c.path {
			t.Errorf("%s: %v, wanted %s at %s", c.text, err, c.code, c.path)
		}
		if len(j.Steps(kept)) != 2 {
			t.Errorf("%s: changed the journal", c.text)
		}
	}
}

// Steps that nobody made are no steps that replay, and nothing worse.
func TestHostileStepsDoNotReplay(t *testing.T) {
	vast := strings.Repeat("9", 4000)
	for _, text := range []string{
		`{"op":"quotient","operands":[{"name":"a","value":"1"}],"value":"0x"}`,
		`{"op":"quotient","operands":[{"name":"a","value":"1"},{"name":"b","value":"0x"}],"value":"1"}`,
		`{"op":"weighted","operands":[{"name":"a","value":"1"}],"value":"0x"}`,
		`{"op":"below","operands":[{"name":"a","value":"1"}],"value":"1"}`,
		`{"op":"product","operands":[` + strings.Repeat(`{"name":"a","value":"`+vast+`"},`, 40) + `{"name":"b","value":"` + vast + `"}],"value":"1"}`,
		`{"op":"product","operands":[` + strings.Repeat(`{"name":"a","value":"0.`+strings.Repeat("0", 4000)+`1"},`, 40) + `{"name":"b","value":"1"}],"value":"1"}`,
		`{"op":"greatest","operands":[],"value":"1"}`,
		`{"op":"quotient","operands":[{"name":"a","value":"4.00"},{"name":"b","value":"3x"}],"value":"1.3333333333331"}`, // 13 digits, of 12 that are written
	} {
		var s quoin.Step
		if err := json.Unmarshal([]byte(text), &s); err != nil {
			t.Errorf("%.60s: %v", text, err)
		}
		if err := quoin.Replay([]quoin.Step{s}); err == nil {
			t.Errorf("%.60s replays", text)
		}
	}
	// Each squares what the one before it came to.
	for _, op := range []string{"product", "weighted"} {
		var squares []quoin.Step
		for i := range 40 {
			text := `{"op":"` + op + `","operands":[{"name":"a","value":"0x","step":%[1]d},{"name":"a","value":"0x","step":%[1]d}],"value":"0x"}`
			if i == 0 {
				text = `{"op":"quotient","operands":[{"name":"a","value":"0.` + strings.Repeat("0", 3000) + `1x"},{"name":"a","value":"3x"}],"value":"0x","n":%d}`
			}
			var s quoin.Step
			if err := json.Unmarshal(fmt.Appendf(nil, text, i), &s); err != nil {
				t.Fatal(err)
			}
			squares = append(squares, s)
		}
		if err := quoin.Replay(squares); err == nil || !strings.Contains(err.Error(), "digits") {
			t.Errorf("numbers without end: %v", err)
		}
	}
	mean := []quoin.Step{{Code: "a", Op: "mean", Operands: []quoin.Operand{quoin.FactorOf(1).Named("x")}, Before: quoin.FactorOf(1).Figure(), Places: -1, Value: quoin.FactorOf(1).Figure()}}
	if err := quoin.Replay(mean); err == nil {
		t.Error("an operation that there is not replays")
	}
}

// A journal gives back what was put in, by the numbers that it gave.
func TestJournalGivesBack(t *testing.T) {
	var made, read quoin.Journal
	first, second := made.Add(sheetCost(1)), made.Add(sheetCost(2))
	text, err := json.Marshal(&made)
	if err != nil || json.Unmarshal(text, &read) != nil || read.Len() != 3 {
		t.Fatal(err)
	}
	again, err := json.Marshal(&read)
	if err != nil || string(again) != string(text) {
		t.Errorf("%s is written again as %s", text, again)
	}
	for _, j := range []*quoin.Journal{&made, &read} {
		for _, numbers := range [][]int{first, second, {1}, {}} {
			steps := j.Steps(numbers)
			if err := quoin.Replay(steps); err != nil || !slices.Equal(j.Add(steps), numbers) {
				t.Errorf("%v: %v, %v", numbers, steps, err)
			}
		}
		// 3 rests on 1, which comes before it though it is named behind it; twice is once, and there is no 9.
		if steps := j.Steps([]int{3, 9, 1, 3, 0, -1}); !slices.Equal(j.Add(steps), []int{1, 3}) || quoin.Replay(steps) != nil {
			t.Errorf("%v", steps)
		}
	}
	read.Steps(second)[1].Operands[0].Name = "another"
	if name := read.Steps(second)[1].Operands[0].Name; name != "unit_cost" || read.Add(sheetCost(3))[1] != 4 {
		t.Errorf("a step that was given back is the journal's own: %s", name)
	}
}

// What is read as steps is written and read to the same, and replays or does not, without harm.
func FuzzSteps(f *testing.F) {
	for _, n := range []int64{1, 2} {
		text, err := json.Marshal(sheetCost(n))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
	}
	text, err := json.Marshal(trail())
	if err != nil {
		f.Fatal(err)
	}
	f.Add(text)
	f.Fuzz(func(t *testing.T, text []byte) {
		var j, again quoin.Journal
		if j.UnmarshalJSON(text) != nil {
			return
		}
		written, err := json.Marshal(&j)
		if err != nil {
			t.Fatal(err)
		}
		if err := again.UnmarshalJSON(written); err != nil {
			t.Fatalf("%v in %s", err, written)
		}
		if twice, err := json.Marshal(&again); err != nil || string(twice) != string(written) {
			t.Fatalf("%s is written again as %s, %v", written, twice, err)
		}
		all := make([]int, j.Len())
		for i := range all {
			all[i] = i + 1
		}
		one, two := quoin.Replay(j.Steps(all)), quoin.Replay(again.Steps(all))
		if (one == nil) != (two == nil) {
			t.Fatalf("%s replays: %v, read again: %v", written, one, two)
		}
	})
}
