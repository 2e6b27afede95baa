package channel_test

import (
	"errors"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel"
)

func endings(modulus string, of ...string) channel.PricePoints {
	g := channel.PricePoints{}
	if modulus != "" {
		g.Every = amount(modulus)
	}
	for _, e := range of {
		g.EndsIn = append(g.EndsIn, amount(e))
	}
	return g
}

func TestNearest(t *testing.T) {
	five, fives := channel.PricePoints{Step: amount("0.05")}, channel.PricePoints{Step: amount("5")}
	ends, nine, round := endings("", "0.99", "0.49"), endings("10", "9"), endings("10", "0")
	for _, c := range []struct {
		what string
		tag  channel.PricePoints
		a    string
		want string
	}{
		{"down to 0.05", five, "1.02", "1.00"},
		{"a tie up", five, "1.025", "1.05"},
		{"up to 0.05", five, "1.03", "1.05"},
		{"as it is", five, "1.05", "1.05"},
		{"at least one step", five, "0.01", "0.05"},
		{"also of nothing", five, "0", "0.05"},
		{"notes of five, down", fives, "12.49", "10"},
		{"notes of five, a tie", fives, "12.50", "15"},
		{"an ending below", ends, "12.70", "12.49"},
		{"a tie between endings", ends, "12.74", "12.99"},
		{"an ending as it is", ends, "12.99", "12.99"},
		{"the one before the whole", ends, "13.20", "12.99"},
		{"a tie across the whole", ends, "13.24", "13.49"},
		{"the least above zero", ends, "0.10", "0.49"},
		{"of nothing too", ends, "0", "0.49"},
		{"nines, down", nine, "33.99", "29"},
		{"nines, a tie", nine, "34", "39"},
		{"nines, the first", nine, "2", "9"},
		{"tens, never nothing", round, "4", "10"},
		{"tens, down", round, "14.99", "10"},
	} {
		if got := c.tag.Nearest(amount(c.a)); !got.Equal(amount(c.want)) {
			t.Errorf("%s: %s becomes %s, want %s", c.what, c.a, got, c.want)
		}
	}
}

// Nearest is a price that can be asked, and no other is nearer: looked for by
// going through them all, in fractions.
func TestNearestIsNearest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := draws{t}
		g := *d.tag()
		a := quoin.AmountOf(rapid.Int64Range(0, 30_000).Draw(t, "a"), 3)
		modulus, ends := g.Every, g.EndsIn
		switch {
		case len(ends) == 0:
			modulus, ends = g.Step, []quoin.Amount{{}}
		case modulus.IsZero():
			modulus = amount("1")
		}
		var best *big.Rat
		least := new(big.Rat)
		most := new(big.Rat).Add(new(big.Rat).Add(a.Rat(), modulus.Rat()), modulus.Rat())
		for at := new(big.Rat); at.Cmp(most) <= 0; at = new(big.Rat).Add(at, modulus.Rat()) {
			for _, e := range ends {
				p := new(big.Rat).Add(at, e.Rat())
				off := new(big.Rat).Sub(p, a.Rat())
				off.Abs(off)
				if p.Sign() > 0 && (best == nil || off.Cmp(least) < 0 || off.Cmp(least) == 0 && p.Cmp(best) > 0) {
					best, least = p, off
				}
			}
		}
		if got := g.Nearest(a); got.Rat().Cmp(best) != 0 {
			t.Fatalf("%s becomes %s, the nearest is %s", a, got, best.FloatString(3))
		}
	})
}

func TestTagsChecked(t *testing.T) {
	for what, c := range map[string]struct {
		tag  channel.PricePoints
		path string
	}{
		"a step":               {channel.PricePoints{Step: amount("0.05")}, ""},
		"endings":              {endings("", "0.99", "0.49"), ""},
		"endings of tens":      {endings("10", "9", "4"), ""},
		"both":                 {channel.PricePoints{Step: amount("0.05"), EndsIn: []quoin.Amount{amount("0.99")}}, "step"},
		"neither":              {channel.PricePoints{}, "step"},
		"a modulus alone":      {channel.PricePoints{Every: amount("10")}, "step"},
		"a modulus of steps":   {channel.PricePoints{Step: amount("5"), Every: amount("10")}, "every"},
		"an ending of 1":       {endings("", "0.99", "1"), "ends_in[1]"},
		"an ending above tens": {endings("10", "12"), "ends_in[0]"},
	} {
		err := c.tag.Check()
		var p quoin.Problem
		errors.As(err, &p)
		if p.Path != c.path || (err == nil) != (c.path == "") || err != nil && (p.Code != channel.BadPricePoints || p.Found == "" || p.Wanted == "" || p.Severity != quoin.Fault) {
			t.Errorf("%s: %v, want a fault at %q", what, err, c.path)
		}
	}
}

// A tag sets the unit price of a channel, before all else.
func TestTagged(t *testing.T) {
	nine := endings("", "0.90")
	c := channel.Channel{Uplift: rate("10%"), PricePoints: &nine, Promotion: rate("10%"), Orders: []channel.Order{{Items: 2}}}
	for _, l := range []struct{ list, unit, items string }{
		{"24.00", "26.90", "48.42"}, // 26.40, 0.50 from both: the higher
		{"23.99", "25.90", "46.62"}, // 26.389
		{"0.10", "0.90", "1.62"},
	} {
		s := c.Terms(eur).Settle(0, amount(l.list))
		if !s.Unit.Equal(amount(l.unit)) || !s.Items.Equal(amount(l.items)) || !s.List.Equal(amount(l.list)) {
			t.Errorf("%s: %s each, %s in all, want %s and %s", l.list, s.Unit, s.Items, l.unit, l.items)
		}
	}
}
