package margin

import (
	"fmt"
	"maps"
	"slices"

	"example.com/quoin"
	"example.com/quoin/cost"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
)

// Check returns everything that is wrong with the recipe, at once: what Goods would refuse, and
// what it would misread, such as a missing quantity. The error is quoin.Problems, with paths in
// the recipe: bill[0].quantity, route[1].yield.
func (r Recipe) Check() error {
	k := recipeChecker{costs: r.Costs, stages: make(map[string]bool, len(r.Route))}
	root := (*form.Path)(nil)
	k.AddAll(root.Field("route"), r.Route.Check())
	for _, s := range r.Route {
		k.stages[s.ID] = true
	}
	if !r.Run.IsZero() {
		k.AddAll(root.Field("run"), form.Check(r.Run).All().Err())
	}
	k.bill(root.Field("bill"), r.Bill, r)
	k.bill(root.Field("packing"), r.Packing, r)
	k.between(root.Field("parcels"), quoin.FactorOf(r.Parcels).Figure(), 0, "zero or more")
	k.between(root.Field("contingency"), r.Allowance.Contingency.Figure(), 0, "a value of at least 0%")
	k.between(root.Field("loss"), r.Allowance.Loss.Figure(), 1, "a value of at least 0% and below 100%")
	k.between(root.Field("back"), r.Back.Figure(), 1, "a value of at least 0% and below 100%")
	return k.All().Err()
}

type recipeChecker struct {
	form.Collector
	costs  map[string]cost.UnitCost
	stages map[string]bool
}

// between checks that a number is not below 0 and, where most is above 0, below that.
func (k *recipeChecker) between(at *form.Path, f quoin.Figure, most int64, wanted string) {
	if x := f.Factor(); x.Sign() < 0 || most > 0 && x.Cmp(quoin.FactorOf(most)) >= 0 {
		k.Add(at, quoin.Problem{Code: quoin.OutOfRange, Found: f.String(), Wanted: wanted})
	}
}

func (k *recipeChecker) bill(at *form.Path, bill cost.Bill, r Recipe) {
	for i, l := range bill {
		k.AddAll(at.At(i), form.Check(l).All().Err())
	}
	bill.CheckIn(&k.Collector, at, r.Run, k)
	for i, l := range bill {
		if l.Quantity.IsZero() {
			k.Fault(at.At(i).Field("quantity"), quoin.MissingField, "nothing", "the field quantity",
				"it follows from what is cut, inked or framed: BillLine.Work fills it in")
		}
	}
}

// Supply returns the unit that a supply is bought by.
func (k *recipeChecker) Supply(id string) (quoin.Unit, bool) {
	c, ok := k.costs[id]
	return c.Unit, ok
}

// Stage reports whether there is a stage.
func (k *recipeChecker) Stage(id string) bool { return k.stages[id] }

// Unknown reports an id of a supply that has no cost, or of a stage not gone through.
func (k *recipeChecker) Unknown(at *form.Path, list, id string) {
	wanted, names := "the id of a supply in costs", slices.Sorted(maps.Keys(k.costs))
	if list == "stages" {
		wanted, names = "the id of a stage of the route", slices.Sorted(maps.Keys(k.stages))
	}
	k.Add(at, quoin.Problem{Code: quoin.UnknownID, Found: prose.Quoted(id), Wanted: wanted, Near: k.Near(id, names)})
}

// Check returns what is wrong with the sale: goods for other kinds of order than its terms
// have, fixed costs below zero, an income tax that is not a share. A sale of NewSale or
// NewPackedSale, with terms from a channel, has none of these. The error is quoin.Problems.
func (s Sale) Check() error {
	var k recipeChecker
	n := s.Terms.Orders()
	root := (*form.Path)(nil)
	if n == 0 {
		k.Add(root.Field("terms"), quoin.Problem{Code: quoin.MissingField, Found: "no kind of order", Wanted: "the terms of a channel, as Channel.Terms makes them"})
	}
	if len(s.Goods) != n {
		k.Add(root.Field("goods"), quoin.Problem{Code: quoin.OutOfRange, Found: fmt.Sprintf("%d entries", len(s.Goods)), Wanted: fmt.Sprintf("%d: one for each kind of order of the terms", n)})
	}
	k.between(root.Field("fixed_cost"), s.FixedCost.Figure(), 0, "a value of at least 0")
	k.between(root.Field("overhead"), s.Overhead.Figure(), 0, "a value of at least 0")
	if r := s.IncomeTax; r.Sign() < 0 || r.Complement().Sign() < 0 {
		k.Add(root.Field("income_tax"), quoin.Problem{Code: quoin.OutOfRange, Found: r.String(), Wanted: "a value of at least 0% and at most 100%"})
	}
	return k.All().Err()
}
