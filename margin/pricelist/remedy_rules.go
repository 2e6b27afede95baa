package pricelist

import (
	"math/big"
	"slices"

	"example.com/quoin"
	"example.com/quoin/margin/rule"
)

// dial is one figure of a rule that can be turned: by which unit, up to what,
// and the rule with another figure.
type dial struct {
	field string
	from  quoin.Figure
	unit  *big.Rat
	most  int64 // 0 where it is turned down
	with  func(n int64) (rule.Kind, quoin.Figure)
}

// rule seeks to what figure rule i would have to go.
func (s search) rule(i int, at quoin.Path) []Remedy {
	var out []Remedy
	for _, d := range s.dials(s.doc.Rules[i].Kind) {
		fits := func(n int64) bool {
			doc := s.doc
			doc.Rules = slices.Clone(doc.Rules)
			doc.Rules[i].Kind, _ = d.with(n)
			return s.fits(doc, nil)
		}
		to, ok := int64(0), false
		if d.most > 0 {
			to, ok = up(d.from.Rat(), d.unit, d.most, fits)
		} else {
			to, ok = down(d.from.Rat(), d.unit, fits)
		}
		if ok {
			_, f := d.with(to)
			out = append(out, Remedy{RuleTo, at.Field(d.field).String(), s.doc.Rules[i].ID, d.from, f})
		}
	}
	return out
}

// dials are the figures of a rule that loosen it.
func (s search) dials(k rule.Kind) []dial {
	switch k := k.(type) {
	case rule.CostMultiple:
		return []dial{{"at_least", k.AtLeast.Figure(), hundredth, 0, func(n int64) (rule.Kind, quoin.Figure) {
			k := k
			k.AtLeast = hundredths(n)
			return k, k.AtLeast.Figure()
		}}}
	case rule.GrossMargin:
		return []dial{{"at_least", k.AtLeast.Figure(), basisPoint, 0, func(n int64) (rule.Kind, quoin.Figure) {
			k := k
			k.AtLeast = basisPoints(n)
			return k, k.AtLeast.Figure()
		}}}
	case rule.NetMargin:
		return []dial{{"at_least", k.AtLeast.Figure(), basisPoint, 0, func(n int64) (rule.Kind, quoin.Figure) {
			k := k
			k.AtLeast = basisPoints(n)
			return k, k.AtLeast.Figure()
		}}}
	case rule.Contribution:
		return []dial{{"at_least", k.AtLeast.Figure(), s.minor.Rat(), 0, func(n int64) (rule.Kind, quoin.Figure) {
			k := k
			k.AtLeast = s.money(n)
			return k, k.AtLeast.Figure()
		}}}
	case rule.Move:
		return []dial{{"at_most", k.AtMost.Figure(), basisPoint, 1_000_000, func(n int64) (rule.Kind, quoin.Figure) {
			k := k
			k.AtMost = basisPoints(n)
			return k, k.AtMost.Figure()
		}}}
	case rule.Market:
		return []dial{
			{"from", k.From.Figure(), basisPoint, 0, func(n int64) (rule.Kind, quoin.Figure) {
				k := k
				k.From = basisPoints(n)
				return k, k.From.Figure()
			}},
			{"to", k.To.Figure(), basisPoint, 10_000, func(n int64) (rule.Kind, quoin.Figure) {
				k := k
				k.To = basisPoints(n)
				return k, k.To.Figure()
			}},
		}
	case rule.Price:
		return s.priceDials(k)
	case rule.Step:
		return stepDials(k)
	}
	return nil
}

func (s search) priceDials(k rule.Price) []dial {
	var out []dial
	if least, given := k.AtLeast.Get(); given {
		out = append(out, dial{"at_least", least.Figure(), s.minor.Rat(), 0, func(n int64) (rule.Kind, quoin.Figure) {
			k := k
			k.AtLeast = quoin.Some(s.money(n))
			return k, s.money(n).Figure()
		}})
	}
	grid, err := s.doc.Grid()
	if most, given := k.AtMost.Get(); given && err == nil {
		top := new(big.Rat).Quo(grid.Price(grid.Len()).Rat(), s.minor.Rat())
		out = append(out, dial{"at_most", most.Figure(), s.minor.Rat(), top.Num().Int64(), func(n int64) (rule.Kind, quoin.Figure) {
			k := k
			k.AtMost = quoin.Some(s.money(n))
			return k, s.money(n).Figure()
		}})
	}
	return out
}

func stepDials(k rule.Step) []dial {
	var out []dial
	if least, given := k.AtLeast.Get(); given {
		out = append(out, dial{"at_least", least.Figure(), hundredth, 0, func(n int64) (rule.Kind, quoin.Figure) {
			k := k
			k.AtLeast = quoin.Some(hundredths(n))
			return k, hundredths(n).Figure()
		}})
	}
	if most, given := k.AtMost.Get(); given {
		out = append(out, dial{"at_most", most.Figure(), hundredth, 1_000_000, func(n int64) (rule.Kind, quoin.Figure) {
			k := k
			k.AtMost = quoin.Some(hundredths(n))
			return k, hundredths(n).Figure()
		}})
	}
	return out
}
