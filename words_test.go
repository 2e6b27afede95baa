package quoin_test

import (
	"fmt"
	"math/big"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/cost"
)

// anyAmount draws money of either sign, from millionths to billions.
func anyAmount(t *rapid.T, name string) quoin.Amount {
	units := rapid.Int64Range(-1e15, 1e15).Draw(t, name)
	return quoin.AmountOf(units, rapid.IntRange(0, 8).Draw(t, name+" places"))
}

func anyFactor(t *rapid.T, name string) quoin.Factor {
	return anyAmount(t, name).Ratio(quoin.AmountOf(1, 0))
}

// aboveZero draws a factor to divide by.
func aboveZero(t *rapid.T, name string) quoin.Factor {
	return quoin.FactorOf(rapid.Int64Range(1, 1e9).Draw(t, name)).Times(quoin.MustFactor("0.0001"))
}

// Sums of fractions, each in a number of its own.
func plus(x, y *big.Rat) *big.Rat  { return new(big.Rat).Add(x, y) }
func minus(x, y *big.Rat) *big.Rat { return new(big.Rat).Sub(x, y) }
func times(x, y *big.Rat) *big.Rat { return new(big.Rat).Mul(x, y) }
func over(x, y *big.Rat) *big.Rat  { return new(big.Rat).Quo(x, y) }

// floored returns the whole number at or below x, and what is above it.
func floored(x *big.Rat) (*big.Int, *big.Rat) {
	n := new(big.Int).Div(x.Num(), x.Denom())
	return n, minus(x, new(big.Rat).SetInt(n))
}

// asCompared is what a quotient is compared as: 12 places, half to even; a
// quotient that came out even stays.
func asCompared(got, exact *big.Rat) *big.Rat {
	if got.Cmp(exact) == 0 {
		return exact
	}
	trillion := big.NewRat(1e12, 1)
	n, rest := floored(times(exact, trillion))
	if c := rest.Cmp(big.NewRat(1, 2)); c > 0 || c == 0 && n.Bit(0) == 1 {
		n.Add(n, big.NewInt(1))
	}
	return over(new(big.Rat).SetInt(n), trillion)
}

func TestSumsAndProductsAreExact(t *testing.T) {
	one := big.NewRat(1, 1)
	rapid.Check(t, func(t *rapid.T) {
		a, b := anyAmount(t, "a"), anyAmount(t, "b")
		f, g := anyFactor(t, "f"), anyFactor(t, "g")
		r, s := f.Rate(), g.Rate()
		x, y, u, v := a.Rat(), b.Rat(), f.Rat(), g.Rat()
		for _, c := range []struct {
			what      string
			got, want *big.Rat
		}{
			{"a + b", a.Add(b).Rat(), plus(x, y)},
			{"a − b", a.Sub(b).Rat(), minus(x, y)},
			{"−a", a.Neg().Rat(), minus(new(big.Rat), x)},
			{"a × f", a.Times(f).Rat(), times(x, u)},
			{"r of a", a.Part(r).Rat(), times(x, u)},
			{"f + g", f.Add(g).Rat(), plus(u, v)},
			{"f − g", f.Sub(g).Rat(), minus(u, v)},
			{"f × g", f.Times(g).Rat(), times(u, v)},
			{"r + s", r.Add(s).Rat(), plus(u, v)},
			{"r − s", r.Sub(s).Rat(), minus(u, v)},
			{"r of s", r.Of(s).Rat(), times(u, v)},
			{"1 + r", r.OnePlus().Rat(), plus(one, u)},
			{"1 − r", r.Complement().Rat(), minus(one, u)},
			{"r as factor", r.Factor().Rat(), u},
		} {
			if c.got.Cmp(c.want) != 0 {
				t.Fatalf("%s is %s, want %s", c.what, c.got, c.want)
			}
		}
	})
}

func TestAmountOf(t *testing.T) {
	for _, c := range []struct {
		units  int64
		places int
		want   string
	}{
		{1750, 2, "17.50"}, {-5, 3, "-0.005"}, {0, 2, "0.00"}, {7, 0, "7"}, {7, -3, "7"}, {1, 1000, "0." + strings.Repeat("0", 63) + "1"},
	} {
		if got := quoin.AmountOf(c.units, c.places).String(); got != c.want {
			t.Errorf("%d units of %d places are %s, want %s", c.units, c.places, got, c.want)
		}
	}
}

