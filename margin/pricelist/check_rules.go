package pricelist

import (
	"example.com/quoin"
	"example.com/quoin/margin/rule"
)

// rules checks the rules from one on.
func (k checker) rules(from int) {
	for i := from; i < len(k.doc.Rules); i++ {
		r := k.doc.Rules[i]
		at := (*path)(nil).field("rules").at(i)
		for j, id := range r.Products {
			k.known(at.field("products").at(j), "products", id)
		}
		for j, id := range r.Channels {
			k.known(at.field("channels").at(j), "channels", id)
		}
		switch kind := r.Kind.(type) {
		case rule.Step:
			k.ladder(at.field("products"), r.Products)
		case rule.Ending:
			if len(kind.Of) == 0 && !k.under(at.field("of")) {
				k.add(at.field("of"), quoin.Problem{Code: EmptyList, Found: "no endings", Wanted: "at least one"})
			}
		}
	}
}

// ladder checks that a step has sizes to step between, each once.
func (k checker) ladder(at *path, products []string) {
	if len(products) < 2 {
		k.add(at, quoin.Problem{
			Code: ShortLadder, Found: plural(len(products), "product"), Wanted: "at least two, from the smallest size up",
		})
	}
	seen := make(map[string]bool)
	for i, id := range products {
		if seen[id] {
			k.add(at.at(i), quoin.Problem{Code: DuplicateID, Found: quoin.Quoted(id) + " again", Wanted: "each size once"})
		}
		seen[id] = true
	}
}
