//go:build !race

package pricelist_test

const (
	fewChecks = "20"
	heedsEnv  = true
	raced     = false
)
