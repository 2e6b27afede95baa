package quoin_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/internal/problemtest"
)

// Each operation, of each kind of figure: money stays money, money by money is a plain number, and all
// else is one too.
func TestOperations(t *testing.T) {
	price, five, rate := quoin.Given("price", quoin.InField("price"), quoin.MustAmount("12.00").Figure()), quoin.FactorOf(5).Named("five"), quoin.Given("rate", quoin.Path{}, quoin.MustRate("25%").Figure())
	fee, sheets := quoin.Given("fee", quoin.Path{}, quoin.MustAmount("3.00").Figure()), quoin.Given("sheets", quoin.Path{}, quoin.MustQuantity("4 sheet").Figure())
	at := quoin.InList("fees", 1)
	trail := quoin.NewTrail(0).On("card")
	for _, c := range []struct {
		of   func() quoin.Operand
		want string
	}{
		{func() quoin.Operand { return trail.Sum("a", at, price, fee.Minus(), fee) }, "a fees[1] (card): sum price 12.00 @price, fee minus 3.00, fee 3.00 = 12.00"},
		{func() quoin.Operand { return trail.Sum("b", at, five, rate) }, "b fees[1] (card): sum five 5x, rate 25% = 5.25x"},
		{func() quoin.Operand { return trail.Sum("c", at) }, "c fees[1] (card): sum = 0x"},
		{func() quoin.Operand { return trail.Product("d", at, five, rate, price) }, "d fees[1] (card): product five 5x, rate 25%, price 12.00 @price = 15.00"},
		{func() quoin.Operand { return trail.Product("e", at, rate.OnePlus(), rate.OneMinus()) }, "e fees[1] (card): product rate one_plus 25%, rate one_minus 25% = 0.9375x"},
		{func() quoin.Operand { return trail.Product("f", at, sheets) }, "f fees[1] (card): product sheets 4 sheet = 4x"},
		{func() quoin.Operand { return trail.Quotient("g", at, price, five, sheets) }, "g fees[1] (card): quotient price 12.00 @price, five 5x, sheets 4 sheet = 15.00"},
		{func() quoin.Operand { return trail.Quotient("h", at, price, fee) }, "h fees[1] (card): quotient price 12.00 @price, fee 3.00 = 4x"},
		{func() quoin.Operand { return trail.Quotient("i", at, five, quoin.FactorOf(0).Named("none")) }, "i fees[1] (card): quotient five 5x, none 0x = 0x"},
		{func() quoin.Operand { return trail.Quotient("j", at, rate.OneMinus()) }, "j fees[1] (card): quotient rate one_minus 25% = 1.333333333333x"},
		{func() quoin.Operand { return trail.Weighted("k", at, price, five, fee, rate) }, "k fees[1] (card): weighted price 12.00 @price, five 5x, fee 3.00, rate 25% = 60.75"},
		{func() quoin.Operand { return trail.Weighted("l", at, five, rate, five) }, "l fees[1] (card): weighted five 5x, rate 25%, five 5x = 1.25x"},
		{func() quoin.Operand { return trail.Greatest("m", at, fee, price, fee) }, "m fees[1] (card): greatest fee 3.00, price 12.00 @price, fee 3.00 = 12.00"},
		{func() quoin.Operand { return trail.Least("n", at, price, fee.Minus(), fee) }, "n fees[1] (card): least price 12.00 @price, fee minus 3.00, fee 3.00 = -3.00"},
		{func() quoin.Operand { return trail.Below("o", at, price, fee, five) }, "o fees[1] (card): below price 12.00 @price, fee 3.00, five 5x = 12.00"},
		{func() quoin.Operand { return trail.Below("p", at, price, five, five) }, "p fees[1] (card): below price 12.00 @price, five 5x, five 5x = 0.00"},
		{func() quoin.Operand { return trail.Below("q", at, price, five, fee) }, "q fees[1] (card): below price 12.00 @price, five 5x, fee 3.00 = 0.00"},
	} {
		o := c.of()
		last := trail.Steps()[len(trail.Steps())-1:]
		if got := problemtest.Steps(last); got != c.want+"\n" || o.Step != len(trail.Steps()) || o.Name != string(last[0].Code) || !o.Value.Equal(last[0].Value) {
			t.Errorf("%s%s, want %s", got, o, c.want)
		}
	}
	if got := trail.String(); got != "17 steps" {
		t.Error(got)
	}
	// The tenth has an operand alone, which is nothing to divide by; the twelfth one without a partner.
	if err := quoin.Replay(trail.Steps()[:9]); err != nil {
		t.Error(err)
	}
	for _, n := range []int{10, 12} {
		if quoin.Replay(trail.Steps()[:n]) == nil {
			t.Errorf("step %d replays", n)
		}
	}
}

