package quoin_test

import (
	"encoding/json"
	"errors"
	"fmt"

	"example.com/quoin"
)

// All figures here are those of an invented artist who sells linocuts of marsh
// birds; the fees and prices are invented too.

func Example() {
	paper := quoin.MustAmount("62.00").Over(quoin.FactorOf(48)) // a pack of 48 sheets
	one := paper.Times(quoin.MustFactor("0.5"))                 // half a sheet
	price := quoin.MustAmount("24.00")
	fee := price.Part(quoin.MustRate("7.4%"))

	// 62.00 ÷ 48 = 1.291666…, half of it 0.6458333…; 7.4% of 24.00 is 1.776.
	fmt.Printf("paper for one %.4f, fee %.2f\n", one, fee)
	fmt.Printf("left of the price %.2f\n", price.Sub(fee).Sub(one))
	// Output:
	// paper for one 0.6458, fee 1.78
	// left of the price 21.58
}

func ExampleParseAmount() {
	for _, text := range []string{"17.50", "17,50", "17.123456789"} {
		a, err := quoin.ParseAmount(text)
		var p quoin.Problem
		if errors.As(err, &p) {
			fmt.Println(p.Code)
			continue
		}
		fmt.Println(a)
	}
	// Output:
	// 17.50
	// not_a_number
	// too_fine
}

func ExampleAmountOf() {
	fmt.Println(quoin.AmountOf(1750, 2)) // 1750 cents
	// Output: 17.50
}

func ExampleAmount() {
	// Twelve cards at 1.15 and a print: 12 × 1.15 = 13.80, and 24.00 more.
	total := quoin.MustAmount("1.15").Times(quoin.FactorOf(12)).Add(quoin.MustAmount("24.00"))
	fmt.Println(total)
	fmt.Println(total.Equal(quoin.MustAmount("37.8")), total.Cmp(quoin.MustAmount("40")))
	// Output:
	// 37.80
	// true -1
}

// A quotient that had to be cut is compared and rounded at 12 places, so what is
// divided and multiplied again is no cent more.
func ExampleAmount_Over() {
	third := quoin.MustAmount("20.00").Over(quoin.FactorOf(3))
	fmt.Println(third)
	fmt.Println(third.Times(quoin.FactorOf(3)).Round(2, quoin.Up))
	// Output:
	// 6.666666666667
	// 20.00
}

// A tax of 18% in a price of 25.00 is 25.00 × 0.18 ÷ 1.18 = 3.81355…
func ExampleAmount_Round() {
	tax := quoin.MustRate("18%")
	in := quoin.MustAmount("25.00").Part(tax).Over(tax.OnePlus())
	fmt.Println(in.Round(2, quoin.HalfUp), in.Round(2, quoin.Up), in.Round(0, quoin.Down))
	// Output: 3.81 3.82 3
}

// Cost of goods is 8.40 of a price of 24.00: 8.40 ÷ 24.00 = 0.35, and the price
// is 24.00 ÷ 8.40 = 2.857… times the cost.
func ExampleAmount_Share() {
	goods, price := quoin.MustAmount("8.40"), quoin.MustAmount("24.00")
	fmt.Println(goods.Share(price))
	fmt.Printf("%.3f\n", price.Ratio(goods))
	// Output:
	// 35%
	// 2.857
}

// A price of 17.35 in steps of 0.50: 34 of them are 17.00.
func ExampleAmount_Mod() {
	fmt.Println(quoin.MustAmount("17.35").Mod(quoin.MustAmount("0.50")))
	// Output: 0.35
}

// Postage of 10.00 for three prints: two cannot be 3.333…, so the cent left over
// goes to the first. By size, 1 : 2 : 4, the quotas are 1.42857…, 2.85714… and
// 5.71428…; rounded down they leave two cents, for the largest remainders
// (0.857 and 0.714 of a cent, against 0.428).
func ExampleAmount_Split() {
	postage := quoin.MustAmount("10.00")
	one := quoin.FactorOf(1)
	alike, _ := postage.Split(2, one, one, one)
	bySize, _ := postage.Split(2, one, quoin.FactorOf(2), quoin.FactorOf(4))
	fmt.Println(alike)
	fmt.Println(bySize)
	_, err := quoin.MustAmount("10.005").Split(2, one, one)
	fmt.Println(err)
	// Output:
	// [3.34 3.33 3.33]
	// [1.43 2.86 5.71]
	// found 10.005, wanted a whole number of units; round the amount first [not_splittable]
}

