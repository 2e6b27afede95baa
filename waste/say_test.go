package waste_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/waste"
)

// What is given is said in a line, and nothing else.
func TestSaid(t *testing.T) {
	for want, of := range map[string]fmt.Stringer{
		`stage "print": yield 85%, seconds (share 40%, price 4.50)`: waste.Stage{ID: "print", Yield: quoin.MustRate("85%"), Seconds: waste.Seconds{Share: quoin.MustRate("40%"), Price: quoin.MustAmount("4.50")}},
		`no stage`:           waste.Stage{},
		`course of 2 stages`: waste.Route{{ID: "print"}, {ID: "fold"}}.Compile(),
	} {
		if got := of.String(); got != want {
			t.Errorf("%s\nwant %s", got, want)
		}
	}
}
