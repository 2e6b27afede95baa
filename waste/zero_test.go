package waste_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/internal/zerotest"
	"example.com/quoin/waste"
)

func TestZeroValues(t *testing.T) {
	all := []any{
		waste.Allowance{},
		waste.CompiledRoute{},
		waste.Delivery{},
		waste.Stage{},
		waste.Seconds{},
		waste.Route{},
		waste.Salvage{},
		waste.Starts{},
		waste.StartsFor, waste.Chance,
	}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
	zerotest.Printed(t, all...)
}

// What loses all says so.
func TestAllLost(t *testing.T) {
	all := quoin.MustRate("100%")
	for what, f := range map[string]func(){
		"a stage":  func() { waste.Route{{ID: "print", LostOfStarted: all}}.Starts("print") },
		"of good":  func() { waste.Route{{ID: "print", LostOfGood: quoin.MustRate("-100%")}}.Compile() },
		"the post": func() { waste.Allowance{Loss: all}.Apply(quoin.MustAmount("1")) },
	} {
		func() {
			defer func() {
				if r := fmt.Sprint(recover()); !strings.HasPrefix(r, "quoin: ") {
					t.Errorf("%s: %s", what, r)
				}
			}()
			f()
		}()
	}
}
