package pricelist_test

import (
	"flag"
	"os"
	"testing"
)

// Properties draw few documents where nobody says how many, since each is a whole shop. The gate says 100, by RAPID_CHECKS;
// whoever looks for a rare fault says more, by -rapid.checks.
func TestMain(m *testing.M) {
	flag.Parse()
	said := heedsEnv && os.Getenv("RAPID_CHECKS") != ""
	flag.Visit(func(f *flag.Flag) { said = said || f.Name == "rapid.checks" })
	if !said {
		if err := flag.Set("rapid.checks", fewChecks); err != nil {
			panic(err)
		}
	}
	os.Exit(m.Run())
}
