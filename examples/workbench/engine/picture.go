package main

import (
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/picture"
)

// drawing is a picture of a product as an SVG element, and the style that all pictures share, which
// a page writes once. Both are empty where there is nothing to draw.
type drawing struct {
	SVG   string `json:"svg"`
	Style string `json:"style"`
}

// drawn draws a product: keeps, what a sale keeps against its price; goes, where its price goes;
// market, what others sell for.
func (d *desk) drawn(product, kind string) drawing {
	a, ok := d.alone(product)
	if !ok {
		return drawing{}
	}
	draw := map[string]func(pricelist.Answer, string) (picture.Picture, bool){
		"keeps": picture.Keeps, "goes": picture.Breakdown, "market": picture.Market,
	}[kind]
	if draw == nil {
		return drawing{}
	}
	p, ok := draw(a.WithCurves(), product)
	if !ok {
		return drawing{}
	}
	return drawing{p.Bare(), picture.Style()}
}
