package pricelist

import (
	"math/big"
	"slices"

	"example.com/quoin"
	"example.com/quoin/margin/rule"
)

// dial is one figure of a rule that loosens it when it is turned: by which
// unit, up to what, and the rule with another figure.
type dial struct {
	field string
	from  quoin.Figure
	unit  *big.Rat
	most  int64 // 0 where it is turned down
	with  func(n int64) (rule.Kind, quoin.Figure)
}

func rateDial(field string, from quoin.Rate, most int64, with func(quoin.Rate) rule.Kind) dial {
	return dial{field, from.Figure(), basisPoint, most, func(n int64) (rule.Kind, quoin.Figure) {
		return with(basisPoints(n)), basisPoints(n).Figure()
	}}
}

func factorDial(field string, from quoin.Factor, most int64, with func(quoin.Factor) rule.Kind) dial {
	return dial{field, from.Figure(), hundredth, most, func(n int64) (rule.Kind, quoin.Figure) {
		return with(hundredths(n)), hundredths(n).Figure()
	}}
}

func (s search) moneyDial(field string, from quoin.Amount, most int64, with func(quoin.Amount) rule.Kind) dial {
	return dial{field, from.Figure(), s.minor.Rat(), most, func(n int64) (rule.Kind, quoin.Figure) {
		return with(s.money(n)), s.money(n).Figure()
	}}
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
		to, ok := down(d.from.Rat(), d.unit, fits)
		if d.most > 0 {
			to, ok = up(d.from.Rat(), d.unit, d.most, fits)
		}
		if ok {
			_, f := d.with(to)
			out = append(out, Remedy{RuleTo, at.Field(d.field).String(), s.doc.Rules[i].ID, d.from, f})
		}
	}
	return out
}

const (
	mostMove = 1_000_000 // a hundred times today's price, in basis points
	mostStep = 1_000_000 // ten thousand times the size before, in hundredths
	allOfIt  = 10_000    // the whole, in basis points
)

// dials are the figures of a rule that loosen it. Each sets its own copy.
func (s search) dials(k rule.Kind) []dial {
	switch k := k.(type) {
	case rule.CostMultiple:
		return []dial{factorDial("at_least", k.AtLeast, 0, func(f quoin.Factor) rule.Kind { return rule.CostMultiple{AtLeast: f} })}
	case rule.GrossMargin:
		return []dial{rateDial("at_least", k.AtLeast, 0, func(r quoin.Rate) rule.Kind { return rule.GrossMargin{AtLeast: r, In: k.In} })}
	case rule.NetMargin:
		return []dial{rateDial("at_least", k.AtLeast, 0, func(r quoin.Rate) rule.Kind { return rule.NetMargin{AtLeast: r, In: k.In} })}
	case rule.Contribution:
		return []dial{s.moneyDial("at_least", k.AtLeast, 0, func(a quoin.Amount) rule.Kind { return rule.Contribution{AtLeast: a, In: k.In} })}
	case rule.Move:
		return []dial{rateDial("at_most", k.AtMost, mostMove, func(r quoin.Rate) rule.Kind { return rule.Move{AtMost: r} })}
	case rule.Market:
		return []dial{
			rateDial("from", k.From, 0, func(r quoin.Rate) rule.Kind { k := k; k.From = r; return k }),
			rateDial("to", k.To, allOfIt, func(r quoin.Rate) rule.Kind { k := k; k.To = r; return k }),
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
		out = append(out, s.moneyDial("at_least", least, 0, func(a quoin.Amount) rule.Kind {
			return rule.Price{AtLeast: quoin.Some(a), AtMost: k.AtMost}
		}))
	}
	grid, err := s.doc.Grid()
	if most, given := k.AtMost.Get(); given && err == nil {
		top := new(big.Rat).Quo(grid.Price(grid.Len()).Rat(), s.minor.Rat())
		out = append(out, s.moneyDial("at_most", most, top.Num().Int64(), func(a quoin.Amount) rule.Kind {
			return rule.Price{AtLeast: k.AtLeast, AtMost: quoin.Some(a)}
		}))
	}
	return out
}

func stepDials(k rule.Step) []dial {
	var out []dial
	if least, given := k.AtLeast.Get(); given {
		out = append(out, factorDial("at_least", least, 0, func(f quoin.Factor) rule.Kind {
			return rule.Step{AtLeast: quoin.Some(f), AtMost: k.AtMost, Order: k.Order}
		}))
	}
	if most, given := k.AtMost.Get(); given {
		out = append(out, factorDial("at_most", most, mostStep, func(f quoin.Factor) rule.Kind {
			return rule.Step{AtLeast: k.AtLeast, AtMost: quoin.Some(f), Order: k.Order}
		}))
	}
	return out
}
