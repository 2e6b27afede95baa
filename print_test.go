package quoin_test

import (
	"encoding"
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
)

// TestEveryWordPrints: %v of every type says what it is, also of one that is empty.
func TestEveryWordPrints(t *testing.T) {
	amount, nowhere := quoin.MustAmount("17.50"), quoin.Path{}
	grid, err := quoin.NewGrid(quoin.MustAmount("0.50"), quoin.MustAmount("20"))
	if err != nil {
		t.Fatal(err)
	}
	price := quoin.Given("price", quoin.InField("price"), quoin.MustAmount("62.00").Figure())
	trail := quoin.NewTrail(1)
	unit := trail.On("Cotton rag").Quotient("unit_cost", quoin.InList("supplies", 0), price, quoin.FactorOf(48).Named("sheets"))
	trail.Rounded(2, quoin.HalfUp, unit)
	trail.On("").Sum("sum", nowhere, price, price, price.Minus())
	var journal quoin.Journal
	journal.Add(trail.Steps())
	step := trail.Steps()[0]
	for _, c := range []struct {
		value any
		want  string
	}{
		{amount, "17.50"},
		{quoin.Amount{}, "0"},
		{quoin.MustRate("7.4%"), "7.4%"},
		{quoin.Rate{}, "0%"},
		{quoin.MustFactor("3.5"), "3.5"},
		{quoin.MustQuantity("0.5 sheet"), "0.5 sheet"},
		{quoin.Quantity{}, "0"},
		{quoin.Unit("sheet"), "sheet"},
		{quoin.MustSize("A4"), "210 x 297 mm"},
		{quoin.MustCurrency("EUR"), "EUR"},
		{quoin.PerOrder, "order"},
		{quoin.HalfEven, "half_even"},
		{quoin.Rounding(77), "Rounding(77)"},
		{[]quoin.Rounding{77}, "[Rounding(77)]"},
		{quoin.Some(amount), "17.50"},
		{quoin.Optional[quoin.Amount]{}, "none"},
		{quoin.Some(quoin.Between(amount, amount)), "17.50 to 17.50"},
		{quoin.Between(amount, quoin.MustAmount("18.50")), "17.50 to 18.50"},
		{quoin.Between[int64](3, 5), "3 to 5"},
		{grid, "0.50 to 20.00 in steps of 0.50"},
		{quoin.Grid{}, "no prices"},
		{quoin.InList("channels", 0).Sub("fees", 1).Field("rate"), "channels[0].fees[1].rate"},
		{nowhere, ""},
		{amount.Figure(), "17.50"},
		{quoin.MustRate("5%").Figure(), "5%"},
		{quoin.IsAmount, "amount"},
		{price, "price 62.00"},
		{price.OneMinus(), "price one_minus 62.00"},
		{quoin.Operand{}, "0"},
		{step, "unit_cost of supplies[0] (Cotton rag): quotient of price 62.00 and sheets 48 is 1.291666666667, rounded half_up to 1.29"},
		{trail.Steps()[1], "sum: sum of price 62.00, price 62.00 and price minus 62.00 is 62.00"},
		{[]quoin.Step{{Code: "empty", Op: quoin.OpSum}}, "[empty: sum of nothing is 0]"},
		{&journal, "2 steps"},
		{journal, "2 steps"},
		{trail, "2 steps"},
		{quoin.NewTrail(0), "0 steps"},
		{&quoin.Journal{}, "0 steps"},
		{quoin.Problem{Code: quoin.TooFine, Path: "price", Found: "0.123"}, "price: found 0.123 [too_fine]"},
		{quoin.Problems{{Code: quoin.TooFine}, {Code: quoin.TooLong}}, " [too_fine]\n [too_long]"},
		{quoin.Arg{Name: "price", Value: "17.50"}, "price 17.50"},
	} {
		if got := fmt.Sprintf("%v", c.value); got != c.want {
			t.Errorf("%T prints as %q, want %q", c.value, got, c.want)
		}
	}
}

// TestAppendedText is the text, behind what stands there, and takes no memory of its own.
func TestAppendedText(t *testing.T) {
	third := quoin.MustAmount("20").Over(quoin.FactorOf(3))
	room := make([]byte, 0, 200)
	for _, v := range []interface {
		encoding.TextAppender
		encoding.TextMarshaler
	}{
		quoin.MustAmount("-17.50"), third, quoin.MustRate("7.4%"), third.Ratio(quoin.MustAmount("7")).Rate(), quoin.MustFactor("0.0035"),
		quoin.MustQuantity("0.5 sheet"),
		quoin.Quantity{},
		quoin.MustSize("24 in x 50 ft"), quoin.MustSize("A4"),
		quoin.Size{},
		quoin.MustCurrency("EUR"), quoin.HalfEven, third.Figure(), quoin.MustRate("5%").Figure(), quoin.MustQuantity("3 g").Figure(),
		quoin.InList("channels", 0).Sub("orders", 1).Sub("codes", 2).Field("share"), quoin.InList("a", 0).Field("A 4"),
	} {
		text, err := v.MarshalText()
		if err != nil {
			t.Fatal(err)
		}
		if got, err := v.AppendText(append(room, "x "...)); err != nil || string(got) != "x "+string(text) {
			t.Errorf("%T: %q, %v, want %q behind x", v, got, err, text)
		}
		if n := testing.AllocsPerRun(20, func() { _, _ = v.AppendText(room) }); n != 0 {
			t.Errorf("%T %s takes %.0f allocations", v, text, n)
		}
	}
	if text, err := quoin.Rounding(77).AppendText([]byte("x ")); codeOf(err) != quoin.UnknownWord || string(text) != "x " {
		t.Errorf("no rounding is written %q, %v", text, err)
	}
}

// TestFloats: the float is the one that the compiler makes of the same digits.
func TestFloats(t *testing.T) {
	for got, want := range map[float64]float64{
		quoin.MustAmount("17.50").Float64(): 17.5, quoin.MustRate("7.4%").Float64(): 0.074, quoin.MustFactor("-3.1").Float64(): -3.1,
		quoin.MustQuantity("0.1 sheet").Float64(): 0.1, quoin.MustAmount("20").Over(quoin.FactorOf(3)).Float64(): 20.0 / 3, quoin.Amount{}.Float64(): 0,
	} {
		if got != want {
			t.Errorf("%v, want %v", got, want)
		}
	}
	huge := quoin.FactorOf(math.MaxInt64)
	for range 5 {
		huge = huge.Times(huge)
	}
	if !math.IsInf(huge.Float64(), 1) {
		t.Errorf("beyond 10^308 is %v", huge.Float64())
	}
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Int64Range(-1<<53, 1<<53).Draw(t, "n") // all of which are floats
		if got := quoin.FactorOf(n).Float64(); got != float64(n) {
			t.Fatalf("%d is %v", n, got)
		}
	})
}