// Steps keep what they were made of, however many follow.
func TestStepsKeepTheirOperands(t *testing.T) {
	for _, room := range []int{-1, 0, 1, 3, 10_001} {
		trail := quoin.NewTrail(room)
		for i := range int64(100) {
			trail.Sum("s", quoin.Path{}, quoin.FactorOf(i).Named("a"), quoin.FactorOf(2*i).Named("b"))
		}
		for i, s := range trail.Steps() {
			if got, want := s.Value.String(), fmt.Sprint(3*i); got != want || s.Operands[0].Value.String() != fmt.Sprint(i) || len(s.Operands) != 2 || cap(s.Operands) != 2 {
				t.Fatalf("room for %d: step %d is %s", room, i, s)
			}
		}
	}
}

// 1 rests on nothing, 2 on 1, 3 on a default, 4 on 2 and 3, 5 on 1.
func fiveSteps() []quoin.Step {
	trail := quoin.NewTrail(5)
	given, assumed := quoin.FactorOf(2).Named("given"), quoin.GivenOr("assumed", quoin.InField("x"), quoin.FactorOf(3).Figure(), false)
	first := trail.Sum("one", quoin.Path{}, given)
	second := trail.Product("two", quoin.Path{}, first, given)
	third := trail.Sum("three", quoin.Path{}, assumed)
	trail.Sum("four", quoin.Path{}, second, third)
	trail.Sum("five", quoin.Path{}, first)
	return trail.Steps()
}

func TestWaysThroughSteps(t *testing.T) {
	steps := fiveSteps()
	of := func(code quoin.StepCode) func(quoin.Step) bool {
		return func(s quoin.Step) bool { return s.Code == code }
	}
	for _, c := range []struct {
		what string
		got  []int
		want string
	}{
		{"all", quoin.Find(steps, nil), "[1 2 3 4 5]"},
		{"the fourth", quoin.Find(steps, of("four")), "[4]"},
		{"none", quoin.Find(steps, of("six")), "[]"},
		{"what the fourth uses", quoin.Ancestors(steps, 4), "[1 2 3 4]"},
		{"what the fifth uses", quoin.Ancestors(steps, 5), "[1 5]"},
		{"what the first and the third use", quoin.Ancestors(steps, 3, 1), "[1 3]"},
		{"of no such step", quoin.Ancestors(steps, 0, 6, -1), "[]"},
		{"of none", quoin.Ancestors(steps), "[]"},
		{"on defaults", quoin.OnDefault(steps), "[3 4]"},
		{"on defaults, of the first two", quoin.OnDefault(steps[:2]), "[]"},
	} {
		if got := fmt.Sprint(c.got); got != c.want {
			t.Errorf("%s: %s, want %s", c.what, got, c.want)
		}
	}
	// Numbers that no step has, or a later one, lead nowhere.
	steps[1].Operands[0].Step = 4
	steps[4].Operands[0].Step = -1
	if got := fmt.Sprint(quoin.Ancestors(steps, 2, 5), quoin.OnDefault(steps)); got != "[2 5] [3 4]" {
		t.Error(got)
	}
	steps[4].Operands[0].Step = 9
	if got := fmt.Sprint(quoin.Ancestors(steps, 5), quoin.OnDefault(steps)); got != "[5] [3 4]" {
		t.Error(got)
	}
}

