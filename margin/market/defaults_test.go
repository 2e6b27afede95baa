package market_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/market"
)

// A price is far off from 3.5 spreads on, if no other limit is given. Three prices of 91, two of 100
// and three of 110 and one above them: the median is 100, the distances are ln(100 ÷ 91) = 0.094311
// thrice, 0 twice and ln 1.1 = 0.095310 thrice, their median 0.094311, × 1.4826 = 0.139825. 3.5 of
// those are 0.489388, and 100 × e^0.489388 = 163.13; 3.49 are 0.487989, and 162.90.
func TestFarOffIsThreeAndAHalfSpreads(t *testing.T) {
	for price, want := range map[string]int{"162.80": 0, "163.00": 0, "163.10": 0, "163.17": 1, "170.00": 1} {
		s := alike(t, []string{"91", "91", "91", "100", "100", "110", "110", "110", price}, market.Options{})
		if len(s.Outliers) != want {
			t.Errorf("%s: outliers %+v, want %d", price, s.Outliers, want)
		}
	}
}

// Of one share that is asked for, one price is told.
func TestOneShareAskedFor(t *testing.T) {
	s := alike(t, []string{"10", "20", "30", "40", "50"}, market.Options{Quantiles: []quoin.Rate{rate("50%")}})
	var told []string
	for _, q := range s.Quantiles {
		told = append(told, fmt.Sprintf("%s: %.2f", q.Share, q.Price))
	}
	if got := fmt.Sprint(told); got != "[50%: 30.00]" {
		t.Error(got)
	}
}
