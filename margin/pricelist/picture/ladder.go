package picture

import (
	"fmt"
	"slices"
	"strconv"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// Ladder draws the sizes of a design, from the smallest up: each sheet to scale, and its price as a
// bar with today's price as a mark. It returns false where the answer has less than two products of
// the design with a size.
func Ladder(a pricelist.Answer, design string) (Picture, bool) {
	var steps []pricelist.ProductResult
	for _, it := range a.Products {
		if it.Design == design && design != "" && !it.Size.IsZero() {
			steps = append(steps, it)
		}
	}
	if len(steps) < 2 {
		return Picture{}, false
	}
	slices.SortStableFunc(steps, func(x, y pricelist.ProductResult) int { return x.Size.Area().Number().Cmp(y.Size.Area().Number()) })
	l := ladder{words: words{a.Currency}, steps: steps[:min(len(steps), mostSteps)], x: scale{first: 2700, last: width - 900}}
	l.canvas.id = "ladder-" + strconv.Itoa(1+slices.IndexFunc(a.Products, func(p pricelist.ProductResult) bool { return p.Design == design }))
	p := Picture{Title: "The sizes of " + design, Head: []string{"product", "size", "price", "today"}}
	for n, it := range steps {
		today := ""
		if was, ok := it.Today.Get(); ok {
			today = l.money(was)
		}
		p.Rows = append(p.Rows, []string{named(it.Name, it.ID), it.Size.String(), l.money(it.Price), today})
		if n < mostSteps {
			p.Text += fmt.Sprintf("%s, %s: %s. ", named(it.Name, it.ID), it.Size, l.money(it.Price))
		}
	}
	p.Text = sentences(p.Text[:len(p.Text)-1])
	return l.canvas.picture(p, l.draw()), true
}

const (
	mostSteps  = 20
	ladderRow  = 620
	sheetHigh  = 520 // of the largest sheet
	sheetsWide = 800
)

type ladder struct {
	words
	canvas
	steps []pricelist.ProductResult
	x     scale
}

func (l *ladder) draw() int {
	size := toScale{high: sheetHigh, wide: sheetsWide}
	for _, it := range l.steps {
		size.holds(it.Size)
		l.x.spread(it.Price, it.Today.Or(it.Price))
	}
	y := rim
	for _, it := range l.steps {
		w, h := size.lengths(it.Size)
		l.rect("sheet", rim+(sheetsWide-w)/2, y+sheetHigh-h, w, h)
		l.text("b", 1050, y+sheetHigh-250, short(named(it.Name, it.ID), l.x.first-1150))
		l.text("soft", 1050, y+sheetHigh-90, short(it.Size.String(), l.x.first-1150))
		top, to := y+sheetHigh-320, l.x.at(it.Price)
		l.rect("may", l.x.first, top, max(to-l.x.first, 10), 220)
		if was, ok := it.Today.Get(); ok && !was.Equal(it.Price) {
			l.line("was", l.x.at(was), top-60, l.x.at(was), top+280)
		}
		l.text("b", max(to, l.x.at(it.Today.Or(it.Price)))+80, top+160, l.money(it.Price))
		y += ladderRow
	}
	l.line("axis", l.x.first, rim, l.x.first, y-60)
	l.text("soft", l.x.first, y+80, "price; today's as a dotted line")
	return y + 180
}

// toScale draws sizes in one scale, in a box so wide and high.
type toScale struct {
	wide, high  int
	most, above quoin.Factor // the widest and the highest, in millimetres
}

func millimetres(q quoin.Quantity) quoin.Factor {
	mm, _ := q.In("mm")
	return mm.Number()
}

// holds makes room for a size.
func (t *toScale) holds(s quoin.Size) {
	if w := millimetres(s.Width()); w.Cmp(t.most) > 0 {
		t.most = w
	}
	if h := millimetres(s.Height()); h.Cmp(t.above) > 0 {
		t.above = h
	}
}

// lengths are a width and a height as they are drawn.
func (t *toScale) lengths(s quoin.Size) (w, h int) {
	return t.length(millimetres(s.Width())), t.length(millimetres(s.Height()))
}

// length is one length as it is drawn.
func (t *toScale) length(mm quoin.Factor) int {
	if t.most.Sign() <= 0 || t.above.Sign() <= 0 {
		return 0
	}
	// The side that fills its box first says the scale: wide ÷ most or high ÷ above.
	fills, of := quoin.FactorOf(int64(t.wide)), t.most
	if quoin.FactorOf(int64(t.high)).Times(t.most).Cmp(fills.Times(t.above)) < 0 {
		fills, of = quoin.FactorOf(int64(t.high)), t.above
	}
	n, _ := mm.Times(fills).Over(of).Round(0, quoin.HalfUp).Units(0)
	return int(n)
}
