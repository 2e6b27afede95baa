package picture

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/quoin"
	"example.com/quoin/margin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

const (
	mostLines = 6  // lines that can be told apart by their dashes
	mostZones = 12 // dead zones that are shaded
	mostRows  = 200
)

// Keeps draws what a sale of a product contributes against its price: one line for each channel,
// with its jumps; zero; the dead zones, where a lower price keeps as much; the allowed prices as a
// band with its holes; today's and the new price; comparables as marks on top. It is drawn from an
// answer with curves; see Answer.WithCurves. It returns false without them, and where the answer
// has no such product.
//
// The root of the SVG says where prices lie: data-from and data-to are the first and the last
// price, data-left and data-right where they stand.
func Keeps(a pricelist.Answer, product string) (Picture, bool) {
	it, i, ok := find(a, product)
	if !ok {
		return Picture{}, false
	}
	k := keeps{words: words{a.Currency}, it: it, x: scale{first: 640, last: width - 380}, y: scale{first: 2720, last: 620}}
	k.canvas.id = "keeps-" + strconv.Itoa(i+1)
	for _, c := range it.Channels {
		k.take(c)
	}
	if len(k.drawn) == 0 {
		return Picture{}, false
	}
	p := Picture{
		Title: "What a sale keeps: " + named(it.Name, it.ID), Text: k.says(),
		Head: []string{"channel", "from a price of", "a sale keeps", "up to a price of", "it keeps"}, Rows: k.rows(),
	}
	k.canvas.data = fmt.Sprintf(` data-from="%s" data-to="%s" data-left="%s" data-right="%s"`, k.x.from, k.x.to, tenths(k.x.first), tenths(k.x.last))
	return k.canvas.picture(p, k.draw()), true
}

// keeps is the picture while it is drawn.
type keeps struct {
	words
	canvas
	it    pricelist.ProductResult
	drawn []pricelist.ChannelResult // channels with a curve
	x, y  scale
}

// take adds a channel, and makes room for its curve.
func (k *keeps) take(c pricelist.ChannelResult) {
	n := len(c.Curve)
	if n == 0 {
		return
	}
	if len(k.drawn) == 0 {
		k.x.from, k.x.to = c.Curve[0].Price, c.Curve[n-1].Price
	}
	k.drawn = append(k.drawn, c)
	k.x.spread(c.Curve[0].Price, c.Curve[n-1].Price)
	for _, p := range c.Curve {
		k.y.spread(p.Contribution)
	}
}

// lines are the channels that are drawn, and how many are not.
func (k *keeps) lines() (drawn []pricelist.ChannelResult, more int) {
	n := min(len(k.drawn), mostLines)
	return k.drawn[:n], len(k.drawn) - n
}

func letter(n int) string { return string(rune('A' + n)) }

func (k *keeps) says() string {
	var all []string
	text := "At " + k.money(k.it.Price) + " a sale keeps"
	for n, c := range k.drawn {
		all = append(all, k.money(c.Statement.Contribution)+" in "+called(c))
		if n == mostDrawn-1 {
			break
		}
	}
	text += " " + strings.Join(all, ", ") + "."
	return sentences(text, k.may(), k.zones(), k.hidden())
}

func (k *keeps) may() string {
	var all []string
	for _, r := range k.it.MayLie {
		switch {
		case r.NoneHigher:
			all = append(all, k.money(r.First)+" and up")
		case r.First.Equal(r.Last):
			all = append(all, k.money(r.First))
		default:
			all = append(all, k.money(r.First)+" to "+k.money(r.Last))
		}
	}
	if len(all) == 0 {
		return ""
	}
	return "It may be " + strings.Join(all, ", or ") + "."
}

// near are the dead zones of a channel that lie among the prices drawn.
func (k *keeps) near(c pricelist.ChannelResult) []rule.DeadZone {
	var out []rule.DeadZone
	for _, z := range c.DeadZones {
		if z.First.Cmp(k.x.to) <= 0 && z.Again.Or(k.x.to).Cmp(k.x.from) >= 0 && len(out) < mostZones {
			out = append(out, z)
		}
	}
	return out
}

