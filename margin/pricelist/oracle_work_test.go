package pricelist_test

import (
	"fmt"
	"math/big"
)

// What quantities and prices follow from, worked out the long way: every cut,
// every quantity, exact fractions of centimetres and litres.

type oracleCut struct{ Piece, Of, Gutter, Bleed, Grip, Layout string }

type oracleInk struct {
	PerM2  oracleQuantity `json:"per_m2"`
	Image  string
	Upkeep struct {
		Share          oracleNumber
		PerMonth       *oracleQuantity `json:"per_month"`
		PrintsPerMonth oracleNumber    `json:"prints_per_month"`
	}
}

type oracleMachine struct {
	ID, Unit       string
	Price          oracleNumber
	LifeMonths     oracleNumber `json:"life_months"`
	LifePrints     oracleNumber `json:"life_prints"`
	PrintsPerMonth oracleNumber `json:"prints_per_month"`
	Service        []struct {
		Name         string
		Price, Every oracleNumber
	}
}

type oracleOffer struct {
	Pack  oracleQuantity
	Need  int64
	Scale struct {
		Steps []struct {
			From int64
			Each oracleNumber
		}
		Mode     string
		Freight  oracleNumber
		FreeFrom oracleNumber `json:"free_from"`
		Multiple int64
	}
}

func (s *oracleShop) workOut() {
	s.takeStock()
	for i := range s.Supplies {
		if o := s.Supplies[i].Offer; o != nil {
			n, cost := o.cheapest()
			s.Supplies[i].Price.r = cost
			s.Supplies[i].Quantity = oracleQuantity{ratMul(o.Pack.size, ratOf(n)), o.Pack.unit}
		}
	}
	for i, o := range s.Supplies {
		if o.Yearly != nil {
			s.Supplies[i].Price, s.Supplies[i].Quantity = o.Yearly.Spent, o.Yearly.Printed
		}
	}
	for _, m := range s.Machines {
		s.Supplies = append(s.Supplies, oracleSupply{ID: m.ID, Quantity: oracleQuantity{ratOf(1), m.Unit}, Price: oracleNumber{m.perPrint()}})
	}
	for i := range s.Products {
		sizes := s.sizes(s.Products[i])
		s.workOutLines(s.Products[i].Bill, sizes)
		for _, list := range s.Products[i].Packing {
			s.workOutLines(list, sizes)
		}
	}
}

// sizes are those that a product gives, and of those that it does not, its base's.
func (s *oracleShop) sizes(p oraclePrint) map[string]string {
	sizes := map[string]string{}
	if b := s.product(p.Base); b >= 0 {
		sizes = s.sizes(s.Products[b])
	}
	for name, own := range map[string]string{"image": p.Image, "sheet": p.Sheet} {
		if own != "" {
			sizes[name] = own
		}
	}
	return sizes
}

func (s *oracleShop) workOutLines(lines []oracleLine, sizes map[string]string) {
	for i, l := range lines {
		supply, _ := s.supply(l.Supply)
		switch {
		case l.Cut != nil:
			cut := *l.Cut
			if cut.Of != "" {
				cut.Piece = sizes[cut.Of]
			}
			lines[i].Quantity = oracleQuantity{big.NewRat(1, cut.pieces(supply)), supply.Quantity.unit}
		case l.Area != "":
			w, h := oracleSides(sizes[l.Area])
			lines[i].Quantity = oracleQuantity{big.NewRat(w*h, 10_000), "m2"}
		case l.Ink != nil:
			ink := *l.Ink
			if ink.Image == "" {
				ink.Image = sizes["image"]
			}
			lines[i].Quantity = oracleQuantity{ink.litres(), "l"}
		case l.Moulding != nil:
			w, h := oracleSides(l.Moulding.Glass)
			cm := ratAdd(ratMul(ratOf(2*(w+h)), ratOf(1)), oracleCentimetres(l.Moulding.Allowance))
			cm = ratAdd(cm, ratMul(ratOf(8), oracleCentimetres(l.Moulding.Width)))
			lines[i].Quantity = oracleQuantity{ratQuo(cm, ratOf(100)), "m"}
		}
	}
}

