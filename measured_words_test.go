package quoin_test

import (
	"encoding/hex"
	"fmt"
	"strings"
	"testing"
	"time"

	"example.com/quoin"
	"example.com/quoin/internal/problemtest"
)

// Days that there are, by package time, and their order.
func TestDates(t *testing.T) {
	for _, year := range []int{1, 4, 100, 400, 1900, 1996, 2000, 2023, 2024, 2100, 2400, 9999} {
		for month := range 14 {
			for _, day := range []int{0, 1, 28, 29, 30, 31, 32} {
				text := fmt.Sprintf("%04d-%02d-%02d", year, month, day)
				_, err := time.Parse("2006-01-02", text)
				d, got := quoin.ParseDate(text)
				if (err == nil) != (got == nil) || got == nil && d.String() != text || got != nil && !d.IsZero() {
					t.Errorf("%s: %s, %v, by package time %v", text, d, got, err)
				}
			}
		}
	}
	for _, text := range []string{"", "2026-3-01", "2026-03-1", "2026/03/01", "20260301", "2026-03-011", "+026-03-01", "2026-+3-01", "2026-03-0x", " 2026-03-01", "0000-01-01", "2026-03 01"} {
		if d, err := quoin.ParseDate(text); problemtest.Full(err) != "fault found "+fmt.Sprintf("%q", text)+", wanted a date such as 2026-03-01 [bad_date]" || !d.IsZero() {
			t.Errorf("%s: %s, %v", text, d, err)
		}
	}
	order := []string{"2025-12-31", "2026-01-01", "2026-01-02", "2026-02-01", "2027-01-01"}
	for i, a := range order {
		for j, b := range order {
			c, d := quoin.MustDate(a), quoin.MustDate(b)
			want := 0
			if i != j {
				want = map[bool]int{true: -1, false: 1}[i < j]
			}
			if c.Cmp(d) != want || c.Equal(d) != (i == j) {
				t.Errorf("%s and %s: %d, %t", a, b, c.Cmp(d), c.Equal(d))
			}
		}
	}
}

// Fractions as people write them, as whole numbers over others.
func TestFractionsAsWritten(t *testing.T) {
	for text, want := range map[string]string{ // as it is written, and the number
		"1/2 in": "0.5 in 1/2", "8 1/2 in": "8.5 in 17/2", "3 2/3 in": "3 2/3 in 11/3", "-3 2/3 in": "-3 2/3 in -11/3", "2/3 in": "2/3 in 2/3", "-1/3 in": "-1/3 in -1/3",
		"½ in": "0.5 in 1/2", "⅓ in": "1/3 in 1/3", "⅔ in": "2/3 in 2/3", "¼ in": "0.25 in 1/4", "¾ in": "0.75 in 3/4", "⅛ in": "0.125 in 1/8", "⅜ in": "0.375 in 3/8", "⅝ in": "0.625 in 5/8", "⅞ in": "0.875 in 7/8",
		"8½ in": "8.5 in 17/2", "8 ½ in": "8.5 in 17/2", "11⅓in": "11 1/3 in 34/3", "7/3 in": "2 1/3 in 7/3", "1/999 in": "1/999 in 1/999", "0 1/3 in": "1/3 in 1/3", "998/999 in": "998/999 in 998/999",
	} {
		q, err := quoin.ParseQuantity(text)
		if got := q.String() + " " + q.Rat().RatString(); err != nil || got != want {
			t.Errorf("%s is %s, %v, want %s", text, got, err, want)
		}
		var back quoin.Quantity
		if err := back.UnmarshalText([]byte(q.String())); err != nil || back.String() != q.String() || back.Rat().Cmp(q.Rat()) != 0 {
			t.Errorf("%s is read back as %s, %v", q, back, err)
		}
		data, _ := q.MarshalBinary()
		var again quoin.Quantity
		if err := again.UnmarshalBinary(data); err != nil || again.String() != q.String() || again.Rat().Cmp(q.Rat()) != 0 {
			t.Errorf("%s is stored as %x and read as %s, %v", q, data, again, err)
		}
	}
	for _, text := range []string{
		"1/0 in", "0/2 in", "3/3/3 in", "8 3/2 in", "8 2/2 in", "1/1000 in", "1000/1 in", "01/2 in", "1/02 in", "8 1/2in/", "1.5/2 in", "8.5 1/2 in", "8½½ in", "½½ in", "1/-2 in", "1/2", "/2 in", "1/ in", "81/2/ in", "8 1/2 3 in",
	} {
		if q, err := quoin.ParseQuantity(text); err == nil || q.IsGiven() {
			t.Errorf("%s is %s", text, q)
		}
	}
}

