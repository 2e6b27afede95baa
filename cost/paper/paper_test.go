package paper_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/cost/paper"
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
		{"17 x 22 in", "3.7597"}, {"20 x 26 in", "2.7041"}, {"24 x 36 in", "1.6275"}, {"25 x 38 in", "1.4801"},
		{"22.5 x 28.5 in", "2.1928"}, {"25.5 x 30.5 in", "1.8080"},
	} {
		got, err := paper.Grammage(q("1 lb"), quoin.MustSize(c.basic))
		if err != nil || got.Number().Round(4, quoin.HalfUp).String() != c.factor {
			t.Errorf("%s: %s, %v, want %s", c.basic, got, err, c.factor)
		}
	}
}

// Dawe, Paper and Its Uses (1914), p. 148: 6,500 copies of 400 pages, 32 pages
// to a sheet, reams of 500: 12½ sheets a copy, 162½ reams.
func TestPublishedReams(t *testing.T) {
	sheets := quoin.FactorOf(400).Over(quoin.FactorOf(32))
	if got := paper.Reams(sheets.Times(quoin.FactorOf(6500)), paper.Ream); !sheets.Equal(quoin.MustFactor("12.5")) || !got.Equal(quoin.MustFactor("162.5")) {
		t.Errorf("%s sheets a copy, %s reams", sheets, got)
	}
	// Babbage, On the Economy of Machinery and Manufactures (1846), § 387: a
	// printer's ream of 21½ quires of 24 for 500 copies: 516 sheets, 16 for waste.
	if got := quoin.MustFactor("21.5").Times(quoin.FactorOf(24)); !got.Equal(quoin.FactorOf(516)) {
		t.Errorf("%s sheets, want 516", got)
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
		if p := only(err); p.Wanted == "" || p.Path == "" {
			t.Errorf("%s: %v", what, err)
		}
	}
}

func second[T any](_ T, err error) error { return err }

// Basis weight and grammage undo each other, and what is explained is what is
// computed.
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
		mass, _ := paper.Mass(basic, grammage)
		trail := quoin.NewTrail(1)
		got := paper.Explain(trail, basic, quoin.InField("sheet"), grammage, quoin.InField("grammage"))
		if !got.Value.Factor().Equal(mass.Number()) || quoin.Replay(trail.Steps()) != nil {
			t.Fatalf("explained as %s, computed as %s", got.Value, mass)
		}
	})
}

// only is the one problem that an error is.
func only(err error) quoin.Problem {
	ps, _ := err.(quoin.Problems)
	if len(ps) != 1 {
		return quoin.Problem{}
	}
	return ps[0]
}
