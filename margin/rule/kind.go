package rule

import (
	"fmt"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Kind is what a rule asks: one of those that Kinds lists, or a Custom rule.
type Kind interface {
	// String returns the name of the kind in a document.
	String() string
	// about is what it asks about.
	about() subject
	// asks is what it asks of the prices of an item in offers: limits, a demand, or what
	// the kind itself says of prices.
	asks(it Item, offers []Offer) asker
}

// asker says twice what is asked of prices.
type asker interface {
	// allowed returns the prices of the item's grid that give what is asked.
	allowed(it Item, offers []Offer) (Set, error)
	// judge says what is asked of a price and what that gives, evaluated forward.
	judge(it Item, offers []Offer, price quoin.Amount) []Verdict
}

// subject is what a kind asks about.
type subject uint8

const (
	nothing  subject = iota
	grid             // the price alone: what it allows is the same for all items
	items            // what is known of an item
	change           // how far the price moves from today's
	channels         // what sales leave in channels
	pairs            // the prices of two sizes
)

// row is a kind of rule that a document can hold.
type row struct {
	zero Kind
	is   func(Kind) bool
}

// kinds is all of them, in the order in which they are listed for a reader.
var kinds = []row{
	rowOf[Price](), rowOf[CostMultiple](), rowOf[GrossMargin](), rowOf[NetMargin](), rowOf[Contribution](),
	rowOf[Market](), rowOf[Ending](), rowOf[MaxChange](), rowOf[SizeRatio](),
}

func rowOf[K Kind]() row {
	var zero K
	return row{zero: zero, is: func(k Kind) bool { _, is := k.(K); return is }}
}

// Kinds returns the kinds of rule that a document can have, each as its zero value.
func Kinds() []Kind {
	return each(kinds, func(k row) Kind { return k.zero })
}

// UnknownRule is the code of a word that is no kind of rule.
const UnknownRule quoin.Code = "unknown_rule"

var _ = form.Kinds(UnknownRule, UnknownRule, map[string]string{"step": "size_ratio", "move": "max_change"}, Kind.String, Kinds()...)

// kindProblem is what is wrong with a kind as such: there is none, it is no value of this
// package, or one of the caller's own that lacks something.
func kindProblem(k Kind) (quoin.Problem, bool) {
	if k == nil {
		return quoin.Problem{Code: quoin.MissingField, Found: "nothing", Wanted: "the kind of rule"}, true
	}
	if own, ok := k.(Custom); ok {
		return own.problem()
	}
	if slices.ContainsFunc(kinds, func(known row) bool { return known.is(k) }) {
		return quoin.Problem{}, false
	}
	return quoin.Problem{
		Code: quoin.WrongType, Found: fmt.Sprintf("%T", k), Wanted: "a kind of this package itself",
		Remedy: "pass the value and not a pointer to it; a rule of your own is an Own",
	}, true
}
