package quoin

import (
	"fmt"
	"math/big"

	"example.com/quoin/internal/decimal"
)

// Grid is the prices that are considered: step, 2 × step, and so on, up to a limit. Index i,
// counted from 1, is the price i × step. Zero is not a price, and the zero Grid has no prices.
// Compare grids with Equal; == does not compile.
type Grid struct {
	step Amount
	n    int64
}

// NewGrid returns the multiples of step from step to limit. The error is a Problem: step is not
// above zero, limit is below step, or there would be more than 10^17 prices.
func NewGrid(step, limit Amount) (Grid, error) {
	if step.Sign() <= 0 || limit.Cmp(step) < 0 {
		return Grid{}, Problem{
			Code: BadGrid, Severity: Fault, Found: "steps of " + step.String() + " up to " + limit.String(),
			Wanted: "a step above zero and a limit not below it",
		}
	}
	step = step.Snap()
	n := limit.d.Floor(step.d)
	if n.Cmp(mostPrices) > 0 {
		return Grid{}, Problem{Code: BadGrid, Severity: Fault, Found: n.String() + " prices", Wanted: "at most 10^17"}
	}
	return Grid{step, n.Int64()}, nil
}

var mostPrices = big.NewInt(100_000_000_000_000_000)

// Len returns how many prices there are; their indexes are 1 to Len.
func (g Grid) Len() int64 { return g.n }

// Equal reports whether g and h are the same prices.
func (g Grid) Equal(h Grid) bool { return g.n == h.n && g.step.Equal(h.step) }

// String says the grid in words.
func (g Grid) String() string {
	if g.n == 0 {
		return "no prices"
	}
	return fmt.Sprintf("%v to %v in steps of %v", g.Price(1), g.Price(g.n), g.step)
}

// Step returns the distance between neighbouring prices.
func (g Grid) Step() Amount { return g.step }

// Price returns i × step, exactly.
func (g Grid) Price(i int64) Amount { return Amount{g.step.d.Mul(decimal.New(i, 0))} }

// Ceil returns the index of the lowest price that is at least a. It is 1 if all are, and Len+1
// if none is.
func (g Grid) Ceil(a Amount) int64 {
	if g.n == 0 {
		return 1
	}
	return min(max(a.d.CeilInt(g.step.d), 1), g.n+1)
}

// Floor returns the index of the highest price that is at most a. It is Len if all are, and 0
// if none is.
func (g Grid) Floor(a Amount) int64 {
	if g.n == 0 {
		return 0
	}
	return min(max(a.d.FloorInt(g.step.d), 0), g.n)
}
