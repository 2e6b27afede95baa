package review

import (
	"fmt"

	"example.com/quoin"
)

// work counts how much is decided for one review.
type work struct{ values int }

// mostWork bounds it: a document counts with the values that are written in it, and with
// bySale for each product in each channel.
const (
	mostWork = 2_000_000
	bySale   = 10
)

// full reports whether too much was to be decided.
func (w *work) full() bool { return w.values > mostWork }

// take counts a document that is to be decided, and errs where that is too much.
func (w *work) take(doc object) error {
	w.values += weight(doc)
	if !w.full() {
		return nil
	}
	return tooMuch()
}

func tooMuch() error {
	return fault(quoin.TooMany, "", fmt.Sprintf("changes for which documents with more than %d values in all have to be decided", mostWork),
		"fewer changes, or fewer products and lines that they move", "compare with a document in between, or products by themselves")
}

// mixing is what deciding a document costs where one change is made, and where all but
// one are, for each of them.
func (m *mixture) mixing(doc object) (sum int) {
	shop, of := weight(doc), make(map[string]int)
	for _, p := range listOf(doc, "products") {
		w := values(p) + bySale*len(listOf(doc, "channels"))
		of[word(p, "id")] = w
		shop -= w
	}
	for _, r := range m.reaches {
		each := shop
		if r == nil {
			each = weight(doc)
		}
		for id := range r {
			each += of[id]
		}
		sum += 2 * each
	}
	return sum
}

// weight is what deciding a document counts.
func weight(doc object) int {
	return values(doc) + bySale*len(listOf(doc, "products"))*len(listOf(doc, "channels"))
}

// values is how many values are written in a part of a document.
func values(v any) (n int) {
	leaves(v, func(any) { n++ })
	return n
}
