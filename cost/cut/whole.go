package cut

import (
	"math/big"

	"example.com/quoin"
)

// TooFine is the code of lengths that have no common measure coarse enough to
// be searched on.
const TooFine quoin.Code = "lengths_too_fine"

// mostUnits bounds a length, in the common unit of all.
const mostUnits = 1_000_000_000

// ruler measures lengths in whole units of a part of a millimetre.
type ruler struct{ perMM int64 }

// newRuler returns the coarsest ruler on which all lengths are whole, and the
// lengths on it; one that was not given is 0.
func newRuler(lengths ...quoin.Quantity) (ruler, []int64, error) {
	per := big.NewInt(1)
	mm := make([]*big.Rat, len(lengths))
	for i, q := range lengths {
		mm[i] = new(big.Rat)
		if q.IsZero() {
			continue
		}
		if _, err := q.In("mm"); err != nil {
			return ruler{}, nil, quoin.Problems{err.(quoin.Problem)}
		}
		mm[i].Mul(q.Rat(), q.Unit().Size().Rat())
		common := new(big.Int).GCD(nil, nil, per, mm[i].Denom())
		per.Mul(per, new(big.Int).Quo(mm[i].Denom(), common))
	}
	out := make([]int64, len(lengths))
	for i, q := range lengths {
		n := new(big.Int).Quo(new(big.Int).Mul(mm[i].Num(), per), mm[i].Denom())
		if !n.IsInt64() || n.Int64() > mostUnits || n.Int64() < -mostUnits {
			return ruler{}, nil, fault(TooFine, "", q.String()+" among lengths of very different fineness",
				"lengths that share a coarser measure", "round them to a tenth of a millimetre, or a sixteenth of an inch")
		}
		out[i] = n.Int64()
	}
	return ruler{per.Int64()}, out, nil
}

// mm returns so many units of the ruler as a length: exactly, unless a length was given as a
// fraction that is no finite decimal.
func (r ruler) mm(units int64) quoin.Quantity {
	return quoin.MustQuantity("1 mm").Times(quoin.FactorOf(units).Over(quoin.FactorOf(r.perMM)))
}

func (r ruler) size(w, h int64) quoin.Size {
	s, err := quoin.NewSize(r.mm(w), r.mm(h))
	if err != nil {
		return quoin.Size{}
	}
	return s
}
