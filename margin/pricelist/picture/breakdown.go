package picture

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/breakdown"
	"example.com/quoin/margin/pricelist"
)

// mostDrawn is how many channels are drawn; all of them stand in the table.
const mostDrawn = 12

// Breakdown draws where the price of a product goes: for each channel a bar of all that the buyer
// pays, in parts that sum to it. Costs beyond what is paid are a loss, which stands out behind the
// mark of what is paid. It returns false where the answer has no such product, no channel sells it,
// or the answer does not say what buyers pay, as a brief one.
func Breakdown(a pricelist.Answer, product string) (Picture, bool) {
	it, i, ok := find(a, product)
	if !ok || len(it.Channels) == 0 {
		return Picture{}, false
	}
	w := words{a.Currency}
	bars := make([]bar, len(it.Channels))
	for k, c := range it.Channels {
		if pays := c.Buyer; pays.Item.Add(pays.Postage).Add(pays.Surcharge).Add(pays.TaxOnTop).IsZero() && !c.Statement.Revenue.IsZero() {
			return Picture{}, false
		}
		bars[k] = w.bar(c)
	}
	p := Picture{Title: "Where the price goes: " + named(it.Name, it.ID) + " at " + w.money(it.Price), Head: []string{"One print, on average"}}
	var said []string
	for _, b := range bars[:min(len(bars), mostDrawn)] {
		said = append(said, b.says(w))
	}
	if more := len(bars) - mostDrawn; more > 0 {
		said = append(said, fmt.Sprintf("The table holds %d channels more.", more))
	}
	p.Text = strings.Join(said, " ")
	for _, b := range bars {
		p.Head = append(p.Head, b.name)
	}
	p.Rows = w.table(bars)
	c := &canvas{id: "goes-" + strconv.Itoa(i+1)}
	return c.picture(p, c.bars(w, bars[:min(len(bars), mostDrawn)])), true
}

// bar is what the buyer pays in one channel, and the parts of it. Ends is where each part ends,
// counted from nothing.
type bar struct {
	name       string
	lines      breakdown.Column
	paid, left quoin.Amount
	parts      []part
}

// part is a part of what the buyer pays. Its pattern says which.
type part struct {
	name     string
	pattern  int
	from, to quoin.Amount
}

func (p part) amount() quoin.Amount { return p.to.Sub(p.from) }

// bar puts the parts of one channel in a row. What brings money in instead of costing it, such as a
// fee that is given back, counts as paid.
func (w words) bar(c pricelist.ChannelResult) bar {
	b := bar{name: called(c), lines: breakdown.Of(c, w.currency)}
	var at quoin.Amount
	pattern := 0
	for _, g := range b.lines {
		for _, l := range g.Lines {
			cost := l.Amount.Neg()
			if l.Label[0] != '-' || cost.Sign() < 0 {
				b.paid = b.paid.Add(l.Amount)
			} else if cost.Sign() > 0 {
				b.parts, at = append(b.parts, part{l.Name(), pattern, at, at.Add(cost)}), at.Add(cost)
			}
			if l.Label[0] == '-' {
				pattern++
			}
		}
		b.left = g.Left.Amount
	}
	if b.left.Sign() > 0 {
		b.parts = append(b.parts, part{b.lines[len(b.lines)-1].Left.Name(), pattern, at, at.Add(b.left)})
	}
	return b
}

// ends is where the bar ends: at what is paid, or beyond it where costs are more.
func (b bar) ends() quoin.Amount {
	if b.left.Sign() < 0 {
		return b.paid.Sub(b.left)
	}
	return b.paid
}

func (b bar) says(w words) string {
	text := fmt.Sprintf("%s: the buyer pays %s", b.name, w.money(b.paid))
	for _, p := range b.parts {
		text += fmt.Sprintf(", %s %s", p.name, w.money(p.amount()))
	}
	if b.left.Sign() < 0 {
		text += ", which is a loss of " + w.money(b.left.Neg())
	}
	return text + "."
}

// table is the lines of all bars that are not 0 everywhere.
func (w words) table(bars []bar) [][]string {
	var rows [][]string
	add := func(label string, of func(bar) quoin.Amount, always bool) {
		row, some := []string{strings.TrimSpace(label)}, always
		for _, b := range bars {
			a := of(b)
			row, some = append(row, w.money(a)), some || !a.IsZero()
		}
		if some {
			rows = append(rows, row)
		}
	}
	for i, g := range bars[0].lines {
		for k, l := range g.Lines {
			add(l.Label, func(b bar) quoin.Amount { return b.lines[i].Lines[k].Amount }, false)
		}
		add(g.Left.Label, func(b bar) quoin.Amount { return b.lines[i].Left.Amount }, true)
	}
	return rows
}

// patterns are lines over the fill of each part; a part may have none.
func patterns() [10]string {
	return [10]string{"", "M0 6L6 0", "M0 3H6", "M0 3H6M3 0V6", "M3 0V6", "M0 0L6 6", "M0 6L6 0M0 0L6 6", "M1 1h1M4 4h1", "M0 1.5H6M0 4.5H6", ""}
}

// patterned defines the patterns of the parts that are drawn.
func (c *canvas) patterned(used map[int]string) {
	c.write("<defs>")
	for n, lines := range patterns() {
		if _, ok := used[n]; !ok {
			continue
		}
		k := strconv.Itoa(n)
		c.write(`<pattern id="`, c.id, `-`, k, `" width="6" height="6" patternUnits="userSpaceOnUse"><rect class="f`, k, `" width="6" height="6"/>`)
		if lines != "" {
			c.write(`<path class="h" d="`, lines, `"/>`)
		}
		c.write("</pattern>")
	}
	c.write("</defs>")
}

const barHigh, barRow = 220, 460

// bars draws the bars under each other and a legend, and returns how high they are.
func (c *canvas) bars(w words, bars []bar) int {
	used := make(map[int]string)
	s := scale{first: rim, last: width - rim}
	for _, b := range bars {
		s.spread(b.ends())
		for _, p := range b.parts {
			used[p.pattern] = p.name
		}
	}
	c.patterned(used)
	y := rim
	for _, b := range bars {
		c.bar(w, b, s, y)
		y += barRow
	}
	return c.legend(used, y+60)
}

// bar draws one bar with its heading. Parts that are wide enough have their number in them.
func (c *canvas) bar(w words, b bar, s scale, y int) {
	c.text("b", rim, y+110, short(b.name, width/2))
	left := "you keep " + w.money(b.left)
	class := "e"
	if b.left.Sign() < 0 {
		left, class = "you lose "+w.money(b.left.Neg()), "e warn"
	}
	c.text(class, width-rim, y+110, "the buyer pays "+w.money(b.paid)+", "+left)
	top := y + 160
	for _, p := range b.parts {
		from, to := s.at(p.from), s.at(p.to)
		if to > from {
			c.filled(p.pattern, from, top, to-from, barHigh)
		}
		if to-from >= 140 {
			c.text("m halo b", (from+to)/2, top+155, strconv.Itoa(p.pattern+1))
		}
	}
	if from, to := s.at(b.paid), s.at(b.ends()); to > from {
		c.rect("over", from, top-15, to-from, barHigh+30)
	}
}

// legend explains the numbers and patterns, and returns where it ends.
func (c *canvas) legend(used map[int]string, y int) int {
	for n, k := range slices.Sorted(maps.Keys(used)) {
		x := rim + n%3*2080
		row := y + n/3*190
		c.filled(k, x, row, 140, 140)
		c.text("", x+200, row+110, strconv.Itoa(k+1)+" "+used[k])
	}
	return y + (len(used)+2)/3*190 + rim
}
