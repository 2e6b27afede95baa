package picture

import (
	"fmt"
	"strconv"

	"example.com/quoin"
	"example.com/quoin/cost/cut"
	"example.com/quoin/margin/pricelist"
)

// mostPieces is how many pieces are drawn one by one; of more a block is drawn.
const mostPieces = 240

// Layouts draws how the pieces of a product are cut out of sheets and rolls, to scale, one picture
// for each. There are none where the answer has no such product, or nothing of it is cut.
func Layouts(a pricelist.Answer, product string) []Picture {
	it, i, ok := find(a, product)
	if !ok {
		return nil
	}
	var out []Picture
	for n, d := range it.WorkedOut {
		c := &canvas{id: fmt.Sprintf("cut-%d-%d", i+1, n+1)}
		p := Picture{Title: "Cut out of " + d.Supply + ": " + named(it.Name, it.ID)}
		switch {
		case d.Sheet != nil && d.Sheet.Pieces > 0 && !d.Sheet.Whole.IsZero():
			out = append(out, c.sheet(p, *d.Sheet))
		case d.Roll != nil && d.Roll.Pieces > 0 && !d.Roll.Width.IsZero():
			out = append(out, c.roll(p, *d.Roll))
		}
	}
	return out
}

const sheetWide, sheetTall = 3200, 2000

// sheet draws the blocks of a sheet: their places are counted from its lower left corner.
func (c *canvas) sheet(p Picture, s cut.SheetCut) Picture {
	t := toScale{wide: sheetWide, high: sheetTall}
	t.holds(s.Whole)
	wide, high := t.lengths(s.Whole)
	c.rect("sheet", rim, rim, wide, high)
	p.Text = fmt.Sprintf("%d pieces out of a sheet of %s, of which they use %.1f%%.", s.Pieces, s.Whole, s.Used)
	p.Head = []string{"from the left", "from below", "across", "down", "piece"}
	for _, b := range s.Blocks {
		p.Rows = append(p.Rows, []string{b.X.String(), b.Y.String(), strconv.FormatInt(b.Across, 10), strconv.FormatInt(b.Down, 10), b.Piece.String()})
		g := grid{t, b.Across, b.Down, b.Piece, b.Pitch}
		x, bottom := millimetres(b.X), millimetres(s.Whole.Height()).Sub(millimetres(b.Y))
		c.grid(g, s.Pieces <= mostPieces, x, bottom.Sub(g.tall()))
	}
	c.caption(wide+3*rim, p.Text, s.Pieces > mostPieces)
	return c.picture(p, max(high, 700)+2*rim)
}

// grid is pieces that lie the same way.
type grid struct {
	toScale
	across, down int64
	piece, pitch quoin.Size
}

// tall is how high the block is.
func (g grid) tall() quoin.Factor { return span(g.down, g.piece.Height(), g.pitch.Height()) }

func (g grid) broad() quoin.Factor { return span(g.across, g.piece.Width(), g.pitch.Width()) }

// span is n pieces with what lies between them.
func span(n int64, piece, pitch quoin.Quantity) quoin.Factor {
	return millimetres(pitch).Times(quoin.FactorOf(n - 1)).Add(millimetres(piece))
}

// grid draws a block from its upper left corner, piece by piece or as one.
func (c *canvas) grid(g grid, each bool, left, top quoin.Factor) {
	if !each {
		c.rect("box", rim+g.length(left), rim+g.length(top), g.length(g.broad()), g.length(g.tall()))
		return
	}
	for row := range g.down {
		y := top.Add(millimetres(g.pitch.Height()).Times(quoin.FactorOf(row)))
		for column := range g.across {
			x := left.Add(millimetres(g.pitch.Width()).Times(quoin.FactorOf(column)))
			w, h := g.lengths(g.piece)
			c.rect("box", rim+g.length(x), rim+g.length(y), w, h)
		}
	}
}

// caption says beside the picture what it shows.
func (c *canvas) caption(x int, text string, blocks bool) {
	y := 3 * rim
	for len(text) > 0 {
		line := text
		if most := (width - x - rim) / 62; len(text) > most {
			for most > 1 && text[most] != ' ' {
				most--
			}
			line = text[:most]
		}
		c.text("", x, y, line)
		text, y = text[min(len(line)+1, len(text)):], y+170
	}
	if blocks {
		c.text("soft", x, y, "Each box is many pieces.")
	}
}

const rollWide, rollShown = 1400, width - 2*rim - 200

// roll draws the beginning of a roll, which lies from left to right: rows of pieces follow each
// other along it.
func (c *canvas) roll(p Picture, r cut.RollCut) Picture {
	t := toScale{wide: 1 << 30, high: rollWide, most: quoin.FactorOf(1), above: millimetres(r.Width)}
	length := min(t.length(millimetres(r.Length)), rollShown)
	c.rect("sheet", rim, rim, length, rollWide)
	p.Text = fmt.Sprintf("%d pieces out of a roll %s wide and %s long, of which they use %.1f%%.", r.Pieces, r.Width, r.Length, r.Used)
	p.Head = []string{"rows", "pieces in each", "piece"}
	var along quoin.Factor
	for _, rows := range r.Rows {
		p.Rows = append(p.Rows, []string{strconv.FormatInt(rows.Rows, 10), strconv.FormatInt(rows.Lanes, 10), rows.Piece.String()})
		pitch := millimetres(rows.Pitch.Height())
		shown := min(rows.Rows, shownRows(t, along, pitch, length))
		if shown > 0 {
			g := grid{t, shown, rows.Lanes, rows.Piece.Turned(), rows.Pitch.Turned()}
			c.grid(g, r.Pieces <= mostPieces || shown*rows.Lanes <= mostPieces/2, along, quoin.Factor{})
		}
		along = along.Add(pitch.Times(quoin.FactorOf(rows.Rows)))
	}
	c.text("", rim, 2*rim+rollWide+120, p.Text)
	if length == rollShown {
		c.text("b", rim+length+40, rim+rollWide/2, "…")
		c.text("soft", rim, 2*rim+rollWide+290, "The picture shows where it begins.")
	}
	return c.picture(p, rollWide+600)
}

// shownRows is how many rows of a pitch, which begin so far along a roll, end where the picture does
// or before.
func shownRows(t toScale, along, pitch quoin.Factor, length int) int64 {
	shown := quoin.FactorOf(int64(length)).Times(t.above).Over(quoin.FactorOf(int64(t.high))) // in millimetres
	n, _ := shown.Sub(along).Over(pitch).Round(0, quoin.Down).Units(0)
	return max(n, 0)
}
