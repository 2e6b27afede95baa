package picture

import (
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/pricelist"
)

func eur(s string) quoin.Amount { return quoin.MustAmount(s) }

// 10.00 to 30.00 on 100 to 300: 0.10 to a unit. A scale may go down, as heights do.
func TestScale(t *testing.T) {
	up, down := scale{eur("10.00"), eur("30.00"), 100, 300}, scale{eur("10.00"), eur("30.00"), 300, 100}
	for amount, want := range map[string]string{
		"10.00": "100 100 true, 300 300", "30.00": "300 300 true, 100 100", "12.34": "123 123 true, 277 277", "12.36": "124 124 true, 276 276",
		"9.99": "100 100 false, 300 300", "5.00": "50 100 false, 350 300", "31.00": "310 300 false, 90 100", "30.01": "300 300 false, 100 100",
	} {
		a := eur(amount)
		if got := fmt.Sprintf("%d %d %t, %d %d", up.at(a), up.within(a), up.holds(a), down.at(a), down.within(a)); got != want {
			t.Errorf("%s: %s, want %s", amount, got, want)
		}
	}
	if none := (scale{eur("5.00"), eur("5.00"), 100, 300}); none.at(eur("7.00")) != 100 {
		t.Errorf("a scale of one amount puts 7.00 at %d", none.at(eur("7.00")))
	}
}

// A twentieth more on each side of 10.00 to 30.00 is 1.00; of nothing it is 1.00, too.
func TestRoomyScale(t *testing.T) {
	for ends, want := range map[[2]string]string{{"10.00", "30.00"}: "9.00 31.00", {"5.00", "5.00"}: "4.00 6.00", {"0.00", "0.20"}: "-0.01 0.21"} {
		s := scale{from: eur(ends[0]), to: eur(ends[1])}.roomy()
		if got := s.from.Round(2, quoin.HalfUp).String() + " " + s.to.Round(2, quoin.HalfUp).String(); got != want {
			t.Errorf("%v: %s, want %s", ends, got, want)
		}
	}
}

// Six steps of 10.00 just reach from 0 to 60.00; five do not, and take steps of 20.00. Ticks begin at the first
// round amount within, and whole ones have no places.
func TestTicks(t *testing.T) {
	for _, c := range []struct {
		from, to, currency string
		most               int
		want               string
	}{
		{"0.00", "60.00", "EUR", 7, "0 10 20 30 40 50 60"},
		{"0.00", "60.00", "EUR", 6, "0 20 40 60"},
		{"0.00", "60.01", "EUR", 7, "0 20 40 60"},
		{"15.00", "45.00", "EUR", 4, "20 30 40"},
		{"-15.00", "15.00", "EUR", 4, "-10 0 10"},
		{"0.95", "1.05", "EUR", 3, "0.95 1.00 1.05"},
		{"0.91", "1.09", "EUR", 3, "1.00"},
		{"0", "3000", "JPY", 4, "0 1000 2000 3000"},
		{"7.00", "7.00", "EUR", 4, "7.00"},
	} {
		s := scale{eur(c.from), eur(c.to), 0, 1000}
		var got []string
		for _, tick := range s.ticks(c.most, quoin.MustCurrency(c.currency)) {
			got = append(got, tick.label)
			if tick.at != s.at(quoin.MustAmount(tick.label)) {
				t.Errorf("%s stands at %d", tick.label, tick.at)
			}
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%s to %s, at most %d: %v, want %s", c.from, c.to, c.most, got, c.want)
		}
	}
}

// curve is points at whole prices from 0 on.
func curve(contributions ...int64) []margin.CurvePoint {
	out := make([]margin.CurvePoint, len(contributions))
	for i, c := range contributions {
		out[i] = margin.CurvePoint{Price: quoin.AmountOf(int64(i), 0), Contribution: quoin.AmountOf(c, 0)}
	}
	return out
}

