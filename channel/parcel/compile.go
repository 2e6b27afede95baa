package parcel

import (
	"cmp"
	"math"
	"math/big"
	"slices"
	"sync"

	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// CompiledTerms are shipping terms that were checked, for sending many loads. What their
// packings and the steps of a zone measure is computed once, when a zone is first asked for.
// They are safe for concurrent use.
type CompiledTerms struct {
	plan  ShippingTerms
	zones []measured // of the tariff
	index map[string]int
	boxes []box // of the packings
}

// Compile checks the terms and prepares them for many loads. It errs as Check does.
func (pl ShippingTerms) Compile() (*CompiledTerms, error) {
	if err := pl.Check(); err != nil {
		return nil, err
	}
	return newPost(pl), nil
}

func newPost(pl ShippingTerms) *CompiledTerms {
	p := &CompiledTerms{plan: pl, zones: make([]measured, len(pl.Tariff.Zones)), index: make(map[string]int), boxes: make([]box, len(pl.Packings))}
	for i, z := range pl.Tariff.Zones {
		if _, twice := p.index[z.ID]; !twice {
			p.index[z.ID] = i
		}
	}
	for i, k := range pl.Packings {
		p.boxes[i] = boxOf(k)
	}
	return p
}

// Load prepares a load for sending to a zone in some of the packings, which are given by their
// places; cost is what each costs. The indexes of a Shipment, and the paths of problems, count
// those packings. It errs as Cheapest does, except for faults of the terms and the number of
// prints.
func (p *CompiledTerms) Load(to string, l Load, packings []int, cost []quoin.Amount) (PackedLoad, error) {
	var k form.Collector
	k.AddAll(form.In("load"), l.Check())
	z, known := p.index[to]
	if !known {
		z = zone(&k, p.plan.Tariff, to)
	}
	if err := k.All().Err(); err != nil {
		return PackedLoad{}, err
	}
	return p.load(z, l, packings, cost)
}

func (p *CompiledTerms) load(zone int, l Load, packings []int, cost []quoin.Amount) (PackedLoad, error) {
	at := &p.zones[zone]
	at.once.Do(func() { at.measure(p.plan, zone) })
	d := PackedLoad{post: p, zone: zone, load: l, routes: make([]route, len(packings))}
	each, board := unitsOf(grams(l.Mass)), unitsOf(grams(l.Board.Mass))
	thick, stiff := unitsOf(mm(l.Thickness)), unitsOf(mm(l.Board.Thickness))
	var reasons quoin.Problems
	for i, n := range packings {
		r := &d.routes[i]
		r.packing, r.last = n, new(lasts)
		if len(cost) > 0 {
			r.cost = cost[i]
		}
		r.units, r.exact = roughly(r.cost)
		p.fill(r, at, l, most{each: each, fixed: board}, most{each: thick, fixed: stiff})
		if r.reason.Code != "" {
			if r.reason.Path != "" {
				r.reason.Path = entry("packings", i)
			}
			reasons = append(reasons, r.reason)
		}
	}
	if len(packings) == 0 {
		reasons = append(reasons, noPacking("a packing that takes "+l.Sheet.String()))
	}
	if len(reasons) == max(len(packings), 1) {
		return PackedLoad{}, reasons
	}
	return d, nil
}

// fill finds how many prints each step takes in a packing, or why it takes none.
func (p *CompiledTerms) fill(r *route, at *measured, l Load, byMass, byDepth most) {
	k, b := p.plan.Packings[r.packing], p.boxes[r.packing]
	room := int64(0)
	if k.takes(l.Sheet) && isLength(l.Thickness) && isLength(l.Board.Thickness) {
		room = min(k.Holds, MostPrints)
		if !k.Depth.IsZero() {
			room = byDepth.upTo(b.depth, 0, room, func(n int64) bool { return k.deep(l, n) })
		}
	}
	if room == 0 {
		r.reason = k.unfit(l, entry("packings", r.packing))
		return
	}
	steps := p.plan.Tariff.Zones[at.zone].Steps
	r.most = make([]int64, len(steps))
	var any bool
	for s := range steps {
		r.most[s] = min(room, at.caps[r.packing][s])
		if r.most[s] > 0 {
			r.most[s] = byMass.upTo(at.mass[s], b.empty, r.most[s], func(n int64) bool { return k.filled(l, n).Cmp(grams(steps[s].Mass)) <= 0 })
		}
		any = any || r.most[s] > 0
	}
	if !any {
		r.reason = p.plan.Tariff.Zones[at.zone].refusal(p.plan.Tariff.weigh(k.Parcel(l, 1)))
		r.reason.Path = entry("packings", r.packing)
	}
}

// measured is what the steps of a zone are, in whole units where they are such, and
// what they take whatever the prints weigh.
type measured struct {
	once        sync.Once
	zone        int
	mass        []int64
	price, more []int64
	// rank is which place a step has by what a further parcel costs, of equals the
	// first, moreRank the same with one place for equals.
	rank, moreRank []int
	caps           [][]int64 // of each packing, by step
}

func (z *measured) measure(pl ShippingTerms, zone int) {
	steps := pl.Tariff.Zones[zone].Steps
	z.zone = zone
	z.mass, z.price, z.more = make([]int64, len(steps)), make([]int64, len(steps)), make([]int64, len(steps))
	gates := make([]gate, len(steps))
	byMore := make([]int, len(steps))
	for i, s := range steps {
		z.mass[i], gates[i], byMore[i] = unitsOf(grams(s.Mass)), gateOf(s), i
		z.price[i], z.more[i] = moneyOf(s.Price), moneyOf(s.more())
	}
	slices.SortStableFunc(byMore, func(a, b int) int { return steps[a].more().Cmp(steps[b].more()) })
	z.rank, z.moreRank = make([]int, len(steps)), make([]int, len(steps))
	for i, step := range byMore {
		z.rank[step], z.moreRank[step] = i, i
		if i > 0 && steps[step].more().Equal(steps[byMore[i-1]].more()) {
			z.moreRank[step] = z.moreRank[byMore[i-1]]
		}
	}
	z.caps = make([][]int64, len(pl.Packings))
	for k, p := range pl.Packings {
		d := pl.Tariff.dims(p)
		b := boxOf(p)
		z.caps[k] = make([]int64, len(steps))
		for i, s := range steps {
			z.caps[k][i] = d.upTo(s, b.through(gates[i], s, p))
		}
	}
}

// none stands for a figure that is no whole number of units.
const none = math.MinInt64

// Units of measures are billionths of a millimetre and of a gram, of money
// hundred-millionths. What is not a whole number of them, or is enormous, is left to
// decimals.
const (
	measureUnits = 1_000_000_000
	moneyPlaces  = 8
	moneyUnits   = 100_000_000
	mostUnits    = 1 << 59
	mostMoney    = math.MaxInt64 / (4 * MostPrints)
)

func unitsOf(f quoin.Factor) int64 { return wholeOf(f.Rat(), measureUnits, mostUnits) }
func moneyOf(a quoin.Amount) int64 { return wholeOf(a.Rat(), moneyUnits, mostMoney) }

// roughly is an amount in units of money, rounded down, and whether it is just that.
func roughly(a quoin.Amount) (units int64, exact bool) {
	if n := moneyOf(a); n != none {
		return n, true
	}
	return moneyOf(a.Round(moneyPlaces, quoin.Down)), false
}

func lengthOf(q quoin.Quantity) int64 { return unitsOf(mm(q)) }
func massOf(q quoin.Quantity) int64   { return unitsOf(grams(q)) }

func wholeOf(x *big.Rat, units, limit int64) int64 {
	n := new(big.Int).Mul(x.Num(), big.NewInt(units))
	var rest big.Int
	n.QuoRem(n, x.Denom(), &rest)
	if rest.Sign() != 0 || !n.IsInt64() || n.Int64() < 0 || n.Int64() >= limit {
		return none
	}
	return n.Int64()
}

// most is what each print, and what lies beside them, takes of something that is
// bounded.
type most struct{ each, fixed int64 }

// upTo returns how many prints, up to a number, go within a limit, of which more is
// taken already; by trying, where not all are whole units.
func (m most) upTo(limit, more, atMost int64, accepts func(n int64) bool) int64 {
	if m.each == none || m.fixed == none || limit == none || more == none {
		return mostOf(atMost, accepts)
	}
	left := limit - more - m.fixed
	switch {
	case left < 0:
		return 0
	case m.each == 0:
		return atMost
	}
	return min(atMost, left/m.each)
}

// box is the outside of a packing and how it grows, its depth and what it weighs.
type box struct {
	sides        [3]int64
	grows        int64
	depth, empty int64
}

func boxOf(p Packing) box {
	return box{
		sides: [3]int64{lengthOf(p.Outside.Length), lengthOf(p.Outside.Width), lengthOf(p.Outside.Height)},
		grows: lengthOf(p.Grows), depth: lengthOf(p.Depth), empty: massOf(p.Mass),
	}
}

// gate is what sides a step takes; 0 where it does not say.
type gate struct {
	longest, girth int64
	within         *[3]int64
}

func gateOf(s PriceBand) gate {
	g := gate{longest: lengthOf(s.LongestSide), girth: lengthOf(s.LengthAndGirth)}
	if s.Within != nil {
		g.within = new(sortedUnits([3]int64{lengthOf(s.Within.Length), lengthOf(s.Within.Width), lengthOf(s.Within.Height)}))
	}
	return g
}

func (g gate) whole() bool {
	return g.longest != none && g.girth != none && (g.within == nil || g.within[2] != none)
}

func sortedUnits(s [3]int64) [3]int64 {
	slices.SortFunc(s[:], func(a, b int64) int { return cmp.Compare(b, a) })
	return s
}

// through returns up to how many prints a packing goes through a step by its class
// and its sides.
func (b box) through(g gate, s PriceBand, p Packing) int64 {
	accepts := func(n int64) bool {
		return s.obstacle(weighed{sides: p.Parcel(Load{}, n).Outside.sorted(), class: p.Class}) == nothing
	}
	if len(s.Classes) > 0 && !slices.Contains(s.Classes, p.Class) {
		return 0
	}
	if g.longest == 0 && g.girth == 0 && g.within == nil {
		return p.Holds
	}
	if g.whole() && slices.Min(b.sides[:]) != none && b.grows != none && b.grows < mostUnits>>18 {
		accepts = func(n int64) bool { return g.takes(b.sides[0], b.sides[1], b.sides[2]+n*b.grows) }
	}
	if b.grows == 0 {
		if !accepts(1) {
			return 0
		}
		return p.Holds
	}
	return mostOf(p.Holds, accepts)
}

func (g gate) takes(length, width, height int64) bool {
	s := sortedUnits([3]int64{length, width, height})
	switch {
	case g.longest > 0 && s[0] > g.longest:
		return false
	case g.girth > 0 && s[0]+2*(s[1]+s[2]) > g.girth:
		return false
	}
	return g.within == nil || s[0] <= g.within[0] && s[1] <= g.within[1] && s[2] <= g.within[2]
}

// dims is what a packing is charged for by its size, by how many prints are in it.
type dims struct {
	by            *Dimensional
	floor, base   quoin.Factor // length × width, in squares as charged for, and in mm²
	height, grows quoin.Factor // in mm
	from          quoin.Factor // the least volume that counts, in mm³
	known         map[int64]quoin.Factor
}

func (t Tariff) dims(p Packing) dims {
	d := dims{by: t.Dimensional, known: make(map[int64]quoin.Factor)}
	if d.by == nil {
		return d
	}
	d.height, d.grows, d.base = mm(p.Outside.Height), mm(p.Grows), mm(p.Outside.Length).Times(mm(p.Outside.Width))
	d.floor = d.by.side(mm(p.Outside.Length)).Times(d.by.side(mm(p.Outside.Width)))
	if !d.by.From.IsZero() {
		d.from = d.by.From.Number().Times(d.by.From.Unit().Size()).Times(quoin.FactorOf(1000))
	}
	return d
}

// upTo returns how many prints, up to a number, a step takes by that.
func (d dims) upTo(s PriceBand, atMost int64) int64 {
	if d.by == nil || atMost == 0 {
		return atMost
	}
	limit := grams(s.Mass)
	return mostOf(atMost, func(n int64) bool { return d.of(n).Cmp(limit) <= 0 })
}

func (d dims) of(n int64) quoin.Factor {
	if d.grows.IsZero() {
		n = 0
	}
	weight, known := d.known[n]
	if known {
		return weight
	}
	height := d.height.Add(d.grows.Times(quoin.FactorOf(n)))
	if d.from.IsZero() || d.base.Times(height).Cmp(d.from) >= 0 {
		weight = d.by.heavy(d.floor, height)
	}
	d.known[n] = weight
	return weight
}