// The bytes of quantities by hand: a fraction's 255 and its lower number, the length of the unit, the
// unit, and the number: its flags, its exponent as a varint, its digits.
func TestQuantitiesInBytes(t *testing.T) {
	for text, want := range map[string]string{"0.5 in": "02696e" + "010105", "30 mm": "026d6d" + "01001e", "3 sheet": "05" + hex.EncodeToString([]byte("sheet")) + "010003"} {
		data, err := quoin.MustQuantity(text).MarshalBinary()
		if hex.EncodeToString(data) != want || err != nil {
			t.Errorf("%s: %x, want %s", text, data, want)
		}
	}
	third, _ := quoin.MustQuantity("1/3 in").MarshalBinary()
	if !strings.HasPrefix(hex.EncodeToString(third), "ff0003"+"02696e") {
		t.Errorf("%x", third)
	}
	for what, text := range map[string]string{
		"nothing": "", "a length alone": "02", "no number": "02696e", "half a fraction": "ff0003", "no unit, and a number": "00010003", "a plural": "06" + hex.EncodeToString([]byte("sheets")) + "010003",
		"a word of two": "03" + hex.EncodeToString([]byte("a b")) + "010003", "no third": "ff000302696e010003", "a third that is a half": "ff000302696e010105", "a half as a fraction": "ff000202696e010105", "a fraction of 256 more": "ff0103" + hex.EncodeToString(third[3:]),
		"a number of no unit": "00010103",
	} {
		data, err := hex.DecodeString(text)
		q := quoin.MustQuantity("7 mm")
		if got := q.UnmarshalBinary(data); err != nil || got == nil || q.String() != "7 mm" {
			t.Errorf("%s is read as %s, %v", what, q, err)
		}
	}
	var none quoin.Quantity
	data, err := none.MarshalBinary()
	q := quoin.MustQuantity("7 mm")
	if err != nil || q.UnmarshalBinary(data) != nil || q.IsGiven() {
		t.Errorf("no quantity is %x, and read as %s", data, q)
	}
}

// What cannot be converted, and what was most likely meant.
func TestMismatches(t *testing.T) {
	for _, c := range []struct{ q, unit, want string }{
		{"3 ml", "mm", `fault found "3 ml", wanted a length, such as one in mm [unit_mismatch]`},
		{"3 mn", "mm", `fault found "3 mn", wanted a length, such as one in mm; did you mean m? [unit_mismatch]`},
		{"3 mm", "sheet", `fault found "3 mm", wanted a quantity in sheet [unit_mismatch]`},
		{"3 seet", "sheet", `fault found "3 seet", wanted a quantity in sheet; did you mean sheet? [unit_mismatch]`},
		{"3 tube", "sheet", `fault found "3 tube", wanted a quantity in sheet [unit_mismatch]`},
		{"3 oz", "ml", `fault found "3 oz", wanted a volume, such as one in ml; oz is a mass; a volume is in us_fl_oz, of 29.5735 ml, or imp_fl_oz, of 28.4131 ml [unit_mismatch]`},
		{"3 oz", "mm", `fault found "3 oz", wanted a length, such as one in mm [unit_mismatch]`},
		{"3 mm", "inche", `fault found "3 mm", wanted a quantity in inche; inche is a unit that is counted; if in is meant, write in there [unit_mismatch]`},
		{"3 mm", "gsm", `fault found "3 mm", wanted a quantity in gsm [unit_mismatch]`},
	} {
		got, err := quoin.MustQuantity(c.q).In(quoin.Unit(c.unit))
		if said := problemtest.Full(err); said != c.want || got.IsGiven() {
			t.Errorf("%s in %s: %s of\n%s\nwant\n%s", c.q, c.unit, got, said, c.want)
		}
		other := quoin.Unit(c.unit).Times(quoin.FactorOf(1))
		if n, err := quoin.MustQuantity(c.q).Cmp(other); err == nil || n != 0 || quoin.MustQuantity(c.q).Equal(other) {
			t.Errorf("%s and %s: %d, %v", c.q, other, n, err)
		}
		if f, err := quoin.MustQuantity(c.q).Ratio(other); err == nil || f.IsGiven() {
			t.Errorf("%s by %s: %s, %v", c.q, other, f, err)
		}
	}
	if _, err := quoin.MustQuantity("3 mm").Ratio(quoin.MustQuantity("0 in")); problemtest.Full(err) != `fault found "0 in", wanted a quantity above zero [not_a_number]` {
		t.Error(err)
	}
}