// A line goes along or up where it can, and does not stop twice at one place. 1.00 is 10 wide and 10
// high here, and points that are 0.01 apart stand at one place.
func TestPath(t *testing.T) {
	k := &keeps{x: scale{eur("0"), eur("100"), 0, 1000}, y: scale{eur("0"), eur("100"), 1000, 0}}
	points := curve(0, 0, 10, 10, 5)
	points = append(points, margin.CurvePoint{Price: eur("4.00"), Contribution: eur("20.00")}, margin.CurvePoint{Price: eur("4.01"), Contribution: eur("20.01")}, margin.CurvePoint{Price: eur("6.00"), Contribution: eur("20.00")})
	want := "M" + strings.Join([]string{"0 100", "H1", "L2 90", "H3", "L4 95", "V80", "H6"}, "")
	if got := k.path(points); got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// A line of 240 points keeps all. Of more, nothing that sticks out is lost: in each column of the picture
// the first and last, lowest and highest stay, in their order, and no others.
func TestThinnedLinesKeepTheirShape(t *testing.T) {
	zigzag := make([]int64, 901)
	for i := range zigzag {
		zigzag[i] = int64(i*i*7919%1009 - 300)
	}
	// Columns of (6060 − 60) ÷ 60 + 1 = 101; 900 points are 6000 ÷ 900 = 6.67 apart, so 15 or 16 in a column.
	k := &keeps{x: scale{eur("0"), eur("900"), 60, 6060}}
	if got := k.thinned(curve(zigzag[:240]...)); len(got) != 240 {
		t.Errorf("of 240 points %d are left", len(got))
	}
	all := curve(zigzag...)
	columns := make([][]margin.CurvePoint, 60)
	for i, p := range all {
		n := (i*20 + 1) / 3 / 101 // to the nearest tenth: 6⅔ × i
		columns[n] = append(columns[n], p)
	}
	var want []string
	for _, points := range columns {
		low, high := 0, 0
		for i, p := range points {
			if p.Contribution.Cmp(points[low].Contribution) < 0 {
				low = i
			}
			if p.Contribution.Cmp(points[high].Contribution) > 0 {
				high = i
			}
		}
		for i, p := range points {
			if i == 0 || i == low || i == high || i == len(points)-1 {
				want = append(want, p.Price.String())
			}
		}
	}
	var got []string
	for _, p := range k.thinned(all) {
		got = append(got, p.Price.String())
	}
	if strings.Join(got, " ") != strings.Join(want, " ") || len(got) < 180 || len(got) > 240 {
		t.Errorf("%d points are left:\n%v, want %d:\n%v", len(got), got, len(want), want)
	}
}

// Fifteen venues have a row each, and all further ones share the sixteenth.
func TestVenuesShareARow(t *testing.T) {
	var all []comparables.Seen
	for i := range 18 {
		all = append(all, comparables.Seen{Venue: fmt.Sprintf("v%d", i)})
	}
	all = append(all, comparables.Seen{Venue: "v0"}, comparables.Seen{Venue: "v14"}, comparables.Seen{Venue: "v17"})
	rows := venues(all)
	got := ""
	for _, v := range rows {
		got += fmt.Sprintf("%s %d; ", v.name, len(v.seen))
	}
	want := "v0 2; v1 1; v2 1; v3 1; v4 1; v5 1; v6 1; v7 1; v8 1; v9 1; v10 1; v11 1; v12 1; v13 1; v14 2; other venues 4; "
	if got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// One size is no ladder; nor are products without a size, or of no design.
func TestLadderTakesTwoSizes(t *testing.T) {
	a4, a3 := quoin.MustSize("A4"), quoin.MustSize("A3")
	one := pricelist.ProductResult{ID: "one", Design: "heron", Size: a4, Price: eur("20.00")}
	two := pricelist.ProductResult{ID: "two", Design: "heron", Size: a3, Price: eur("30.00")}
	sizeless, other, none := two, two, one
	sizeless.Size, other.Design, none.Design = quoin.Size{}, "egret", ""
	for name, c := range map[string]struct {
		products []pricelist.ProductResult
		design   string
		drawn    bool
	}{
		"two": {[]pricelist.ProductResult{two, one}, "heron", true}, "one": {[]pricelist.ProductResult{one}, "heron", false}, "one without a size": {[]pricelist.ProductResult{one, sizeless}, "heron", false},
		"two designs": {[]pricelist.ProductResult{one, other}, "heron", false}, "no design": {[]pricelist.ProductResult{none, none}, "", false},
	} {
		p, ok := Ladder(pricelist.Answer{Currency: quoin.MustCurrency("EUR"), Products: c.products}, c.design)
		if ok != c.drawn {
			t.Errorf("%s: drawn %t", name, ok)
		}
		if ok && (len(p.Rows) != 2 || p.Rows[0][0] != "one" || p.Text != "one, 210 x 297 mm: 20.00. two, 297 x 420 mm: 30.00.") {
			t.Errorf("%s: %v %s", name, p.Rows, p.Text)
		}
	}
}

// Lengths are tenths of a unit.
func TestTenths(t *testing.T) {
	for n, want := range map[int]string{0: "0", 5: "0.5", 10: "1", 123: "12.3", -5: "-0.5", -10: "-1", -123: "-12.3"} {
		if got := tenths(n); got != want {
			t.Errorf("%d is %s, want %s", n, got, want)
		}
	}
}
