package pricelist

import (
	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Codes of what can be wrong with a document, beside those of values that
// cannot be read.
const (
	ShortLadder quoin.Code = "short_ladder"
	// RangeWithRecovery is a yield with a range beside something recovered.
	RangeWithRecovery quoin.Code = "range_with_recovery"
	// MissingDate is a stock in a document without a date.
	MissingDate quoin.Code = "missing_date"
	// TooManyQuoted is more quotes, with more steps, than are compared.
	TooManyQuoted quoin.Code = "too_many_quoted"
	// SizeNesting is an image, sheet or mat that does not fit what is around it.
	SizeNesting quoin.Code = "size_nesting"
	// CircularBase is a product that is, by way of others, its own base.
	CircularBase quoin.Code = "circular_base"
	// SameSize is two prints of a design that are to follow each other by size, and are
	// of the same.
	SameSize quoin.Code = "same_size"
	// DesignApart is products of one design that do not stand one after the other, where
	// products are decided as they come.
	DesignApart quoin.Code = "design_apart"
	// SeveralProducts is what speaks of several products, in a shop whose products come in
	// lots: a ladder of sizes, sets, fairs, editions.
	SeveralProducts quoin.Code = "several_products"
	// AnswerTooLong is a document that says little of much: many products in many channels,
	// with many kinds of order, come to an answer far longer than what was asked.
	AnswerTooLong quoin.Code = "answer_too_long"
)

// path is where something stands in a document.
type path = form.Path