func (k *keeps) zones() string {
	text := ""
	drawn, _ := k.lines()
	for _, c := range drawn {
		for n, z := range k.near(c) {
			if n == 2 {
				break
			}
			text += fmt.Sprintf(" In %s a price of %s keeps more than any from %s", called(c), k.money(z.After), k.money(z.First))
			if again, ok := z.Again.Get(); ok {
				text += " until " + k.money(again)
			}
			text += "."
		}
	}
	return strings.TrimSpace(text)
}

func (k *keeps) hidden() string {
	if _, more := k.lines(); more > 0 {
		return fmt.Sprintf("%d channels more stand in the table.", more)
	}
	return ""
}

// rows are the straight pieces of all curves.
func (k *keeps) rows() [][]string {
	var out [][]string
	for _, c := range k.drawn {
		for n := 1; n < len(c.Curve) && len(out) < mostRows; n++ {
			p, q := c.Curve[n-1], c.Curve[n]
			out = append(out, []string{named(c.Name, c.ID), k.money(p.Price), k.money(p.Contribution), k.money(q.Price), k.money(q.Contribution)})
		}
	}
	return out
}

// draw draws all of it, and returns how high it is.
func (k *keeps) draw() int {
	k.axes()
	drawn, _ := k.lines()
	for _, c := range drawn {
		for _, z := range k.near(c) {
			from, to := k.x.within(z.First), k.x.within(z.Again.Or(k.x.to))
			k.rect("dead", from, k.y.last, max(to-from, 10), k.y.first-k.y.last)
		}
	}
	k.line("axis", k.x.first, k.y.at(quoin.Amount{}), k.x.last, k.y.at(quoin.Amount{}))
	k.allowed()
	k.marks()
	for n, c := range drawn {
		k.curve(n, c)
	}
	k.ends(drawn)
	return k.key(drawn)
}

func (k *keeps) axes() {
	for _, t := range k.y.ticks(6, k.currency) {
		k.line("grid", k.x.first, t.at, k.x.last, t.at)
		k.text("e soft", k.x.first-60, t.at+40, t.label)
	}
	for _, t := range k.x.ticks(9, k.currency) {
		k.line("grid", t.at, k.y.first, t.at, k.y.first+50)
		k.text("m soft", t.at, k.y.first+400, t.label)
	}
	k.text("soft", rim, k.y.last-80, "a sale keeps, "+k.currency.String())
	k.text("soft", rim, k.y.first+400, "price")
}

// allowed is the band of prices that the rules allow.
func (k *keeps) allowed() {
	y := k.y.first + 100
	k.rect("open", k.x.first, y, k.x.last-k.x.first, 110)
	for _, r := range k.it.MayLie {
		if r.Last.Cmp(k.x.from) < 0 || r.First.Cmp(k.x.to) > 0 {
			continue
		}
		from, to := k.x.within(r.First), k.x.within(r.Last)
		k.rect("may", from, y, max(to-from, 20), 110)
	}
}

// marks are the new price, today's and those of comparables.
func (k *keeps) marks() {
	at := k.x.within(k.it.Price)
	if today, ok := k.it.Today.Get(); ok && !today.Equal(k.it.Price) && k.x.holds(today) {
		was := k.x.at(today)
		k.line("was", was, k.y.last-60, was, k.y.first+210)
		class, x := "soft e", was+30
		if was > at {
			class, x = "soft", was-30
		}
		k.text(class, x, k.y.last-330, "today "+k.money(today))
	}
	k.line("now", at, k.y.last-60, at, k.y.first+210)
	k.text("b m", at, k.y.last-180, k.money(k.it.Price))
	if k.it.Market == nil {
		return
	}
	for _, s := range k.it.Market.Seen {
		if !k.x.holds(s.Price) {
			continue
		}
		class := "open"
		if s.Counts {
			class = "tick"
		}
		x, y := k.x.at(s.Price), k.y.last-60
		k.write(`<path class="`, class, `" d="M`, tenths(x), ` `, tenths(y+60), `L`, tenths(x-30), ` `, tenths(y), `H`, tenths(x+30), `Z"/>`)
	}
}

