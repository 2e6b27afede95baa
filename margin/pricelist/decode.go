package pricelist

import (
	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Decode reads a shop document from JSON and checks it. The error is
// quoin.Problems: everything wrong with the document, at once. It costs time
// and memory in proportion to data, whatever stands in it.
func Decode(data []byte) (Document, error) {
	doc, _, err := decode(data)
	return doc, err
}

func decode(data []byte) (Document, worked, error) {
	var c form.Collector
	var doc Document
	var w worked
	if c.Read(data, &doc) {
		w = check(doc, &c)
	}
	if err := located(data, c.All().Err()); err != nil {
		return Document{}, worked{}, err
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
