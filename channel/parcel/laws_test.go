package parcel_test

import (
	"fmt"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel/parcel"
)

// inUnits writes lengths and masses, drawn in tenths of a millimetre and in
// grams, in units of choice.
type inUnits struct {
	length, mass quoin.Unit
}

func (u inUnits) len(tenths int64) quoin.Quantity {
	if tenths == 0 {
		return quoin.Quantity{}
	}
	v, _ := quoin.Unit("mm").Times(quoin.FactorOf(tenths).Over(quoin.FactorOf(10))).In(u.length)
	return v
}

func (u inUnits) weight(g int64) quoin.Quantity {
	v, _ := quoin.Unit("g").Times(quoin.FactorOf(g)).In(u.mass)
	return v
}

// drawn is a plan as numbers, so that it can be written in any units and
// turned.
type drawn struct {
	sheet, outside        [2][3]int64 // of two packings: tenths of a millimetre
	depth, grows          [2]int64
	tube                  bool
	holds, empty          [2]int64
	width, height, thick  int64
	each, board, boardMM  int64
	divisor               int64
	increment, from       int64
	measured              parcel.SideRounding
	stepMass, price, more []int64 // more −1 where there is none
	longest, girth        []int64
	stiff                 []bool
	cost                  [2]int64
}

func drawPlan(t *rapid.T) drawn {
	n := func(name string, from, to int64) int64 { return rapid.Int64Range(from, to).Draw(t, name) }
	d := drawn{
		tube: rapid.Bool().Draw(t, "tube"), width: n("width", 1000, 3500), height: n("height", 1000, 5000), thick: n("thick", 0, 20),
		each: n("each", 0, 200), board: n("board", 0, 100), boardMM: n("board mm", 0, 40), divisor: n("divisor", 0, 9000),
		increment: n("increment", 0, 3) * 250, from: n("from", 0, 2) * 5,
		measured: rapid.SampledFrom([]parcel.SideRounding{"", parcel.AsMeasured, parcel.WholeUp, parcel.WholeNearest}).Draw(t, "measured"),
	}
	for i := range 2 {
		d.sheet[i] = [3]int64{n("inside", 1500, 5000), n("inside", 1500, 5000)}
		d.outside[i] = [3]int64{n("outside", 10, 6000), n("outside", 10, 6000), n("outside", 10, 1000)}
		d.depth[i], d.grows[i], d.holds[i], d.empty[i] = n("depth", 0, 300), n("grows", 0, 30), n("holds", 1, 40), n("empty", 0, 500)
		d.cost[i] = n("cost", 0, 200)
	}
	for range n("steps", 1, 4) {
		d.stepMass = append(d.stepMass, n("step mass", 50, 5000))
		d.price, d.more = append(d.price, n("price", 0, 1000)), append(d.more, n("more", -1, 600))
		d.longest, d.girth = append(d.longest, n("longest", 0, 2)*3000), append(d.girth, n("girth", 0, 2)*6000)
		d.stiff = append(d.stiff, rapid.Bool().Draw(t, "stiff"))
	}
	return d
}