func (k *keeps) curve(n int, c pricelist.ChannelResult) {
	k.write(`<path class="line l`, strconv.Itoa(n), `" d="`, k.path(c.Curve), `"/>`)
}

// mostPoints is how many points a line has. Of more, each of its columns keeps its first and its last,
// the lowest and the highest.
const mostPoints = 240

// thinned are the points that a line is drawn through.
func (k *keeps) thinned(points []margin.CurvePoint) []margin.CurvePoint {
	if len(points) <= mostPoints {
		return points
	}
	wide := (k.x.last-k.x.first)/(mostPoints/4) + 1
	var out []margin.CurvePoint
	for from := 0; from < len(points); {
		column, low, high, end := (k.x.at(points[from].Price)-k.x.first)/wide, from, from, from
		for end < len(points) && (k.x.at(points[end].Price)-k.x.first)/wide == column {
			if points[end].Contribution.Cmp(points[low].Contribution) < 0 {
				low = end
			}
			if points[end].Contribution.Cmp(points[high].Contribution) > 0 {
				high = end
			}
			end++
		}
		kept := []int{from, low, high, end - 1}
		slices.Sort(kept)
		for _, i := range slices.Compact(kept) {
			out = append(out, points[i])
		}
		from = end
	}
	return out
}

// path goes through the points, and leaves out those that stand where the one before does.
func (k *keeps) path(points []margin.CurvePoint) string {
	var b strings.Builder
	lastX, lastY := -1, -1
	for i, p := range k.thinned(points) {
		x, y := k.x.at(p.Price), k.y.at(p.Contribution)
		switch {
		case i == 0:
			b.WriteString("M" + tenths(x) + " " + tenths(y))
		case x == lastX && y == lastY:
			continue
		case y == lastY:
			b.WriteString("H" + tenths(x))
		case x == lastX:
			b.WriteString("V" + tenths(y))
		default:
			b.WriteString("L" + tenths(x) + " " + tenths(y))
		}
		lastX, lastY = x, y
	}
	return b.String()
}

// ends writes the letter of each line behind it, none on top of another.
func (k *keeps) ends(drawn []pricelist.ChannelResult) {
	taken := make(map[int]bool)
	for n, c := range drawn {
		y := (k.y.at(c.Curve[len(c.Curve)-1].Contribution) + 40) / 130
		for taken[y] {
			y++
		}
		taken[y] = true
		k.text("b", k.x.last+60, y*130, letter(n))
	}
}

// key explains lines and marks, and returns where it ends.
func (k *keeps) key(drawn []pricelist.ChannelResult) int {
	y := k.y.first + 620
	for n, c := range drawn {
		x, row := rim+n%2*3150, y+n/2*190
		k.write(`<path class="line l`, strconv.Itoa(n), `" d="M`, tenths(x), ` `, tenths(row), `h40"/>`)
		k.text("b", x+460, row+40, letter(n))
		k.text("", x+600, row+40, short(named(c.Name, c.ID), 1700)+": "+k.money(c.Statement.Contribution))
	}
	y += (len(drawn)+1)/2*190 + 20
	x := rim
	k.rect("may", x, y-90, 300, 110)
	k.text("", x+380, y+20, "allowed prices")
	if slices.ContainsFunc(drawn, func(c pricelist.ChannelResult) bool { return len(k.near(c)) > 0 }) {
		k.rect("dead", x+1600, y-90, 300, 110)
		k.text("", x+1980, y+20, "a lower price keeps more")
	}
	if k.it.Market != nil && len(k.it.Market.Seen) > 0 {
		k.write(`<path class="tick" d="M`, tenths(x+4100), ` `, tenths(y), `l-3 -6h6Z"/><path class="open" d="M`, tenths(x+4250), ` `, tenths(y), `l-3 -6h6Z"/>`)
		k.text("", x+4350, y+20, "others: counted, and not")
	}
	return y + 150
}
