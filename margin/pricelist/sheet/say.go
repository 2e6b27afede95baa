package sheet

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

// side says why a price goes no further to one side, or what else was allowed there.
func (p *text) side(question, far string, a pricelist.Answer, it pricelist.ProductResult, b pricelist.WhyNot, end quoin.Amount) {
	p.wrap("", question)
	why, _ := b.Why()
	by, _ := forbidding(b)
	switch {
	case len(by) == 0:
		p.wrap("  ", fmt.Sprintf("No rule forbids it. %s was taken because %s.", it.Price, chosen(a, it)))
		return
	case !end.Equal(it.Price):
		p.wrap("  ", fmt.Sprintf("%s %s is allowed. %s was taken because %s.", far, end, it.Price, chosen(a, it)))
	}
	p.wrap("  ", fmt.Sprintf("%s is forbidden:", p.money(why.Price)))
	p.refusals("    ", why.By, why.More)
}

// chosen says by what a price was chosen among those that are allowed.
func chosen(a pricelist.Answer, it pricelist.ProductResult) string {
	today, given := it.Today.Get()
	switch {
	case a.Choose == rule.Least:
		return `"choose" asks for the least`
	case a.Choose == rule.Greatest:
		return `"choose" asks for the greatest`
	case given:
		return fmt.Sprintf("it is nearest to today's %s", today)
	}
	return "without a price today the least is taken"
}

// refusals writes reasons, and under a step's why the neighbour goes no further; where
// there are more than are written, it says so.
func (p *text) refusals(indent string, by []rule.Refusal, more bool) {
	told := min(len(by), mostListed)
	for _, r := range by[:told] {
		p.wrap(indent, p.refused(r))
		if len(r.Because) > 0 {
			p.wrap(indent+"  ", fmt.Sprintf("%s at %s is forbidden:", p.product(r.Because[0].Product), p.money(r.Because[0].Price)))
			p.refusals(indent+"    ", r.Because, false)
		}
	}
	if more || told < len(by) {
		p.wrap(indent, "and other rules")
	}
}