func (d drawn) write(u inUnits) (parcel.ShippingTerms, parcel.Load) {
	size := func(w, h int64) quoin.Size {
		s, _ := quoin.NewSize(u.len(w), u.len(h))
		return s
	}
	pl := parcel.ShippingTerms{Tariff: parcel.Tariff{ID: "post", Zones: []parcel.Zone{{ID: "home"}}}}
	for i := range 2 {
		p := parcel.Packing{
			ID: fmt.Sprint("p", i), Inside: size(d.sheet[i][0], d.sheet[i][1]), Holds: d.holds[i], Depth: u.len(d.depth[i]), Grows: u.len(d.grows[i]),
			Outside: parcel.Sides{Length: u.len(d.outside[i][0]), Width: u.len(d.outside[i][1]), Height: u.len(d.outside[i][2])}, Mass: u.weight(d.empty[i]), Class: "stiff",
		}
		if i == 1 && d.tube {
			p.Tube, p.Inside, p.Depth, p.Class = u.len(d.sheet[i][0]), quoin.Size{}, quoin.Quantity{}, "rigid"
		}
		pl.Packings = append(pl.Packings, p)
	}
	if d.divisor > 0 {
		pl.Tariff.Dimensional = &parcel.Dimensional{Divisor: quoin.FactorOf(d.divisor), Length: "cm", Mass: "kg", Sides: d.measured}
		if d.increment > 0 {
			pl.Tariff.Dimensional.Increment = u.weight(d.increment)
		}
		if d.from > 0 {
			pl.Tariff.Dimensional.From = quoin.Unit("l").Times(quoin.FactorOf(d.from))
		}
	}
	for i := range d.stepMass {
		s := parcel.PriceBand{Mass: u.weight(d.stepMass[i]), Price: quoin.AmountOf(d.price[i], 2), LongestSide: u.len(d.longest[i]), LengthAndGirth: u.len(d.girth[i])}
		if d.more[i] >= 0 {
			s.Additional = quoin.Some(quoin.AmountOf(d.more[i], 2))
		}
		if d.stiff[i] {
			s.Classes = []string{"stiff"}
		}
		pl.Tariff.Zones[0].Steps = append(pl.Tariff.Zones[0].Steps, s)
	}
	l := parcel.Load{Sheet: size(d.width, d.height), Thickness: u.len(d.thick), Mass: u.weight(d.each)}
	if d.board > 0 {
		l.Board = parcel.Board{Mass: u.weight(d.board), Thickness: u.len(d.boardMM)}
	}
	return pl, l
}

func (d drawn) price1(id string) quoin.Amount {
	if id == "p0" {
		return quoin.AmountOf(d.cost[0], 2)
	}
	return quoin.AmountOf(d.cost[1], 2)
}

var metric = inUnits{"mm", "g"}

// takes says in fractions, from the drawn numbers, whether step s takes packing
// i with so many prints.
func (d drawn) takes(i, s int, n int64) bool {
	rolled := i == 1 && d.tube
	if d.stiff[s] && rolled {
		return false
	}
	short, long := min(d.width, d.height), max(d.width, d.height)
	switch {
	case n > d.holds[i], rolled && short > d.sheet[i][0],
		!rolled && (short > min(d.sheet[i][0], d.sheet[i][1]) || long > max(d.sheet[i][0], d.sheet[i][1])):
		return false
	}
	board := d.boardMM
	if d.board == 0 {
		board = 0
	}
	if !rolled && d.depth[i] > 0 && n*d.thick+board > d.depth[i] {
		return false
	}
	side := d.outside[i]
	side[2] += n * d.grows[i]
	top := max(side[0], side[1], side[2])
	if d.longest[s] > 0 && top > d.longest[s] || d.girth[s] > 0 && 2*(side[0]+side[1]+side[2])-top > d.girth[s] {
		return false
	}
	grams := big.NewRat(d.empty[i]+n*d.each+d.board, 1)
	if volume := new(big.Rat).SetFrac(product(side), big.NewInt(1e9)); d.divisor > 0 && volume.Cmp(big.NewRat(d.from, 1)) >= 0 {
		if w := d.dimensional(side); w.Cmp(grams) > 0 {
			grams = w
		}
	}
	return grams.Cmp(big.NewRat(d.stepMass[s], 1)) <= 0
}

func product(side [3]int64) *big.Int {
	out := big.NewInt(side[0])
	return out.Mul(out, big.NewInt(side[1])).Mul(out, big.NewInt(side[2]))
}

