//go:build race

package pricelist_test

import (
	"flag"
	"os"
	"testing"
)

// Under the race detector everything takes many times as long: fewer documents
// are drawn there, unless somebody asks for more.
func TestMain(m *testing.M) {
	flag.Parse()
	if checks := flag.Lookup("rapid.checks"); checks.Value.String() == checks.DefValue {
		_ = flag.Set("rapid.checks", "20")
	}
	os.Exit(m.Run())
}
