package pricelist

import _ "embed" // for the schemas, which are files so that tools can read them too

//go:embed document.schema.json
var documentSchema string

//go:embed answer.schema.json
var answerSchema string

// DocumentSchema returns the JSON Schema (2020-12) of the shop document, for
// editors and checks outside Go. Decode goes by the structs, and refuses more:
// what fields mean together, no schema can say.
func DocumentSchema() []byte { return []byte(documentSchema) }

// AnswerSchema returns the JSON Schema (2020-12) of an Answer written as JSON.
func AnswerSchema() []byte { return []byte(answerSchema) }
