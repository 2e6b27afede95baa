package pricelist_test

import (
	"cmp"
	"math/big"
	"slices"
)

// speaksOf: a rule names products, or designs, or speaks of all.
func (r oracleRule) speaksOf(p oraclePrint) bool {
	switch {
	case r.Products != nil:
		return slices.Contains(r.Products, p.ID)
	case r.Designs != nil:
		return slices.Contains(r.Designs, p.Design)
	}
	return true
}

// chains are the ladders of a step: the products that it names, or those of each design
// that it speaks of, from the smallest up or as they are listed.
func (s *oracleShop) chains(r oracleRule) [][]int {
	if r.Products != nil {
		var chain []int
		for _, id := range r.Products {
			chain = append(chain, s.product(id))
		}
		return [][]int{chain}
	}
	designs := map[string][]int{}
	for i, p := range s.Products {
		if p.Design != "" && r.speaksOf(p) {
			designs[p.Design] = append(designs[p.Design], i)
		}
	}
	var chains [][]int
	for _, chain := range designs {
		if r.Order != "listed" {
			slices.SortFunc(chain, func(i, j int) int { return s.paper(i).Cmp(s.paper(j)) })
		}
		chains = append(chains, chain)
	}
	return chains
}

// paper is the area of the sheet of a product, or else of its image, each its own or that
// of its base.
func (s *oracleShop) paper(i int) *big.Rat {
	sheet, image := s.Products[i].Sheet, s.Products[i].Image
	for b := s.Products[i].Base; b != ""; {
		base := s.Products[s.product(b)]
		sheet, image, b = cmp.Or(sheet, base.Sheet), cmp.Or(image, base.Image), base.Base
	}
	return oracleArea(cmp.Or(sheet, image))
}