func TestQuotientsComeBack(t *testing.T) {
	digits := new(big.Rat).SetFrac(big.NewInt(1), new(big.Int).Exp(big.NewInt(10), big.NewInt(33), nil))
	rapid.Check(t, func(t *rapid.T) {
		a, f := anyAmount(t, "a"), aboveZero(t, "f")
		b := quoin.AmountOf(1, 0).Times(f)
		exact := over(a.Rat(), f.Rat())
		for what, got := range map[string]*big.Rat{
			"a ÷ f": a.Over(f).Rat(), "a ÷ b": a.Ratio(b).Rat(), "share": a.Share(b).Rat(), "factors": a.Ratio(quoin.AmountOf(1, 0)).Over(f).Rat(),
		} {
			off := minus(got, exact)
			if off.Abs(off).Cmp(times(new(big.Rat).Abs(exact), digits)) > 0 {
				t.Fatalf("%s: %s ÷ %s is %s, not right to 34 digits", what, a, f, got.FloatString(40))
			}
		}
		if back := a.Over(f).Times(f); !back.Equal(a) || back.Cmp(a.Add(quoin.AmountOf(1, 8))) != -1 || !back.Sub(a).IsZero() {
			t.Fatalf("%s ÷ %s × %s compares as %s", a, f, f, back)
		}
		want := asCompared(a.Over(f).Rat(), exact)
		if got := a.Over(f).Snap(); got.Rat().Cmp(want) != 0 {
			t.Fatalf("%s ÷ %s is compared as %s, want %s", a, f, got, want.FloatString(20))
		}
	})
}

func TestQuotientsAreComparedTo12Places(t *testing.T) {
	back := quoin.MustAmount("20").Over(quoin.FactorOf(3)).Times(quoin.FactorOf(3))
	if got := back.Round(2, quoin.Up).String(); got != "20.00" {
		t.Errorf("3 × (20 ÷ 3) rounds up to %s, want 20.00", got)
	}
	if got := back.String(); got != "20" {
		t.Errorf("3 × (20 ÷ 3) is written %s, want 20", got)
	}
	// A number that was never divided keeps all its places, and is rounded once.
	if got := quoin.MustFactor("0.0049999999999999").Round(2, quoin.HalfUp).String(); got != "0" {
		t.Errorf("0.0049999999999999 rounds to %s, want 0", got)
	}
}

func TestDividingByZeroPanics(t *testing.T) {
	a, f := quoin.MustAmount("17.50"), quoin.MustFactor("3.5")
	for what, divide := range map[string]func(){
		"amount over": func() { a.Over(quoin.Factor{}) }, "ratio": func() { a.Ratio(quoin.Amount{}) }, "share": func() { a.Share(quoin.Amount{}) },
		"mod": func() { a.Mod(quoin.Amount{}) }, "factor over": func() { f.Over(quoin.Factor{}) },
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s 0 does not panic", what)
				}
			}()
			divide()
		}()
	}
}

func TestOrderIsThatOfFractions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := anyAmount(t, "a")
		b := a.Add(quoin.AmountOf(rapid.Int64Range(-2, 2).Draw(t, "apart"), 8))
		f, g := a.Ratio(quoin.AmountOf(1, 0)), b.Ratio(quoin.AmountOf(1, 0))
		want, sign := a.Rat().Cmp(b.Rat()), a.Rat().Sign()
		if a.Cmp(b) != want || f.Cmp(g) != want || f.Rate().Cmp(g.Rate()) != want {
			t.Fatalf("order of %s and %s: %d, %d, %d, want %d", a, b, a.Cmp(b), f.Cmp(g), f.Rate().Cmp(g.Rate()), want)
		}
		if a.Equal(b) != (want == 0) || f.Equal(g) != (want == 0) || f.Rate().Equal(g.Rate()) != (want == 0) {
			t.Fatalf("%s and %s: equal is %t", a, b, a.Equal(b))
		}
		if a.Sign() != sign || f.Sign() != sign || f.Rate().Sign() != sign || a.IsZero() != (sign == 0) || f.IsZero() != (sign == 0) || f.Rate().IsZero() != (sign == 0) {
			t.Fatalf("the sign of %s is %d, want %d", a, a.Sign(), sign)
		}
	})
}

func TestRoundingLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := anyAmount(t, "a")
		places := rapid.IntRange(0, 4).Draw(t, "places")
		how := rapid.SampledFrom([]quoin.Rounding{quoin.HalfUp, quoin.HalfEven, quoin.HalfDown, quoin.Up, quoin.Down}).Draw(t, "how")
		got := a.Round(places, how)
		scale := new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil))
		units, whole := times(got.Rat(), scale), times(new(big.Rat).Abs(a.Rat()), scale)
		n, rest := floored(whole)
		tie := rest.Cmp(big.NewRat(1, 2))
		if how == quoin.Up && rest.Sign() > 0 || how == quoin.HalfUp && tie >= 0 || how == quoin.HalfDown && tie > 0 || how == quoin.HalfEven && (tie > 0 || tie == 0 && n.Bit(0) == 1) {
			n.Add(n, big.NewInt(1))
		}
		if a.Sign() < 0 {
			n.Neg(n)
		}
		if units.Cmp(new(big.Rat).SetInt(n)) != 0 {
			t.Fatalf("%s to %d places, %s: %s, want %s units", a, places, how, got, n)
		}
		one := quoin.AmountOf(1, 0)
		if f := a.Ratio(one).Round(places, how); !f.Equal(got.Ratio(one)) {
			t.Fatalf("as a factor %s rounds to %s, as an amount to %s", a, f, got)
		}
		// A rate is rounded as it is written, in per cent.
		percent := a.Share(one).Round(places).Factor().Times(quoin.FactorOf(100))
		if want := a.Times(quoin.FactorOf(100)).Round(places, quoin.HalfUp).Ratio(one); !percent.Equal(want) {
			t.Fatalf("as a rate %s rounds to %s per cent, want %s", a, percent, want)
		}
	})
}

func TestModIsWhatIsLeft(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := anyAmount(t, "a")
		b := quoin.AmountOf(rapid.Int64Range(1, 1e6).Draw(t, "b"), 3)
		for _, by := range []quoin.Amount{b, b.Neg()} {
			rest := a.Mod(by)
			if gone := over(minus(a.Rat(), rest.Rat()), by.Rat()); !gone.IsInt() {
				t.Fatalf("%s mod %s is %s, which takes it %s times", a, by, rest, gone)
			}
			if abs := new(big.Rat).Abs(rest.Rat()); abs.Cmp(b.Rat()) >= 0 || rest.Sign()*a.Sign() < 0 {
				t.Fatalf("%s mod %s is %s", a, by, rest)
			}
		}
	})
}

// Numbers past 128 bits are kept elsewhere in memory than short ones, where a
// copy could share them with the original.
func TestOperandsStayAsTheyAre(t *testing.T) {
	wide := quoin.MustFactor("123456789012.1234567890123456")
	wider := wide.Times(wide)
	for _, c := range []struct {
		name string
		a, b quoin.Amount
		f    quoin.Factor
	}{
		{"short", quoin.MustAmount("-17.50"), quoin.MustAmount("4.25"), quoin.MustFactor("3.5")},
		{"past 128 bits", quoin.MustAmount("-987654321098.12345678").Times(wider), quoin.MustAmount("0.00000444").Times(wider), wider},
		{"quotients", quoin.MustAmount("-20").Over(quoin.FactorOf(3)), quoin.MustAmount("10").Over(quoin.FactorOf(7)), wide.Over(quoin.FactorOf(3))},
	} {
		a, b, f := c.a, c.b, c.f
		r := f.Rate()
		before := fmt.Sprint(a.Rat(), b.Rat(), f.Rat(), r.Rat())
		scribbled := a
		for what, do := range map[string]func(){
			"add": func() { a.Add(b) }, "sub": func() { a.Sub(b) }, "neg": func() { a.Neg() }, "times": func() { a.Times(f) }, "part": func() { a.Part(r) },
			"over": func() { a.Over(f) }, "ratio": func() { a.Ratio(b) }, "share": func() { a.Share(b) }, "mod": func() { a.Mod(b) },
			"cmp": func() { a.Cmp(b) }, "snap": func() { a.Snap() }, "round": func() { a.Round(1, quoin.Up) }, "round no place": func() { a.Round(60, quoin.Up) },
			"factors": func() { f.Add(f).Sub(f).Times(f).Over(f).Round(2, quoin.Down) }, "rates": func() { r.Add(r).Sub(r).Of(r).Round(2) },
			"one plus": func() { r.OnePlus(); r.Complement() }, "write": func() { _ = fmt.Sprintf("%v %.2f %s %+.1f", a, b, f, r) },
			"fraction": func() { x := a.Rat(); x.Neg(x).Add(x, x) }, "split": func() { _, _ = a.Split(60, f, f) },
			"read over a copy": func() { _ = scribbled.UnmarshalText([]byte("1")) }, "scan over a copy": func() { _ = scribbled.Scan(int64(2)) },
		} {
			do()
			if after := fmt.Sprint(a.Rat(), b.Rat(), f.Rat(), r.Rat()); after != before {
				t.Fatalf("%s: %s changes its operands from %s to %s", c.name, what, before, after)
			}
		}
		if !scribbled.Equal(quoin.MustAmount("2")) && !scribbled.Equal(quoin.MustAmount("1")) {
			t.Errorf("%s: what was read over is %s", c.name, scribbled)
		}
	}
}

