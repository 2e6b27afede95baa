package margin

import "example.com/quoin"

// Point is a price and the statement at that price: a point on the curve of a sale.
type Point struct {
	Price quoin.Amount
	Statement
}

// CurvePoint is what a sale contributes at a price: a Point as it stands in an answer.
type CurvePoint struct {
	// A price of the list.
	Price quoin.Amount `json:"price" range:"[0,"`
	// What a sale contributes there.
	Contribution quoin.Amount `json:"contribution"`
}

// Points returns points to draw the curve of a sale through, in rising order, from one price of
// a grid to another, for a picture that is so many pixels wide. Any figure of the statements
// can be drawn against the prices. The points are the ends of each piece of the curve. Straight
// lines between them are the curve, except for rounding. A jump is two points at neighbouring
// prices. If more than four ends fall into one column of pixels, the column has its first and
// last point, and those with the lowest and the highest contribution. So no jump is lost.
//
// There are no points if no price of the grid lies between the two, or the picture has no
// width.
func (s Sale) Points(g quoin.Grid, from, to quoin.Amount, pixels int) []Point {
	first, last := max(g.Ceil(from), 1), min(g.Floor(to), g.Len())
	if first > last || pixels < 1 {
		return nil
	}
	var out []Point
	c := column{sale: s, grid: g}
	for _, p := range s.Terms.Curve(g) {
		for _, end := range [2]int64{max(p.First, first), min(p.Last, last)} {
			if p.Last < first || p.First > last {
				continue
			}
			at := pixelOf(end-first, last-first, pixels)
			if at != c.at {
				out, c = append(out, c.points...), column{sale: s, grid: g, at: at}
			}
			c.add(end)
		}
	}
	return append(out, c.points...)
}

// pixelOf is the column of a price among so many, which lie n and of steps behind the
// first.
func pixelOf(n, of int64, pixels int) int64 {
	if of == 0 {
		return 0
	}
	wide := int64(min(pixels, 1<<20))
	return min(n/of*wide+n%of*wide/of, wide-1)
}

// column is the points of one pixel: in their order the first, the least and the greatest,
// and the last.
type column struct {
	sale   Sale
	grid   quoin.Grid
	at     int64
	index  []int64
	points []Point
}

// add adds the price with an index, which is not below those so far.
func (c *column) add(i int64) {
	n := len(c.index)
	if n > 0 && c.index[n-1] == i {
		return
	}
	price := c.grid.Price(i)
	c.index, c.points = append(c.index, i), append(c.points, Point{price, c.sale.At(price)})
	if n < 4 {
		return
	}
	// Of the five, one that stands between others is neither the least nor the greatest.
	least, greatest := 0, 0
	for j := range c.points {
		if c.points[j].Contribution.Cmp(c.points[least].Contribution) < 0 {
			least = j
		}
		if c.points[j].Contribution.Cmp(c.points[greatest].Contribution) > 0 {
			greatest = j
		}
	}
	for j := 1; j < n; j++ {
		if j != least && j != greatest {
			c.index, c.points = append(c.index[:j], c.index[j+1:]...), append(c.points[:j], c.points[j+1:]...)
			return
		}
	}
}

// String writes the price and its statement.
func (p Point) String() string { return p.Price.String() + ": " + p.Statement.String() }
