package machine_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost/machine"
)

// What is given is said in a line, and nothing else.
func TestSaid(t *testing.T) {
	for want, of := range map[string]fmt.Stringer{
		`machine "printer": unit print, price 1200, life months 60, method by_use, service (1)`: machine.Machine{ID: "printer", Unit: "print", Price: quoin.MustAmount("1200"), LifeMonths: 60, Method: machine.ByUse, Service: make([]machine.Part, 1)},
		`part "head": price 180, every 1500`:                                                    machine.Part{Name: "head", Price: quoin.MustAmount("180"), Every: quoin.MustFactor("1500")},
	} {
		if got := of.String(); got != want {
			t.Errorf("%s\nwant %s", got, want)
		}
	}
}
