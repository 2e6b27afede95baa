package quoin_test

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/quoin"
)

// sheetCost puts what a sheet costs on a trail, and what so many come to.
func sheetCost(sheets int64) []quoin.Step {
	t := quoin.NewTrail(2)
	t.On("paper")
	price := quoin.Given("price", quoin.InList("supplies", 0).Field("price"), quoin.MustAmount("64.00").Figure())
	each := t.Quotient("unit_cost", quoin.InList("supplies", 0), price, quoin.FactorOf(50).Named("quantity"))
	t.Product("line_cost", quoin.InList("products", int(sheets)), each, quoin.FactorOf(sheets).Named("sheets"))
	return t.Steps()
}

func ExampleJournal() {
	var j quoin.Journal
	fmt.Println(j.Add(sheetCost(1)), j.Add(sheetCost(2)), j.Len())
	text, err := json.Marshal(&j)
	fmt.Println(strings.ReplaceAll(string(text), "},{\"code", "},\n {\"code"), err)
	// Output:
	// [1 2] [1 3] 3
	// [{"code":"unit_cost","subject":"paper","at":"supplies[0]","op":"quotient","operands":[{"name":"price","path":"supplies[0].price","value":"64.00"},{"name":"quantity","value":"50x"}],"value":"1.28"},
	//  {"code":"line_cost","subject":"paper","at":"products[1]","op":"product","operands":[{"name":"unit_cost","value":"1.28","step":1},{"name":"sheets","value":"1x"}],"value":"1.28"},
	//  {"code":"line_cost","subject":"paper","at":"products[2]","op":"product","operands":[{"name":"unit_cost","value":"1.28","step":1},{"name":"sheets","value":"2x"}],"value":"2.56"}] <nil>
}

// A journal that was read gives the steps of an explanation back by their numbers.
func ExampleJournal_Steps() {
	var j, read quoin.Journal
	numbers := j.Add(sheetCost(1))
	text, err := json.Marshal(&j)
	fmt.Println(err, json.Unmarshal(text, &read))
	steps := read.Steps(numbers)
	fmt.Println(len(steps), steps[1].Code, steps[1].Value, quoin.Replay(steps))
	// Output:
	// <nil> <nil>
	// 2 line_cost 1.28 <nil>
}

// A step is written as the struct with its tags would be, whatever its texts are, but for what says nothing.
func TestStepsAsJSON(t *testing.T) {
	type fields quoin.Step // without its method
	for _, name := range []string{"paper", `"rag" \ 300`, "Möwe <im> Ried & Schilf", "tab\tand \u2028 line", "broken \xff", ""} {
		trail := quoin.NewTrail(1)
		trail.On(name)
		o := trail.Sum("sum", quoin.InField("overhead"), quoin.GivenOr(name, quoin.InField("x"), quoin.MustAmount("1.005").Figure(), false).Minus())
		trail.Rounded(2, quoin.HalfEven, o)
		s := trail.Steps()[0]
		want, err := json.Marshal(fields(s))
		if err != nil {
			t.Fatal(err)
		}
		got, err := json.Marshal(s)
		if err != nil || string(got) != string(want) {
			t.Errorf("%q: %s, %v, wanted %s", name, got, err, want)
		}
	}
}

// Steps that differ in anything that is written stand apart.
func TestJournalKeepsApart(t *testing.T) {
	base := sheetCost(1)
	var j quoin.Journal
	j.Add(base)
	for i, change := range []func(*quoin.Step){
		func(s *quoin.Step) { s.Code = "other" },
		func(s *quoin.Step) { s.Subject = "ink" },
		func(s *quoin.Step) { s.At = quoin.InList("supplies", 1) },
		func(s *quoin.Step) { s.Op = quoin.OpSum },
		func(s *quoin.Step) { s.Operands[0].Name = "cost" },
		func(s *quoin.Step) { s.Operands[0].Form = quoin.Minus },
		func(s *quoin.Step) { s.Operands[0].Default = true },
		func(s *quoin.Step) { s.Places = 2 },
		func(s *quoin.Step) { s.Value = quoin.FactorOf(3).Figure() },
	} {
		s := base[0]
		s.Operands = slices.Clone(s.Operands)
		change(&s)
		if n := j.Add([]quoin.Step{s}); n[0] != 3+i || j.Len() != 3+i {
			t.Errorf("change %d is step %v of %d", i, n, j.Len())
		}
	}
	if text, err := json.Marshal(new(quoin.Journal)); err != nil || string(text) != "[]" {
		t.Errorf("an empty journal is %s, %v", text, err)
	}
}

// An operand that was given another value than that of its step is written with its own.
func TestJournalWritesWhatAnOperandSays(t *testing.T) {
	for _, other := range []quoin.Figure{quoin.MustAmount("1.280").Figure(), quoin.MustRate("128%").Figure(), quoin.MustQuantity("1.28 g").Figure()} {
		steps := sheetCost(1)
		steps[1].Operands = slices.Clone(steps[1].Operands)
		steps[1].Operands[0].Value = other
		want, err := json.Marshal(steps[1])
		if err != nil {
			t.Fatal(err)
		}
		var j quoin.Journal
		j.Add(steps)
		if got, err := json.Marshal(&j); err != nil || !strings.HasSuffix(string(got), ","+string(want)+"]") {
			t.Errorf("%v: %s does not end in %s", err, got, want)
		}
	}
}
