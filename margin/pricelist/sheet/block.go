package sheet

import (
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
	lines []blockLine
	ranks int // the highest
}

type blockLine struct {
	rank int
	text string
}

func (b *block) add(rank int, text string) {
	b.lines, b.ranks = append(b.lines, blockLine{rank, text}), max(b.ranks, rank)
}

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

// table adds rows under their heads.
func (b *block) table(p wording, name string, rows []row, heads []string) {
	column := b.column()
	if len(heads) > b.fit() {
		column = max(8, (b.width-labelWidth)/len(heads))
	}
	write := func(label string, cells []string) {
		line := "  " + short(page.Visible(label), labelWidth)
		for k, c := range cells {
			line += strings.Repeat(" ", max(1, labelWidth+(k+1)*column-page.Width(line)-page.Width(c))) + c
		}
		b.add(0, strings.TrimRight(line, " "))
	}
	shown := make([]string, len(heads))
	for k, h := range heads {
		shown[k] = short(page.Visible(h), column-1)
	}
	write(name, shown)
	for _, r := range rows {
		write(r.label, r.cells)
	}
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
			out = append(out, l.text)
		}
	}
	return out
}

func (b *block) count(rank int) (n int) {
	for _, l := range b.lines {
		if l.rank <= rank {
			n++
		}
	}
	return n
}
