package pricelist

import (
	"encoding/json"
	"fmt"
	"slices"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin/rule"
)

const (
	// timesDocument is how many times as long as its document an answer may be,
	// without its steps; one of up to anyLength is never too long.
	timesDocument = 20
	anyLength     = 8 * megabyte // of JSON
	megabyte      = 1_000_000
)

// What parts of an answer take as JSON, in bytes, as they mostly are.
const (
	bytesOfProduct   = 100
	bytesOfStatement = 400
	bytesOfOrder     = 200
	bytesOfParcel    = 350
	bytesOfPacking   = 140 // that is not taken
	bytesOfFee       = 45
	bytesOfBreak     = 60
	bytesOfRange     = 350
	bytesOfLadder    = 600  // why a size is no dearer and no cheaper
	bytesOfRuns      = 1700 // of allowed prices, where endings leave a hundred
)

// answerable refuses a document whose answer would be out of all proportion.
func (k checker) answerable() {
	each := int64(0) // product in all channels
	if k.shop != nil {
		each = k.shop.each
	} else {
		each = productLength(k.doc.Document, len(k.doc.inputs))
	}
	long := answerLength(k.doc.Products, each)
	if long <= anyLength {
		return
	}
	if most := timesDocument * documentLength(k.doc.given); long > most {
		k.Add((*path)(nil).Field("products"), quoin.Problem{
			Code: AnswerTooLong, Found: fmt.Sprintf("%d products in %d channels, an answer of some %d MB", len(k.doc.Products), len(k.doc.Channels), long/megabyte),
			Wanted: fmt.Sprintf("an answer of at most %d MB, or %d times as long as the document", anyLength/megabyte, timesDocument),
			Remedy: "decide fewer products at once, or leave out channels, kinds of order or fees",
		})
	}
}

// answerLength estimates how long the answer is.
func answerLength(products []Product, each int64) int64 {
	sum := each * int64(len(products))
	for _, p := range products {
		sum += int64(len(p.ID) + len(p.Name))
	}
	return sum
}

// productLength is that of one product in all channels.
func productLength(d Document, ranges int) int64 {
	sum := int64(bytesOfProduct)
	if slices.ContainsFunc(d.Rules, isKind[rule.Step]) {
		sum += bytesOfLadder
	}
	if limit, given := d.PriceLimit.Get(); slices.ContainsFunc(d.Rules, isKind[rule.Ending]) && (!given || limit.Cmp(quoin.AmountOf(mostListed, 0)) > 0) {
		sum += bytesOfRuns
	}
	for _, c := range d.Channels {
		sum += statementLength(c, len(d.Packings))
		if ranges > 0 {
			sum += bytesOfRange
		}
	}
	return sum
}

func isKind[K rule.Kind](r rule.Rule) bool {
	_, ok := r.Kind.(K)
	return ok
}

// statementLength is that of one product in a channel, of a document with so many packings.
func statementLength(c channel.Channel, packings int) int64 {
	sum := int64(bytesOfStatement + 2*len(c.ID) + len(c.Name) + (c.Breaks()-max(1, len(c.Orders)))*bytesOfBreak)
	if !inKinds(c) {
		return sum
	}
	each := bytesOfOrder
	for _, f := range c.Fees {
		each += bytesOfFee + len(f.Name)
	}
	if c.Tariff != "" {
		each += bytesOfParcel + bytesOfPacking*(packings-1)
	}
	for _, o := range c.Orders {
		sum += int64(each + len(o.ID) + len(o.Name))
	}
	return sum
}

// documentLength is how long the document is as JSON.
func documentLength(d Document) int64 {
	text, err := json.Marshal(d)
	if err != nil { // for rules of the caller's own, which cannot be written
		d.Rules = nil
		text, _ = json.Marshal(d)
	}
	return int64(len(text))
}
