package sheet

import (
	"cmp"
	"encoding/csv"
	"fmt"
	"strings"

	"example.com/quoin/channel"
	"example.com/quoin/internal/page"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin/pricelist"
)

// narrowLines is how narrow a line sheet is written at most.
const narrowLines = 30

// LineSheet writes what a shop that buys at trade price is handed as plain text,
// at most width characters wide where the names in it allow.
func LineSheet(s pricelist.LineSheet, wide int) string {
	p := &text{page.Text{Width: max(wide, narrowLines)}, wording{currency: s.Currency}}
	p.wrap("", fmt.Sprintf("Line sheet, %s, prices in %s", named(s.Name, s.Channel), s.Currency))
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
	p.wrap("", s.Note)
	for _, c := range pricelist.Cautions() {
		p.wrap("", c)
	}
	return p.String()
}

// LineSheetMarkdown writes a line sheet as Markdown.
func LineSheetMarkdown(s pricelist.LineSheet) string {
	p := markup{new(page.Markdown), wording{currency: s.Currency}}
	p.Title(1, "Line sheet, "+named(s.Name, s.Channel))
	p.Table("llrrrr", "item", "size", "trade, "+s.Currency.String(), "recommended retail", "case", "minimum, ordered alone")
	for _, l := range s.Lines {
		p.Row(named(l.Name, l.Product), l.Size.String(), p.money(l.Trade), l.Recommended.String(), fmt.Sprint(l.Case), least(l))
	}
	p.points(append(p.conditions(s), s.Note), pricelist.Cautions())
	return p.String()
}

// LineSheetCSV writes the lines of a line sheet as comma-separated values (RFC
// 4180) with a header. A name that a spreadsheet would take for a formula has an
// apostrophe before it.
func LineSheetCSV(s pricelist.LineSheet) string {
	p := wording{currency: s.Currency}
	var b strings.Builder
	w := csv.NewWriter(&b)
	rows := [][]string{{"product", "name", "size", "currency", "trade_price", "recommended_retail", "case", "first_order"}}
	for _, l := range s.Lines {
		rows = append(rows, []string{
			inert(l.Product), inert(l.Name), l.Size.String(), s.Currency.String(), p.money(l.Trade), l.Recommended.String(), fmt.Sprint(l.Case), least(l),
		})
	}
	_ = w.WriteAll(rows) // to memory, which does not fail
	return b.String()
}

// inert keeps a name from being a formula.
func inert(s string) string {
	s = page.Visible(s)
	if strings.IndexAny(s, "=+-@") == 0 {
		return "'" + s
	}
	return s
}

func least(l pricelist.LineSheetLine) string {
	if n, ok := l.Opening.Get(); ok {
		return fmt.Sprint(n)
	}
	return ""
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
	switch s.Freight {
	case channel.Collect:
		out = append(out, "freight is paid by the buyer to the carrier")
	case channel.Added:
		text := "freight is prepaid and added to the invoice"
		if from, ok := s.FreeFrom.Get(); ok {
			text += fmt.Sprintf(", and free from %s %s", p.money(from), s.Currency)
		}
		out = append(out, text)
	case channel.Prepaid:
		out = append(out, "freight is included")
	case channel.Allowance:
		out = append(out, "freight is paid by the buyer, with an allowance towards it")
	}
	if c := s.Credit; c.Days > 0 {
		text := fmt.Sprintf("net %d days", c.Days)
		if !c.Early.IsZero() {
			text = fmt.Sprintf("%s off within %d days, %s", c.Early, c.EarlyDays, text)
		}
		out = append(out, text)
	}
	return out
}
