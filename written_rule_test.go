package quoin_test

import (
	"testing"

	"example.com/quoin"
)

// How numbers are written: money with the digits that it was given, built or rounded with,
// and more only where they are not zeros; all else without zeros behind.
func TestHowNumbersAreWritten(t *testing.T) {
	money, rate, factor := quoin.MustAmount, quoin.MustRate, quoin.MustFactor
	trail, nowhere := quoin.NewTrail(4), quoin.Path{}
	price := quoin.Given("price", nowhere, money("0.60").Figure())
	for _, c := range []struct {
		what string
		got  interface{ String() string }
		want string
	}{
		{"as given", money("17.5"), "17.5"},
		{"zeros too", money("17.50"), "17.50"},
		{"cents, built", quoin.AmountOf(1750, 2), "17.50"},
		{"a sum of 17.5 and 0.50", money("17.5").Add(money("0.50")), "18.00"},
		{"a difference that is nothing", money("0.50").Sub(money("0.5")), "0.00"},
		{"24.00 × 7.5%, which is 1.80000", money("24.00").Part(rate("7.5%")), "1.80"},
		{"24.00 × 7.4%", money("24.00").Part(rate("7.4%")), "1.776"},
		{"24.00 × 1.000", money("24.00").Times(factor("1.000")), "24.00"},
		{"20.00 ÷ 32", money("20.00").Over(factor("32")), "0.625"},
		{"20.00 ÷ 40", money("20.00").Over(factor("40")), "0.50"},
		{"3 × (20.00 ÷ 3)", money("20.00").Over(factor("3")).Times(factor("3")), "20.00"},
		{"rounded to cents", money("17.5").Round(2, quoin.HalfUp), "17.50"},
		{"rounded to whole units", money("17.50").Round(0, quoin.HalfUp), "18"},
		{"money of two digits", money("7.5").WithPlaces(2), "7.50"},
		{"money of none", money("7.00").WithPlaces(0), "7"},
		{"the same, of 7.50", money("7.50").WithPlaces(0), "7.5"},
		{"past 128 bits", money("987654321098.10").Times(factor("1.0000000000000001")).Times(factor("1.0000000000000000")), "987654321098.10009876543210981"},
		{"nothing that was never given", quoin.Amount{}, "0"},
		{"a factor", factor("3.50"), "3.5"},
		{"a rate", rate("7.40%"), "7.4%"},
		{"a ratio of money", money("24.00").Ratio(money("12.00")), "2"},
		{"a quantity", quoin.MustQuantity("0.50 sheet"), "0.5 sheet"},
		{"a step of 2 × 0.60", trail.Product("two", nowhere, quoin.FactorOf(2).Named("prints"), price).Value, "1.20"},
		{"a step of money below nothing", trail.Below("free", nowhere, price, price, price).Value, "0.00"},
		{"a step of 0.60 + 0.1", trail.Sum("sum", nowhere, price, quoin.Given("more", nowhere, money("0.1").Figure())).Value, "0.70"},
	} {
		if got := c.got.String(); got != c.want {
			t.Errorf("%s is written %s, want %s", c.what, got, c.want)
		}
	}
}
