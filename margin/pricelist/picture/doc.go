// Package picture draws an answer: where a price goes, what a sale keeps at other prices, what
// others sell for, what is cut out of a sheet or a roll, and the sizes of a design. Each picture is
// an SVG of less than 30 kB, drawn from the answer alone, the same to the byte each time. It has no
// script and loads nothing.
//
//	a = a.WithCurves() // what curves and comparables are drawn from
//	p, ok := picture.Keeps(a, "heron-a4")
//	os.WriteFile("keeps.svg", []byte(p.SVG()), 0o644)
//
// A picture can be read without colour: parts differ in their patterns and numbers, lines in their
// dashes and letters. It carries a title and a description for screen readers, and Picture.Rows
// holds the same figures as a table. It follows the light or dark scheme of the reader.
package picture
