package quoin_test

import (
	"bytes"
	"encoding/json"
	"fmt"

	"example.com/quoin"
)

func ExamplePath() {
	fee := quoin.InList("channels", 0).Sub("fees", 1)
	fmt.Println(fee.Field("rate"))
	fmt.Println(quoin.InList("products", 2).Named("packing", "flat box", 0).Field("supply"))
	fmt.Println(fee.Field("rate").Within(quoin.InList("channels", 0)), quoin.InField("income_tax"))
	// Output:
	// channels[0].fees[1].rate
	// products[2].packing["flat box"][0].supply
	// true income_tax
}

// A third of 4.00 is 1.333…; Long shows that digits were cut, Round is for a
// person.
func ExampleFigure() {
	third := quoin.MustAmount("4.00").Over(quoin.FactorOf(3)).Figure()
	fmt.Println(third, third.Long(), third.Round(2))
	fmt.Println(quoin.MustRate("7.4%").Figure().Kind(), quoin.MustQuantity("0.5 sheet").Figure())
	// Output:
	// 1.333333333333 ≈1.33333333 1.33
	// rate 0.5 sheet
}

// trail explains a fee of 7.4% of 24.99 and 0.27: 24.99 × 0.074 = 1.84926, with
// 0.27 it is 2.11926, rounded 2.12; and what is left of the price.
func trail() []quoin.Step {
	at := quoin.InList("channels", 0).Sub("fees", 0)
	t := quoin.NewTrail(3).On("commission")
	price := quoin.Given("price", quoin.Path{}, quoin.MustAmount("24.99").Figure())
	rated := t.Product("rated", at, price, quoin.Given("rate", at.Field("rate"), quoin.MustRate("7.4%").Figure()))
	fixed := quoin.GivenOr("fixed", at.Field("fixed"), quoin.MustAmount("0.27").Figure(), false)
	fee := t.Rounded(2, quoin.HalfUp, t.Sum("fee", at, rated, fixed))
	t.On("").Sum("left", quoin.Path{}, price, fee.Minus())
	return t.Steps()
}

func ExampleTrail() {
	for i, s := range trail() {
		fmt.Println(i+1, s.Code, s.Op, s.Before, s.Value, s.RoundingDifference())
	}
	// Output:
	// 1 rated product 1.84926 1.84926 0.00
	// 2 fee sum 2.11926 2.12 0.00074
	// 3 left sum 22.87 22.87 0.00
}

// An explanation can be checked by whoever receives it.
func ExampleReplay() {
	steps := trail()
	fmt.Println(quoin.Replay(steps))
	steps[0].Value = quoin.MustAmount("1.85").Figure()
	fmt.Println(quoin.Replay(steps) != nil)
	// Output:
	// <nil>
	// true
}

// What was stored can be checked years later.
func ExampleReplay_stored() {
	text, err := json.Marshal(trail())
	fmt.Println(len(text) > 0, err)
	var steps []quoin.Step
	fmt.Println(json.Unmarshal(text, &steps), quoin.Replay(steps))
	err = json.Unmarshal(bytes.Replace(text, []byte(`"value":"24.99"`), []byte(`"value":"24.98"`), 1), &steps)
	fmt.Println(err, quoin.Replay(steps))
	// Output:
	// true <nil>
	// <nil> <nil>
	// <nil> step 1, rated of channels[0].fees[0]: its operands come to 1.84852, not 1.84926
}

func ExampleFind() {
	fmt.Println(quoin.Find(trail(), func(s quoin.Step) bool { return s.Subject == "commission" }))
	// Output: [1 2]
}

// What is left rests on the fee, which rests on what was rated.
func ExampleAncestors() {
	fmt.Println(quoin.Ancestors(trail(), 2), quoin.Ancestors(trail(), 3))
	// Output: [1 2] [1 2 3]
}

// The fixed part of the fee was not given, so the fee and what is left of the
// price rest on a default.
func ExampleOnDefault() {
	fmt.Println(quoin.OnDefault(trail()))
	// Output: [2 3]
}

// A discount of 10% is used as 1 − 10%: 24.00 × 0.9 = 21.60.
func ExampleOperand_OneMinus() {
	price := quoin.Given("price", quoin.InField("price"), quoin.MustAmount("24.00").Figure())
	discount := quoin.Given("discount", quoin.InField("discount"), quoin.MustRate("10%").Figure()).OneMinus()
	sold := quoin.NewTrail(1).Product("sold", quoin.Path{}, price, discount)
	fmt.Println(discount.Form, discount.Value, sold.Value.Round(2), sold.Step, discount.Neutral(quoin.OpProduct))
	// Output: one_minus 10% 21.60 1 false
}

// A sheet gives eight pieces; what one of them takes of it is explained before
// what it costs.
func ExampleTrail_Rests() {
	quantity := quoin.InField("quantity")
	trail := quoin.NewTrail(2)
	trail.Rests(map[quoin.Path]quoin.Origin{quantity: func(t *quoin.Trail) quoin.Operand {
		return t.Quotient("per_piece", quantity, quoin.Given("one", quoin.Path{}, quoin.FactorOf(1).Figure()),
			quoin.Given("pieces", quoin.InField("pieces"), quoin.FactorOf(8).Figure()))
	}})
	price := quoin.Given("price", quoin.InField("price"), quoin.MustAmount("4.00").Figure())
	trail.Product("line_cost", quoin.Path{}, price, trail.Given("quantity", quantity, quoin.Figure{}))
	for _, s := range trail.Steps() {
		fmt.Println(s.Code, s.Value.Round(2))
	}
	// Output:
	// per_piece 0.125
	// line_cost 0.50
}

func ExamplePath_Locate() {
	_, err := quoin.ParseRate("7.4")
	fmt.Println(quoin.InList("channels", 0).Sub("fees", 1).Field("rate").Locate(err))
	// Output: channels[0].fees[1].rate: found "7.4", wanted a fraction from 0 to 1, or a percentage with its sign; write 7.4% if 7.4 percent was meant [bare_percentage]
}

func ExampleFactor_Named() {
	t := quoin.NewTrail(1)
	width := quoin.Given("width", quoin.InField("width"), quoin.MustFactor("500").Figure())
	fmt.Println(t.Quotient("inches", quoin.InField("width"), width, quoin.MustFactor("25.4").Named("mm in 1 in")).Value)
	// Output: 19.685039370079
}
