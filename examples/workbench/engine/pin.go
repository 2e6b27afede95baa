package main

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

// pinned is what gives where one price is asked for, whatever the rules choose.
type pinned struct {
	Price    string   `json:"price"`
	Holds    bool     `json:"holds"`
	Conflict string   `json:"conflict,omitempty"` // in sentences, where it does not hold
	Moved    []moved  `json:"moved,omitempty"`    // other prices of the list that follow
	Dropped  []string `json:"dropped,omitempty"`  // wishes that are given up for it
	// The rule that asks for the price, to be written into the document under this id.
	ID   string `json:"id"`
	Rule string `json:"rule"`
}

// moved is a price that follows another.
type moved struct {
	Name string `json:"name"`
	From string `json:"from"`
	To   string `json:"to"`
}

// pin decides a copy of the document with one more rule, which asks for one price.
func (d *desk) pin(product, price string) (pinned, error) {
	i := d.place(product)
	if i < 0 {
		return pinned{}, quoin.Problem{Severity: quoin.Fault, Code: quoin.UnknownID, Found: product, Wanted: "the id of a product"}
	}
	grid, err := d.doc.Grid()
	if err != nil {
		return pinned{}, err
	}
	at, err := onGrid(grid, price)
	if err != nil {
		return pinned{}, err
	}
	asked := asking(product, d.product(product), at)
	doc := d.doc
	doc.Rules = slices.DeleteFunc(slices.Clone(d.doc.Rules), func(r rule.Rule) bool { return r.ID == asked.ID })
	doc.Rules = append(doc.Rules, asked)
	answer, err := pricelist.Decide(doc)
	if err != nil {
		return pinned{}, err
	}
	text, err := asked.MarshalJSON()
	if err != nil {
		return pinned{}, err
	}
	out := pinned{Price: at.String(), Holds: len(answer.Conflict) == 0, ID: asked.ID, Rule: string(text)}
	if !out.Holds {
		out.Conflict = conflictText(answer)
		return out, nil
	}
	for n, p := range answer.Products {
		was, ok := d.result(n)
		if n != i && ok && !was.Price.Equal(p.Price) {
			out.Moved = append(out.Moved, moved{d.product(p.ID), was.Price.String(), p.Price.String()})
		}
	}
	for _, id := range answer.Dropped {
		if !slices.Contains(d.answer.Dropped, id) {
			out.Dropped = append(out.Dropped, id)
		}
	}
	return out, nil
}

// asking is the rule that asks one price of a product. There is one for each product.
func asking(product, name string, price quoin.Amount) rule.Rule {
	return rule.Rule{
		ID: "my price of " + name, Products: []string{product},
		Kind: rule.Price{AtLeast: quoin.Some(price), AtMost: quoin.Some(price)},
	}
}
