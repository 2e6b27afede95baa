package cut

import "slices"

// The search for a guillotine layout of equal pieces that may be turned.
//
// Pieces can be pushed together until every cut stands at a sum i·w + j·h of
// their sides, so only these raster points matter. A layout is sought that
// peels off one strip after the other: a column or a row as long as what is
// left, of pieces lying one way. It has four ways to go on from each rest, so
// all rests are gone through once. For small rasters every cut at a raster
// point is tried as well, which finds the best of all guillotine layouts; the
// two have never differed.

const coarseSearched = 200_000 // rests that take about as long as peeling off one kind only

const (
	mostPoints = 3000   // of a raster, for which all rests are gone through
	mostSieved = 60_000 // units of a length that is gone through one by one
	mostSums   = 60_000 // of sides, for longer ones
	fewPoints  = 96     // of a raster, for which all cuts are tried
)

// raster is the sums i·w + j·h up to a length, from 0, and for each the place
// of the greatest that is left when w, or h, is taken off; −1 where none is.
type raster struct {
	points           []int64
	lessW, lessH     []int32
	countsW, countsH []uint16 // how often w, or h, goes into it
}

// newRaster returns false where there would be too many points.
func newRaster(length, w, h int64) (raster, bool) {
	var r raster
	switch {
	case length <= mostSieved:
		r.points = sieved(length, w, h)
	case (length/w+1)*(length/h+1) <= mostSums:
		r.points = summed(length, w, h)
	default:
		return r, false
	}
	if len(r.points) > mostPoints {
		return r, false
	}
	r.lessW, r.countsW = r.less(w)
	r.lessH, r.countsH = r.less(h)
	return r, true
}

func sieved(length, w, h int64) []int64 {
	var out []int64
	is := make([]bool, length+1)
	for x := range length + 1 {
		if is[x] = x == 0 || x >= w && is[x-w] || x >= h && is[x-h]; is[x] {
			out = append(out, x)
		}
	}
	return out
}

