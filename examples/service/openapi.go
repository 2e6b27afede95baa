package main

import (
	"bytes"
	_ "embed"
	"net/http"
	"regexp"

	"example.com/quoin/margin/pricelist"
)

//go:embed openapi.json
var calls []byte

var id = regexp.MustCompile(`(?m)^  "\$(id|schema)": .*\n`)

// description is what the service answers, as OpenAPI 3.1: openapi.json, with the library's schemas in it. There they have no
// $id, and what in them refers to a part says where that is now, since not all programs go by an $id inside.
func description(http.ResponseWriter, *http.Request) reply {
	text := calls
	for name, schema := range map[string][]byte{"Document": pricelist.DocumentSchema(), "Answer": pricelist.AnswerSchema()} {
		schema = id.ReplaceAll(schema, nil)
		schema = bytes.ReplaceAll(schema, []byte(`"#/$defs/`), []byte(`"#/components/schemas/`+name+`/$defs/`))
		text = bytes.Replace(text, []byte(`"`+name+`": {}`), append([]byte(`"`+name+`": `), schema...), 1)
	}
	return reply{http.StatusOK, "application/vnd.oai.openapi+json;version=3.1", len(text), text}
}

// schema is that of answers where the query says of=answer, and otherwise that of documents.
func schema(_ http.ResponseWriter, r *http.Request) reply {
	text := pricelist.DocumentSchema()
	if r.URL.Query().Get("of") == "answer" {
		text = pricelist.AnswerSchema()
	}
	return reply{http.StatusOK, "application/schema+json", len(text), text}
}
