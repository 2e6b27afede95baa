package trial_test

import (
	"fmt"
	"strconv"

	"example.com/quoin"
	"example.com/quoin/margin/trial"
)

func amount(s string) quoin.Amount { return quoin.MustAmount(s) }
func factor(s string) quoin.Factor { return quoin.MustFactor(s) }
func rate(s string) quoin.Rate     { return quoin.MustRate(s) }

func at(confidence string) quoin.Optional[quoin.Rate] { return quoin.Some(rate(confidence)) }

func float(x fmt.Stringer) float64 {
	f, err := strconv.ParseFloat(x.String(), 64)
	if err != nil {
		panic(err)
	}
	return f
}

// month is the first of the nth month from January 2026 on.
func month(n int) quoin.Date { return quoin.MustDate(fmt.Sprintf("%04d-%02d-01", 2026+n/12, n%12+1)) }

// heron is a month of the print "Heron, standing" on line, invented like all
// figures of these tests.
func heron(id string, n int, price, kept, visits string, units int64) trial.Period {
	return trial.Period{
		ID: id, Product: "heron-a3", Channel: "shop", Price: amount(price), Kept: amount(kept), From: month(n), To: month(n + 1),
		Exposure: trial.Exposure{Number: factor(visits), Kind: trial.Visits}, Units: units, Occasion: "web",
	}
}

func list(p ...trial.Period) []trial.Period { return p }

// two is both prices for one period each, before as many visits.
func two(keptA, keptB string, a, b int64) (as, bs []trial.Period) {
	return list(heron("a", 0, "79", keptA, "1000", a)), list(heron("b", 1, "89", keptB, "1000", b))
}
