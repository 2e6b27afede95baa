package channel

import (
	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// PricePoints are the unit prices that a channel can charge: those of a till, of a price list
// abroad, of a local habit. A unit price becomes the nearest price point, of two equally near
// ones the higher. It never becomes less than the lowest one above zero. With a step of 0.50,
// 20.30 becomes 20.50. All amounts are whole minor units of the currency that buyers pay in.
type PricePoints struct {
	// They are multiples of this amount.
	Step quoin.Amount `json:"step,omitzero" range:"(0,"`
	// In place of a step: what prices leave when divided by every.
	EndsIn []quoin.Amount `json:"ends_in,omitempty" was:"of" range:"[0," most:"20"`
	// What they are divided by; 1 where it is not given.
	Every quoin.Amount `json:"every,omitzero" was:"modulus" range:"(0,"`
}

// BadPricePoints is the code of price points that say two things, or nothing.
const BadPricePoints quoin.Code = "bad_price_points"

// Check returns what is wrong with the price points, as Problems: amounts out of the range of
// their field. If there are none, it also looks for both a step and endings, for neither, and
// for an ending that is not below what prices are divided by.
func (g PricePoints) Check() error {
	if ps := form.Check(g).All(); len(ps) > 0 {
		return ps
	}
	bad := func(at, found, wanted string) error {
		return quoin.Problems{{Code: BadPricePoints, Severity: quoin.Fault, Path: at, Found: found, Wanted: wanted}}
	}
	switch {
	case len(g.EndsIn) > 0 && !g.Step.IsZero():
		return bad("step", "a step beside endings", "a step or endings")
	case len(g.EndsIn) == 0 && g.Step.IsZero():
		return bad("step", "neither a step nor endings", "one of them")
	case len(g.EndsIn) == 0 && !g.Every.IsZero():
		return bad("every", "every without ends_in", "endings in ends_in, or no every")
	}
	for i, e := range g.EndsIn {
		if e.Cmp(g.modulus()) >= 0 {
			return bad(quoin.Path{}.FieldAt("ends_in", i).String(), e.String(), "less than every, "+g.modulus().String())
		}
	}
	return nil
}

func (g PricePoints) modulus() quoin.Amount {
	if g.Every.IsZero() {
		return quoin.AmountOf(1, 0)
	}
	return g.Every
}

// room is how far a price can be moved.
func (g PricePoints) room() quoin.Amount {
	if len(g.EndsIn) > 0 {
		return g.modulus()
	}
	return g.Step
}

// Nearest returns the price point nearest to a, of two equally near ones the higher. It returns
// a itself if there are no price points.
func (g PricePoints) Nearest(a quoin.Amount) quoin.Amount {
	whole, ending := g.split(a)
	return g.scale(whole).Add(ending)
}

// scale is how much whole steps, or moduli, come to.
func (g PricePoints) scale(whole quoin.Factor) quoin.Amount { return g.room().Times(whole) }

// split returns the nearest price as whole steps and nothing, or as whole
// moduli and an ending.
func (g PricePoints) split(a quoin.Amount) (quoin.Factor, quoin.Amount) {
	one := quoin.FactorOf(1)
	switch {
	case len(g.EndsIn) == 0 && g.Step.IsZero():
		return quoin.Factor{}, a
	case len(g.EndsIn) == 0:
		n := a.Ratio(g.Step).Round(0, quoin.HalfUp)
		if n.Cmp(one) < 0 {
			n = one
		}
		return n, quoin.Amount{}
	}
	n := a.Ratio(g.modulus()).Round(0, quoin.Down).Sub(one)
	var whole quoin.Factor
	var ending, best quoin.Amount
	found := false
	for range 3 { // the modulus below, that of a, the one above
		for _, e := range g.EndsIn {
			p := g.scale(n).Add(e)
			d := p.Sub(a)
			if d.Sign() < 0 {
				d = d.Neg()
			}
			if p.Sign() <= 0 || found && (d.Cmp(best) > 0 || d.Equal(best) && p.Cmp(g.scale(whole).Add(ending)) < 0) {
				continue
			}
			whole, ending, best, found = n, e, d, true
		}
		n = n.Add(one)
	}
	return whole, ending
}