func TestRoundedRefusals(t *testing.T) {
	said := func(do func(*quoin.Trail)) (text string) {
		defer func() { text = fmt.Sprint(recover()) }()
		do(quoin.NewTrail(1))
		return
	}
	two := quoin.FactorOf(2).Named("two")
	for want, do := range map[string]func(*quoin.Trail){
		`quoin: Trail.Rounded: "two" is the value of no step of this trail: round what Sum, Product and the like return`: func(t *quoin.Trail) { t.Rounded(0, quoin.Up, two) },
		`quoin: Trail.Rounded: "sum" is the value of no step of this trail: round what Sum, Product and the like return`: func(t *quoin.Trail) {
			quoin.NewTrail(1).Rounded(0, quoin.Up, t.Sum("sum", quoin.Path{}, two))
		},
		`quoin: Trail.Rounded: step 2 rests on step 1 already: round before that`: func(t *quoin.Trail) {
			sum := t.Sum("sum", quoin.Path{}, two)
			t.Sum("other", quoin.Path{}, two, sum)
			t.Rounded(0, quoin.Up, sum)
		},
		"<nil>": func(t *quoin.Trail) {
			sum := t.Sum("sum", quoin.Path{}, two)
			t.Sum("other", quoin.Path{}, two)
			t.Rounded(0, quoin.Up, sum)
		},
	} {
		if got := said(do); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
	const none = "quoin: a nil *Trail keeps no steps: NewTrail makes one that does"
	var nobody *quoin.Trail
	for what, do := range map[string]func(*quoin.Trail){
		"on": func(*quoin.Trail) { nobody.On("x") }, "rests": func(*quoin.Trail) { nobody.Rests(nil) }, "rested": func(*quoin.Trail) { nobody.Rested("x", quoin.Path{}) },
		"steps": func(*quoin.Trail) { nobody.Steps() }, "sum": func(*quoin.Trail) { nobody.Sum("x", quoin.Path{}) }, "rounded": func(*quoin.Trail) { nobody.Rounded(0, quoin.Up, two) },
	} {
		if got := said(do); got != none {
			t.Errorf("%s: %s", what, got)
		}
	}
}

// A silent trail computes the same, and keeps nothing.
func TestSilentOperations(t *testing.T) {
	loud, silent := quoin.NewTrail(4), quoin.Silent().On("nobody")
	price, three := quoin.Given("price", quoin.Path{}, quoin.MustAmount("10.00").Figure()), quoin.FactorOf(3).Named("three")
	for places := -1; places < 3; places++ {
		a := loud.Rounded(places, quoin.Up, loud.Quotient("q", quoin.Path{}, price, three))
		b := silent.Rounded(places, quoin.Up, silent.Quotient("q", quoin.Path{}, price, three))
		if !a.Value.Equal(b.Value) || a.Name != b.Name || b.Step != 0 || len(silent.Steps()) != 0 {
			t.Errorf("to %d places: %s and %s", places, a, b)
		}
	}
	if got := problemtest.Steps(loud.Steps()[1:2]); got != "q: quotient price 10.00, three 3x = 3.333333333333, up to 0: 4\n" {
		t.Error(got)
	}
}

// What changes nothing: 0 in a sum; 1, also as 1 + 0 or 1 − 0, in a product and a quotient.
func TestNeutralOperands(t *testing.T) {
	zero, one, two := quoin.FactorOf(0).Named("n"), quoin.FactorOf(1).Named("n"), quoin.FactorOf(2).Named("n")
	for _, c := range []struct {
		o    quoin.Operand
		op   quoin.Op
		want bool
	}{
		{zero, quoin.OpSum, true},
		{one, quoin.OpSum, false},
		{one, quoin.OpProduct, true},
		{one, quoin.OpQuotient, true},
		{zero, quoin.OpProduct, false},
		{two, quoin.OpQuotient, false},
		{zero.OnePlus(), quoin.OpProduct, true},
		{zero.OneMinus(), quoin.OpQuotient, true},
		{one.OnePlus(), quoin.OpProduct, false},
		{two.OneMinus(), quoin.OpProduct, false},
		{one, quoin.OpWeighted, false},
		{zero, quoin.OpGreatest, false},
		{one.Minus(), quoin.OpProduct, false},
		{zero.Minus(), quoin.OpSum, true},
	} {
		if got := c.o.Neutral(c.op); got != c.want {
			t.Errorf("%s in a %s is neutral: %t", c.o, c.op, got)
		}
	}
}
