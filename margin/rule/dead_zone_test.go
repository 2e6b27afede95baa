package rule_test

import (
	"fmt"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin"
	"example.com/quoin/margin/rule"
)

// What lies in a dead zone contributes less than a lower price, up to the first that contributes as
// much again; and what contributes less by more than cents of rounding lies in one.
func TestDeadZonesByLookingAtEveryPrice(t *testing.T) {
	grid, err := quoin.NewGrid(amount("0.01"), amount("26.00"))
	if err != nil {
		t.Fatal(err)
	}
	zones, inside := 0, 0
	for name, c := range ways() {
		c.ID = "shop"
		sale := margin.NewSale(c.For("print").Terms(quoin.MustCurrency("EUR")), margin.GoodsOnDemand(amount("1.10")))
		sale.FixedCost = amount("0.20")
		offer := rule.NewItem("print", grid, sale).Offers[0]
		all, err := rule.DeadZones(grid, offer)
		if err != nil {
			t.Fatal(name, err)
		}
		keeps := make([]quoin.Amount, grid.Len()+1)
		for i := int64(1); i <= grid.Len(); i++ {
			keeps[i] = sale.At(grid.Price(i)).Contribution
		}
		for _, z := range all {
			zones++
			if z.After.Cmp(z.First) >= 0 || !sale.At(z.After).Contribution.Equal(z.Contribution) {
				t.Errorf("%s: after %s %s is kept, and the zone says %s", name, z.After, sale.At(z.After).Contribution, z.Contribution)
			}
			again, ends := z.Again.Get()
			if ends && (!again.Equal(z.Last.Add(grid.Step())) || sale.At(again).Contribution.Cmp(z.Contribution) < 0) || !ends && !z.Last.Equal(grid.Price(grid.Len())) {
				t.Errorf("%s: the zone %s to %s ends with %v", name, z.First, z.Last, z.Again)
			}
			for _, at := range []struct {
				price quoin.Amount
				want  bool
			}{{z.First, true}, {z.Last, true}, {z.First.Sub(grid.Step()), false}, {z.Last.Add(grid.Step()), false}} {
				if z.Holds(at.price) != at.want {
					t.Errorf("%s: the zone %s to %s holds %s: %t", name, z.First, z.Last, at.price, !at.want)
				}
			}
		}
		room := amount("2.55") // price points of 2.50 stand still, and fall by a cent or so
		if c.PricePoints == nil && c.OnDemand == nil {
			room = amount("0.10")
		}
		most := keeps[1]
		for i := int64(1); i <= grid.Len(); i++ {
			p, in := grid.Price(i), 0
			for _, z := range all {
				if z.Holds(p) {
					in++
					if keeps[i].Cmp(z.Contribution) >= 0 {
						t.Fatalf("%s: %s keeps %s in a zone after %s", name, p, keeps[i], z.Contribution)
					}
				}
			}
			if in > 1 || in == 0 && keeps[i].Add(room).Cmp(most) < 0 {
				t.Fatalf("%s: %s keeps %s, where %s was kept before: in %d zones", name, p, keeps[i], most, in)
			}
			inside += in
			if keeps[i].Cmp(most) > 0 {
				most = keeps[i]
			}
		}
	}
	if zones < 5 || inside < 500 {
		t.Errorf("only %d zones, of %d prices", zones, inside)
	}
}

// Products of fractions that fit in 64 bits, and of those that do not.
func TestFractions(t *testing.T) {
	long := 0
	rapid.Check(t, func(t *rapid.T) {
		number := func(what string) *big.Int {
			n := big.NewInt(rapid.Int64Range(1, 1<<62).Draw(t, what))
			if rapid.Bool().Draw(t, what+" small") {
				n.SetInt64(rapid.Int64Range(1, 50).Draw(t, what+" of few"))
			}
			return n
		}
		a, b := number("a"), number("b")
		if rapid.IntRange(0, 2).Draw(t, "long") == 0 { // the same ratio, nearly, in more than 64 bits
			a.Mul(a, big.NewInt(1<<40)).Add(a, big.NewInt(rapid.Int64Range(-1, 1).Draw(t, "more")))
			b.Mul(b, big.NewInt(1<<40))
			long++
		}
		i, n := rapid.Int64Range(0, 10_000_000).Draw(t, "i"), rapid.Int64Range(1, 10_000_000).Draw(t, "n")
		floor, ceil := rule.Fraction(a, b, i, n)
		q, rest := new(big.Int).QuoRem(new(big.Int).Mul(big.NewInt(i), a), b, new(big.Int))
		wantFloor, wantCeil := big.NewInt(n), big.NewInt(n+1)
		if q.Cmp(wantFloor) < 0 {
			wantFloor = q
		}
		if up := new(big.Int).Add(q, big.NewInt(int64(rest.Sign()))); up.Cmp(wantCeil) < 0 {
			wantCeil = up
		}
		if wantCeil.Sign() == 0 {
			wantCeil = big.NewInt(1)
		}
		if floor != wantFloor.Int64() || ceil != wantCeil.Int64() {
			t.Fatalf("%d × %s ÷ %s up to %d: %d and %d, want %s and %s", i, a, b, n, floor, ceil, wantFloor, wantCeil)
		}
	})
	if long < 20 {
		t.Errorf("only %d were long", long)
	}
	if got := fmt.Sprint(rule.Fraction(big.NewInt(1), big.NewInt(3), 10, 100)); got != "3 4" {
		t.Errorf("%s, want 3 4", got)
	}
}
