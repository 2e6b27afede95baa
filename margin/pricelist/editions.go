package pricelist

import (
	"example.com/quoin"
	"example.com/quoin/margin/edition"
	"example.com/quoin/margin/rule"
)

// Limited is how an edition stands, and what it is expected to bring.
type Limited struct {
	ID   string `json:"id"`
	Name string `json:"name,omitempty"`
	// Numberings is how many are sold, reserved, destroyed, kept and free.
	Numberings []edition.Numbering `json:"numberings"`
	Products   []Rising            `json:"products"`
	// Limits says of each bound of the shop whether the edition is within it.
	Limits []Bounded `json:"limits,omitempty"`
}

// Rising is the steps of one product of an edition.
type Rising struct {
	Product string     `json:"product"`
	Steps   []StepAsks `json:"steps"`
	// Count is how many are still to be sold, all in this size; Takings is the
	// prices of those, Keeps what is left after all but income tax and overhead if
	// all of them are sold in Channel, the one that keeps least of them together.
	// Months is how long that takes; none where no pace is given.
	Count   int64                        `json:"count"`
	Takings quoin.Amount                 `json:"takings"`
	Keeps   quoin.Amount                 `json:"keeps"`
	Channel string                       `json:"channel,omitempty"`
	Months  quoin.Optional[quoin.Factor] `json:"months,omitzero"`
	// Explanation is where takings, keeps and months come from, step by step.
	Explanation Reasons `json:"reasons,omitzero"`
}

// StepAsks is one step: the price from so many sold on, and whether all rules
// allow it.
type StepAsks struct {
	Sold  int64        `json:"sold"`
	Price quoin.Amount `json:"price"`
	Count int64        `json:"count"` // still to be sold at it
	// Refused are the rules that do not allow it.
	Refused []string `json:"refused,omitempty"`
}

// Bounded is a bound on editions and how many prints it counts of one.
type Bounded struct {
	Name   string `json:"name"`
	Counts int64  `json:"counts"`
	AtMost int64  `json:"at_most"`
	Within bool   `json:"within"`
	Source string `json:"source,omitempty"`
}

// editions says how every edition stands.
func (d worked) editions(items []rule.Item, dec rule.Decision) []Limited {
	var out []Limited
	for k, e := range d.Editions {
		numberings, _ := e.Audit() // whose faults were told when it was checked
		l := Limited{ID: e.ID, Name: e.Name, Numberings: numberings}
		for _, b := range d.EditionLimits {
			l.Limits = append(l.Limits, Bounded{b.Name, b.Count(e), b.AtMost, b.Within(e), b.Source})
		}
		for _, id := range e.Products {
			at := quoin.InList("editions", k)
			i := d.index[id]
			n, _ := edition.NumberingOf(numberings, id)
			l.Products = append(l.Products, d.rising(e, at, n.Numbers, i, items[i], dec))
		}
		out = append(out, l)
	}
	return out
}

// rising prices the steps of a product: times its decided price, raised to the
// next price that its endings allow.
func (d worked) rising(e edition.Edition, at quoin.Path, of edition.Tally, i int, it rule.Item, dec rule.Decision) Rising {
	steps := e.Ladder(of, dec.Prices[i], func(p quoin.Amount) quoin.Amount { return dec.Asked(i, p) })
	takings, kept, in := keepsLeast(steps, it)
	r := Rising{Product: it.ID, Count: takings.Count, Takings: takings.Gross, Keeps: takings.Kept, Channel: in, Months: takings.Months}
	r.Explanation = because(func(t *quoin.Trail) {
		e.Explain(t, at, of, steps, nil)
		e.Explain(t, at, of, steps, kept)
		e.ExplainMonths(t, at, of, steps)
	})
	for _, s := range steps {
		r.Steps = append(r.Steps, StepAsks{
			Sold: s.From - 1, Price: d.Currency.Round(s.Price, quoin.HalfUp), Count: s.Count, Refused: dec.Refuse(i, s.Price),
		})
	}
	return r
}

// keepsLeast is what the prints still to be sold bring in the channel that keeps least of
// all of them, of equals the first, with what it keeps of a price.
func keepsLeast(steps []edition.Priced, it rule.Item) (least edition.Takings, kept func(quoin.Amount) quoin.Amount, channel string) {
	for j, o := range it.Offers {
		keeps := func(price quoin.Amount) quoin.Amount { return o.Sale.At(price).Contribution }
		if t := edition.Expected(steps, keeps); j == 0 || t.Kept.Cmp(least.Kept) < 0 {
			least, kept, channel = t, keeps, o.Channel
		}
	}
	return least, kept, channel
}
