package sheet

import (
	"cmp"
	"encoding/csv"
	"fmt"
	"strings"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/internal/page"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin/pricelist"
)

// narrowLines is how narrow a line sheet is written at most.
const narrowLines = 30

// LineSheet writes what a shop that buys at trade price is handed as plain text, at most width
// characters wide where the names in it allow. It is for buyers, and says nothing of how prices
// came about.
func LineSheet(s pricelist.LineSheet, wide int) string {
	p := &text{page.Text{Width: max(wide, narrowLines)}, wording{currency: s.Currency}}
	p.wrap("", fmt.Sprintf("Line sheet, %s, trade prices in %s", seller(s), s.Currency))
	for _, t := range head(s.Head) {
		p.wrap("", t)
	}
	p.Line("")
	for _, l := range s.Lines {
		p.wrap("", named(l.Name, l.Product)+prose.Behind(", ", l.Size.String()))
		text := fmt.Sprintf("trade %s, recommended retail %s, case of %d", p.money(l.Trade), l.Recommended, l.Case)
		if n := least(l); n != "" {
			text += fmt.Sprintf(", minimum %s if it is the only print you order", n)
		}
		p.wrap("  ", text)
	}
	p.Line("")
	for _, t := range p.conditions(s) {
		p.wrap("- ", t)
	}
	for _, t := range notes(s) {
		p.wrap("", t)
	}
	return p.String()
}

// LineSheetMarkdown writes a line sheet as Markdown.
func LineSheetMarkdown(s pricelist.LineSheet) string {
	p := markup{new(page.Markdown), wording{currency: s.Currency}}
	p.lineSheet(s)
	return p.String()
}

// LineSheetCSV writes the lines of a line sheet as comma-separated values (RFC 4180) with a header.
// What holds for all of them stands on each line. A text that a spreadsheet would take for a
// formula has an apostrophe before it.
func LineSheetCSV(s pricelist.LineSheet) string {
	p := wording{currency: s.Currency}
	var b strings.Builder
	w := csv.NewWriter(&b)
	rows := [][]string{{
		"product", "name", "size", "currency", "trade_price", "recommended_retail", "case", "first_order",
		"seller", "contact", "valid_from", "valid_until", "lead_days", "minimum_first_order", "minimum_reorder", "terms",
	}}
	h := s.Head
	all := []string{inert(h.Seller), inert(h.Contact), date(h.ValidFrom), date(h.ValidUntil), count(h.LeadDays), p.asked(s.Opening), p.asked(s.Reorder), credit(s.Credit)}
	for _, l := range s.Lines {
		rows = append(rows, append([]string{
			inert(l.Product), inert(l.Name), l.Size.String(), s.Currency.String(), p.money(l.Trade), l.Recommended.String(), fmt.Sprint(l.Case), least(l),
		}, all...))
	}
	_ = w.WriteAll(rows) // to memory, which does not fail
	return b.String()
}

// seller is who sells; a channel's name only where the document does not say who.
func seller(s pricelist.LineSheet) string { return cmp.Or(s.Head.Seller, named(s.Name, s.Channel)) }

// head says when prices hold, and how to order.
func head(h channel.LineSheetHead) []string {
	var out []string
	switch from, until := date(h.ValidFrom), date(h.ValidUntil); {
	case from != "" && until != "":
		out = append(out, "Prices from "+from+" to "+until)
	case from != "":
		out = append(out, "Prices from "+from+" on")
	case until != "":
		out = append(out, "Prices until "+until)
	}
	if h.Contact != "" {
		out = append(out, "Orders: "+h.Contact)
	}
	return out
}

// notes stand under a line sheet.
func notes(s pricelist.LineSheet) []string {
	if s.Head.Note == "" {
		return []string{s.Note}
	}
	return []string{s.Head.Note, s.Note}
}

// inert keeps a name from being a formula.
func inert(s string) string {
	s = page.Visible(s)
	if s != "" && strings.IndexByte("=+-@", s[0]) >= 0 {
		return "'" + s
	}
	return s
}

func date(d quoin.Date) string {
	if d.IsZero() {
		return ""
	}
	return d.String()
}

func count(n int64) string {
	if n == 0 {
		return ""
	}
	return fmt.Sprint(n)
}

func (p wording) asked(a quoin.Amount) string {
	if a.Sign() <= 0 {
		return ""
	}
	return p.money(a)
}

func least(l pricelist.LineSheetLine) string {
	n, _ := l.Opening.Get()
	return count(n)
}

// credit is the terms of paying.
func credit(c channel.Credit) string {
	switch {
	case c.Days == 0:
		return ""
	case c.Early.IsZero():
		return fmt.Sprintf("net %d days", c.Days)
	}
	return fmt.Sprintf("%s off within %d days, net %d days", c.Early, c.EarlyDays, c.Days)
}

// ownTaxes says which products are taxed at a rate of their own.
func ownTaxes(s pricelist.LineSheet) []string {
	var rates, out []string
	names := make(map[string][]string)
	for _, l := range s.Lines {
		own, ok := l.Tax.Get()
		if !ok {
			continue
		}
		rate := own.String()
		if names[rate] == nil {
			rates = append(rates, rate)
		}
		names[rate] = append(names[rate], cmp.Or(l.Name, l.Product))
	}
	for _, rate := range rates {
		out = append(out, fmt.Sprintf("tax of %s on %s", rate, strings.Join(names[rate], ", ")))
	}
	return out
}

// conditions are the terms of a line sheet in words.
func (p wording) conditions(s pricelist.LineSheet) []string {
	var out []string
	if s.Opening.Sign() > 0 {
		out = append(out, fmt.Sprintf("first order of at least %s %s", p.money(s.Opening), s.Currency))
	}
	if s.Reorder.Sign() > 0 {
		out = append(out, fmt.Sprintf("later orders of at least %s %s", p.money(s.Reorder), s.Currency))
	}
	switch {
	case s.Tax.IsZero():
	case s.TaxInPrice:
		out = append(out, fmt.Sprintf("trade prices include tax of %s", s.Tax))
	default:
		out = append(out, fmt.Sprintf("tax of %s is added to trade prices", s.Tax))
	}
	out = append(out, ownTaxes(s)...)
	if text := p.freight(s); text != "" {
		out = append(out, text)
	}
	if n := s.Head.LeadDays; n > 0 {
		out = append(out, "sent within "+prose.Count(n, "day")+" of the order")
	}
	if text := credit(s.Credit); text != "" {
		out = append(out, text)
	}
	return out
}

func (p wording) freight(s pricelist.LineSheet) string {
	switch s.Freight {
	case channel.Collect:
		return "freight is paid by the buyer to the carrier"
	case channel.Added:
		text := "freight is prepaid and added to the invoice"
		if from, ok := s.FreeFrom.Get(); ok {
			text += fmt.Sprintf(", and free from %s %s", p.money(from), s.Currency)
		}
		return text
	case channel.Prepaid:
		return "freight is included"
	case channel.Allowance:
		return "freight is paid by the buyer, with an allowance towards it"
	}
	return ""
}
