package sheet

import (
	"cmp"
	"fmt"
	"strings"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

func (p *text) conflict(a pricelist.Answer) {
	p.wrap("", "No price list: "+impossible(a))
	p.Line("")
	last := ""
	for _, c := range a.Clashes {
		if c.Product != last {
			p.Line(p.wording.product(c.Product))
			last = c.Product
		}
		p.wrap("  ", fmt.Sprintf("%q allows %s", c.Rule, p.allowed(a, c)))
	}
	p.Line("")
	for _, g := range a.Gaps {
		p.wrap("", p.gap(g))
	}
	if len(a.Gaps) > 0 {
		p.Line("")
	}
	p.points(oneChange, "- ", p.remedies(a.Remedies))
}

const oneChange = "Any one of these ends the conflict:"

func impossible(a pricelist.Answer) string {
	return list(a.Conflict) + " cannot hold together. Drop or change any one of them and the rest can."
}

// allowed says which prices a rule of a conflict allows by itself.
func (p wording) allowed(a pricelist.Answer, c pricelist.RuleBounds) string {
	least, some := c.Least.Get()
	if !some {
		return "no price"
	}
	greatest := c.Greatest.Or(quoin.Amount{})
	return between(rule.AllowedRange{
		First: p.currency.Round(least, quoin.HalfUp), Last: p.currency.Round(greatest, quoin.HalfUp),
		NoneLower: least.Cmp(a.PriceStep) <= 0, NoneHigher: greatest.Cmp(a.PriceLimit) >= 0,
	})
}

func (p wording) gap(g rule.Gap) string {
	return fmt.Sprintf("%s: %s asks at least %s, %s at most %s: %s too much", p.product(g.Product),
		list(g.FloorBy), p.money(g.Floor), list(g.CeilingBy), p.money(g.Ceiling), p.money(g.Floor.Sub(g.Ceiling)))
}

// remedies says each change that ends a conflict; what goods have to cost, of several products
// together.
func (p wording) remedies(all []pricelist.Remedy) []string {
	var goods, others []string
	for _, r := range all {
		if r.Change == pricelist.GoodsTo {
			goods = append(goods, p.remedy(r))
		} else {
			others = append(others, p.remedy(r))
		}
	}
	if len(goods) == 0 {
		return others
	}
	return append([]string{strings.Join(goods, ", and ")}, others...)
}

func (p wording) remedy(r pricelist.Remedy) string {
	if field := r.Path[strings.LastIndexByte(r.Path, '.')+1:]; r.Change == pricelist.RuleTo && (field == "from_quantile" || field == "to_quantile") {
		return fmt.Sprintf("in rule %q write %q: %q instead of %s", r.Name, field, p.figure(r.To), p.figure(r.From))
	}
	at, _, _ := strings.Cut(cmp.Or(r.Place, r.Name), ", ")
	name := map[pricelist.RemedyChange]string{
		pricelist.GoodsTo:         "making " + p.product(r.Name) + " costs",
		pricelist.TradeDiscountTo: "the trade discount of " + at + " is",
		pricelist.FeeTo:           fmt.Sprintf("the fee %q of %s is", r.Name, at),
		pricelist.RuleTo:          fmt.Sprintf("the rule %q asks", r.Name),
	}[r.Change]
	return fmt.Sprintf("%s %s instead of %s", name, p.figure(r.To), p.figure(r.From))
}
