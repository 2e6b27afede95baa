package market

import (
	"math"
	"strconv"
	"strings"

	"example.com/quoin"
	"gonum.org/v1/gonum/stat/distuv"
)

// six rounds what was estimated to six significant digits, and to 16 places; it
// is not given for what is no number or is 10^12 or more.
func six(x float64) quoin.Optional[quoin.Factor] {
	if math.IsNaN(x) || math.Abs(x) >= 1e12 {
		return quoin.Optional[quoin.Factor]{}
	}
	short, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', 5, 64), 64)
	if err != nil {
		return quoin.Optional[quoin.Factor]{}
	}
	text := strconv.FormatFloat(short, 'f', -1, 64)
	if _, places, _ := strings.Cut(text, "."); len(places) > 16 {
		text = strconv.FormatFloat(short, 'f', 16, 64)
	}
	f, err := quoin.ParseFactor(text)
	if err != nil {
		return quoin.Optional[quoin.Factor]{}
	}
	return quoin.Some(f)
}

// sixes is six for the ends of a range; both or none.
func sixes(low, high float64) (quoin.Range[quoin.Factor], bool) {
	l, ok := six(low).Get()
	h, too := six(high).Get()
	return quoin.Between(l, h), ok && too
}

// float is the nearest float; for logarithms and powers only.
func float(f quoin.Factor) float64 {
	x, _ := f.Rat().Float64()
	return x
}

// number is an amount as a plain number, money a plain number as an amount,
// both exactly.
func number(a quoin.Amount) quoin.Factor { return a.Figure().Factor() }
func money(f quoin.Factor) quoin.Amount  { return quoin.AmountOf(1, 0).Times(f) }

// normalBeyond is how many standard deviations a normal variable stays within
// with the given confidence: 1.96 at 95%.
func normalBeyond(confidence float64) float64 {
	return distuv.UnitNormal.Quantile(0.5 + confidence/2)
}

// studentBeyond is the same for Student's t.
func studentBeyond(confidence, degrees float64) float64 {
	return distuv.StudentsT{Sigma: 1, Nu: degrees}.Quantile(0.5 + confidence/2)
}
