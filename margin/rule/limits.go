package rule

import (
	"math/big"

	"example.com/quoin"
)

// limits are bounds on the price itself, all of which have to hold.
type limits []limit

// limit is one of them, asked in a channel or, without one, in all.
type limit struct {
	bound   Bound
	at      quoin.Amount
	channel string
}

func (l limits) allowed(it Item, _ []Offer) (Set, error) {
	first, last := int64(1), it.Grid.Len()
	for i := range l {
		if one := &l[i]; one.bound == AtLeast {
			first = max(first, it.Grid.Ceil(one.at))
		} else {
			last = min(last, it.Grid.Floor(one.at))
		}
	}
	return between(it.Grid, first, last), nil
}

func (l limits) judge(_ Item, _ []Offer, p quoin.Amount) []Verdict {
	out := make([]Verdict, len(l))
	for i, one := range l {
		side := p.Cmp(one.at)
		ok := side >= 0 && one.bound == AtLeast || side <= 0 && one.bound == AtMost
		out[i] = Verdict{OK: ok, Channel: one.channel, Bound: one.bound, Asked: one.at.Figure(), Got: p.Figure()}
	}
	return out
}

// Price allows prices between two bounds. A bound that is not given does not apply.
type Price struct {
	// The price is not below this; without bound where it is not given.
	AtLeast quoin.Optional[quoin.Amount] `json:"at_least,omitzero" range:"[0,"`
	// The price is not above this; without bound where it is not given.
	AtMost quoin.Optional[quoin.Amount] `json:"at_most,omitzero" range:"[0,"`
}

// String returns price.
func (Price) String() string { return "price" }

func (Price) about() subject { return grid }

func (k Price) asks(Item, []Offer) asker {
	var out limits
	if least, given := k.AtLeast.Get(); given {
		out = append(out, limit{AtLeast, least, ""})
	}
	if most, given := k.AtMost.Get(); given {
		out = append(out, limit{AtMost, most, ""})
	}
	return out
}

// CostMultiple allows prices of at least a multiple of the cost of goods of one item. 5 times
// 1.24 is 6.20 or more.
type CostMultiple struct {
	// The multiple.
	AtLeast quoin.Factor `json:"at_least" need:"yes" range:"[0,"`
}

// String returns cost_multiple.
func (CostMultiple) String() string { return "cost_multiple" }

func (CostMultiple) about() subject { return channels }

func (k CostMultiple) asks(_ Item, offers []Offer) asker {
	return limits(each(offers, func(o Offer) limit { return limit{AtLeast, o.Sale.GoodsPerItem().Times(k.AtLeast), o.Channel} }))
}

// MaxChange allows prices that differ from today's by at most a share. 25% of 20.00 allows
// 15.00 to 25.00. It allows every price if there is none today.
type MaxChange struct {
	// The share of today's price.
	AtMost quoin.Rate `json:"at_most" need:"yes" range:"[0,"`
}

// String returns move.
func (MaxChange) String() string { return "max_change" }

func (MaxChange) about() subject { return change }

func (k MaxChange) asks(it Item, _ []Offer) asker {
	today, given := it.Today.Get()
	if !given {
		return limits(nil)
	}
	room := today.Part(k.AtMost)
	return limits{{AtLeast, today.Sub(room), ""}, {AtMost, today.Add(room), ""}}
}

// Ending allows prices that leave one of some remainders when divided by a number. 0.00 and
// 0.50 with the number 1 allow whole and half units.
type Ending struct {
	// The remainders.
	EndsIn []quoin.Amount `json:"ends_in" was:"of" need:"yes" range:"[0," most:"1000"`
	// What prices are divided by; 1 where it is not given.
	Every quoin.Amount `json:"every,omitzero" was:"modulus" range:"(0,"`
}

// String returns ending.
func (Ending) String() string { return "ending" }

func (Ending) about() subject { return grid }

// Mod returns the number that prices are divided by, which is 1 if none is given.
func (k Ending) Mod() quoin.Amount {
	if k.Every.IsZero() {
		return quoin.AmountOf(1, 0)
	}
	return k.Every
}

func (k Ending) asks(Item, []Offer) asker { return k }

func (k Ending) allowed(it Item, _ []Offer) (Set, error) {
	c, ok := k.dividing(it.Grid)
	if !ok {
		c = k.comb(it.Grid)
	}
	out := Set{grid: it.Grid, comb: c}
	out.add(run{1, it.Grid.Len()})
	return out, nil
}

func (k Ending) judge(_ Item, _ []Offer, p quoin.Amount) []Verdict {
	rest := p.Mod(k.Mod())
	v := Verdict{Bound: OneOf, Got: rest.Figure()}
	for i, of := range k.EndsIn {
		if i == 0 || rest.Equal(of) {
			v.Asked = of.Figure()
		}
		v.OK = v.OK || rest.Equal(of)
	}
	return []Verdict{v}
}

// dividing is the comb where the step of the grid divides modulus and endings, as
// it mostly does; false where it does not, or where they do not fit in 64 bits.
func (k Ending) dividing(g quoin.Grid) (*comb, bool) {
	places := max(g.Step().Places(), k.Mod().Places())
	step, a := g.Step().Units(places)
	modulus, b := k.Mod().Units(places)
	if !a || !b || modulus <= 0 || modulus%step != 0 || modulus/step > g.Len() || modulus == step {
		return nil, false
	}
	teeth := make([]int64, 0, len(k.EndsIn))
	for _, of := range k.EndsIn {
		end, whole := of.Units(places)
		if !whole || end < 0 || end%step != 0 || end >= modulus {
			return nil, false
		}
		teeth = append(teeth, end/step)
	}
	c := combOf(modulus/step, teeth)
	return c, c != nil && c != never
}

// comb solves index × step ≡ ending (mod modulus) in whole units of the finest
// digit of the three.
func (k Ending) comb(g quoin.Grid) *comb {
	step, modulus := g.Step().Rat(), k.Mod().Rat()
	finest := new(big.Int).Mul(step.Denom(), modulus.Denom())
	s, m := units(step, finest), units(modulus, finest)
	divisor := new(big.Int).GCD(nil, nil, s, m)
	period := new(big.Int).Quo(m, divisor)
	inv := inverse(new(big.Int).Mod(new(big.Int).Quo(s, divisor), period), period)
	var teeth []*big.Int
	for _, of := range k.EndsIn {
		n := new(big.Rat).Mul(of.Rat(), new(big.Rat).SetInt(finest))
		q, r := new(big.Int).QuoRem(n.Num(), divisor, new(big.Int))
		if !n.IsInt() || r.Sign() != 0 || n.Num().Cmp(m) >= 0 {
			continue // no price on the grid ends so
		}
		teeth = append(teeth, q.Mul(q, inv).Mod(q, period))
	}
	return newComb(period, teeth, g.Len())
}

func units(x *big.Rat, finest *big.Int) *big.Int {
	n := new(big.Int).Mul(x.Num(), finest)
	return n.Quo(n, x.Denom())
}
