package rule

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/margin/comparables"
)

// Verdict is what one rule says of one price: what it asked, and what the
// price gives.
type Verdict struct {
	OK bool
	// Channel is the channel asked about; empty where the rule asks about none.
	Channel string
	// Order is the kind of order asked about by itself, counted from 1; 0 for
	// the average.
	Order int
	Bound Bound
	// Asked and Got are of the same word: a price, a margin, an amount kept.
	Asked, Got quoin.Figure
	// Reason is what an Own rule says in its own words; other rules say it all by Asked
	// and Got.
	Reason string
}

// Bound says how what a price gives has to stand to what is asked.
type Bound string

const (
	AtLeast Bound = "at_least" // not less than asked
	AtMost  Bound = "at_most"  // not more than asked
	OneOf   Bound = "one_of"   // among what is asked
)

// Judge returns what the rule says of a price for an item, evaluated forward:
// one verdict for each bound and each channel or kind of order it asks about,
// in their order. Where it is silent, and for a Step, there is none. A rule without a
// kind, or with one that Check refuses, holds at no price.
func (r Rule) Judge(it Item, price quoin.Amount) []Verdict {
	if p, bad := kindProblem(r.Kind); bad {
		return []Verdict{{Bound: OneOf, Got: price.Figure(), Reason: p.Error()}}
	}
	if !r.SpeaksOf(it.ID, it.Design) {
		return nil
	}
	return r.judge(it, price)
}

// judge is Judge of an item that the rule is known to speak of.
func (r Rule) judge(it Item, price quoin.Amount) []Verdict {
	return r.Kind.judge(it, r.offers(it), price)
}

// Holds reports whether the rule allows an item a price, evaluated forward.
func (r Rule) Holds(it Item, price quoin.Amount) bool { return holds(r.Judge(it, price)) }

func holds(verdicts []Verdict) bool {
	return !slices.ContainsFunc(verdicts, func(v Verdict) bool { return !v.OK })
}

func atLeast(asked, got quoin.Amount) Verdict {
	return Verdict{OK: got.Cmp(asked) >= 0, Bound: AtLeast, Asked: asked.Figure(), Got: got.Figure()}
}

func atMost(asked, got quoin.Amount) Verdict {
	return Verdict{OK: got.Cmp(asked) <= 0, Bound: AtMost, Asked: asked.Figure(), Got: got.Figure()}
}

func (k Price) judge(_ Item, _ []Offer, p quoin.Amount) []Verdict {
	var out []Verdict
	if least, given := k.AtLeast.Get(); given {
		out = append(out, atLeast(least, p))
	}
	if most, given := k.AtMost.Get(); given {
		out = append(out, atMost(most, p))
	}
	return out
}

func (k CostMultiple) judge(_ Item, offers []Offer, p quoin.Amount) []Verdict {
	out := make([]Verdict, len(offers))
	for i, o := range offers {
		out[i] = atLeast(o.Sale.GoodsPerItem().Times(k.AtLeast), p)
		out[i].Channel = o.Channel
	}
	return out
}

func (k Move) judge(it Item, _ []Offer, p quoin.Amount) []Verdict {
	today, given := it.Today.Get()
	if !given {
		return nil
	}
	room := today.Part(k.AtMost)
	return []Verdict{atLeast(today.Sub(room), p), atMost(today.Add(room), p)}
}

func (k Market) judge(it Item, _ []Offer, p quoin.Amount) []Verdict {
	return k.compare(comparables.NewList(it.Comparables, it.Size)).verdicts(p)
}

func (c comparison) verdicts(p quoin.Amount) []Verdict {
	if !c.ok {
		return nil
	}
	return []Verdict{atLeast(c.from, p), atMost(c.to, p)}
}

func (k Ending) judge(_ Item, _ []Offer, p quoin.Amount) []Verdict {
	rest := p.Mod(k.Mod())
	v := Verdict{Bound: OneOf, Got: rest.Figure()}
	for i, of := range k.Of {
		if i == 0 || rest.Equal(of) {
			v.Asked = of.Figure()
		}
		v.OK = v.OK || rest.Equal(of)
	}
	return []Verdict{v}
}

func (Step) judge(Item, []Offer, quoin.Amount) []Verdict { return nil }

func (k GrossMargin) judge(_ Item, offers []Offer, p quoin.Amount) []Verdict {
	return judgeAll(offers, k.In, k, p)
}
func (k NetMargin) judge(_ Item, offers []Offer, p quoin.Amount) []Verdict {
	return judgeAll(offers, k.In, k, p)
}
func (k Contribution) judge(_ Item, offers []Offer, p quoin.Amount) []Verdict {
	return judgeAll(offers, k.In, k, p)
}

func judgeAll(offers []Offer, in Scope, d demand, p quoin.Amount) []Verdict {
	var out []Verdict
	for k := range offers {
		o := &offers[k]
		for i, one := range o.scoped(in) {
			s := one.Sale.At(p)
			v := Verdict{OK: d.met(s), Channel: o.Channel, Bound: AtLeast}
			v.Asked, v.Got = d.figures(s)
			if in == Worst {
				v.Order = i + 1
			}
			out = append(out, v)
		}
	}
	return out
}
