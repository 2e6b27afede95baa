//go:build race

package pricelist_test

// Under the race detector everything takes many times as long.
const (
	fewChecks = "10"
	heedsEnv  = false
	raced     = true
)
