package paper_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/cost/paper"
	"example.com/quoin/internal/problemtest"
)

func q(s string) quoin.Quantity { return quoin.MustQuantity(s) }

func TestMass(t *testing.T) {
	for _, c := range []struct{ size, grammage, want string }{
		{"1 x 1 m", "80 gsm", "80 g"},
		{"A4", "80 gsm", "4.9896 g"}, // 0.210 × 0.297 × 80
		{"A3", "308 gsm", "38.41992 g"},
		{"50 x 70 cm", "310 gsm", "108.5 g"},
		{"10 x 10 in", "100 gsm", "6.4516 g"},
	} {
		got, err := paper.Mass(quoin.MustSize(c.size), q(c.grammage))
		if err != nil || !got.Equal(q(c.want)) {
			t.Errorf("%s of %s: %s, %v, want %s", c.size, c.grammage, got, err, c.want)
		}
	}
}

// Exact from the pound and the inch (453.59237 g, 25.4 mm): grammage of one
// pound. Published rounded as 3.760, 2.704, 1.627 and 1.480 at
// printwiki.org/Grammage, of which the third is cut off, not rounded.
func TestPublishedBasisWeights(t *testing.T) {
	for _, c := range []struct{ basic, factor string }{
		{"17 x 22 in", "3.7597"},
		{"20 x 26 in", "2.7041"},
		{"24 x 36 in", "1.6275"},
		{"25 x 38 in", "1.4801"},
		{"22.5 x 28.5 in", "2.1928"},
		{"25.5 x 30.5 in", "1.8080"},
	} {
		got, err := paper.Grammage(q("1 lb"), quoin.MustSize(c.basic))
		if err != nil || !got.Number().Round(4, quoin.HalfUp).Equal(quoin.MustFactor(c.factor)) {
			t.Errorf("%s: %s, %v, want %s", c.basic, got, err, c.factor)
		}
	}
}

func TestPaperRefused(t *testing.T) {
	a4 := quoin.MustSize("A4")
	for what, err := range map[string]error{
		"grams for a grammage": second(paper.Mass(a4, q("80 g"))),
		"no size":              second(paper.Mass(quoin.Size{}, q("80 gsm"))),
		"no mass":              second(paper.Grammage(q("80 ml"), a4)),
		"no basic size":        second(paper.Grammage(q("80 lb"), quoin.Size{})),
		"no grammage":          second(paper.BasisWeight(q("80 lb"), a4)),
	} {
		if p := problemtest.Only(err); p.Wanted == "" || p.Path == "" {
			t.Errorf("%s: %v", what, err)
		}
	}
}

func second[T any](_ T, err error) error { return err }

// Basis weight and grammage undo each other.
func TestPaperLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		basic := quoin.MustSize(rapid.SampledFrom([]string{"17 x 22 in", "25 x 38 in", "A1"}).Draw(t, "basic"))
		grammage := q(fmt.Sprintf("%d gsm", rapid.IntRange(1, 900).Draw(t, "grammage")))
		pounds, err := paper.BasisWeight(grammage, basic)
		if err != nil {
			t.Fatal(err)
		}
		if back, err := paper.Grammage(pounds, basic); err != nil || !back.Equal(grammage) {
			t.Fatalf("%s is %s and back %s, %v", grammage, pounds, back, err)
		}
	})
}
