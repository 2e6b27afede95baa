package sheet

import (
	"cmp"
	"fmt"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

// figure writes a number for reading: money to the minor unit, rates and plain
// numbers to at most five places.
func (p wording) figure(f quoin.Figure) string { return f.Round(p.currency.Digits()) }

// refusal says what a rule asked of a price and what the price gives.
func (p wording) refusal(r rule.Refusal) string {
	want, got := p.figure(r.Asked), p.figure(r.Got)
	if want == got { // rounding hides what is missing
		want, got = r.Asked.Long(), r.Got.Long()
	}
	asked := fmt.Sprintf("%s %s asked", prose.Words(r.Bound), want)
	where := prose.Behind(" in ", r.Channel)
	if r.Order > 0 {
		where += fmt.Sprintf(", in orders of kind %d by themselves", r.Order)
	}
	says := asked
	switch r.Kind {
	case "contribution":
		says = fmt.Sprintf("it would keep %s for each print%s, %s", got, where, asked)
	case "net_margin", "gross_margin":
		says = fmt.Sprintf("it would leave %s as %s%s, %s", got, prose.Words(r.Kind), where, asked)
	case "cost_multiple":
		says = fmt.Sprintf("the multiple of its goods%s is %s", where, want)
	case "size_ratio":
		says = p.step(r)
	}
	return fmt.Sprintf("%q: %s", r.Rule, cmp.Or(r.Reason, says))
}

func (p wording) step(r rule.Refusal) string {
	price, ok := r.NeighbourPrice.Get()
	if !ok {
		return fmt.Sprintf("no price of %s fits beside it", r.Neighbour)
	}
	side := "less"
	if r.Bound == "at_most" {
		side = "more"
	}
	return fmt.Sprintf("%s cannot be %s than %s, so this cannot be %s than %s", r.Neighbour, side, p.money(price), side, p.figure(r.Asked))
}

// refusals writes reasons, and under a step's why the neighbour goes no further; where
// there are more than are written, it says so.
func (p *text) refusals(indent string, by []rule.Refusal, more bool) {
	named := min(len(by), mostListed)
	for _, r := range by[:named] {
		p.wrap(indent, p.refusal(r))
		if len(r.Because) > 0 {
			p.wrap(indent+"  ", fmt.Sprintf("%s at %s is refused:", r.Because[0].Product, p.money(r.Because[0].Price)))
			p.refusals(indent+"    ", r.Because, false)
		}
	}
	if more || named < len(by) {
		p.wrap(indent, "and other rules")
	}
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
	what := map[pricelist.RemedyChange]string{
		pricelist.GoodsTo:         "the goods of %s cost %s instead of %s",
		pricelist.TradeDiscountTo: "the trade discount of %s is %s instead of %s",
		pricelist.FeeTo:           "the fee %q is %s instead of %s",
		pricelist.RuleTo:          "the rule %q asks %s instead of %s",
	}[r.Change]
	if r.Change == pricelist.FeeTo {
		what += " (" + r.Path + ")"
	}
	return fmt.Sprintf(what, r.Name, p.figure(r.To), p.figure(r.From))
}

// warnings says each in one sentence, and where it does not say so, what it is about.
func warnings(a pricelist.Answer) []string {
	names := namesIn(a)
	out := make([]string, len(a.Warnings))
	for i, w := range a.Warnings {
		out[i] = w.Found + prose.Behind("; ", w.Remedy)
		if at := prose.Place(w.Path, func(at string) string { return names[at] }); !strings.Contains(out[i], at) {
			out[i] += " (" + at + ")"
		}
	}
	return out
}

// namesIn are the names of products, channels and kinds of order, by their paths in the document.
func namesIn(a pricelist.Answer) map[string]string {
	names := make(map[string]string)
	for i, it := range a.Products {
		names[quoin.InList("products", i).String()] = named(it.Name, it.ID)
	}
	for _, it := range a.Products[:min(len(a.Products), 1)] {
		for j, c := range it.Channels {
			at := quoin.InList("channels", j)
			names[at.String()] = named(c.Name, c.ID)
			for k, o := range c.Orders {
				names[at.Sub("orders", k).String()] = named(o.Name, o.ID)
			}
		}
	}
	return names
}
