package waste

import (
	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
)

// Check returns everything that is wrong with the route, at once: yields and shares out of
// range, a stage that gives its loss twice, a stage that is listed twice. The error is
// quoin.Problems, with paths such as [1].yield.
func (r Route) Check() error {
	var k form.Collector
	stages := make(map[string]bool, len(r))
	for i, s := range r {
		at := (*form.Path)(nil).At(i)
		k.AddAll(at, form.Check(s).All().Err())
		if stages[s.ID] && s.ID != "" {
			k.Add(at.Field("id"), quoin.Problem{Code: quoin.DuplicateID, Found: prose.Quoted(s.ID) + " again", Wanted: "each stage once"})
		}
		stages[s.ID] = true
	}
	return k.All().Err()
}