func ExampleAmount_Format() {
	a := quoin.MustAmount("17.5")
	fmt.Printf("[%v] [%.2f] [%8.2f] [%-8s] [%+.1f]\n", a, a, a, a, a)
	// Output: [17.5] [17.50] [   17.50] [17.5    ] [+17.5]
}

func ExampleAmount_UnmarshalJSON() {
	var line struct{ Price, Postage quoin.Amount }
	err := json.Unmarshal([]byte(`{"price": 17.50, "postage": "6.20"}`), &line)
	fmt.Println(line.Price, line.Postage, err)
	// Output: 17.50 6.20 <nil>
}

func ExampleParseRate() {
	for _, text := range []string{"7.4%", "0.074", "7.4"} {
		r, err := quoin.ParseRate(text)
		fmt.Println(r, err)
	}
	// Output:
	// 7.4% <nil>
	// 7.4% <nil>
	// 0% found "7.4", wanted a fraction from 0 to 1, or a percentage with its sign; write 7.4% if 7.4 percent was meant [bare_percentage]
}

// Half off, and 10% off what is left, is 55% off: 1 − 0.5 × 0.9.
func ExampleRate() {
	half, tenth := quoin.MustRate("50%"), quoin.MustRate("10%")
	left := half.Complement().Times(tenth.Complement())
	fmt.Println(left, left.Rate(), half.Add(tenth), tenth.Of(half), half.OnePlus())
	// Output: 0.45 45% 60% 5% 1.5
}

// An A4 print costs 1.4 times an A5 print, and an A3 print 1.4 times that:
// 1.4 × 1.4 = 1.96.
func ExampleFactor() {
	step := quoin.MustFactor("1.4")
	fmt.Println(step.Times(step), quoin.MustAmount("15.00").Times(step.Times(step)))
	// Output: 1.96 29.40
}

// Paper is bought by the kilogram and used by the gram; 14 in are 355.6 mm.
func ExampleQuantity_In() {
	q, _ := quoin.MustQuantity("0.25 kg").In("g")
	l, _ := quoin.MustQuantity("14 in").In("mm")
	fmt.Println(q, l)
	_, err := quoin.MustQuantity("2 sheet").In("mm")
	fmt.Println(err)
	// Output:
	// 250 g 355.6 mm
	// found "2 sheet", wanted a length, such as one in mm [unit_mismatch]
}

func ExampleParseQuantity() {
	q, err := quoin.ParseQuantity("0.5 sheet")
	fmt.Println(q.Number(), q.Unit(), err)
	_, err = quoin.ParseQuantity("0.5")
	fmt.Println(err)
	// Output:
	// 0.5 sheet <nil>
	// found "0.5", wanted a quantity such as 0.5 sheet; put a space and a unit word after the number [missing_unit]
}

// A roll of 15 m is cut to prints of 420 mm: 15000 ÷ 420 = 35.714…
func ExampleQuantity_Ratio() {
	n, err := quoin.MustQuantity("15 m").Ratio(quoin.MustQuantity("420 mm"))
	fmt.Println(n.Round(0, quoin.Down), err)
	// Output: 35 <nil>
}

func ExampleUnit() {
	fmt.Println(quoin.Unit("ml").Dimension(), quoin.Unit("l").Size(), quoin.Unit("tube").Dimension())
	// Output: volume 1000 tube
}

func ExampleCurrency() {
	a := quoin.MustAmount("17.505")
	for _, code := range []string{"EUR", "JPY", "KWD"} {
		c := quoin.MustCurrency(code)
		fmt.Println(c, c.Digits(), c.Minor(), c.Round(a, quoin.HalfUp))
	}
	// Output:
	// EUR 2 0.01 17.51
	// JPY 0 1 18
	// KWD 3 0.001 17.505
}

func ExampleRounding() {
	for _, how := range []quoin.Rounding{quoin.HalfUp, quoin.HalfEven, quoin.HalfDown, quoin.Up, quoin.Down} {
		fmt.Println(how, quoin.MustAmount("0.125").Round(2, how), quoin.MustAmount("-0.121").Round(2, how))
	}
	// Output:
	// half_up 0.13 -0.12
	// half_even 0.12 -0.12
	// half_down 0.12 -0.12
	// up 0.13 -0.13
	// down 0.12 -0.12
}

// Prices in steps of 0.50 up to 40.00: 80 of them. From 17.20 on the first is
// 17.50, the 35th.
func ExampleGrid() {
	g, err := quoin.NewGrid(quoin.MustAmount("0.50"), quoin.MustAmount("40.00"))
	i := g.Ceil(quoin.MustAmount("17.20"))
	fmt.Println(g.Len(), i, g.Price(i), g.Price(g.Floor(quoin.MustAmount("17.20"))), err)
	// Output: 80 35 17.50 17.00 <nil>
}