// As long as a text may be, and no longer.
func TestLongestTexts(t *testing.T) {
	for _, n := range []int{64, 65} {
		text := "7" + strings.Repeat(" ", n-len("7sheet")) + "sheet"
		if q, err := quoin.ParseQuantity(text); (err == nil) != (n == 64) || err == nil && q.String() != "7 sheet" || err != nil && err.(quoin.Problem).Code != quoin.TooLong {
			t.Errorf("%d bytes: %s, %v", n, q, err)
		}
	}
	for _, n := range []int{96, 97} {
		text := "210 x" + strings.Repeat(" ", n-len("210 x297 mm")) + "297 mm"
		if s, err := quoin.ParseSize(text); (err == nil) != (n == 96) || err == nil && s.String() != "210 x 297 mm" {
			if n != 96 || err.(quoin.Problem).Code != quoin.BadSize { // the height alone has at most 64
				t.Errorf("%d bytes: %s, %v", n, s, err)
			}
		}
	}
	for n, want := range map[int]bool{32: true, 33: false} {
		if _, err := quoin.ParseQuantity("1 " + strings.Repeat("a", n)); (err == nil) != want {
			t.Errorf("a unit of %d letters: %v", n, err)
		}
	}
	for text, want := range map[string]bool{"a": true, "a1": true, "a-b": true, "a_b": true, "é": true, "1a": false, "-a": false, "_a": false, "a.b": false, "a b": false, "": false} {
		var u quoin.Unit
		if err := u.UnmarshalText([]byte(text)); (err == nil) != want || err != nil && problemtest.Full(err) != fmt.Sprintf("fault found %q, wanted a unit such as print [missing_unit]", text) {
			t.Errorf("%q: %s, %v", text, u, err)
		}
	}
	var u quoin.Unit
	if err := u.UnmarshalText([]byte("fl oz")); problemtest.Full(err) != `fault found "fl oz", wanted us_fl_oz, which is 29.5735 ml, or imp_fl_oz, which is 28.4131 ml; say whose fluid ounce it is, or give the volume in ml [ambiguous]` {
		t.Error(err)
	}
}

// 1.00 in thirds, sixths and sevenths: the cents that are left go to the largest remainders, of equal
// ones to the first (Hamilton's method).
func TestSplitsOfQuotients(t *testing.T) {
	third := quoin.MustAmount("1.00").Over(quoin.FactorOf(3))
	f := func(n ...int64) (out []quoin.Factor) {
		for _, k := range n {
			out = append(out, quoin.FactorOf(k))
		}
		return out
	}
	large := quoin.MustFactor("999999999999").Times(quoin.MustFactor("999999999999"))
	for _, c := range []struct {
		a       quoin.Amount
		places  int
		weights []quoin.Factor
		want    string
	}{
		{third.Times(quoin.FactorOf(3)), 2, f(1, 1, 1), "[0.34 0.33 0.33]"},
		{quoin.MustAmount("1.00"), 2, f(1, 2, 3), "[0.17 0.33 0.50]"}, // 16.67, 33.33 and 50
		{quoin.MustAmount("-1.00"), 2, f(1, 2, 3), "[-0.17 -0.33 -0.50]"},
		{quoin.MustAmount("1.00"), 2, []quoin.Factor{third.Ratio(quoin.MustAmount("1")), quoin.FactorOf(1)}, "[0.25 0.75]"}, // of 1/3 and 1, to 12 places
		{quoin.MustAmount("1.00"), 2, []quoin.Factor{large, large, large}, "[0.34 0.33 0.33]"},                              // beyond 64 bits
		{quoin.MustAmount("-1.00"), 2, []quoin.Factor{large, large.Times(quoin.FactorOf(2))}, "[-0.33 -0.67]"},
		{quoin.MustAmount("100"), -2, f(1, 2), "[33 67]"}, // not below whole ones
		{quoin.MustAmount("0.00"), 2, f(1, 2), "[0.00 0.00]"},
		{quoin.MustAmount("0.01"), 2, f(0, 1, 1), "[0.00 0.01 0.00]"},
	} {
		parts, err := c.a.Split(c.places, c.weights...)
		if got := fmt.Sprint(parts); got != c.want || err != nil {
			t.Errorf("%s: %s, %v, want %s", c.a, got, err, c.want)
		}
	}
	for want, c := range map[string]struct {
		a       string
		weights []quoin.Factor
	}{
		"fault found no weight, wanted at least one weight above 0 [not_splittable]":                 {"1.00", nil},
		"fault found no weight, wanted at least one weight above 0 [not_splittable] ":                {"1.00", f(0, 0)},
		"fault found a weight of -1, wanted weights of at least 0 [not_splittable]":                  {"1.00", f(2, -1)},
		"fault found 1.005, wanted a whole number of units; round the amount first [not_splittable]": {"1.005", f(1)},
		"fault found no weight, wanted at least one weight above 0 [not_splittable]  ":               {"1.005", f(0)},
	} {
		parts, err := quoin.MustAmount(c.a).Split(2, c.weights...)
		if got := problemtest.Full(err); got != strings.TrimRight(want, " ") || parts != nil {
			t.Errorf("%s: %v, %s, want %s", c.a, parts, got, want)
		}
	}
}

