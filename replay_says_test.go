package quoin_test

import (
	"encoding/json"
	"testing"

	"example.com/quoin"
	"example.com/quoin/internal/problemtest"
)

// What Replay says of steps that do not follow.
func TestReplaySays(t *testing.T) {
	sound := func() []quoin.Step {
		trail := quoin.NewTrail(2)
		sum := trail.Sum("sum", quoin.InField("a"), quoin.MustFactor("2.5").Named("x"), quoin.FactorOf(3).Named("y"))
		sum = trail.Rounded(0, quoin.Down, sum)
		trail.Product("twice", quoin.InField("b"), sum, quoin.FactorOf(2).Named("two"))
		return trail.Steps()
	}
	five := quoin.FactorOf(5).Figure()
	for _, c := range []struct {
		what   string
		change func([]quoin.Step)
		want   string
	}{
		{"nothing", func([]quoin.Step) {}, ""},
		{"another sum", func(s []quoin.Step) { s[0].Before = five }, "step 1, sum of a: its operands come to 5.5, not 5"},
		{"rounded otherwise", func(s []quoin.Step) { s[0].Value = quoin.FactorOf(6).Figure() }, "step 1, sum of a: 5.5 rounds to 5, not 6"},
		{"rounded up", func(s []quoin.Step) { s[0].Rounding = quoin.Up }, "step 1, sum of a: 5.5 rounds to 6, not 5"},
		{"of another step", func(s []quoin.Step) { s[1].Operands[0].Value = quoin.FactorOf(4).Figure() }, "step 2, twice of b: sum 4 is not the value of step 1"},
		{"of itself", func(s []quoin.Step) { s[1].Operands[0].Step = 2 }, "step 2, twice of b: sum 5 is not the value of step 2"},
		{"of no step", func(s []quoin.Step) { s[1].Operands[0].Step = -1 }, "step 2, twice of b: sum 5 is not the value of step -1"},
		{"of another kind", func(s []quoin.Step) { s[1].Operands[0].Value = quoin.MustAmount("5").Figure() }, "step 2, twice of b: sum 5 is not the value of step 1"},
		{"no form", func(s []quoin.Step) { s[1].Operands[1].Form = "half" }, `step 2, twice of b: two 2 is used as "half", which is no form`},
		{"no operation", func(s []quoin.Step) { s[1].Op = "mean" }, `step 2, twice of b: "mean" is no operation`},
		{"one to divide", func(s []quoin.Step) { s[0].Op, s[0].Operands = quoin.OpQuotient, s[0].Operands[:1] }, "step 1, sum of a: 1 operands are not those of quotient"},
		{"three in pairs", func(s []quoin.Step) {
			s[0].Op, s[0].Operands = quoin.OpWeighted, append(s[0].Operands, s[0].Operands[0])
		}, "step 1, sum of a: 3 operands are not those of weighted"},
		{"two to compare", func(s []quoin.Step) { s[0].Op = quoin.OpBelow }, "step 1, sum of a: 2 operands are not those of below"},
		{"four to compare", func(s []quoin.Step) { s[0].Op, s[0].Operands = quoin.OpBelow, append(s[0].Operands, s[0].Operands...) }, "step 1, sum of a: 4 operands are not those of below"},
		{"another number", func(s []quoin.Step) { s[1].Operands[1].Value = five }, "step 2, twice of b: its operands come to 25, not 10"},
	} {
		steps := sound()
		c.change(steps)
		got := ""
		if err := quoin.Replay(steps); err != nil {
			got = err.Error()
		}
		if got != c.want {
			t.Errorf("%s: %s, want %s", c.what, got, c.want)
		}
	}
}