// Postage that is free from 0.00 on is not postage that is never free.
func ExampleOptional() {
	var never quoin.Optional[quoin.Amount]
	always := quoin.Some(quoin.MustAmount("0.00"))
	from, given := always.Get()
	fmt.Println(from, given, never.IsZero(), never.Or(quoin.MustAmount("60.00")))
	data, err := json.Marshal([]quoin.Optional[quoin.Amount]{never, always})
	fmt.Println(string(data), err)
	// Output:
	// 0.00 true true 60.00
	// [null,"0.00"] <nil>
}

func ExampleProblem() {
	_, err := quoin.ParseRounding("half_upp")
	var p quoin.Problem
	if errors.As(err, &p) {
		fmt.Println(p.Code, "–", p.Found, "–", p.Near)
	}
	p.Path, p.Line, p.Column = "channels[0].fees[1].rounding", 31, 17
	fmt.Println(p)
	// Output:
	// unknown_word – "half_upp" – half_up
	// 31:17: channels[0].fees[1].rounding: found "half_upp", wanted one of half_up, half_even, half_down, up, down; did you mean half_up? [unknown_word]
}

// Warnings alone are no error.
func ExampleProblems_Err() {
	found := quoin.Problems{{Code: "thin_paper", Severity: quoin.Warning, Found: "90 g/m2 may show through"}}
	fmt.Println(found.Err())
	found = append(found, quoin.Problem{Code: "no_ink", Severity: quoin.Fault, Path: "supplies", Wanted: "ink"})
	fmt.Println(found.Err())
	// Output:
	// <nil>
	// 90 g/m2 may show through [thin_paper]
	// supplies: wanted ink [no_ink]
}

func ExampleSize() {
	a3 := quoin.MustSize("A3")
	fmt.Println(a3, "has", a3.Area())
	image, err := a3.Grown(quoin.MustQuantity("-20 mm"))
	fmt.Println(image, err, image.Fits(a3), a3.Fits(image.Turned()))
	// Output:
	// 297 x 420 mm has 1247.4 cm2
	// 257 x 380 mm <nil> true false
}

func ExampleParseSize() {
	for _, s := range []string{"16 x 20 in", "8 1/2 x 11 in", "24in x 50ft", "SRA3", "A44"} {
		size, err := quoin.ParseSize(s)
		fmt.Println(size, err)
	}
	// Output:
	// 16 x 20 in <nil>
	// 8.5 x 11 in <nil>
	// 24 in x 50 ft <nil>
	// 320 x 450 mm <nil>
	//  found "A44", wanted a size such as "297 x 420 mm", "8 1/2 x 11 in" or "A3"; did you mean A4? [bad_size]
}

func ExampleNewSize() {
	_, err := quoin.NewSize(quoin.MustQuantity("297 mm"), quoin.MustQuantity("3 kg"))
	fmt.Println(err)
	// Output: found "3 kg", wanted a length above zero, such as 297 mm [bad_size]
}

func ExampleRange() {
	ink := quoin.Between(quoin.MustQuantity("0.6 ml"), quoin.MustQuantity("1.6 ml"))
	fmt.Println(ink.Low, "to", ink.High, ink.IsZero())
	// Output: 0.6 ml to 1.6 ml false
}

// A print of half the area at half the exponent costs 1 ÷ √2 of the price.
func ExampleFactor_Power() {
	half := quoin.MustFactor("0.5")
	fmt.Println(half.Power(quoin.MustFactor("0.5")).Round(6, quoin.HalfUp))
	fmt.Println(half.Power(quoin.MustFactor("3")))
	// Output:
	// 0.707107
	// 0.125
}

// A Problem is found by errors.As and errors.Is, alone, among Problems, and in what
// wraps them.
func ExampleProblems() {
	_, price := quoin.ParseAmount("17,50")
	_, fee := quoin.ParseRate("7.4")
	found := quoin.Problems{
		quoin.InField("price").Locate(price).(quoin.Problem),
		quoin.InList("fees", 0).Field("rate").Locate(fee).(quoin.Problem),
	}
	err := fmt.Errorf("spring list: %w", found.Err())

	var first quoin.Problem
	if errors.As(err, &first) {
		fmt.Println(first.Path, first.Code)
	}
	fmt.Println(errors.Is(err, quoin.Problem{Code: quoin.BarePercentage}))
	fmt.Println(errors.Is(err, quoin.Problem{Code: quoin.BarePercentage, Path: "price"}))
	// Output:
	// price not_a_number
	// true
	// false
}
