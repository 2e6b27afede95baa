package rule

import (
	"fmt"
	"maps"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
)

// Check returns everything that is wrong with the rule by itself, at once, as quoin.Problems:
// an unknown kind, words and numbers that fields do not take, missing fields. Paths are those
// of the rule in a document. Decide looks whether the products and channels that it names
// exist.
func (r Rule) Check() error {
	var c checks
	c.rule(nil, &r)
	return c.All().Err()
}

// checks gathers problems.
type checks struct{ form.Collector }

func (c *checks) rule(at *form.Path, r *Rule) {
	c.AddAll(at, form.Check(*r).All().Err())
	r.CheckIn(&c.Collector, at)
}

// CheckIn adds contradictions in the rule, which stands at a path, and an unknown kind, to the
// problems found so far. Only packages of this module need it.
func (r Rule) CheckIn(found *form.Collector, at *form.Path) {
	if len(r.Designs) > 0 && len(r.Products) > 0 {
		found.Add(at.Field("designs"), quoin.Problem{Code: quoin.RivalFields, Found: "designs beside products", Wanted: "one of them", Remedy: "leave one out: each says what the rule speaks of"})
	}
	switch k := r.Kind.(type) {
	case SizeRatio:
		unique(found, at.Field("products"), r.Products, "each size once")
	case Ending:
		if len(k.EndsIn) == 0 && !found.Under(at.Field("ends_in")) {
			found.Add(at.Field("ends_in"), quoin.Problem{Code: quoin.EmptyList, Found: "no endings", Wanted: "at least one"})
		}
	}
	if p, bad := kindProblem(r.Kind); bad && !found.Under(at.Field("rule")) {
		found.Add(at.Field("rule"), p)
	}
}

// Check returns everything that is wrong with the item by itself, at once, as quoin.Problems: a
// grid without prices, offers that no CompiledChannel made or whose sale was changed, channels
// that are given twice, comparables that a document could not have.
func (it Item) Check() error {
	var c checks
	c.item(nil, &it)
	return c.All().Err()
}

func (c *checks) item(at *form.Path, it *Item) {
	if it.ID == "" {
		c.Missing(at.Field("id"), "id")
	}
	if it.Grid.Len() == 0 {
		c.Add(at.Field("grid"), quoin.Problem{Code: quoin.MissingField, Found: "no prices", Wanted: "a grid of NewGrid"})
	}
	if today, given := it.Today.Get(); given && today.Sign() < 0 {
		c.Add(at.Field("today"), quoin.Problem{Code: quoin.OutOfRange, Found: today.String(), Wanted: "a value of at least 0"})
	}
	if _, err := form.Word(string(it.End), Cheapest, Dearest); err != nil && it.End != Likely {
		c.AddAll(at.Field("end"), err)
	}
	for i, one := range it.Comparables {
		if one.Product == "" { // which follows from where it stands
			one.Product = "this"
		}
		c.AddAll(at.Field("comparables").At(i), form.Check(one).All().Err())
	}
	for j := range it.Offers {
		if p, bad := it.Offers[j].problem(it.Grid); bad {
			c.Add(at.Field("offers").At(j), p)
		}
	}
	unique(&c.Collector, at.Field("offers"), it.channels(), "one offer for each channel")
}

// problem is what is wrong with an offer of an item.
func (o *Offer) problem(g quoin.Grid) (quoin.Problem, bool) {
	p := quoin.Problem{Code: BadOffer, Wanted: "an offer of a CompiledChannel", Remedy: "make it by CompileChannel(terms, grid).Offer(sale), or by NewItem"}
	switch {
	case o.compiled == nil:
		p.Found = "an offer without a curve"
	case !o.compiled.grid.Equal(g):
		p.Code, p.Found, p.Wanted = OtherGrid, o.compiled.grid.String(), "prices of "+g.String()+", as the item"
	case o.Sale.Terms.Orders() != o.compiled.terms.Orders() || o.compiled.gauge.costs(&o.Sale) != o.costs:
		p.Found, p.Remedy = "an offer whose sale was changed in place", "give it another sale by With"
	default:
		return p, false
	}
	return p, true
}

// checkAll is what is wrong with items, rules and a choice, by themselves and together.
func checkAll(items []Item, rules []Rule, choose Choice) error {
	var c checks
	first, ids, known := make(map[string]int, len(items)), make(map[string]int, len(rules)), namesOf(items)
	for i := range items {
		it, at := &items[i], (*form.Path)(nil).Field("items").At(i)
		c.item(at, it)
		c.once(at, "items", it.ID, i, first)
		if !it.Grid.Equal(items[0].Grid) && it.Grid.Len() > 0 {
			c.Add(at.Field("grid"), quoin.Problem{Code: OtherGrid, Found: it.Grid.String(), Wanted: "prices of " + items[0].Grid.String() + ", as the first item"})
		}
	}
	for n := range rules {
		r, at := &rules[n], (*form.Path)(nil).Field("rules").At(n)
		c.rule(at, r)
		c.once(at, "rules", r.ID, n, ids)
		c.named(at.Field("products"), r.Products, known.products, "the id of an item")
		c.named(at.Field("designs"), r.Designs, known.designs, "the design of an item")
		c.named(at.Field("channels"), r.Channels, known.channels, "the channel of an offer of an item")
	}
	if choose != "" {
		c.AddAll((*form.Path)(nil).Field("choose"), choose.UnmarshalText([]byte(choose)))
	}
	return c.All().Err()
}

// known is the names that rules may name.
type known struct{ products, designs, channels map[string]bool }

func namesOf(items []Item) known {
	k := known{make(map[string]bool, len(items)), make(map[string]bool), make(map[string]bool)}
	for i := range items {
		k.products[items[i].ID] = true
		if design := items[i].Design; design != "" {
			k.designs[design] = true
		}
		for j := range items[i].Offers {
			k.channels[items[i].Offers[j].Channel] = true
		}
	}
	return k
}

// once checks that no id comes twice in a list; one that is missing has been said.
func (c *checks) once(at *form.Path, list, id string, i int, first map[string]int) {
	if j, twice := first[id]; twice && id != "" {
		c.Add(at.Field("id"), quoin.Problem{Code: quoin.DuplicateID, Found: prose.Quoted(id) + " again", Wanted: fmt.Sprintf("an id other than that of %s[%d]", list, j)})
		return
	}
	first[id] = i
}

// unique checks that the names of a list come once.
func unique(c *form.Collector, list *form.Path, names []string, wanted string) {
	seen := make(map[string]bool, len(names))
	for i, name := range names {
		if seen[name] {
			c.Add(list.At(i), quoin.Problem{Code: quoin.DuplicateID, Found: prose.Quoted(name) + " again", Wanted: wanted})
		}
		seen[name] = true
	}
}

// named checks that the names of a list are known.
func (c *checks) named(list *form.Path, names []string, known map[string]bool, wanted string) {
	var all []string
	for i, name := range names {
		if known[name] || c.Full {
			continue
		}
		if all == nil {
			all = slices.Sorted(maps.Keys(known))
		}
		c.Add(list.At(i), quoin.Problem{Code: quoin.UnknownID, Found: prose.Quoted(name), Wanted: wanted, Near: c.Near(name, all)})
	}
}