// What was written to 12 places is compared to 12 places, and a quotient with all its digits to them.
func TestReplayComparesAsWritten(t *testing.T) {
	trail := quoin.NewTrail(2)
	third := trail.Quotient("third", quoin.Path{}, quoin.FactorOf(1).Named("one"), quoin.FactorOf(3).Named("three"))
	trail.Product("most", quoin.Path{}, third, quoin.FactorOf(2).Named("two"))
	read := func(text string) (steps []quoin.Step) {
		if err := json.Unmarshal([]byte(text), &steps); err != nil {
			t.Fatal(err)
		}
		return steps
	}
	text, err := json.Marshal(trail.Steps())
	const want = `[{"code":"third","op":"quotient","operands":[{"name":"one","value":"1x"},{"name":"three","value":"3x"}],"value":"0.333333333333x"},` +
		`{"code":"most","op":"product","operands":[{"name":"third","value":"0.333333333333x","step":1},{"name":"two","value":"2x"}],"value":"0.666666666667x"}]`
	if err != nil || string(text) != want {
		t.Fatalf("%s, %v", text, err)
	}
	for _, c := range []struct {
		third, most string
		want        bool
	}{
		{"0.333333333333x", "0.666666666667x", true},
		{"0.333333333333x", "0.666666666666x", false},
		{"0.333333333334x", "0.666666666667x", false},
		{"0.3333x", "0.666666666667x", false},
		{"0.333333333333", "0.666666666667x", false},
		{"0.333333333333 mm", "0.666666666667x", false},
	} {
		steps := read(`[{"code":"third","op":"quotient","operands":[{"name":"one","value":"1x"},{"name":"three","value":"3x"}],"value":"` + c.third + `"},` +
			`{"code":"most","op":"product","operands":[{"name":"third","value":"` + c.third + `","step":1},{"name":"two","value":"2x"}],"value":"` + c.most + `"}]`)
		if err := quoin.Replay(steps); (err == nil) != c.want {
			t.Errorf("%s and %s: %v", c.third, c.most, err)
		}
	}
}

