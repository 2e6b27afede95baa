package quoin_test

import (
	"testing"

	"example.com/quoin"
)

// A figure that rests on others is explained where it is first needed, and
// once; what is made of it goes on from that step.
func TestTrailRests(t *testing.T) {
	quantity, sheet := quoin.InField("quantity"), quoin.InField("sheet")
	trail := quoin.NewTrail(4)
	asked := 0
	trail.Rests(map[quoin.Path]quoin.Origin{quantity: func(t *quoin.Trail) quoin.Operand {
		asked++
		one := quoin.Given("one", quoin.Path{}, quoin.FactorOf(1).Figure())
		return t.On("cutting").Quotient("per_piece", quantity, one, t.Given("pieces", sheet, quoin.FactorOf(8).Figure()))
	}})
	trail.On("paper")
	price := quoin.Given("price", quoin.InField("price"), quoin.MustAmount("4.00").Figure())
	for range 2 {
		trail.Product("cost", quoin.Path{}, price, trail.Given("quantity", quantity, quoin.FactorOf(9).Figure()))
	}
	steps := trail.Steps()
	if asked != 1 || len(steps) != 3 || !steps[1].Value.Equal(quoin.MustAmount("0.50").Figure()) {
		t.Fatalf("asked %d times, %d steps, %v", asked, len(steps), steps)
	}
	if steps[0].Subject != "cutting" || steps[1].Subject != "paper" {
		t.Errorf("the steps are about %q and %q", steps[0].Subject, steps[1].Subject)
	}
	if o := steps[2].Operands[1]; o.Step != 1 || o.Name != "quantity" {
		t.Errorf("the quantity is %+v", o)
	}
	if o := steps[0].Operands[1]; o.Step != 0 || !o.Path.Equal(sheet) {
		t.Errorf("what has no origin is %+v", o)
	}
	if _, ok := trail.Rested("pieces", sheet); ok {
		t.Error("what has no origin rests on something")
	}
	if err := quoin.Replay(steps); err != nil {
		t.Error(err)
	}
}
