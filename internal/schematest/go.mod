module example.com/quoin/internal/schematest

go 1.26

require (
	example.com/quoin v0.0.0
	github.com/santhosh-tekuri/jsonschema/v6 v6.0.3
	pgregory.net/rapid v1.3.0
)

require (
	github.com/bojanz/currency v1.4.2 // indirect
	github.com/cockroachdb/apd/v3 v3.2.3 // indirect
	github.com/go-json-experiment/json v1.27.2 // indirect
	golang.org/x/text v0.14.0 // indirect
)

replace example.com/quoin => ../..
