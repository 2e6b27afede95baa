package picture

import (
	"cmp"
	"slices"
	"strings"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// Picture is a picture with the same figures as a table.
type Picture struct {
	Title string     // what it shows
	Text  string     // the same in a few sentences
	Head  []string   // heads of the table
	Rows  [][]string // as many cells as heads
	open  string     // of the SVG, up to its style
	rest  string
}

// SVG returns the picture as an SVG document, or as an element of a page, with its style in it. The
// zero value has none.
func (p Picture) SVG() string {
	if p.open == "" {
		return ""
	}
	return p.open + "<style>" + Style() + "</style>" + p.rest
}

// Plain returns the picture as an SVG document that needs no style variables and no patterns, and
// follows no scheme of the reader: its light colours are written out. It is for programs that know
// little of styles, such as spreadsheets, which would show it black. The zero value has none.
func (p Picture) Plain() string {
	if p.open == "" {
		return ""
	}
	return p.open + "<style>" + plainStyle() + "</style>" + unpatterned(p.rest)
}

// Bare returns the picture as an element of a page that has the Style already.
func (p Picture) Bare() string { return p.open + p.rest }

// String returns the title.
func (p Picture) String() string { return p.Title }

// width is how wide all pictures are, in tenths of a unit, as all lengths here.
const (
	width = 6400
	rim   = 100
)

// words calls products and channels by their names, and writes money of the answer.
type words struct {
	currency quoin.Currency
}

func named(name, id string) string { return cmp.Or(name, id) }

// called is the name of a channel, not longer than a picture has room for.
func called(c pricelist.ChannelResult) string { return short(named(c.Name, c.ID), 3000) }

func (w words) money(a quoin.Amount) string { return w.currency.Round(a, quoin.HalfUp).String() }

// find returns a product of the answer and its place.
func find(a pricelist.Answer, product string) (pricelist.ProductResult, int, bool) {
	i := slices.IndexFunc(a.Products, func(p pricelist.ProductResult) bool { return p.ID == product })
	if i < 0 {
		return pricelist.ProductResult{}, 0, false
	}
	return a.Products[i], i, true
}

// sentences joins sentences of a text.
func sentences(all ...string) string {
	return strings.Join(slices.DeleteFunc(all, func(s string) bool { return s == "" }), " ")
}
