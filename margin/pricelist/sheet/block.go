package sheet

import (
	"math"
	"slices"
	"strings"

	"example.com/quoin/internal/page"
	"example.com/quoin/margin/pricelist"
)

const (
	screenLines = 24
	screenWidth = 80
)

// said is a sentence about a product. The higher its rank, the sooner it is left out.
type said struct {
	rank int
	text string
}

// block is the lines about one product.
type block struct {
	width int
	full  bool // whatever lines it takes
	lines []blockLine
	ranks int // the highest
}

type blockLine struct {
	rank int
	text string
	// ifCut is written in its place where the line of that rank above it, which it goes on from, is
	// left out.
	ifCut string
	from  int
}

func (b *block) add(rank int, text string) { b.addLine(blockLine{rank: rank, text: text}) }

func (b *block) addLine(l blockLine) { b.lines, b.ranks = append(b.lines, l), max(b.ranks, l.rank) }

func (b *block) title(text string) { b.wrap(0, "", text) }

// say adds sentences, each in lines of its own.
func (b *block) say(sentences []said) {
	for _, s := range sentences {
		b.wrap(s.rank, "  ", s.text)
	}
}

func (b *block) wrap(rank int, lead, text string) {
	t := page.Text{Width: b.width}
	t.Wrap(lead, page.Width(lead)+2, text)
	for l := range strings.Lines(t.String()) {
		b.add(rank, strings.TrimRight(l, "\n"))
	}
}

// fit is how many channels stand side by side.
func (b *block) fit() int { return max(1, (b.width-labelWidth)/b.column()) }

func (b *block) column() int { return min(columnWidth, max(b.width-labelWidth, narrowest-labelWidth)) }

// statements are the tables of where the price goes, as many channels side by side as fit.
func (b *block) statements(p wording, it pricelist.ProductResult, full bool) {
	for rest := range slices.Chunk(it.Channels, b.fit()) {
		heads := cells("One print, on average", rest, func(c pricelist.ChannelResult) string { return named(c.Name, c.ID) })
		rows := append(p.where(rest), p.offs(it, rest, full)...)
		if full {
			rows = append(rows, p.margins(rest)...)
		}
		b.table(p, heads.label, rows, heads.cells)
	}
}

// wrappedRank is the rank of the first lines of what takes several in a table. Without them, it is cut.
const wrappedRank = 3

// table adds rows under their heads. A name that is too long takes several lines.
func (b *block) table(p wording, name string, rows []row, heads []string) {
	column := b.column()
	if len(heads) > b.fit() {
		column = max(8, (b.width-labelWidth)/len(heads))
	}
	b.row(name, heads, column, column-1)
	for _, r := range rows {
		b.row(r.label, r.cells, column, math.MaxInt)
	}
}

// row adds a label and cells, in as many lines as the longest takes: each ends in the last.
func (b *block) row(label string, cells []string, column, room int) {
	all := append([]string{label}, cells...)
	parts, cut, most := make([][]string, len(all)), make([]string, len(all)), 0
	for k, text := range all {
		if text = page.Visible(text); k == 0 {
			parts[k], cut[k] = inLines(text, labelWidth, b.linesOfNames()), page.Short(text, labelWidth)
		} else {
			parts[k], cut[k] = inLines(text, room, b.linesOfNames()), page.Short(text, room)
		}
		most = max(most, len(parts[k]))
	}
	line := make([]string, len(all))
	for n := most; n > 0; n-- {
		for k, of := range parts {
			line[k] = ""
			if n <= len(of) {
				line[k] = of[len(of)-n]
			}
		}
		switch text := laid(line, column); {
		case n > 1:
			b.add(wrappedRank, text)
		case most > 1:
			b.addLine(blockLine{text: text, ifCut: laid(cut, column), from: wrappedRank})
		default:
			b.add(0, text)
		}
	}
}

// laid is a line of a table: a label, and cells that end where their columns do.
func laid(cells []string, column int) string {
	line := "  " + cells[0]
	for k, c := range cells[1:] {
		line += strings.Repeat(" ", max(1, labelWidth+(k+1)*column-page.Width(line)-page.Width(c))) + c
	}
	return strings.TrimRight(line, " ")
}

// linesOfNames is how many lines a name may take in a table: two on a screen.
func (b *block) linesOfNames() int {
	if b.full {
		return 6
	}
	return 2
}

// inLines parts a text that has no room in one line, between words if it can be. The last of most
// lines is cut where it has no room either.
func inLines(s string, room, most int) []string {
	var out []string
	r := []rune(s)
	for len(r) > room && len(out) < most-1 {
		at, next := room, room
		for i := room; i > 0; i-- {
			if r[i] == ' ' {
				at, next = i, i+1
				break
			}
		}
		out, r = append(out, string(r[:at])), r[next:]
	}
	return append(out, page.Short(string(r), room))
}

// most is the lines that fit on a screen, or all of them.
func (b *block) most(all bool) []string {
	rank := b.ranks
	for !all && rank > 0 && b.count(rank) > screenLines {
		rank--
	}
	var out []string
	for _, l := range b.lines {
		if l.rank <= rank {
			out = append(out, l.at(rank))
		}
	}
	return out
}

// at is what is written where ranks above one are left out.
func (l blockLine) at(rank int) string {
	if l.from > rank {
		return l.ifCut
	}
	return l.text
}

func (b *block) count(rank int) (n int) {
	for _, l := range b.lines {
		if l.rank <= rank {
			n++
		}
	}
	return n
}
