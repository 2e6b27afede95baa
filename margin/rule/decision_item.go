package rule

import (
	"iter"
	"math/big"
	"slices"
	"sync"

	"example.com/quoin"
	"example.com/quoin/margin"
)

// Asked returns the least price not below p that every kept rule on endings
// allows item i, above the limit too; where endings come round too seldom to be looked
// for, the next multiple of the price step.
func (d Decision) Asked(i int, p quoin.Amount) quoin.Amount {
	if !d.has(i) {
		return p
	}
	g := d.items[i].Grid
	if p.Cmp(g.Price(g.Len())) <= 0 {
		if next, ok := d.beside(i, g.Price(max(g.Ceil(p), 1)).Sub(g.Step()), +1); ok {
			return next
		}
	}
	if next, ok := d.nextAbove(i, p); ok {
		return next
	}
	return g.Step().Times(p.Ratio(g.Step()).Round(0, quoin.Up))
}

// nextAbove is Asked on a grid that goes on until the endings have come round again:
// the decided price has them all, so that one of the next prices does.
func (d Decision) nextAbove(i int, p quoin.Amount) (quoin.Amount, bool) {
	it := d.items[i]
	var endings []Rule
	round, ok := it.Grid.Step(), true
	for _, r := range d.Speaking(i) {
		if k, ending := d.rules[r].Kind.(Ending); ok && ending && d.kept(r) {
			endings = append(endings, d.rules[r])
			round, ok = leastMultiple(round, k.Mod())
		}
	}
	grid, err := quoin.NewGrid(it.Grid.Step(), p.Add(round))
	if !ok || err != nil {
		return quoin.Amount{}, false
	}
	it.Grid = grid
	at := All(grid)
	for _, rule := range endings {
		set, err := rule.allowed(it)
		if err != nil {
			return quoin.Amount{}, false
		}
		if at, err = at.and(set); err != nil {
			return quoin.Amount{}, false
		}
	}
	return at.Next(grid.Price(max(grid.Ceil(p), 1)))
}

// leastMultiple is the least amount that is a whole multiple of both; false where it does
// not fit in 64 bits.
func leastMultiple(a, b quoin.Amount) (quoin.Amount, bool) {
	places := max(a.Places(), b.Places())
	m, x := a.Units(places)
	n, y := b.Units(places)
	if !x || !y || m <= 0 || n <= 0 {
		return quoin.Amount{}, false
	}
	p, q := big.NewInt(m), big.NewInt(n)
	p.Mul(p, q.Quo(q, new(big.Int).GCD(nil, nil, p, q)))
	return quoin.AmountOf(p.Int64(), places), p.IsInt64()
}

// Refuse returns the ids of the kept rules that forbid item i a price, tested one by one at
// that price. Rules between sizes and rules on the largest change are left out, because they
// concern only the decided price.
func (d Decision) Refuse(i int, p quoin.Amount) []string {
	var out []string
	for _, r := range d.Speaking(i) {
		if about := d.rules[r].about(); d.kept(r) && about != pairs && about != change && !holds(d.judge(r, i, p)) {
			out = append(out, d.rules[r].ID)
		}
	}
	return out
}

// Floor returns the lowest and the highest price that the kept rules would allow item i if it
// were sold only in one channel, given by its place among the item's offers. Rules between
// sizes are left out. It returns false if they would allow no price.
func (d Decision) Floor(i, offer int) (least, greatest quoin.Amount, ok bool) {
	if !d.has(i) || !oneOf(len(d.items[i].Offers), offer, "offer %d of an item with %d") {
		return quoin.Amount{}, quoin.Amount{}, false
	}
	allowed, ok := d.others.allow(&d, i)
	if !ok {
		return quoin.Amount{}, quoin.Amount{}, false
	}
	it := d.items[i]
	alone := len(it.Offers) == 1
	it.Offers = it.Offers[offer : offer+1 : offer+1]
	for _, r := range d.Speaking(i) {
		rule := d.rules[r]
		if !rule.AsksChannels() || !d.kept(r) {
			continue
		}
		set, err := d.Allows(r, i), error(nil)
		if !alone {
			set, err = rule.allowed(it)
		}
		if err == nil {
			allowed, err = allowed.and(set)
		}
		if err != nil {
			return quoin.Amount{}, quoin.Amount{}, false
		}
	}
	least, ok = allowed.Least()
	greatest, _ = allowed.Greatest()
	return least, greatest, ok
}

