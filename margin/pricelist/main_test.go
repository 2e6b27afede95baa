package pricelist_test

import (
	"flag"
	"os"
	"runtime"
	"runtime/debug"
	"testing"
)

// thorough says that somebody asked for more than a look: documents that were made to hurt are at their limits then.
var thorough bool

// Properties draw few documents where nobody says how many, since each is a whole shop. The gate says 100, by RAPID_CHECKS;
// whoever looks for a rare fault says more, by -rapid.checks.
func TestMain(m *testing.M) {
	flag.Parse()
	said := heedsEnv && os.Getenv("RAPID_CHECKS") != ""
	flag.Visit(func(f *flag.Flag) { said = said || f.Name == "rapid.checks" })
	if thorough = said; !said {
		if runtime.GOARCH != "wasm" { // which has little memory
			debug.SetGCPercent(400) // a look is to be quick, and answers are held to what they allocate, not to what they keep
		}
		if err := flag.Set("rapid.checks", fewChecks); err != nil {
			panic(err)
		}
	}
	os.Exit(m.Run())
}

// oneGoroutine skips what takes long in one goroutine, which has no races: the gate runs it without the race detector.
func oneGoroutine(tb testing.TB) {
	tb.Helper()
	if raced {
		tb.Skip("in one goroutine, and without the race detector in the gate")
	}
}
