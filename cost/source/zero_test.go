package source_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost/source"
	"example.com/quoin/internal/zerotest"
)

func TestZeroValues(t *testing.T) {
	all := []any{
		source.Stretch{},
		source.Demand{},
		source.Case{},
		source.RunAtHome{},
		source.Quote{},
		source.Compare, source.CriticalRatio,
	}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
	zerotest.Printed(t, all...)
}

// A demand that does not deviate is its mean: of 45 ordered for 40, 5 are left.
func TestCertainDemand(t *testing.T) {
	for _, c := range []struct {
		mean    string
		ordered int64
		want    string
	}{{"40", 45, "5"}, {"40", 40, "0"}, {"40", 30, "0"}, {"39.5", 40, "0.5"}} {
		d := source.Demand{Mean: quoin.MustFactor(c.mean)}
		if got := d.LeftOver(c.ordered); !got.Equal(quoin.MustFactor(c.want)) {
			t.Errorf("%d for %s: %v left, want %s", c.ordered, c.mean, got, c.want)
		}
	}
	if got := (source.Quote{Setup: quoin.MustAmount("20")}).PerPrint(0); !got.IsZero() {
		t.Errorf("no print costs %v", got)
	}
}
