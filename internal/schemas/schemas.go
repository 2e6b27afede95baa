package main

import (
	"reflect"

	"example.com/quoin"
	"example.com/quoin/channel/fair"
	"example.com/quoin/channel/promo"
	"example.com/quoin/cost/ink"
	"example.com/quoin/cost/source"
	"example.com/quoin/internal/form"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/edition"
	"example.com/quoin/margin/history"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

// schema is one of those that are written, and what no type says of it.
type schema struct {
	file               string
	of                 reflect.Type
	id                 string
	title, description string
	answer             bool // a program writes it
	textLimit          int  // of a text, in bytes
	// names are of types whose own name another has, or says too little.
	names map[reflect.Type]string
	// written are the types that stand in JSON for types that compute them.
	written map[reflect.Type]reflect.Type
	// more is by definition, or by definition and field, in members of JSON.
	more map[string]object
}

// schemas are all of them.
func schemas() []*schema {
	return []*schema{
		{
			file: "margin/pricelist/document.schema.json", of: reflect.TypeFor[pricelist.Document](), id: "document.schema.json", title: "Shop document, version 1",
			description: documentNote, textLimit: form.LongestText, more: moreOfDocument,
			names: map[reflect.Type]string{
				reflect.TypeFor[comparables.Record](): "comparable",
				reflect.TypeFor[edition.Entry]():      "ledger_entry",
				reflect.TypeFor[edition.Limit]():      "edition_limit",
				reflect.TypeFor[fair.Cost]():          "fair_cost",
				reflect.TypeFor[fair.Share]():         "mix_share",
				reflect.TypeFor[ink.Period]():         "ink_period",
				reflect.TypeFor[ink.Use]():            "ink",
				reflect.TypeFor[promo.Offer]():        "promotion",
				reflect.TypeFor[source.Case]():        "demand_case",
			},
		},
		{
			file: "margin/pricelist/answer.schema.json", of: reflect.TypeFor[written](), id: "answer.schema.json", title: "Answer to a shop document, version 1",
			description: answerNote, answer: true, more: moreOfAnswer,
			names: map[reflect.Type]string{
				reflect.TypeFor[written]():    "answer",
				reflect.TypeFor[fair.Count](): "fair_count",
			},
			written: map[reflect.Type]reflect.Type{
				reflect.TypeFor[pricelist.AllowedPrices](): reflect.TypeFor[[][2]quoin.Amount](),
				reflect.TypeFor[pricelist.Reasons]():       reflect.TypeFor[told](),
				reflect.TypeFor[pricelist.WhyNot]():        reflect.TypeFor[rule.WhyNot](),
				reflect.TypeFor[pricelist.ByChannel]():     reflect.TypeFor[[]pricelist.InChannel](),
				reflect.TypeFor[edition.Span]():            reflect.TypeFor[string](),
			},
		},
		{
			file: "margin/history/line.schema.json", of: reflect.TypeFor[history.Record](), id: "history/line.schema.json", title: "A line of a history",
			description: lineNote, textLimit: form.LongestNote,
		},
	}
}

// written is what is written of an answer.
type written struct {
	pricelist.Answer
	// The steps of all that the answer explains, each once. Each rests on the document and on
	// steps before it; steps of other parts of the answer say which of these they are.
	Steps []quoin.Step `json:"steps,omitempty"`
}

// told is which of the answer's steps explain something, in their order: runs of their
// numbers, each as first and last, counted from 1. No number stands there twice.
type told [][2]int