var dimensions = [][]quoin.Unit{
	{"m", "cm", "mm", "in", "ft"}, {"m2", "cm2", "in2"}, {"l", "ml"}, {"kg", "g", "oz", "lb"}, {"h", "min", "s"}, {"sheet"},
}

// Law 5: changing units changes no money.
func TestUnitsThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		units := rapid.SampledFrom(dimensions).Draw(t, "dimension")
		u, v := rapid.SampledFrom(units).Draw(t, "u"), rapid.SampledFrom(units).Draw(t, "v")
		number := quoin.FactorOf(rapid.Int64Range(-1e9, 1e9).Draw(t, "number")).Times(quoin.MustFactor("0.000001"))
		q := quoin.MustQuantity("1 " + string(u)).Times(number)
		converted, err := q.In(v)
		if err != nil {
			t.Fatal(err)
		}
		back, err := converted.In(u)
		if err != nil || !back.Number().Equal(number) || back.Unit() != u {
			t.Fatalf("%s is %s is %s, %v", q, converted, back, err)
		}
		if !converted.Equal(q) || converted.Unit() != v || !converted.Number().Times(v.Size()).Equal(number.Times(u.Size())) {
			t.Fatalf("%s is not %s", q, converted)
		}
		ratio, err := q.Ratio(quoin.MustQuantity("1 " + string(v)))
		if err != nil || !ratio.Equal(converted.Number()) {
			t.Fatalf("%s are %s times 1 %s, %v", q, ratio, v, err)
		}
		more := q.Times(quoin.MustFactor("1.000001"))
		if c, err := more.Cmp(converted); err != nil || c != number.Sign() {
			t.Fatalf("%s is compared with %s as %d, %v", more, converted, c, err)
		}
		perU := cost.UnitCost{Amount: quoin.AmountOf(rapid.Int64Range(0, 1e8).Draw(t, "cost"), 4), Unit: u}
		perV := cost.UnitCost{Amount: perU.Amount.Times(v.Size()).Over(u.Size()), Unit: v}
		want := perU.Amount.Times(number)
		for _, c := range []struct {
			unit cost.UnitCost
			q    quoin.Quantity
		}{{perU, q}, {perU, converted}, {perV, q}, {perV, converted}} {
			if got, err := c.unit.Of(c.q); err != nil || !got.Equal(want) {
				t.Fatalf("%s at %s a %s cost %s, %v, want %s", c.q, c.unit.Amount, c.unit.Unit, got, err, want)
			}
		}
	})
}

func TestDimensionsDoNotMeet(t *testing.T) {
	for i, units := range dimensions {
		for j, others := range append(slices.Clone(dimensions), []quoin.Unit{"tube"}) {
			if i == j {
				continue
			}
			q, p := quoin.MustQuantity("2 "+string(units[0])), quoin.MustQuantity("2 "+string(others[0]))
			_, in := q.In(p.Unit())
			_, ratio := q.Ratio(p)
			_, cmp := q.Cmp(p)
			_, of := cost.UnitCost{Amount: quoin.AmountOf(1, 0), Unit: p.Unit()}.Of(q)
			for what, err := range map[string]error{"in": in, "ratio": ratio, "cmp": cmp, "cost": of} {
				if problem, ok := err.(quoin.Problem); !ok || problem.Code != quoin.UnitMismatch {
					t.Errorf("%s of %s and %s: %v, want %s", what, q, p, err, quoin.UnitMismatch)
				}
			}
			if q.Equal(p) {
				t.Errorf("%s equals %s", q, p)
			}
		}
	}
	if _, err := quoin.MustQuantity("1 sheet").Ratio(quoin.MustQuantity("0 sheet")); err == nil {
		t.Error("nothing goes into a sheet without an error")
	}
}

