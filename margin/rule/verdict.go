package rule

import (
	"slices"

	"example.com/quoin"
)

// Verdict is what one rule says of one price: what it asks for, and what the price gives.
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
	// Reason is what a Custom rule says in its own words; other rules say it all by Asked
	// and Got.
	Reason string
}

// Bound says whether a price must give at least, or at most, what is asked.
type Bound string

const (
	AtLeast Bound = "at_least" // not less than asked
	AtMost  Bound = "at_most"  // not more than asked
	OneOf   Bound = "one_of"   // among what is asked
)

// Judge returns the verdicts of the rule on one price of an item: one for each bound and each
// channel or kind of order that it tests, in their order. There is none if the rule has too
// little to go by, and for a SizeRatio. A rule without a kind, or with one that Check refuses,
// holds at no price.
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
	offers := r.offers(it)
	return r.Kind.asks(it, offers).judge(it, offers, price)
}

// Holds reports whether the rule allows an item a price, tested at that price.
func (r Rule) Holds(it Item, price quoin.Amount) bool { return holds(r.Judge(it, price)) }

func holds(verdicts []Verdict) bool {
	return !slices.ContainsFunc(verdicts, func(v Verdict) bool { return !v.OK })
}
