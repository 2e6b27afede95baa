package rule

import (
	"fmt"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/margin/comparables"
)

// Choice says which of the allowed prices is taken.
type Choice string

const (
	// Nearest takes the price nearest to today's; also when empty. A price that keeps
	// the rules stays as it is. Ties go down, product by product in order, each choice
	// pruning the rest before the next; a product without a price today takes its
	// least. A price with which the products after it would be left none, as rings of
	// ladders can have, is passed over.
	Nearest  Choice = "nearest"
	Least    Choice = "least"    // the least of each product
	Greatest Choice = "greatest" // the greatest of each product
)

// UnmarshalText reads least, greatest or nearest.
func (c *Choice) UnmarshalText(text []byte) error {
	return form.SetWord(c, text, Nearest, Least, Greatest)
}

// Decision is the result of deciding rules. Decide makes it; the zero value is a decision about
// no items. Items and rules are given by their places in what was decided.
type Decision struct {
	// Allowed has for each item the prices that all must rules and all kept preferences
	// allow. For each price there is a price of every other size that fits it. It is empty
	// on a conflict.
	Allowed []Set
	// Prices is the chosen price of each item; empty on a conflict.
	Prices []quoin.Amount
	// Dropped names the preferences that would have left no price, in order,
	// and Emptied the item that each would have left without one.
	Dropped []string
	Emptied []string
	// Conflict names a smallest group of must rules that contradict each other: without any
	// one of them, the others leave a price. Of several such groups it is the first in the
	// order of the rules. It is empty if there is no conflict.
	Conflict []string
	// Gaps is how far apart the rules of the conflict are, if a floor is above a ceiling.
	Gaps []Gap

	items  []Item
	rules  []Rule
	byRule []narrowed
	about  about
	lost   []bool          // by rule: whether it was dropped
	others *allowedByKinds // the rules that ask nothing of channels
	ended  *allowedByKinds // the rules on endings
	sizes  []int           // by item: how many ladders tie together with it; none where there are no ladders
	ladders

	compared map[[2]int]comparison // by market rule and item with comparables
}

// Compared returns how many comparables of item i market rule r uses.
func (d Decision) Compared(r, i int) comparables.Counts { return d.compared[[2]int{r, i}].Counts }

// has reports whether there is an item i. A decision of nothing has none; in another one
// it is an error of the program to ask for one that there is not.
func (d *Decision) has(i int) bool { return oneOf(len(d.items), i, "item %d of a decision of %d") }

func (d *Decision) hasRule(r int) bool { return oneOf(len(d.rules), r, "rule %d of a decision by %d") }

// oneOf reports whether there is one with a number of n, unless there is none at all.
func oneOf(n, i int, said string) bool {
	if n > 0 && (i < 0 || i >= n) {
		panic(fmt.Sprintf("quoin: "+said, i, n))
	}
	return n > 0
}

// Allows returns the prices that rule r by itself allows item i, both given by their place. It
// returns all prices if the rule does not apply to the item, and for a SizeRatio, which
// compares products.
func (d Decision) Allows(r, i int) Set {
	if !d.has(i) || !d.hasRule(r) {
		return Set{}
	}
	if s, ok := d.byRule[r].of(i); ok {
		return s
	}
	return All(d.items[i].Grid)
}

// allows is whether it allows the price with an index.
func (d *Decision) allows(r, i int, at int64) bool {
	s, ok := d.byRule[r].of(i)
	return !ok || s.has(at)
}

// Speaking returns the places of the rules that apply to item i, in their order. Rules between
// sizes are among them if the item is on one of their ladders.
func (d Decision) Speaking(i int) []int {
	if !d.has(i) {
		return nil
	}
	return d.about.of(i, each(d.with(i), func(p int) int { return d.pairs[p].rule }))
}

// Decide finds the prices that the rules allow the items, and chooses one for each. The error
// is quoin.Problems, all at once: what the Check of items and rules finds, ids that are given
// twice, items on different grids, and rules that name a product, a design or a channel that no
// item has. If there are none of these, it errs if prices break into more runs than can be told
// apart, and if a Custom rule fails. Later changes of items and rules do not change the
// decision, which gives reasons when it is asked.
func Decide(items []Item, rules []Rule, choose Choice) (Decision, error) {
	if err := checkAll(items, rules, choose); err != nil {
		return Decision{}, err
	}
	items = slices.Clone(items)
	for i := range items {
		items[i].Offers, items[i].Comparables = slices.Clone(items[i].Offers), slices.Clone(items[i].Comparables)
	}
	return CheckedItems{items, form.Copy(rules)}.Decide(choose)
}

// Fit reports whether all rules together leave a price for the items, whatever their strength.
// It errs as Decide does.
func Fit(items []Item, rules []Rule) (bool, error) {
	if err := checkAll(items, rules, ""); err != nil {
		return false, err
	}
	return CheckedItems{items, rules}.Fit()
}

// CheckedItems are items and rules that the caller has already checked, as a document is. They
// are decided without another check, and kept as they are. A fault in them gives a wrong
// decision or a panic. Here rules may name products, designs and channels that do not exist,
// and do not apply to them.
type CheckedItems struct {
	Items []Item
	Rules []Rule
}

// Decide is the function Decide without the check.
func (c CheckedItems) Decide(choose Choice) (Decision, error) {
	d, err := decide(c.Items, c.Rules, choose)
	return d, of("rules", err)
}

