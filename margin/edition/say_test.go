package edition_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/edition"
)

// What is given is said in a line, and nothing else.
func TestSaid(t *testing.T) {
	for want, of := range map[string]fmt.Stringer{
		`price step: sold 20, times 1.25`:                      edition.PriceStep{Sold: 20, Times: quoin.MustFactor("1.25")},
		`tally: of 50, sold 20, free 30, free numbers [21–50]`: edition.Tally{Of: 50, Sold: 20, Free: 30, FreeNumbers: []edition.Span{{From: 21, To: 50}}},
		`entry: number 7, state reserved, to "a reader"`:       edition.Entry{Number: 7, State: edition.Reserved, To: "a reader"},
	} {
		if got := of.String(); got != want {
			t.Errorf("%s\nwant %s", got, want)
		}
	}
}
