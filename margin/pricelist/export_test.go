package pricelist

import (
	"context"
	"fmt"
	"iter"
	"reflect"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/margin"
)

// LedgerOf gives tests product i in channel j.
func LedgerOf(d Document, i, j int) margin.StatementInputs {
	w := d.work(new(form.Collector), newMemory(), nil)
	return w.statementInputs(d.supplyIndex(), i, j, nil, sold{Channel: w.Channels[j].For(w.Products[i].ID)})
}

// Certain gives tests the document without its ranges.
func (d Document) Certain() Document {
	return d.certain(func(form.Unsure) string { return "" })
}

// Do gives tests a batch of other work than lots.
func (b Batch) Do(ctx context.Context, all ...func() (Answer, error)) iter.Seq2[Answer, error] {
	return b.run(ctx, nil, func(_ context.Context, yield func(work) bool) {
		for _, do := range all {
			if !yield(single(do)) {
				return
			}
		}
	})
}

// General gives tests a shop that prices everything the general way.
func General(s *Shop) *Shop {
	shared := *s.sharedCosts
	shared.plan = nil
	return &Shop{sharedCosts: &shared, doc: s.doc, ids: s.ids, each: s.each, warnings: s.warnings}
}

// HasPlan reports to tests whether any of the shop's products may be priced by a plan.
func HasPlan(s *Shop) bool { return s.plan != nil }

// ReadPlanned gives tests the answer to the text of a product by the shop's plan.
func ReadPlanned(s *Shop, text []byte) (Answer, bool) { return s.readPlanned(text) }

// DecidePlanned gives tests the answer to a product by the shop's plan, once the general way has
// checked it and worked it out.
func DecidePlanned(s *Shop, lot Lot) (Answer, bool) {
	lot = form.Copy(lot)
	var c form.Collector
	c.Walk(nil, reflect.ValueOf(&lot).Elem())
	w, err := s.check(lot, &c, true)
	if err != nil {
		return Answer{}, false
	}
	return s.figures(&w.Products[0], lot.Comparables)
}

// Moved gives tests how many products are left out, for each value with a range at each end, since
// it cannot move them. The error says where one is moved all the same, or one that is worked out
// costs something else than in the whole document.
func Moved(d Document) (leftOut int, err error) {
	w, err := form.Copy(d).checked()
	if err != nil {
		return 0, err
	}
	m, err := w.open()
	if err != nil {
		return 0, err
	}
	likely := form.Copy(w.given)
	values := form.Unsures(nil, reflect.ValueOf(&likely).Elem())
	for _, u := range values {
		u.Ends.SetZero()
	}
	how, r := w.goodsPlan(m), w.reach()
	before, err := how(likely)
	if err != nil {
		return 0, err
	}
	everyProduct, everySupply := upTo(len(w.Products)), upTo(len(w.Supplies))
	for n, u := range w.inputs {
		products, named := r.moved(u)
		for _, end := range []string{"low", "high"} {
			all, err := likely.goodsAt(values[n].Value, u.End(end), everyProduct, everySupply, how)
			if err != nil {
				return 0, err
			}
			some, err := likely.goodsAt(values[n].Value, u.End(end), products, named, how)
			if err != nil {
				return 0, err
			}
			got := slices.Clone(before)
			for k, i := range products {
				got[i] = some[k]
			}
			leftOut += len(got) - len(some)
			for i := range all {
				if !slices.EqualFunc(got[i], all[i], quoin.Amount.Equal) {
					return 0, fmt.Errorf("%s moves product %d: %v, want %v", u.At, i, got[i], all[i])
				}
			}
		}
	}
	return leftOut, nil
}
