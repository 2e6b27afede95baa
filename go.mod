module example.com/quoin

go 1.26

require (
	github.com/bojanz/currency v1.4.2
	github.com/cockroachdb/apd/v3 v3.2.3
	github.com/google/go-cmp v0.7.0
	go.uber.org/goleak v1.3.0
	gonum.org/v1/gonum v0.17.0
	pgregory.net/rapid v1.3.0
)

require github.com/go-json-experiment/json v1.27.2
