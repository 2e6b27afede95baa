package fair_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel/fair"
)

// Volumes that are given can be compared, 12 prints with 12.0.
func TestVolumesAreCompared(t *testing.T) {
	volume := func(prints, product string) fair.Volume {
		n := quoin.MustFactor(prints)
		return fair.Volume{Prints: n, Whole: n, Sales: quoin.MustAmount("24.00"), ByProduct: []fair.Count{{Product: product, Prints: n, Nearest: n}}}
	}
	a := volume("12", "heron")
	for _, c := range []struct {
		b    fair.Volume
		same bool
	}{
		{volume("12.0", "heron"), true},
		{volume("13", "heron"), false},
		{volume("12", "crane"), false},
		{fair.Volume{Prints: a.Prints, Whole: a.Whole, Sales: a.Sales}, false},
		{fair.Volume{Prints: a.Prints, Whole: a.Whole, ByProduct: a.ByProduct}, false},
	} {
		if got := quoin.Some(a).Equal(quoin.Some(c.b)); got != c.same {
			t.Errorf("%+v and %+v: %t", a, c.b, got)
		}
	}
}
