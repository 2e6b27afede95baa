package pricelist

import (
	"context"
	"iter"
	"reflect"

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
