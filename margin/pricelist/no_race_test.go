//go:build !race

package pricelist_test

const (
	fewChecks = "40"
	heedsEnv  = true
	raced     = false
)