// oracleSides reads a size in whole centimetres.
func oracleSides(size string) (w, h int64) {
	if n, err := fmt.Sscanf(size, "%d x %d cm", &w, &h); n != 2 || err != nil {
		panic(size)
	}
	return w, h
}

func oracleCentimetres(length string) *big.Rat {
	if length == "" {
		return new(big.Rat)
	}
	var n int64
	var unit string
	if _, err := fmt.Sscanf(length, "%d %s", &n, &unit); err != nil {
		panic(length)
	}
	return map[string]*big.Rat{"cm": ratOf(n), "mm": big.NewRat(n, 10)}[unit]
}

// pieces tries every cut at every centimetre.
func (c oracleCut) pieces(s oracleSupply) int64 {
	whole := func(length string) int64 { return ratFloor(oracleCentimetres(length)).Int64() }
	sheetW, sheetH := oracleSides(s.Sheet.Size)
	border, gutter := whole(s.Sheet.Border), whole(c.Gutter)
	w, h := oracleSides(c.Piece)
	w, h = w+2*whole(c.Bleed), h+2*whole(c.Bleed)
	sheetH -= whole(c.Grip) // of what the border leaves
	w, h, sheetW, sheetH = w+gutter, h+gutter, sheetW-2*border+gutter, sheetH-2*border+gutter
	if c.Layout == "grid" {
		return max((sheetW/w)*(sheetH/h), (sheetW/h)*(sheetH/w))
	}
	return allCuts(max(sheetW, sheetH), w, h)[sheetW][sheetH]
}

// allCuts is the most pieces out of each field up to most × most.
func allCuts(most, w, h int64) [][]int64 {
	f := make([][]int64, most+1)
	for x := range f {
		f[x] = make([]int64, most+1)
	}
	for x := int64(1); x <= most; x++ {
		for y := int64(1); y <= most; y++ {
			if x >= w && y >= h || x >= h && y >= w {
				f[x][y] = 1
			}
			for c := int64(1); c <= x/2; c++ {
				f[x][y] = max(f[x][y], f[c][y]+f[x-c][y])
			}
			for c := int64(1); c <= y/2; c++ {
				f[x][y] = max(f[x][y], f[x][c]+f[x][y-c])
			}
		}
	}
	return f
}

func (i oracleInk) litres() *big.Rat {
	w, h := oracleSides(i.Image)
	volume := ratMul(i.PerM2.size, big.NewRat(w*h, 10_000))
	if i.Upkeep.PerMonth != nil {
		volume = ratAdd(volume, ratQuo(i.Upkeep.PerMonth.size, i.Upkeep.PrintsPerMonth.r))
	}
	return ratQuo(volume, ratSub(ratOf(1), i.Upkeep.Share.or(0)))
}

func (m oracleMachine) perPrint() *big.Rat {
	prints := ratMul(m.LifeMonths.r, m.PrintsPerMonth.r)
	if m.LifePrints.given() {
		prints = ratMin(prints, m.LifePrints.r)
	}
	each := ratQuo(m.Price.r, prints)
	for _, part := range m.Service {
		each = ratAdd(each, ratQuo(part.Price.r, part.Every.r))
	}
	return each
}

// cheapest tries every quantity far beyond the need.
func (o oracleOffer) cheapest() (best int64, least *big.Rat) {
	for n := o.Need; n < 400; n++ {
		if o.Scale.Multiple > 1 && n%o.Scale.Multiple != 0 {
			continue
		}
		if cost := o.cost(n); least == nil || cost.Cmp(least) < 0 {
			best, least = n, cost
		}
	}
	return best, least
}

func (o oracleOffer) cost(n int64) *big.Rat {
	sum := new(big.Rat)
	for unit := int64(1); unit <= n; unit++ {
		at := unit
		if o.Scale.Mode != "incremental" {
			at = n
		}
		each := o.Scale.Steps[0].Each.r
		for _, s := range o.Scale.Steps {
			if at >= s.From {
				each = s.Each.r
			}
		}
		sum = ratAdd(sum, each)
	}
	if o.Scale.FreeFrom.given() && sum.Cmp(o.Scale.FreeFrom.r) >= 0 {
		return sum
	}
	return ratAdd(sum, o.Scale.Freight.or(0))
}
