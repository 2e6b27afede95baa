module example.com/quoin/examples/embed

go 1.26

require example.com/quoin v0.0.0

require (
	github.com/bojanz/currency v1.4.2 // indirect
	github.com/cockroachdb/apd/v3 v3.2.3 // indirect
	github.com/go-json-experiment/json v1.27.2 // indirect
)

replace example.com/quoin => ../..
