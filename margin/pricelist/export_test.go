package pricelist

import (
	"context"
	"iter"

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
func (b Batch) Do(ctx context.Context, work ...func() (Answer, error)) iter.Seq2[Answer, error] {
	return b.run(ctx, nil, func(_ context.Context, yield func(job) bool) {
		for _, do := range work {
			if !yield(do) {
				return
			}
		}
	})
}
