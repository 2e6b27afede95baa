package decimal

import (
	"math"
	"strings"
	"testing"
)

// What is written after the point: sums have the most digits of their parts, products and quotients
// those of their first number, and more only where they are not 0.
func TestDigitsAfterThePoint(t *testing.T) {
	long := num(t, "10000000000000000000000000000000000000000") // 10^40
	cut := func(s string) Decimal { x, _ := num(t, s).AsCut(); return x }
	for what, c := range map[string]struct {
		x    Decimal
		want string
	}{
		"a sum":                             {num(t, "1.50").Add(num(t, "1")), "2.50"},
		"a sum the other way":               {num(t, "1").Add(num(t, "1.50")), "2.50"},
		"a difference":                      {num(t, "2").Sub(num(t, "0.500")), "1.500"},
		"a long sum":                        {long.Add(num(t, "0.50")), long.String() + ".50"},
		"a product":                         {num(t, "24.00").Mul(num(t, "0.075")), "1.80"},
		"a product the other way":           {num(t, "0.075").Mul(num(t, "24.00")), "1.800"},
		"a long product":                    {long.Mul(num(t, "1.50")), "15000000000000000000000000000000000000000"},
		"a long product the other way":      {num(t, "1.50").Mul(long), "15000000000000000000000000000000000000000.00"},
		"two long numbers":                  {num(t, "12345678901234567890.00").Mul(num(t, "12345678901234567890")), "152415787532388367501905199875019052100.00"},
		"two that go beyond 128 bits":       {num(t, "92345678901234567890.00").Mul(num(t, "92345678901234567890")), "8527724411729919229901905199875019052100.00"},
		"two that go beyond, the other way": {num(t, "92345678901234567890").Mul(num(t, "92345678901234567890.00")), "8527724411729919229901905199875019052100"},
		"a quotient":                        {num(t, "20.00").Quo(num(t, "32")), "0.625"},
		"a quotient with its places":        {num(t, "20.00").Quo(num(t, "4")), "5.00"},
		"nothing by something":              {num(t, "0.00").Quo(num(t, "4")), "0.00"},
		"a third":                           {num(t, "20.00").Quo(num(t, "3")), "6.666666666667"},
		"a third with many places":          {New(1, 0).Quo(New(3, 0)).WithPlaces(34), "0.333333333333" + strings.Repeat("0", 22)},
		"three thirds":                      {num(t, "20.00").Quo(num(t, "3")).Mul(num(t, "3")), "20.00"},
		"three thirds, snapped":             {num(t, "20.00").Quo(num(t, "3")).Mul(num(t, "3")).Snap(), "20.00"},
		"a half of what was cut":            {cut("0.5000"), "0.5"},
		"a whole number that was cut":       {cut("5"), "5"},
		"by 1, as it is":                    {num(t, "17.50").Quo(New(1, 0)), "17.50"},
		"a sum of quotients":                {num(t, "1").Quo(num(t, "3")).Add(num(t, "1.50")), "1.833333333333"},
		"without zeros":                     {num(t, "17.500").Trim(), "17.5"},
		"without the point":                 {num(t, "17.00").Trim(), "17"},
		"tens":                              {New(17, 2).Trim(), "1700"},
		"nothing":                           {num(t, "0.000").Trim(), "0"},
		"a long one without zeros":          {num(t, "12345678901234567890123456789012345678901.500").Trim(), "12345678901234567890123456789012345678901.5"},
		"a long one without any behind":     {num(t, "12345678901234567890123456789012345678900.00").Trim(), "12345678901234567890123456789012345678900"},
		"more places":                       {num(t, "7.5").WithPlaces(2), "7.50"},
		"no fewer than there are":           {num(t, "7.525").WithPlaces(2), "7.525"},
		"but zeros":                         {num(t, "7.500").WithPlaces(2), "7.50"},
		"none":                              {num(t, "7.00").WithPlaces(0), "7"},
		"none below 0":                      {num(t, "7.00").WithPlaces(-1), "7"},
		"as many as there can be":           {num(t, "7").WithPlaces(64), "7." + strings.Repeat("0", 64)},
		"no more":                           {num(t, "7").WithPlaces(65), "7." + strings.Repeat("0", 64)},
		"a power of ten":                    {New(1, 64), "1" + strings.Repeat("0", 64)},
		"the greatest exponent":             {New(1, 65), "1" + strings.Repeat("0", 64)},
		"the least":                         {New(1, -64), "0." + strings.Repeat("0", 63) + "1"},
		"none below":                        {New(-1, -65), "-0." + strings.Repeat("0", 63) + "1"},
		"all of 64 bits":                    {New(math.MinInt64, 0), "-9223372036854775808"},
		"20 digits":                         {num(t, "12345678901234567890"), "12345678901234567890"},
		"zeros within":                      {num(t, "10000000000000000000.00000000000000001"), "10000000000000000000.00000000000000001"},
		"a root":                            {New(4, 0).Pow(New(5, -1)), "2"},
		"10^9.3 of a million, which is 10^0.8…":  {New(1_000_000, 0).Pow(New(93, -1)), "6309573444801932494343601366223439" + strings.Repeat("0", 22)},
		"a power with an exponent that is whole": {num(t, "1.50").Pow(New(2, 0)), "2.25"},
	} {
		if got := c.x.String(); got != c.want {
			t.Errorf("%s is written %s, want %s", what, got, c.want)
		}
		_, after, _ := strings.Cut(c.want, ".")
		if got := c.x.Places(); got != len(after) {
			t.Errorf("%s has %d places, want %d", what, got, len(after))
		}
	}
}

