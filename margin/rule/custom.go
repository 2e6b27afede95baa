package rule

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
)

// Custom is a rule of the caller's own. It says twice what it allows: as a set of prices, which
// deciding uses, and as a verdict on one price, which reasons use. Both functions are needed
// and must agree: a price of the grid is in the set if, and only if, no verdict on it is
// against it. Rule.Agrees tests that. A name is needed too, because conflicts and reasons show
// it.
//
// The offers are those of the item in the rule's channels. If a document has ranges, the rule
// is asked three times: with likely, cheap and dear values, as Item.End says. It may be asked
// about a single offer, and about an offer with a larger discount, which has no curve. The
// functions must be pure: they change nothing that they are given, say the same each time, and
// may be called from several goroutines at once. Custom cannot be in the JSON of a document.
type Custom struct {
	Name string
	// Allowed returns the prices of the item's grid that the rule allows. An error ends
	// the whole decision.
	Allowed func(it Item, offers []Offer) (Set, error)
	// Judge returns what the rule asks for and what the price gives, or nothing if the rule
	// does not apply. A verdict without a Bound is OneOf.
	Judge func(it Item, offers []Offer, price quoin.Amount) []Verdict
}

// RangeEnd says at which end of the ranges of a document an item is computed.
type RangeEnd string

const (
	Likely   RangeEnd = ""         // the values that the document gives
	Cheapest RangeEnd = "cheapest" // all values at the end at which goods cost less
	Dearest  RangeEnd = "dearest"  // all values at the end at which goods cost more
)

// String returns the name.
func (k Custom) String() string { return k.Name }

func (k Custom) asks(Item, []Offer) asker { return k }

func (k Custom) allowed(it Item, offers []Offer) (Set, error) {
	set, err := k.Allowed(it, offers)
	switch {
	case err != nil:
		return Set{}, k.failed(fmt.Sprintf("%s of %s: %v", prose.Quoted(k.Name), prose.Quoted(it.ID), err), "the prices that it allows")
	case set.IsEmpty():
		return Set{grid: it.Grid}, nil
	case !set.grid.Equal(it.Grid):
		return Set{}, otherGrid(it.Grid, set.grid)
	}
	return set, nil
}

func (k Custom) failed(found, wanted string) error {
	return fault(quoin.Problem{Code: BadOwnRule, Found: found, Wanted: wanted})
}

func (k Custom) judge(it Item, offers []Offer, p quoin.Amount) []Verdict {
	out := slices.Clone(k.Judge(it, offers, p))
	for i := range out {
		out[i].Bound = cmp.Or(out[i].Bound, OneOf)
	}
	return out
}

func (Custom) about() subject { return channels }

// problem is what is wrong with a rule of the caller's own.
func (k Custom) problem() (quoin.Problem, bool) {
	var lacks []string
	if k.Name == "" {
		lacks = append(lacks, "a name")
	}
	if k.Allowed == nil {
		lacks = append(lacks, "Allowed")
	}
	if k.Judge == nil {
		lacks = append(lacks, "Judge")
	}
	p := quoin.Problem{Code: BadOwnRule, Wanted: "a name, and functions that say what prices it allows and judge a price"}
	if len(lacks) > 0 {
		p.Found = "a rule of one's own without " + strings.Join(lacks, " and ")
		return p, true
	}
	if slices.ContainsFunc(kinds, func(known row) bool { return known.zero.String() == k.Name }) {
		p.Found, p.Wanted = "a rule of one's own named "+prose.Quoted(k.Name), "a name that no kind of rule has"
		return p, true
	}
	return p, false
}

// Bounds on the prices that Agrees tries.
const (
	mostAgreed = 10_000 // up to so many prices of a grid are all tried
	mostEnds   = 1_000  // of so many runs the ends are tried
)

// Agrees returns an error, quoin.Problems with one problem for each price, if the prices that
// the rule allows an item differ from those that it judges to hold. It reports at most ten
// prices. It tries all prices of a grid of up to 10,000. Of a larger grid it tries 10,000
// spread evenly, and those at and beside the ends of the first thousand runs. It helps to test
// rules of one's own.
func (r Rule) Agrees(it Item) error {
	set, err := r.Allowed(it)
	if err != nil {
		return err
	}
	var out quoin.Problems
	for _, i := range tried(set, it.Grid) {
		price := it.Grid.Price(i)
		if allows, holds := set.has(i), r.Holds(it, price); allows != holds && len(out) < 10 {
			found := fmt.Sprintf("%v is allowed, and judged not to hold", price)
			if holds {
				found = fmt.Sprintf("%v is not allowed, and judged to hold", price)
			}
			out = append(out, quoin.Problem{Code: JudgedApart, Severity: quoin.Fault, Found: found, Wanted: "prices that hold if, and only if, they are allowed"})
		}
	}
	return out.Err()
}

// tried are the places of prices on a grid that are looked at one by one, in rising order.
func tried(s Set, g quoin.Grid) []int64 {
	var out []int64
	for i, n := int64(1), g.Len(); i <= n; i += max(n/mostAgreed, 1) {
		out = append(out, i)
	}
	if g.Len() <= mostAgreed {
		return out
	}
	runs := 0
	for r := range s.maximal() {
		for _, i := range []int64{r.first - 1, r.first, r.last, r.last + 1} {
			if i >= 1 && i <= g.Len() {
				out = append(out, i)
			}
		}
		if runs++; runs == mostEnds {
			break
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}