func TestCurrencies(t *testing.T) {
	for _, c := range []struct{ code, minor, rounded string }{
		{"EUR", "0.01", "17.51"}, {"JPY", "1", "18"}, {"KWD", "0.001", "17.505"},
	} {
		currency := quoin.MustCurrency(c.code)
		if got := currency.Minor().String(); got != c.minor {
			t.Errorf("the minor unit of %s is %s, want %s", currency, got, c.minor)
		}
		if got := currency.Round(quoin.MustAmount("17.5050"), quoin.HalfUp).String(); got != c.rounded {
			t.Errorf("17.5050 %s rounds to %s, want %s", currency, got, c.rounded)
		}
		if currency.IsZero() || !currency.Equal(quoin.MustCurrency(c.code)) || currency.Equal(quoin.MustCurrency("CHF")) {
			t.Errorf("%s is not itself alone", currency)
		}
	}
	if none := (quoin.Currency{}); !none.IsZero() || none.Digits() != 2 || none.String() != "" {
		t.Errorf("no currency is %q with %d digits", none, none.Digits())
	}
}

func TestOptional(t *testing.T) {
	var none quoin.Optional[quoin.Amount]
	some, same, zero := quoin.Some(quoin.MustAmount("17.5")), quoin.Some(quoin.MustAmount("17.50")), quoin.Some(quoin.Amount{})
	if _, given := none.Get(); given || !none.IsZero() {
		t.Error("the zero value was given")
	}
	if v, given := zero.Get(); !given || !v.IsZero() || zero.IsZero() {
		t.Error("zero was not given")
	}
	if got := none.Or(quoin.MustAmount("3")).String(); got != "3" {
		t.Errorf("none or 3 is %s", got)
	}
	if got := zero.Or(quoin.MustAmount("3")).String(); got != "0" {
		t.Errorf("0 or 3 is %s", got)
	}
	for _, c := range []struct {
		a, b quoin.Optional[quoin.Amount]
		want bool
	}{{none, none, true}, {some, same, true}, {none, zero, false}, {zero, none, false}, {some, zero, false}} {
		if got := c.a.Equal(c.b); got != c.want {
			t.Errorf("%v equals %v: %t, want %t", c.a, c.b, got, c.want)
		}
	}
	if !quoin.Some(int64(3)).Equal(quoin.Some(int64(3))) || quoin.Some(int64(3)).Equal(quoin.Some(int64(4))) {
		t.Error("values without an Equal method are compared by something else than ==")
	}
}

func TestComparedByEqual(t *testing.T) {
	type priced struct {
		Price quoin.Amount
		Fee   quoin.Rate
		Step  quoin.Factor
		Paper quoin.Quantity
		Limit quoin.Optional[quoin.Amount]
		In    quoin.Currency
	}
	of := func(price, fee, step, paper, limit string) priced {
		return priced{quoin.MustAmount(price), quoin.MustRate(fee), quoin.MustFactor(step), quoin.MustQuantity(paper), quoin.Some(quoin.MustAmount(limit)), quoin.MustCurrency("EUR")}
	}
	a := of("17.5", "7.4%", "1.4", "1 in", "80")
	if diff := cmp.Diff(a, of("17.50", "0.0740", "1.40", "25.4 mm", "80.00")); diff != "" {
		t.Errorf("the same in other digits differs:\n%s", diff)
	}
	for _, b := range []priced{
		of("17.51", "7.4%", "1.4", "1 in", "80"), of("17.5", "6.6%", "1.4", "1 in", "80"), of("17.5", "7.4%", "1.41", "1 in", "80"),
		of("17.5", "7.4%", "1.4", "1 ft", "80"), of("17.5", "7.4%", "1.4", "1 in", "81"),
	} {
		if cmp.Equal(a, b) {
			t.Errorf("%v and %v do not differ", a, b)
		}
	}
}
