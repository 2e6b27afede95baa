package pricelist

import (
	"fmt"
	"maps"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin/rule"
)

// rules checks the rules.
func (k *checker) rules() {
	shown := &designs{products: k.doc.Products}
	for i := k.firstRule(); i < len(k.doc.Rules); i++ {
		r := k.doc.Rules[i]
		at := (*path)(nil).Field("rules").At(i)
		for j, id := range r.Products {
			k.known(at.Field("products").At(j), "products", id)
		}
		for j, id := range r.Channels {
			k.known(at.Field("channels").At(j), "channels", id)
		}
		r.CheckIn(k.Collector, at)
		k.designs(at, r, shown)
		if step, ok := r.Kind.(rule.SizeRatio); ok {
			k.ladder(at, r, step, shown)
		}
	}
	if k.sizeRatiosTried(shown) {
		k.sized(shown)
	}
}

// designs checks the designs that a rule names.
func (k *checker) designs(at *path, r rule.Rule, shown *designs) {
	if k.open || k.shop != nil || len(r.Designs) == 0 {
		return // what products show is still to come, or was in another lot
	}
	for j, name := range r.Designs {
		if name == "" || shown.count()[name] == 0 {
			k.Add(at.Field("designs").At(j), quoin.Problem{Code: quoin.UnknownID, Found: prose.Quoted(name), Wanted: "the design of a product", Near: k.Near(name, shown.names())})
		}
	}
}

// designs is how many products show each design, counted where it is first asked for.
type designs struct {
	products []Product
	shows    map[string]int
	every    soldBy            // of all products
	sold     map[string]soldBy // of those that show a design
	first    []string
}

func (s *designs) count() map[string]int {
	if s.shows != nil {
		return s.shows
	}
	s.shows = make(map[string]int)
	for _, p := range s.products {
		if p.Design != "" {
			s.shows[p.Design]++
		}
	}
	return s.shows
}

// names returns the first designs in their order, for a near one to be found among them.
func (s *designs) names() []string {
	if s.first == nil {
		names := slices.Sorted(maps.Keys(s.count()))
		s.first = names[:min(len(names), form.MostNames)]
	}
	return s.first
}

// ofDesigns is whether a rule without products speaks of a design.
func ofDesigns(r rule.Rule) func(design string) bool {
	if len(r.Designs) == 0 {
		return func(string) bool { return true }
	}
	named := make(map[string]bool, len(r.Designs))
	for _, d := range r.Designs {
		named[d] = true
	}
	return func(design string) bool { return named[design] }
}

// ladder checks that a step has sizes to step between.
func (k *checker) ladder(at *path, r rule.Rule, step rule.SizeRatio, shown *designs) {
	if len(r.Products) == 0 {
		k.rungs(at, r, shown)
		return
	}
	if step.Order != "" {
		k.Stray(at.Field("order"), "an order beside products", "no order: products follow each other as they are listed here")
	}
	at = at.Field("products")
	if len(r.Products) < 2 {
		k.Add(at, quoin.Problem{
			Code: ShortLadder, Found: prose.Count(len(r.Products), "product"), Wanted: "at least two, from the smallest size up",
		})
	}
}

// rungs checks that a step through designs has any to step through: one with two
// products at least. In a lot it may find none.
func (k *checker) rungs(at *path, r rule.Rule, shown *designs) {
	if k.open || k.shop != nil || k.Under(at) {
		return
	}
	speaks := ofDesigns(r)
	for design, n := range shown.count() {
		if n > 1 && speaks(design) {
			return
		}
	}
	k.Add(at.Field("products"), quoin.Problem{
		Code: ShortLadder, Found: "no design with two products", Wanted: "products, from the smallest size up, or products that say which design they show",
		Remedy: "give the sizes of one print the same design, or name them in products",
	})
}

// sized checks that products that follow each other by size have one each, and not the
// same.
func (k *checker) sized(shown *designs) {
	for _, r := range k.doc.Rules {
		step, ok := r.Kind.(rule.SizeRatio)
		if !ok || len(r.Products) > 0 || step.Order == rule.Listed {
			continue
		}
		k.bySize(r, shown)
	}
}

func (k *checker) bySize(r rule.Rule, shown *designs) {
	type rung struct{ design, area string }
	seen, shows, speaks := make(map[rung]int), shown.count(), ofDesigns(r)
	for i, p := range k.doc.Products {
		if shows[p.Design] < 2 || !speaks(p.Design) {
			continue
		}
		at := (*path)(nil).Field("products").At(i)
		size := p.paper()
		if size.IsZero() {
			k.Fault(at.Field("sheet"), quoin.MissingField, "nothing",
				fmt.Sprintf("a sheet or an image: %s steps from size to size of %s", prose.Quoted(r.ID), prose.Quoted(p.Design)),
				"give it, or say \"order\": \"listed\" in the rule")
			continue
		}
		key := rung{p.Design, size.Area().Rat().RatString()}
		if j, twice := seen[key]; twice {
			k.Add(at.Field("design"), quoin.Problem{
				Code: SameSize, Found: fmt.Sprintf("%s is as large as products[%d], %s", p.ID, j, k.doc.Products[j].ID),
				Wanted: fmt.Sprintf("one product of each size of %s, which %s steps through by size", prose.Quoted(p.Design), prose.Quoted(r.ID)),
				Remedy: "give framed prints and other papers a design of their own, or say \"order\": \"listed\" in the rule",
			})
			continue
		}
		seen[key] = i
	}
}