// What is said of steps that cannot be read, and where.
func TestStepsRefused(t *testing.T) {
	const operand = `{"name":"x","value":"1x"}`
	for _, c := range []struct{ text, want string }{
		{`{"code":"c","op":"sum","operands":[` + operand + `],"value":"1x","new":[1]}`, ""},
		{`{"code":"c","op":"sums","operands":[],"value":"1x"}`, `fault op: found "sums", wanted one of sum, product, quotient, weighted, greatest, least, below; did you mean sum? [unknown_word]`},
		{`{"code":"c","op":"sum","operands":[],"value":"1x","at":"a b"}`, `fault at: found "a b", wanted a path such as channels[0].fees[1].rate [bad_path]`},
		{`{"code":"c","op":"sum","operands":[` + operand + `,{"name":"x","value":"one"}],"value":"1x"}`, `fault operands[1].value: found "one", wanted a figure such as 17.50, 7.4%, 0.5 sheet or 3.5x [not_a_number]`},
		{`{"code":"c","op":"sum","operands":[{"name":"x","value":"1x","path":"."}],"value":"1x"}`, `fault operands[0].path: found ".", wanted a path such as channels[0].fees[1].rate [bad_path]`},
		{`{"code":"c","op":"sum","operands":[{"name":"x","value":"1x","form":"mins"}],"value":"1x"}`, `fault operands[0].form: found "mins", wanted one of minus, one_plus, one_minus; did you mean minus? [unknown_word]`},
		{
			`{"code":"c","op":"sum","operands":[{"name":"x","value":"1x","step":-1}],"value":"1x"}`,
			"fault operands[0].step: found an operand that is the value of no step before, wanted the number of a step before it, counted from 1 [bad_step]",
		},
		{`{"code":"c","op":"sum","operands":[],"value":""}`, `fault value: found "", wanted a figure such as 17.50, 7.4%, 0.5 sheet or 3.5x [not_a_number]`},
		{`{"code":"c","op":"sum","operands":[],"value":"1x","before":"1.5x"}`, "fault found a step that rounds, wanted before, rounding, and places from 0 on [bad_step]"},
		{`{"code":"c","op":"sum","operands":[],"value":"1x","places":0}`, "fault found a step that rounds, wanted before, rounding, and places from 0 on [bad_step]"},
		{`{"code":"c","op":"sum","operands":[],"value":"1x","rounding":"up"}`, "fault found a step that rounds, wanted before, rounding, and places from 0 on [bad_step]"},
		{`{"code":"c","op":"sum","operands":[],"value":"1x","before":"1.5x","places":-1,"rounding":"up"}`, "fault found a step that rounds, wanted before, rounding, and places from 0 on [bad_step]"},
		{`{"code":"c","op":"sum","operands":[],"value":"1x","before":"?","places":0,"rounding":"up"}`, `fault before: found "?", wanted a figure such as 17.50, 7.4%, 0.5 sheet or 3.5x [not_a_number]`},
		{`{"code":"c","op":"sum","operands":[],"value":"1x","before":"1.5x","places":0,"rounding":"ups"}`, `fault rounding: found "ups", wanted one of half_up, half_even, half_down, up, down; did you mean up? [unknown_word]`},
		{`{"code":"c","op":"sum","operands":[],"value":"2x","before":"1.5x","places":0,"rounding":"up"}`, ""},
		{`{"code":5}`, "fault code: found JSON of another kind, number, wanted a step as it is written [bad_step]"},
		{`{"operands":[{"name":5}]}`, `fault op: found "", wanted one of sum, product, quotient, weighted, greatest, least, below [unknown_word]`},
		{`{"op":"sum","operands":[{"name":5}],"value":"1x"}`, "fault operands[0].name: found JSON of another kind, number, wanted a step as it is written [bad_step]"},
	} {
		s := quoin.Step{Code: "kept"}
		err := s.UnmarshalJSON([]byte(c.text))
		if got := problemtest.Full(err); got != c.want || err != nil && s.Code != "kept" || err == nil && s.Code != "c" {
			t.Errorf("%s: %s\n%s\nwant\n%s", c.text, s.Code, got, c.want)
		}
	}
	for _, c := range []struct{ text, want string }{
		{`[]`, ""},
		{`{}`, `fault found "{}", wanted a list of steps [bad_step]`},
		{`[] []`, "fault found more after a list of steps, wanted nothing behind it [bad_step]"},
		{`[{"code":"c","op":"sum","operands":[],"value":"1x"},{"op":"x"}]`, `fault [1].op: found "x", wanted one of sum, product, quotient, weighted, greatest, least, below [unknown_word]`},
		{
			`[{"code":"c","op":"sum","operands":[{"name":"x","value":"1x","step":1}],"value":"1x"}]`,
			"fault [0].operands[0].step: found an operand that is the value of no step before, wanted the number of a step before it, counted from 1 [bad_step]",
		},
	} {
		var j quoin.Journal
		if got := problemtest.Full(j.UnmarshalJSON([]byte(c.text))); got != c.want || j.Len() != 0 {
			t.Errorf("%s: %d steps\n%s\nwant\n%s", c.text, j.Len(), got, c.want)
		}
	}
}

func TestStepsInALine(t *testing.T) {
	trail := quoin.NewTrail(3).On("Cotton rag")
	price, prints := quoin.Given("price", quoin.Path{}, quoin.MustAmount("77.40").Figure()), quoin.FactorOf(27).Named("prints")
	trail.Rounded(2, quoin.HalfUp, trail.Quotient("unit_cost", quoin.InList("supplies", 0), price, quoin.FactorOf(2).Named("two"), prints))
	trail.Rounded(2, quoin.Down, trail.On("").Sum("sum", quoin.Path{}, price.Minus()))
	trail.Sum("nothing", quoin.Path{})
	for i, want := range []string{
		"unit_cost of supplies[0] (Cotton rag): quotient of price 77.40, two 2 and prints 27 is 5.733333333333, rounded half_up to 5.73",
		"sum: sum of price minus 77.40 is -77.40",
		"nothing: sum of nothing is 0",
	} {
		s := trail.Steps()[i]
		if got := s.String(); got != want {
			t.Errorf("%s, want %s", got, want)
		}
		if off := s.RoundingDifference(); off.Factor().String() != []string{"-0.003333333333", "0", "0"}[i] || off.Kind() != s.Value.Kind() {
			t.Errorf("%s was rounded by %s", s, off)
		}
	}
	if got := (quoin.Arg{Name: "n", Value: "2"}).String(); got != "n 2" {
		t.Error(got)
	}
}