// Dividing by 1 is nothing to do, by what only looks like it is.
func TestByOne(t *testing.T) {
	x, long := num(t, "17.50"), num(t, "12345678901234567890123456789012345678901.5")
	if got := x.Quo(New(1, 0)); !got.Identical(&x) {
		t.Errorf("17.50 ÷ 1 is %+v", got)
	}
	if got := long.Quo(New(1, 0)); !got.Identical(&long) {
		t.Errorf("%s ÷ 1 is %s", long, got)
	}
	one, _ := New(1, 0).AsCut()
	for _, c := range []struct {
		by    Decimal
		want  string
		exact bool
	}{{New(-1, 0), "-17.50", true}, {New(10, 0), "1.75", true}, {New(1, 1), "1.75", true}, {New(100, -2), "17.50", true}, {New(1, -1), "175.00", true}, {one, "17.50", false}} {
		if got := x.Quo(c.by); got.String() != c.want && got.Digits() != c.want || got.Exact() != c.exact {
			t.Errorf("17.50 ÷ %s is %s, exact %t, want %s", c.by, got, got.Exact(), c.want)
		}
	}
	by := num(t, "12345678901234567890123456789012345678901.5")
	if got := long.Quo(by); got.Cmp(New(1, 0)) != 0 || !got.Exact() {
		t.Errorf("a long number by itself is %s", got)
	}
	for what, divide := range map[string]func() Decimal{
		"quotient": func() Decimal { return x.Quo(New(0, 0)) }, "rest": func() Decimal { return x.Rem(New(0, -2)) },
	} {
		func() {
			defer func() {
				if said := recover(); said != "decimal: division by zero" {
					t.Errorf("a %s by 0 says %v", what, said)
				}
			}()
			t.Errorf("a %s by 0 is %s", what, divide())
		}()
	}
}

// Digits that a person may write, as many as are allowed and no more.
func TestBoundsOfText(t *testing.T) {
	zeros := func(n int) string { return strings.Repeat("0", n) }
	for _, c := range []struct {
		in            string
		whole, places int
		want          string
		fault         Fault
	}{
		{"123456789012", 12, 8, "123456789012", OK},
		{"1234567890123", 12, 8, "", TooLarge},
		{"0.12345678", 12, 8, "0.12345678", OK},
		{"0.123456789", 12, 8, "", TooFine},
		{"0000000000000000017.50", 12, 8, "17.50", OK},
		{"0.5", 0, 8, "0.5", OK},
		{"1.5", 0, 8, "", TooLarge},
		{"1e30", 40, 2, "1" + zeros(30), OK},
		{"1e-30", 2, 40, "0." + zeros(29) + "1", OK},
		{"1e+3", 12, 8, "1000", OK},
		{"1e-+3", 12, 8, "", NotANumber},
		{"1e--3", 12, 8, "", NotANumber},
		{"1e+-3", 12, 8, "", NotANumber},
		{"e5", 12, 8, "", NotANumber},
		{"1e12", 12, 8, "", TooLarge},
		{"1e11", 12, 8, "1" + zeros(11), OK},
		{"12e-8", 12, 8, "0.00000012", OK},
		{"12e-9", 12, 8, "", TooFine},
		{"1234.5e-2", 12, 8, "12.345", OK},
		{"1234.5e2", 12, 8, "123450", OK},
		{"0.00125e2", 12, 8, "0.125", OK},
		{"0.00125e4", 12, 8, "12.5", OK},
		{zeros(62) + "17", 12, 8, "17", OK},     // 64 bytes
		{zeros(63) + "17", 12, 8, "", TooLong},  // 65
		{zeros(80) + "17", 50, 30, "17", OK},    // 82 = 2 + 50 + 30
		{zeros(81) + "17", 50, 30, "", TooLong}, // 83
		{"-" + zeros(79) + "17", 30, 50, "-17", OK},
	} {
		got, fault := Parse(c.in, c.whole, c.places, true)
		if fault != c.fault || fault == OK && got.String() != c.want || fault != OK && got.Made() {
			t.Errorf("%s of %d and %d digits: %s, fault %d, want %s, fault %d", c.in, c.whole, c.places, got, fault, c.want, c.fault)
		}
	}
	for _, c := range [][3]int{{12, 8, 64}, {40, 22, 64}, {40, 23, 65}, {1000, 1000, 2002}} { // a minus, a point and the digits
		if got := Longest(c[0], c[1]); got != c[2] {
			t.Errorf("%d and %d digits are at most %d bytes, want %d", c[0], c[1], got, c[2])
		}
	}
	if x, ok := Written("17.5", 4); !ok || x.String() != "17.5" {
		t.Errorf("four bytes of four: %s, %t", x, ok)
	}
	if x, ok := Written("17.5", 3); ok || x.Made() {
		t.Errorf("four bytes of three: %s", x)
	}
}

// About how many digits a number takes: those of 128 bits or a third of its bits, and its exponent.
func TestSpan(t *testing.T) {
	long := num(t, "1267650600228229401496703205376000000000000000") // of 150 bits
	for _, c := range []struct {
		x    Decimal
		want int
	}{{New(5, 0), 38}, {New(5, 3), 41}, {New(5, -3), 41}, {long, 50}, {long.Shift(-2), 52}, {long.Shift(2), 52}} {
		if got := c.x.Span(); got != c.want {
			t.Errorf("%s spans %d, want %d", c.x, got, c.want)
		}
	}
}
