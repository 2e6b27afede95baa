package main

import (
	"encoding/json"
	"errors"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

// desk is a document that lies open: what it decided, and its products compiled, so that a
// price that is moved costs no more than its statements.
type desk struct {
	doc    pricelist.Document
	answer pricelist.Answer
	items  []rule.Item
	// ladders are the pairs of neighbouring sizes of each rule between sizes.
	ladders [][][2]int
	speak   [][]int // the places of the rules that apply to each product
	names   names
}

// open reads and decides a document. The error is quoin.Problems.
func open(text []byte) (*desk, error) {
	doc, err := pricelist.Decode(text)
	if err != nil {
		return nil, err
	}
	answer, err := pricelist.Decide(doc)
	if err != nil {
		return nil, err
	}
	return &desk{doc: doc, answer: answer, names: named(doc)}, nil
}

// compile makes the document's products ready to be looked at, once.
func (d *desk) compile() error {
	if d.items != nil {
		return nil
	}
	items, err := d.doc.Items(rule.Likely)
	if err != nil {
		return err
	}
	if d.ladders, err = ladders(items, d.doc.Rules); err != nil {
		return err
	}
	for i, it := range items {
		var speak []int
		for r, ru := range d.doc.Rules {
			if _, ok := ru.Kind.(rule.SizeRatio); ok && on(d.ladders[r], i) || !ok && ru.SpeaksOf(it.ID, it.Design) {
				speak = append(speak, r)
			}
		}
		d.speak = append(d.speak, speak)
	}
	d.items = items
	return nil
}

// ladders are the pairs of neighbouring sizes of each rule, none for rules that compare no sizes.
// Only those that do are decided for it, which costs next to nothing.
func ladders(items []rule.Item, rules []rule.Rule) ([][][2]int, error) {
	out := make([][][2]int, len(rules))
	var places []int
	var steps []rule.Rule
	for r, ru := range rules {
		if _, ok := ru.Kind.(rule.SizeRatio); ok {
			places, steps = append(places, r), append(steps, ru)
		}
	}
	if len(steps) == 0 {
		return out, nil
	}
	dec, err := rule.CheckedItems{Items: items, Rules: steps}.Decide(rule.Least)
	if err != nil {
		return nil, err
	}
	for n, r := range places {
		for before, after := range dec.LadderPairs(n) {
			out[r] = append(out[r], [2]int{before, after})
		}
	}
	return out, nil
}

// on reports whether a product is on a ladder.
func on(pairs [][2]int, i int) bool {
	for _, p := range pairs {
		if p[0] == i || p[1] == i {
			return true
		}
	}
	return false
}

// place is the place of a product in the document; −1 where it has none of this id.
func (d *desk) place(product string) int {
	for i, p := range d.doc.Products {
		if p.ID == product {
			return i
		}
	}
	return -1
}

// result is what the answer says of a product; false on a conflict.
func (d *desk) result(i int) (pricelist.ProductResult, bool) {
	if i < 0 || i >= len(d.answer.Products) {
		return pricelist.ProductResult{}, false
	}
	return d.answer.Products[i], true
}

// alone is the answer with one product, as pictures and stories need it.
func (d *desk) alone(product string) (pricelist.Answer, bool) {
	p, ok := d.result(d.place(product))
	a := d.answer
	a.Products = []pricelist.ProductResult{p}
	return a, ok
}

// names are what people call things, by their ids.
type names struct{ products, channels map[string]string }

func named(doc pricelist.Document) names {
	n := names{map[string]string{}, map[string]string{}}
	for _, p := range doc.Products {
		n.products[p.ID] = called(p.Name, p.ID)
	}
	for _, c := range doc.Channels {
		n.channels[c.ID] = called(c.Name, c.ID)
	}
	return n
}

func called(name, id string) string {
	if name != "" {
		return name
	}
	return id
}

// fault is one thing that is wrong with a document, as the page shows it.
type fault struct {
	quoin.Problem
	Text string `json:"text"`
}

// refusal is what is answered where there is no answer.
type refusal struct {
	Problems []fault `json:"problems"`
}

// refused says everything that is wrong at once.
func refused(err error) refusal {
	var ps quoin.Problems
	var one quoin.Problem
	switch {
	case errors.As(err, &ps):
	case errors.As(err, &one):
		ps = quoin.Problems{one}
	default:
		ps = quoin.Problems{{Severity: quoin.Fault, Found: err.Error()}}
	}
	out := refusal{}
	for _, p := range ps {
		out.Problems = append(out.Problems, fault{p, sentence(p)})
	}
	return out
}

// sentence says a problem for people: without its line and its code, which the page shows apart.
func sentence(p quoin.Problem) string {
	text := ""
	if p.Found != "" {
		text = "Found " + p.Found
		if p.Wanted != "" {
			text += ", "
		}
	}
	if p.Wanted != "" {
		text += "wanted " + p.Wanted
	}
	if p.Near != "" {
		text += "; did you mean " + p.Near + "?"
	}
	if p.Remedy != "" {
		text += "; " + p.Remedy
	}
	return text + "."
}

// written is a value as JSON text. What is written here always can be.
func written(v any) string {
	text, err := json.Marshal(v)
	if err != nil {
		text, _ = json.Marshal(refused(err))
	}
	return string(text)
}