// dimensional is in grams; a centimetre is 100 tenths of a millimetre.
func (d drawn) dimensional(side [3]int64) *big.Rat {
	cm3 := new(big.Rat).SetFrac(product(side), big.NewInt(1e6))
	if d.measured == parcel.WholeUp || d.measured == parcel.WholeNearest {
		for i := range side {
			if d.measured == parcel.WholeUp {
				side[i] = (side[i] + 99) / 100
			} else {
				side[i] = max(1, (side[i]+50)/100)
			}
		}
		cm3.SetInt(product(side))
	}
	grams := cm3.Mul(cm3, big.NewRat(1000, d.divisor))
	if d.increment == 0 {
		return grams
	}
	counts := grams.Quo(grams, big.NewRat(d.increment, 1))
	whole, rest := new(big.Int).QuoRem(counts.Num(), counts.Denom(), new(big.Int))
	if rest.Sign() > 0 {
		whole.Add(whole, big.NewInt(1))
	}
	return new(big.Rat).SetInt(whole.Mul(whole, big.NewInt(d.increment)))
}

// further is what a parcel after the first costs by a step.
func (d drawn) further(step int) int64 {
	if d.more[step] >= 0 {
		return d.more[step]
	}
	return d.price[step]
}

// least tries every packing, every number of prints in all parcels but the
// last, and every step for these and for the last, in cents.
func (d drawn) least(prints int64) (cents int64, found bool) {
	for i := range 2 {
		for each := int64(1); each <= prints; each++ {
			for s := range d.stepMass {
				if !d.takes(i, s, each) {
					continue
				}
				more := d.further(s)
				parcels, rest := prints/each, prints%each
				total := d.price[s] + (parcels-1)*more
				if rest > 0 {
					last := more
					for o := range d.stepMass {
						if o != s && d.takes(i, o, rest) {
							last = min(last, d.further(o))
						}
					}
					total, parcels = total+last, parcels+1
				}
				if total += parcels * d.cost[i]; !found || total < cents {
					cents, found = total, true
				}
			}
		}
	}
	return cents, found
}

// What is answered is the cheapest there is, by trying all; what is explained
// is what is computed.
func TestCheapestOfAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawPlan(t)
		prints := rapid.Int64Range(1, 60).Draw(t, "prints")
		pl, l := d.write(metric)
		s, err := pl.Cheapest("home", l, prints, d.price1)
		want, found := d.least(prints)
		if found != (err == nil) {
			t.Fatalf("%v, found by trying: %t", err, found)
		}
		if !found {
			return
		}
		if !s.Total.Equal(quoin.AmountOf(want, 2)) || s.Each*(s.Parcels-1)+s.Last != prints || len(s.Others) != 1 {
			t.Fatalf("%+v, want %d cents", s, want)
		}
		if !d.takes(s.Index, s.Step, s.Each) || !d.takes(s.Index, s.LastStep, s.Last) {
			t.Fatalf("%+v: a step does not take its parcel", s)
		}
		places := parcel.Places{Packing: quoin.InList("packings", s.Index), Load: quoin.InField("load"), Tariff: quoin.InList("tariffs", 0)}
		trail := quoin.NewTrail(32)
		if got, ok := pl.Explain(trail, places, l, s).Value.Amount(); !ok || !got.Equal(s.Total) {
			t.Fatalf("explained as %s, computed as %s", got, s.Total)
		}
		if got := quoin.Unit("g").Times(billable(trail.Steps()).Factor()); !got.Equal(s.Billable) {
			t.Fatalf("explained as %s, computed as %s", got, s.Billable)
		}
		if err := quoin.Replay(trail.Steps()); err != nil {
			t.Fatal(err)
		}
	})
}

