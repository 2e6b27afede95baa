package pricelist

import (
	_ "embed" // for the schemas, which are files so that tools can read them too
	"fmt"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/margin/rule"
)

// Decode reads a shop document from JSON and checks it. The error is quoin.Problems: everything
// that is wrong with the document, at once. Its time and memory are in proportion to data,
// whatever data contains.
func Decode(data []byte) (Document, error) {
	doc, _, err := decode(data)
	return doc, err
}

func decode(data []byte) (Document, derivedDocument, error) {
	var c form.Collector
	var doc Document
	var w derivedDocument
	if c.Read(data, &doc) {
		w = check(doc, &c)
	}
	if err := located(data, c.All().Err()); err != nil {
		return Document{}, derivedDocument{}, err
	}
	return doc, w, nil
}

// located has problems stand where they do in a text.
func located(text []byte, err error) error {
	if ps, ok := err.(quoin.Problems); ok {
		form.Locate(text, ps)
	}
	return err
}

//go:embed document.schema.json
var documentSchema string

//go:embed answer.schema.json
var answerSchema string

// DocumentSchema returns the JSON Schema (2020-12) of the shop document, for editors and checks
// outside Go. Decode refuses more than the schema does: contradictions between fields.
func DocumentSchema() []byte { return []byte(documentSchema) }

// AnswerSchema returns the JSON Schema (2020-12) of an Answer written as JSON.
func AnswerSchema() []byte { return []byte(answerSchema) }

// UnmarshalJSON reads what MarshalJSON writes. The result equals what was written, is written
// the same way again, gives its reasons as before, and its steps can be computed again. Unknown
// fields are skipped. The error is a Problem that says where.
func (a *Answer) UnmarshalJSON(data []byte) error {
	type fields Answer // without this method
	var read struct {
		fields
		Steps *quoin.Journal `json:"steps,omitempty"`
	}
	if err := form.ReadStored(data, &read, inside); err != nil {
		return err
	}
	out := Answer(read.fields)
	if err := out.restore(read.Steps); err != nil {
		return err
	}
	*a = out
	return nil
}

// restore gives an answer that was read what stands for it elsewhere in its JSON: reasons
// their steps, and allowed prices the grid that they are on.
func (a *Answer) restore(j *quoin.Journal) error {
	if j == nil {
		j = new(quoin.Journal)
	}
	at := func(list string, i int) *path { return (*path)(nil).Field(list).At(i) }
	var err error
	restore := func(r *Reasons, at *path) {
		if err == nil {
			err = r.restore(j, at)
		}
	}
	for i := range a.Products {
		p, here := &a.Products[i], at("products", i)
		if err == nil {
			err = p.restoreAllowed(a, here)
		}
		for k := range p.Channels {
			restore(&p.Channels[k].Steps, here.Field("channels").At(k).Field("steps"))
		}
	}
	for i := range a.Fairs {
		restore(&a.Fairs[i].Steps, at("fairs", i).Field("steps"))
	}
	for i := range a.Sets {
		restore(&a.Sets[i].Steps, at("sets", i).Field("steps"))
	}
	for i, e := range a.Editions {
		for k := range e.Products {
			restore(&e.Products[k].Reasons, at("editions", i).Field("products").At(k).Field("reasons"))
		}
	}
	return err
}

// restore takes the steps that were told from a journal. Each stands there once, so there
// are no more of them than steps.
func (r *Reasons) restore(j *quoin.Journal, at *path) error {
	if r.told == nil {
		return nil
	}
	told, left := r.told, j.Len()
	for i, run := range told {
		left -= run[1] - run[0] + 1
		if run[0] < 1 || run[1] < run[0] || run[1] > j.Len() || left < 0 {
			return quoin.Problem{
				Code: quoin.OutOfRange, Severity: quoin.Fault, Path: at.At(i).String(), Found: fmt.Sprintf("steps %d to %d", run[0], run[1]),
				Wanted: fmt.Sprintf("steps from 1 to %d, each once", j.Len()),
			}
		}
	}
	*r = Reasons{read: func() []quoin.Step {
		var numbers []int
		for _, run := range told {
			for n := run[0]; n <= run[1]; n++ {
				numbers = append(numbers, n)
			}
		}
		return j.Steps(numbers)
	}}
	return nil
}

// UnmarshalJSON reads a list of steps, as MarshalJSON writes it. The error is a Problem.
func (r *Reasons) UnmarshalJSON(data []byte) error {
	var j quoin.Journal
	if err := j.UnmarshalJSON(data); err != nil {
		return err
	}
	all := make([]int, j.Len())
	for i := range all {
		all[i] = i + 1
	}
	*r = Reasons{read: func() []quoin.Step { return j.Steps(all) }}
	return nil
}

// UnmarshalJSON reads what MarshalJSON writes. The error is a Problem.
func (b *WhyNot) UnmarshalJSON(data []byte) error { return readStored(b, data) }

// UnmarshalJSON reads what MarshalJSON writes. The error is a Problem.
func (p *ByChannel) UnmarshalJSON(data []byte) error { return readStored(p, data) }

func readStored[T any](to *T, data []byte) error {
	var out T
	err := form.ReadStored(data, &out, inside)
	if err == nil {
		*to = out
	}
	return err
}

// restoreAllowed puts the allowed prices of a product on the grid of its answer.
func (p *ProductResult) restoreAllowed(a *Answer, at *path) error {
	runs := p.Allowed.listed
	if runs == nil {
		return nil
	}
	at = at.Field("allowed")
	g, err := quoin.NewGrid(a.PriceStep, a.PriceLimit)
	if err != nil || !a.PriceStep.Mod(a.Currency.Minor()).IsZero() {
		return locatedAt(at, quoin.Problem{
			Code: quoin.BadGrid, Severity: quoin.Fault, Found: fmt.Sprintf("prices in steps of %s up to %s", a.PriceStep, a.PriceLimit),
			Wanted: "price_step and price_limit of an answer, in whole minor units",
		})
	}
	of := rule.Pattern{Between: runs, Every: g.Step(), EndsIn: []quoin.Amount{{}}}
	switch {
	case p.AllowedPattern != nil:
		of = *p.AllowedPattern
	case len(runs) > mostListed:
		return locatedAt(at, quoin.Problem{
			Code: quoin.TooMany, Severity: quoin.Fault, Found: fmt.Sprintf("%d runs", len(runs)), Wanted: fmt.Sprintf("allowed_pattern beside %d of them", mostListed),
		})
	}
	p.Allowed = AllowedPrices{places: a.Currency.Digits()}
	p.Allowed.Set, err = of.Set(g)
	return locatedAt(at, err)
}

// inside is what stands in the JSON of an answer for values that are more than their fields
// say.
func inside(to any) any {
	switch to := to.(type) {
	case *WhyNot:
		return &to.told
	case *ByChannel:
		return &to.told
	case *Reasons:
		return &to.told
	case *AllowedPrices:
		return &to.listed
	}
	return nil
}

// locatedAt returns a problem as found at a path.
func locatedAt(at *path, err error) error {
	p, ok := err.(quoin.Problem)
	if !ok {
		return err
	}
	p.Path = form.Beneath(at.String(), p.Path)
	return p
}