// allowedByKinds is what kept rules of some kinds allow each item, those between sizes left out.
// It is worked out when it is first asked for.
type allowedByKinds struct {
	of   func(*Rule) bool
	once sync.Once
	sets []Set
	// known is false of an item where that is not known, since some of the rules cannot be
	// put together, and are left out.
	known []bool
}

func (t *allowedByKinds) allow(d *Decision, i int) (Set, bool) {
	t.once.Do(func() { t.work(d) })
	return t.sets[i], t.known[i]
}

func (t *allowedByKinds) work(d *Decision) {
	t.sets, t.known = make([]Set, len(d.items)), make([]bool, len(d.items))
	for i := range t.sets {
		t.sets[i], t.known[i] = All(d.items[i].Grid), true
	}
	put := make(patterns)
	for r := range d.rules {
		if !d.kept(r) || !t.of(&d.rules[r]) {
			continue
		}
		for n, i := range d.byRule[r].items {
			if both, err := put.and(t.sets[i], d.byRule[r].set(n)); err == nil {
				t.sets[i] = both
			} else {
				t.known[i] = false
			}
		}
	}
}

// Bears tests a sale of item i in a channel at a price, such as one with a larger discount, by
// every kept rule that asks something of the channel. It returns the ids of those that do not
// hold, and whether any rule asks anything. Rules about the worst case test what worst returns,
// the sale by each kind of order. It is called at most once; nil means Sale.Worst.
func (d Decision) Bears(i int, channel string, sale margin.Sale, p quoin.Amount, worst func() []margin.Sale) (broken []string, asked bool) {
	if !d.has(i) {
		return nil, false
	}
	it := d.items[i]
	it.Offers = []Offer{{Channel: channel, Sale: sale}}
	var known [2][]margin.Statement
	for rule, offers := range d.asking(i, it) {
		asked = true
		if !rule.borne(it, offers, p, &known, worst) {
			broken = append(broken, rule.ID)
		}
	}
	return broken, asked
}

// Asks reports whether any kept rule asks something of a sale of item i in a channel.
func (d Decision) Asks(i int, channel string) bool {
	if !d.has(i) {
		return false
	}
	it := d.items[i]
	it.Offers = []Offer{{Channel: channel}}
	for range d.asking(i, it) {
		return true
	}
	return false
}

// asking are the kept rules for item i that ask something of its channels, as it has them, with
// the offers there.
func (d *Decision) asking(i int, it Item) iter.Seq2[*Rule, []Offer] {
	return func(yield func(*Rule, []Offer) bool) {
		for _, r := range d.Speaking(i) {
			rule := &d.rules[r]
			if !rule.AsksChannels() || !d.kept(r) {
				continue
			}
			if offers := rule.offers(it); len(offers) > 0 && !yield(rule, offers) {
				return
			}
		}
	}
}

// borne reports whether a rule that asks something of the one offer holds at a price. Its
// statements, on average and by each kind of order, are made once for all rules.
func (r *Rule) borne(it Item, offers []Offer, p quoin.Amount, known *[2][]margin.Statement, worst func() []margin.Sale) bool {
	d := demandOf(r.Kind)
	if d.kind == nil {
		return holds(r.Kind.asks(it, offers).judge(it, offers, p))
	}
	in := 0
	if d.in == Worst {
		in = 1
	}
	if known[in] == nil {
		known[in] = statementsOf(&offers[0].Sale, d.in == Worst, p, worst)
	}
	return !slices.ContainsFunc(known[in], func(s margin.Statement) bool { return !d.met(s) })
}

// statementsOf is what a sale leaves at a price, on average or by each kind of order.
func statementsOf(sale *margin.Sale, byKind bool, p quoin.Amount, worst func() []margin.Sale) []margin.Statement {
	if !byKind {
		return []margin.Statement{sale.At(p)}
	}
	if worst == nil {
		worst = sale.Worst
	}
	return each(worst(), func(one margin.Sale) margin.Statement { return one.At(p) })
}