// More prints, a heavier print, a board, and a dearer step never cost less;
// turning the sheet and writing everything in other units changes no money.
func TestShippingLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawPlan(t)
		prints := rapid.Int64Range(1, 200).Draw(t, "prints")
		total := func(d drawn, u inUnits, prints int64) (quoin.Amount, bool) {
			pl, l := d.write(u)
			s, err := pl.Cheapest("home", l, prints, d.price1)
			return s.Total, err == nil
		}
		now, sent := total(d, metric, prints)
		for _, u := range []inUnits{{"cm", "kg"}, {"m", "g"}} {
			if got, ok := total(d, u, prints); ok != sent || !got.Equal(now) {
				t.Fatalf("in %v: %s, %t, want %s, %t", u, got, ok, now, sent)
			}
		}
		turned := d
		turned.width, turned.height = d.height, d.width
		if got, ok := total(turned, metric, prints); ok != sent || !got.Equal(now) {
			t.Fatalf("turned: %s, %t, want %s, %t", got, ok, now, sent)
		}
		if !sent {
			return
		}
		for what, spoil := range map[string]func(*drawn){
			"heavier": func(d *drawn) { d.each += 15 },
			"board":   func(d *drawn) { d.board += 40 },
			"dearer": func(d *drawn) {
				d.price = append([]int64{d.price[0] + 50}, d.price[1:]...)
			},
		} {
			other := d
			spoil(&other)
			if got, ok := total(other, metric, prints); ok && got.Cmp(now) < 0 {
				t.Fatalf("%s: %s instead of %s", what, got, now)
			}
		}
		pl, l := d.write(metric)
		next, err := pl.Next("home", l, prints, d.price1)
		if err != nil || next.Cost.Sign() < 0 || !next.Now.Total.Equal(now) || !next.Then.Total.Sub(now).Equal(next.Cost) {
			t.Fatalf("the next print: %s, %v", next.Cost, err)
		}
		rise, err := pl.Rise("home", l, prints, d.price1)
		if err != nil || rise == prints+1 != (next.Cost.Sign() > 0) {
			t.Fatalf("rise at %d, %v, where the next of %d costs %s", rise, err, prints, next.Cost)
		}
		if rise > 0 {
			before, _ := total(d, metric, rise-1)
			at, _ := total(d, metric, rise)
			if !before.Equal(now) || at.Cmp(now) <= 0 {
				t.Fatalf("rise at %d from %s to %s, now %s", rise, before, at, now)
			}
		}
	})
}

// Twice the divisor halves the dimensional mass, twice every side makes it
// eight times as much, and other units change nothing.
func TestDimensionalLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := func(name string) quoin.Factor { return quoin.FactorOf(rapid.Int64Range(1, 200).Draw(t, name)) }
		length, width, height, divisor := n("length"), n("width"), n("height"), n("divisor")
		weigh := func(divisor, times quoin.Factor, u quoin.Unit) quoin.Quantity {
			side := func(f quoin.Factor) quoin.Quantity {
				v, err := quoin.Unit("in").Times(f.Times(times)).In(u)
				if err != nil {
					t.Fatal(err)
				}
				return v
			}
			d := &parcel.Dimensional{Divisor: divisor, Length: "in", Mass: "lb"}
			w, err := d.Billable(parcel.Sides{Length: side(length), Width: side(width), Height: side(height)}, q("0 g"))
			if err != nil {
				t.Fatal(err)
			}
			return w
		}
		one, two := quoin.FactorOf(1), quoin.FactorOf(2)
		w := weigh(divisor, one, "in")
		if got := weigh(divisor.Times(two), one, "in").Times(two); !got.Equal(w) {
			t.Fatalf("twice the divisor: %s, want %s", got, w)
		}
		if got := weigh(divisor, two, "in"); !got.Equal(w.Times(quoin.FactorOf(8))) {
			t.Fatalf("twice the sides: %s, want eight times %s", got, w)
		}
		for _, u := range []quoin.Unit{"cm", "mm", "m"} {
			if got := weigh(divisor, one, u); !got.Equal(w) {
				t.Fatalf("in %s: %s, want %s", u, got, w)
			}
		}
	})
}

func BenchmarkCheapest(b *testing.B) {
	pl, l := marsh(), heron()
	for b.Loop() {
		if _, err := pl.Cheapest("home", l, 25, packings); err != nil {
			b.Fatal(err)
		}
	}
}

// billable is what the first parcel of an explained shipment is charged for: its mass on the
// scales where no volume counts.
func billable(steps []quoin.Step) quoin.Figure {
	of := func(code quoin.StepCode) []int {
		return quoin.Find(steps, func(s quoin.Step) bool { return s.Code == code })
	}
	at := of(parcel.StepBillable)
	if at == nil {
		at = of(parcel.StepMass)
	}
	return steps[at[0]-1].Value
}