// Fit is the function Fit without the check.
func (c CheckedItems) Fit() (bool, error) {
	all := slices.Concat(byStrength(c.Rules))
	s, err := newSolver(c.Items, c.Rules, all)
	if err != nil {
		return false, of("rules", err)
	}
	empty, err := s.remains().join(all...)
	return empty == none, of("rules", err)
}

func decide(items []Item, rules []Rule, choose Choice) (Decision, error) {
	musts, prefers := byStrength(rules)
	s, err := newSolver(items, rules, slices.Concat(musts, prefers))
	if err != nil {
		return Decision{}, err
	}
	d := Decision{byRule: s.byRule, items: items, rules: rules, ladders: s.ladders, compared: s.comparisons.known, others: &allowedByKinds{of: asksNoChannels}, ended: &allowedByKinds{of: isEnding}, about: newAbout(rules, &s.catalogue)}
	m := s.remains()
	empty, err := m.join(musts...)
	if err != nil {
		return Decision{}, err
	}
	if empty != none {
		group, err := s.smallestConflict(musts)
		d.Conflict, d.Gaps = d.ids(group), d.gaps(group)
		return d, err
	}
	if err := d.prefer(m, prefers); err != nil {
		return Decision{}, err
	}
	d.Allowed, d.sizes = slices.Clone(m.sets), m.tiedTo()
	d.Prices, err = m.choose(choose)
	return d, err
}

// byStrength returns the places of the rules that must hold, and of those that are
// preferred.
func byStrength(rules []Rule) (musts, prefers []int) {
	for i, r := range rules {
		if r.Strength == Prefer {
			prefers = append(prefers, i)
		} else {
			musts = append(musts, i)
		}
	}
	return musts, prefers
}

// prefer adds the preferences that leave a price, in order, and drops the others.
func (d *Decision) prefer(m *remains, prefers []int) error {
	d.lost, m.named, m.patience = make([]bool, len(d.rules)), true, mostPatience
	for _, r := range prefers {
		m.keep()
		empty, err := m.join(r)
		if err != nil {
			return err
		}
		if empty != none {
			d.Dropped = append(d.Dropped, d.rules[r].ID)
			d.Emptied = append(d.Emptied, d.items[empty].ID)
			d.lost[r] = true
		}
	}
	return nil
}

// solver holds what each rule allows each item, and what ladders tie together.
type solver struct {
	catalogue
	rules  []Rule
	whole  []Set // by item: its grid
	byRule []narrowed
	ladders
	comparisons comparisons
	patterns    patterns
}

// narrowed is the items of whose prices a rule takes some away, in order, and what it
// leaves them: the same for all, where it goes by the grid alone.
type narrowed struct {
	items []int
	sets  []Set
	same  bool // sets holds one
}

// set returns what is left of the nth of the items.
func (n *narrowed) set(at int) Set {
	if n.same {
		return n.sets[0]
	}
	return n.sets[at]
}

// of returns what is left of an item; false where nothing was taken away.
func (n *narrowed) of(item int) (Set, bool) {
	if item < len(n.items) && n.items[item] == item {
		return n.set(item), true // as it is where all items are narrowed
	}
	at, ok := slices.BinarySearch(n.items, item)
	if !ok {
		return Set{}, false
	}
	return n.set(at), true
}

// newSolver takes the order in which pairs of ladders are gone through.
func newSolver(items []Item, rules []Rule, order []int) (*solver, error) {
	s := &solver{catalogue: catalogue{items: items}, rules: rules, patterns: make(patterns), byRule: make([]narrowed, len(rules))}
	s.whole = each(items, func(it Item) Set { return All(it.Grid) })
	for n := range rules {
		var err error
		if s.byRule[n], err = s.solve(n, &rules[n]); err != nil {
			return nil, of(fmt.Sprintf("rules[%d]", n), err)
		}
	}
	s.ladders = newLadders(rules, &s.catalogue, order)
	return s, nil
}

// solve returns what a rule takes away. A ladder takes nothing away by itself.
func (s *solver) solve(at int, r *Rule) (narrowed, error) {
	var n narrowed
	if r.about() == pairs {
		return n, nil
	}
	named := s.spoken(r)
	if r.about() == grid && len(named) > 0 {
		return s.solveOnce(r, named)
	}
	for k, i := range named {
		set, err := s.allowed(at, r, i)
		if err != nil {
			return n, err
		}
		if set.spans(s.whole[i]) {
			continue
		}
		if n.items == nil {
			n.items, n.sets = make([]int, 0, len(named)-k), make([]Set, 0, len(named)-k)
		}
		n.items, n.sets = append(n.items, i), append(n.sets, set)
	}
	return n, nil
}

// solveOnce is solve where what is left is the same for all items, which are on one grid.
func (s *solver) solveOnce(r *Rule, named []int) (narrowed, error) {
	set, err := r.allowed(s.items[named[0]])
	if err != nil || set.spans(s.whole[named[0]]) {
		return narrowed{}, err
	}
	return narrowed{items: named, sets: []Set{set}, same: true}, nil
}

// allowed is what a rule allows an item.
func (s *solver) allowed(at int, r *Rule, i int) (Set, error) {
	it := &s.items[i]
	market, ok := r.Kind.(Market)
	if !ok {
		return r.allowed(*it)
	}
	if len(it.Comparables) == 0 {
		return s.whole[i], nil
	}
	return s.comparisons.compare(at, market, i, it).limits().allowed(*it, nil)
}
