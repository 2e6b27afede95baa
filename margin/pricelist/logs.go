package pricelist

import (
	"maps"
	"slices"

	"example.com/quoin"
	"example.com/quoin/cost"
	"example.com/quoin/cost/ink"
	"example.com/quoin/internal/form"
)

// logged returns the document with each log of ink turned into what a square
// metre takes and its range, and how that came about.
func (d Document) logged(c *form.Collector) (Document, map[quoin.Path]quoin.Origin) {
	origins := make(map[quoin.Path]quoin.Origin)
	copied := false
	d.eachLine(func(at quoin.Path, l *cost.Line) {
		copied = copied || hasLog(l.Ink)
	})
	if !copied {
		return d, origins
	}
	d = form.Copy(d)
	d.eachLine(func(at quoin.Path, l *cost.Line) {
		if !hasLog(l.Ink) {
			return
		}
		at = at.Inside("ink")
		likely, err := l.Ink.Likely()
		if err != nil {
			addOnce(c, at, err)
			return
		}
		given := *l.Ink
		origins[at.Field("per_m2")] = func(t *quoin.Trail) quoin.Operand { return given.ExplainLikely(t, at) }
		*l.Ink = likely
	})
	return d, origins
}

func hasLog(u *ink.Use) bool { return u != nil && (len(u.Log)+len(u.Spent) > 0 || u.RatedPages != 0) }

// eachLine goes through the lines of all bills and packing lists.
func (d *Document) eachLine(do func(at quoin.Path, l *cost.Line)) {
	for i := range d.Products {
		p, at := &d.Products[i], quoin.InList("products", i)
		for j := range p.Bill {
			do(at.Sub("bill", j), &p.Bill[j])
		}
		for _, name := range slices.Sorted(maps.Keys(p.Packing)) {
			for j := range p.Packing[name] {
				do(at.Named("packing", name, j), &p.Packing[name][j])
			}
		}
	}
}