func TestMoreFormulas(t *testing.T) {
	cell := func(o quoin.Operand) string { return o.Name }
	a, b, c, d := quoin.FactorOf(2).Named("A1"), quoin.FactorOf(3).Named("B1"), quoin.FactorOf(4).Named("C1"), quoin.FactorOf(5).Named("D1")
	one := quoin.GivenOr("X1", quoin.Path{}, quoin.FactorOf(1).Figure(), false)
	for _, s := range []struct {
		op   quoin.Op
		of   []quoin.Operand
		want string
	}{
		{quoin.OpWeighted, []quoin.Operand{a, b, c, d}, "A1*B1+C1*D1"},
		{quoin.OpWeighted, []quoin.Operand{a, b, c}, "A1*B1"},
		{quoin.OpWeighted, []quoin.Operand{a, b}, "A1*B1"},
		{quoin.OpBelow, []quoin.Operand{a, b, c}, "IF(ROUND(B1-C1,9)<0,A1,0)"},
		{quoin.OpQuotient, []quoin.Operand{a, b, c}, "A1*B1/C1"},
		{quoin.OpQuotient, []quoin.Operand{one, c}, "1/C1"},
		{quoin.OpQuotient, []quoin.Operand{a, one}, "A1"},
		{quoin.OpQuotient, []quoin.Operand{one, one}, "1"},
		{quoin.OpProduct, []quoin.Operand{one, a, one}, "A1"},
		{quoin.OpProduct, nil, "0"},
		{quoin.OpSum, []quoin.Operand{one}, "X1"},
		{quoin.OpGreatest, []quoin.Operand{a, b}, "MAX(A1,B1)"},
		{quoin.OpLeast, []quoin.Operand{a, b.Minus()}, "MIN(A1,(-B1))"},
		{quoin.OpSum, []quoin.Operand{a.OnePlus(), b.OneMinus()}, "(1+A1)+(1-B1)"},
	} {
		if got := (quoin.Step{Op: s.op, Operands: s.of}).Formula(cell); got != s.want {
			t.Errorf("%s of %v: %s, want %s", s.op, s.of, got, s.want)
		}
	}
}

// What nobody keeps is asked as well.
func TestOnceOnNoTrail(t *testing.T) {
	defer func() {
		if said := recover(); said != "quoin: a nil *Trail keeps no steps: NewTrail makes one that does" {
			t.Error(said)
		}
	}()
	if got := quoin.NewTrail(1).Once(quoin.Path{}, nil); got != nil {
		t.Error(got)
	}
	if got := quoin.NewTrail(1).Once(quoin.Path{}, func() any { return 7 }); got != 7 {
		t.Error(got)
	}
	var nobody *quoin.Trail
	nobody.Once(quoin.Path{}, func() any { return 7 })
}
