package main

// picture is a drawing of a product, as an SVG element; empty where there is none.
type picture struct {
	SVG   string `json:"svg"`
	Style string `json:"style"`
}

// keeps draws what a sale of a product keeps in each channel against its price.
func (d *desk) keeps(product string) picture {
	return picture{}
}
