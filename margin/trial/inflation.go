package trial

import "example.com/quoin"

// Inflation returns how often somebody is misled who looks so many times, after
// equal shares of the data, at what a single look would call significant at 5%,
// and stops at the first time it is: in at least so many of 100 trials without
// any difference. Between the looks of the table it is that of the looks before.
// Source: Armitage, McPherson and Rowe, "Repeated significance tests on
// accumulating data", J. R. Stat. Soc. A 132, 1969, for 1, 2, 3, 4, 5, 10, 20 and
// 50 looks; from memory. Below one look it is zero.
func Inflation(looks int64) quoin.Rate {
	for _, row := range [][2]int64{{50, 320}, {20, 248}, {10, 193}, {5, 142}, {4, 126}, {3, 107}, {2, 83}, {1, 50}} {
		if looks >= row[0] {
			return quoin.FactorOf(row[1]).Over(quoin.FactorOf(1000)).Rate()
		}
	}
	return quoin.Rate{}
}
