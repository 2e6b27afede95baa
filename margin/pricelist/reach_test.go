package pricelist_test

import (
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/cost"
	"example.com/quoin/margin/pricelist"
)

func TestInfluencesReachAllTheyMove(t *testing.T) {
	t.Parallel()
	rapid.Check(t, influencesReachAllTheyMove)
}

func FuzzInfluencesReachAllTheyMove(f *testing.F) {
	f.Fuzz(rapid.MakeFuzz(influencesReachAllTheyMove))
}

// influencesReachAllTheyMove: the products that are worked out for a value with a range cost what
// they do in the whole document, and the others what they do without it.
func influencesReachAllTheyMove(t *rapid.T) {
	text, _ := genRanged(t)
	if _, err := pricelist.Moved(must(pricelist.Decode(text))(t)); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
}

// Of products with a supply each, a range of one supply moves one. Of a product that another
// extends, it moves both; of the other, it is worked out beside it.
func TestInfluencesLeaveOthersOut(t *testing.T) {
	doc := withRanges(5)
	if n, err := pricelist.Moved(doc); err != nil || n != 2*5*4 {
		t.Errorf("%d are left out, %v, want 40", n, err)
	}
	doc.Products[4].Extends = doc.Products[3].ID
	if n, err := pricelist.Moved(doc); err != nil || n != 2*(3*4+2*3) {
		t.Errorf("%d are left out, %v, want 36", n, err)
	}
}

// Bases may lend so many lines by how many products there are, so products that are worked out by
// themselves may not be allowed what the whole document is.
func TestInfluencesOfLongBases(t *testing.T) {
	doc := withProducts(100)
	base := &doc.Products[0]
	base.Bill[0].QuantityRange = quoin.Between(base.Bill[0].Quantity, quoin.MustQuantity("2 sheet"))
	for range 2_500 {
		base.Bill = append(base.Bill, cost.BillLine{Supply: "ink", Quantity: quoin.MustQuantity("0.001 g")})
	}
	for i := range 9 {
		doc.Products[1+i].Extends = base.ID
	}
	if n, err := pricelist.Moved(doc); err != nil || n != 2*90 {
		t.Errorf("%d are left out, %v, want 180", n, err)
	}
}
