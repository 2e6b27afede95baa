package paper_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost/paper"
	"example.com/quoin/internal/problemtest"
)

func TestProblems(t *testing.T) {
	a4, none := quoin.MustSize("A4"), quoin.Size{}
	const size, grammage = "fault size: found nothing, wanted the size of a sheet [missing_field]", `fault grammage: found "80 g", wanted a grammage such as 308 gsm [unit_mismatch]`
	for _, c := range []struct {
		what string
		of   func() (quoin.Quantity, error)
		want string
	}{
		{"grams for a grammage", func() (quoin.Quantity, error) { return paper.Mass(a4, q("80 g")) }, grammage},
		{"no size", func() (quoin.Quantity, error) { return paper.Mass(none, q("80 gsm")) }, size},
		{"neither", func() (quoin.Quantity, error) { return paper.Mass(none, q("80 g")) }, size + "\n" + grammage},
		{"no mass", func() (quoin.Quantity, error) { return paper.Grammage(q("80 ml"), a4) }, `fault mass: found "80 ml", wanted a mass, such as one in g [unit_mismatch]`},
		{"no basic size", func() (quoin.Quantity, error) { return paper.Grammage(q("80 lb"), none) }, size},
		{
			"neither mass nor size", func() (quoin.Quantity, error) { return paper.Grammage(q("80 ml"), none) },
			size + "\n" + `fault mass: found "80 ml", wanted a mass, such as one in g [unit_mismatch]`,
		},
		{"no grammage", func() (quoin.Quantity, error) { return paper.BasisWeight(q("80 g"), a4) }, grammage},
	} {
		got, err := c.of()
		if problemtest.Full(err) != c.want || !got.IsZero() {
			t.Errorf("%s: %s of\n%s\nwant\n%s", c.what, got, problemtest.Full(err), c.want)
		}
	}
}
