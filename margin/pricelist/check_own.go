package pricelist

import (
	"example.com/quoin"
	"example.com/quoin/margin/rule"
)

// madeInGo refuses rules that no JSON can say: a kind by pointer, and a rule of the caller's
// own that lacks something. That a kind is missing has been said.
func (k checker) madeInGo(at *path, r rule.Rule) {
	found, _ := r.Check().(quoin.Problems)
	for _, p := range found {
		if p.Path == "rule" && !k.Under(at.Field("rule")) {
			k.Add(at.Field("rule"), p)
		}
	}
}
