package margin_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
)

type failer interface{ Fatal(...any) }

// A commission of 10% of all below 20.00, and of 15% from there on: at 19.99 the fee is
// 2.00 and 17.99 is left, at 20.00 it is 3.00 and 17.00 is left.
func tieredSale(t failer, steps ...string) margin.Sale {
	fee := channel.Fee{TierMode: channel.Whole, Tiers: []channel.Tier{{From: quoin.MustAmount("0"), Rate: quoin.MustRate("10%")}}}
	for i, from := range steps {
		rate := quoin.MustRate(fmt.Sprintf("%d%%", 15-5*(i%2)))
		fee.Tiers = append(fee.Tiers, channel.Tier{From: quoin.MustAmount(from), Rate: rate})
	}
	c := channel.Channel{ID: "web", Fees: []channel.Fee{fee}}
	if err := c.Check(quoin.MustCurrency("EUR")); err != nil {
		t.Fatal(err)
	}
	return margin.NewSale(c.Terms(quoin.MustCurrency("EUR")), margin.Goods{})
}

func cents(t failer, limit string) quoin.Grid {
	g, err := quoin.NewGrid(quoin.MustAmount("0.01"), quoin.MustAmount(limit))
	if err != nil {
		t.Fatal(err)
	}
	return g
}

func TestPointsOfOneJump(t *testing.T) {
	sale, g := tieredSale(t, "20.00"), cents(t, "100.00")
	var got []string
	for _, p := range sale.Points(g, quoin.MustAmount("10"), quoin.MustAmount("30"), 400) {
		got = append(got, fmt.Sprintf("%s %s", p.Price, p.Contribution))
	}
	want := "[10.00 9.00 19.99 17.99 20.00 17.00 30.00 25.50]"
	if fmt.Sprint(got) != want {
		t.Errorf("%v, want %s", got, want)
	}
	for name, points := range map[string][]margin.Point{
		"no width":         sale.Points(g, quoin.MustAmount("10"), quoin.MustAmount("30"), 0),
		"backwards":        sale.Points(g, quoin.MustAmount("30"), quoin.MustAmount("10"), 400),
		"above the limit":  sale.Points(g, quoin.MustAmount("100.01"), quoin.MustAmount("200"), 400),
		"between two":      sale.Points(g, quoin.MustAmount("1.001"), quoin.MustAmount("1.009"), 400),
		"of an empty grid": sale.Points(quoin.Grid{}, quoin.MustAmount("10"), quoin.MustAmount("30"), 400),
	} {
		if len(points) > 0 {
			t.Errorf("%s: %v", name, points)
		}
	}
	if one := sale.Points(g, quoin.MustAmount("20"), quoin.MustAmount("20"), 1); len(one) != 1 || one[0].Contribution.String() != "17.00" {
		t.Errorf("of one price: %v", one)
	}
}

// Of five ends in a column one that is neither the first, the last, the lowest nor the highest goes.
// 90% is left of prices below 10.00, from 20.00 on and below 40.00, and 85% of the others: 9.00 of
// 10.00 less a cent, 8.50 of 10.00.
func TestPointsOfOneColumn(t *testing.T) {
	for _, c := range []struct {
		steps, to, want string
	}{
		{"10.00", "30.00", "[5.00 4.50] [9.99 8.99] [10.00 8.50] [30.00 25.50]"},          // four stay
		{"10.00 20.00", "30.00", "[5.00 4.50] [19.99 16.99] [20.00 18.00] [30.00 27.00]"}, // 9.99 goes for 20.00, 10.00 for 30.00
		{"5.01 5.02 5.03 5.04", "5.10", "[5.00 4.50] [5.01 4.26] [5.04 4.54] [5.10 4.59]"},
		{"5.50", "5.60", "[5.00 4.50] [5.49 4.94] [5.50 4.67] [5.60 4.76]"},
	} {
		sale, g := tieredSale(t, strings.Fields(c.steps)...), cents(t, "100.00")
		var got []string
		for _, p := range sale.Points(g, quoin.MustAmount("5.00"), quoin.MustAmount(c.to), 1) {
			got = append(got, fmt.Sprintf("[%s %s]", p.Price, p.Contribution))
		}
		if text := strings.Join(got, " "); text != c.want {
			t.Errorf("steps at %s: %s, want %s", c.steps, text, c.want)
		}
	}
}

// TestPointsLoseNoJump: whatever the width, points rise, are statements of their prices and
// at most four to a pixel; and each end of the curve has, in the column of its pixel, points
// that are not above it and not below it, so that a line drawn through them passes it.
func TestPointsLoseNoJump(t *testing.T) {
	thinned := 0
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 30).Draw(t, "jumps")
		var steps []string
		at := int64(0)
		for range n {
			at += rapid.Int64Range(1, 400).Draw(t, "apart")
			steps = append(steps, quoin.AmountOf(at, 2).String())
		}
		sale, g := tieredSale(t, steps...), cents(t, "100.00")
		from := rapid.Int64Range(1, 9_000).Draw(t, "from")
		to := rapid.Int64Range(from, 10_000).Draw(t, "to")
		pixels := rapid.IntRange(1, 60).Draw(t, "pixels")
		points := sale.Points(g, quoin.AmountOf(from, 2), quoin.AmountOf(to, 2), pixels)
		column := func(i int64) int64 { // as an integer division says it
			if to == from {
				return 0
			}
			return min((i-from)*int64(pixels)/(to-from), int64(pixels)-1)
		}
		index := func(p quoin.Amount) int64 {
			i, _ := p.Units(2)
			return i
		}
		in := make(map[int64][]margin.Point)
		for i, p := range points {
			if i > 0 && p.Price.Cmp(points[i-1].Price) <= 0 {
				t.Fatalf("%s behind %s", p.Price, points[i-1].Price)
			}
			if !p.Contribution.Equal(sale.At(p.Price).Contribution) {
				t.Fatalf("at %s %s", p.Price, p.Contribution)
			}
			in[column(index(p.Price))] = append(in[column(index(p.Price))], p)
		}
		if index(points[0].Price) != from || index(points[len(points)-1].Price) != to {
			t.Fatalf("from %s to %s, want %d to %d", points[0].Price, points[len(points)-1].Price, from, to)
		}
		for c, of := range in {
			if len(of) > 4 {
				t.Fatalf("%d points in column %d", len(of), c)
			}
		}
		for _, s := range sale.Curve(g) {
			for _, end := range []quoin.Amount{s.First, s.Last} {
				i := index(end)
				if i < from || i > to {
					continue
				}
				kept, below, above, there := sale.At(end).Contribution, false, false, false
				for _, p := range in[column(i)] {
					below = below || p.Contribution.Cmp(kept) <= 0
					above = above || p.Contribution.Cmp(kept) >= 0
					there = there || p.Price.Equal(end)
				}
				if !below || !above {
					t.Fatalf("what is left at %s, %s, is lost in column %d", end, kept, column(i))
				}
				if !there {
					thinned++
				}
			}
		}
	})
	if thinned < 20 {
		t.Errorf("only %d ends were thinned out", thinned)
	}
}