func summed(length, w, h int64) []int64 {
	var out []int64
	for i := int64(0); i <= length; i += w {
		for j := i; j <= length; j += h {
			out = append(out, j)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

func (r raster) less(by int64) (rest []int32, counts []uint16) {
	rest, counts = make([]int32, len(r.points)), make([]uint16, len(r.points))
	at := int32(-1)
	for i, x := range r.points {
		for at+1 < int32(len(r.points)) && r.points[at+1] <= x-by {
			at++
		}
		rest[i], counts[i] = at, uint16(x/by)
	}
	return rest, counts
}

// at returns the place of the greatest point up to a length.
func (r raster) at(length int64) int {
	i, found := slices.BinarySearch(r.points, length)
	if found {
		return i
	}
	return i - 1
}

// reached returns the raster of those points that peeling comes to from a
// length.
func (r raster) reached(length int64) raster {
	top := r.at(length)
	is := make([]bool, top+1)
	is[top] = true
	for i := top; i > 0; i-- {
		for _, less := range [][]int32{r.lessW, r.lessH} {
			if is[i] && less[i] >= 0 {
				is[less[i]] = true
			}
		}
	}
	var out raster
	place := make([]int32, top+1)
	for i, yes := range is {
		if !yes {
			continue
		}
		place[i] = int32(len(out.points))
		out.points = append(out.points, r.points[i])
		out.countsW, out.countsH = append(out.countsW, r.countsW[i]), append(out.countsH, r.countsH[i])
		out.lessW, out.lessH = append(out.lessW, moved(place, r.lessW[i])), append(out.lessH, moved(place, r.lessH[i]))
	}
	return out
}

func moved(place []int32, i int32) int32 {
	if i < 0 {
		return i
	}
	return place[i]
}

// rests is how many pieces the best peeling gives of each rest that it may come
// to.
type rests struct {
	wide, high raster
	most       [][]uint16
}

// mostPieces is what an entry of rests can count.
const mostPieces = 1<<16 - 1

// newRests goes through all rests that peeling w × h comes to.
func newRests(r raster, w, h int64) rests {
	t := rests{wide: r.reached(w), high: r.reached(h)}
	columns := len(t.high.points)
	t.most = make([][]uint16, len(t.wide.points))
	flat := make([]uint16, len(t.most)*columns)
	for i := range t.most {
		t.most[i], flat = flat[:columns:columns], flat[columns:]
		t.fill(i)
	}
	return t
}

// fill computes the rests as wide as point i from those less wide.
func (t rests) fill(i int) {
	row := t.most[i]
	n := len(row)
	lessW, lessH := t.high.lessW[:n], t.high.lessH[:n]
	both := 0 // the first rest that a row of either kind fits into
	for both < n && (lessW[both] < 0 || lessH[both] < 0) {
		t.fillOne(i, both)
		both++
	}
	w, h := t.wide.lessW[i], t.wide.lessH[i]
	if w < 0 || h < 0 {
		for j := both; j < n; j++ {
			t.fillOne(i, j)
		}
		return
	}
	// The same as fillOne, all in one line: nearly all rests are of this kind.
	withoutW, withoutH := t.most[w][:n], t.most[h][:n]
	ofH, ofW := t.high.countsH[:n], t.high.countsW[:n]
	rowH, rowW := t.wide.countsH[i], t.wide.countsW[i]
	for j := both; j < n; j++ {
		row[j] = max(withoutW[j]+ofH[j], withoutH[j]+ofW[j], row[lessW[j]]+rowH, row[lessH[j]]+rowW)
	}
}

func (t rests) fillOne(i, j int) {
	row := t.most[i]
	if w := t.wide.lessW[i]; w >= 0 {
		row[j] = t.most[w][j] + t.high.countsH[j]
	}
	if h := t.wide.lessH[i]; h >= 0 {
		row[j] = max(row[j], t.most[h][j]+t.high.countsW[j])
	}
	if k := t.high.lessW[j]; k >= 0 {
		row[j] = max(row[j], row[k]+t.wide.countsH[i])
	}
	if k := t.high.lessH[j]; k >= 0 {
		row[j] = max(row[j], row[k]+t.wide.countsW[i])
	}
}

// guillotine returns the best layout found, whether all cuts were tried, and how many
// rests and cuts were gone through.
// Where there are too many raster points, which takes thousands of pieces, it
// peels off strips of one kind only.
func (f field) guillotine(bound int64) (blocks []block, proven bool, searched int64) {
	if f.pieceW > max(f.w, f.h) || f.pieceH > max(f.w, f.h) {
		return nil, true, 0
	}
	r, ok := newRaster(max(f.w, f.h), f.pieceW, f.pieceH)
	if !ok || bound > mostPieces {
		return f.coarse(), false, coarseSearched
	}
	t := newRests(r, f.w, f.h)
	searched = int64(len(t.wide.points)) * int64(len(t.high.points))
	blocks = f.peel(t)
	if n := count(blocks); n == bound || len(r.points) > fewPoints {
		return blocks, n == bound, searched
	}
	points := int64(len(r.points))
	return blocks, r.everyCut(r.at(f.w), r.at(f.h)) == count(blocks), searched + points*points*points/4
}

// strip is a block one piece wide: a column, or a row.
type strip struct {
	block
	column bool
}

// strips are the four that can be peeled off a rest: columns and rows of pieces
// upright and lain.
func (f field) strips(x, y, w, h int64) [4]strip {
	return [4]strip{
		{block{x, y, f.pieceW, f.pieceH, 1, h / f.pieceH}, true},
		{block{x, y, f.pieceH, f.pieceW, 1, h / f.pieceW}, true},
		{block{x, y, f.pieceH, f.pieceW, w / f.pieceH, 1}, false},
		{block{x, y, f.pieceW, f.pieceH, w / f.pieceW, 1}, false},
	}
}

// rest returns the sides of what is left of w × h without the strip.
func (s strip) rest(w, h int64) (int64, int64) {
	if s.column {
		return w - s.w, h
	}
	return w, h - s.h
}

// peel lays out the pieces by going from the whole down to nothing.
func (f field) peel(t rests) []block {
	var out []strip
	x, y, w, h := int64(0), int64(0), f.w, f.h
	for t.left(w, h) > 0 {
		for _, s := range f.strips(x, y, w, h) {
			restW, restH := s.rest(w, h)
			if restW < 0 || restH < 0 || s.across*s.down == 0 || t.left(restW, restH)+s.across*s.down != t.left(w, h) {
				continue
			}
			out = joined(out, s)
			x, y, w, h = x+w-restW, y+h-restH, restW, restH
			break
		}
	}
	blocks := make([]block, len(out))
	for i, s := range out {
		blocks[i] = s.block
	}
	return blocks
}

// left is how many pieces the best peeling gives of w × h.
func (t rests) left(w, h int64) int64 { return int64(t.most[t.wide.at(w)][t.high.at(h)]) }

// joined adds a strip to others, to the last of them where it continues it.
func joined(strips []strip, s strip) []strip {
	if len(strips) == 0 {
		return append(strips, s)
	}
	last := &strips[len(strips)-1]
	switch {
	case last.column != s.column || last.w != s.w || last.h != s.h:
		return append(strips, s)
	case s.column:
		last.across++
	default:
		last.down++
	}
	return strips
}

// mostStrips bounds the strips that are peeled off one way.
const mostStrips = 100_000

// coarse returns the best of so many strips of one kind and a grid of the rest, of
// equals the first kind with the fewest strips, of pieces that may lie both ways.
func (f field) coarse() []block {
	best := f.grid()
	most, kind, strips := count(best), -1, int64(0)
	for k := range 4 {
		if n, n2 := f.stripped(k, most); n2 > most {
			kind, strips, most = k, n, n2
		}
	}
	if kind < 0 {
		return best
	}
	s := f.strips(0, 0, f.w, f.h)[kind]
	rest := f
	if s.column {
		s.across, rest.w = strips, f.w-strips*s.w
	} else {
		s.down, rest.h = strips, f.h-strips*s.h
	}
	blocks := rest.grid()
	for i := range blocks {
		blocks[i].x, blocks[i].y = f.w-rest.w, f.h-rest.h
	}
	return append(blocks, s.block)
}

// stripped returns how many strips of a kind leave most pieces, those of a grid of the
// rest with them, and how many that are, where those are more than so many.
func (f field) stripped(kind int, most int64) (strips, pieces int64) {
	s := f.strips(0, 0, f.w, f.h)[kind]
	length, across, width, each := f.w, f.h, s.w, s.down
	along, aside := f.pieceW, f.pieceH
	if !s.column {
		length, across, width, each = f.h, f.w, s.h, s.across
		along, aside = f.pieceH, f.pieceW
	}
	// Upright and lain pieces of the rest: rows of them along its length, and how many
	// stand in each.
	upright, lain := newDivided(length, along), newDivided(length, aside)
	inUpright, inLain := across/aside, across/along
	byUpright, byLain := newDivided(width, along), newDivided(width, aside)
	for n := int64(1); n <= mostStrips && n*width <= length; n++ {
		upright.less(byUpright)
		lain.less(byLain)
		if all := n*each + max(upright.whole*inUpright, lain.whole*inLain); all > most {
			strips, pieces, most = n, all, all
		}
	}
	return strips, pieces
}

// divided is a length as whole pieces and what is left.
type divided struct{ by, whole, rest int64 }

func newDivided(length, by int64) divided { return divided{by, length / by, length % by} }

// less takes another, divided by the same, off.
func (d *divided) less(o divided) {
	d.whole -= o.whole
	if d.rest -= o.rest; d.rest < 0 {
		d.rest += d.by
		d.whole--
	}
}

// everyCut returns the most pieces that any guillotine layout of two raster
// points holds.
func (r raster) everyCut(wide, high int) int64 {
	n := max(wide, high) + 1
	most := make([][]int64, n)
	left := r.besides(n)
	for i := range n {
		most[i] = make([]int64, n)
		for j := range i + 1 {
			best := max(int64(r.countsW[i])*int64(r.countsH[j]), int64(r.countsH[i])*int64(r.countsW[j]))
			best = max(best, halves(most, left[i], j), halves(most, left[j], i))
			most[i][j], most[j][i] = best, best
		}
	}
	return most[wide][high]
}

// besides is for each of the first points, and each point up to its half, the place of
// what is left beside it.
func (r raster) besides(n int) [][]int {
	out := make([][]int, n)
	for i := range out {
		for k := 1; k < i && r.points[i]-r.points[k] >= r.points[k]; k++ {
			out[i] = append(out[i], r.at(r.points[i]-r.points[k]))
		}
	}
	return out
}

// halves is the most pieces of both parts of a cut across a point of which those are
// left, as far across as another.
func halves(most [][]int64, left []int, j int) int64 {
	var best int64
	for k, other := range left {
		best = max(best, most[k+1][j]+most[other][j])
	}
	return best
}
