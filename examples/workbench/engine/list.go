package main

import (
	"strings"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/sheet"
	"example.com/quoin/margin/rule"
)

// list is a decided price list as the page shows it: texts and whole numbers only, so that the
// page computes no money.
type list struct {
	Currency string        `json:"currency"`
	Step     string        `json:"step"`
	Products []listed      `json:"products"`
	Conflict string        `json:"conflict,omitempty"` // in sentences; then no product has a price
	Rules    []string      `json:"rules,omitempty"`    // those that contradict each other
	Dropped  []string      `json:"dropped,omitempty"`  // preferences that were given up, in sentences
	Warnings []warning     `json:"warnings,omitempty"`
	Sheets   []channelName `json:"sheets,omitempty"` // channels that have a line sheet
	Cautions []string      `json:"cautions"`
}

// listed is one product of the list.
type listed struct {
	ID     string `json:"id"`
	Name   string `json:"name"`
	Price  string `json:"price,omitempty"`
	Today  string `json:"today,omitempty"`
	Change string `json:"change,omitempty"`
	Range  string `json:"range,omitempty"`
	// Where a slider begins and ends, as places on the grid of prices counted from 1.
	From  int64 `json:"from"`
	To    int64 `json:"to"`
	At    int64 `json:"at"` // place of the price; of today's price on a conflict
	Count int64 `json:"count"`
}

type channelName struct {
	ID   string `json:"id"`
	Name string `json:"name"`
}

// warning is what deserves a look though the answer stands.
type warning struct {
	Code  quoin.Code `json:"code"`
	Path  string     `json:"path,omitempty"`
	Text  string     `json:"text"`
	Place string     `json:"place,omitempty"`
}

func (d *desk) list() (list, error) {
	a := d.answer
	out := list{Currency: a.Currency.String(), Step: a.PriceStep.String(), Cautions: a.Cautions, Rules: a.Conflict}
	grid, err := d.doc.Grid()
	if err != nil {
		return out, err
	}
	if len(a.Conflict) > 0 {
		out.Conflict = conflictText(a)
	}
	for i, p := range d.doc.Products {
		out.Products = append(out.Products, d.listed(grid, i, p))
	}
	for i, id := range a.Dropped {
		text := "The wish “" + id + "” was given up"
		if i < len(a.Emptied) {
			text += ": with it no price would be left for " + d.product(a.Emptied[i])
		}
		out.Dropped = append(out.Dropped, text+".")
	}
	for i, w := range a.Warnings {
		told := warning{Code: w.Code, Path: w.Path, Text: advice(w)}
		if i < len(a.Places) {
			told.Place = a.Places[i]
		}
		out.Warnings = append(out.Warnings, told)
	}
	for _, s := range a.LineSheets {
		out.Sheets = append(out.Sheets, channelName{s.Channel, called(s.Name, s.Channel)})
	}
	return out, nil
}

// listed is a product with its price, or, on a conflict, with today's alone.
func (d *desk) listed(grid quoin.Grid, i int, p pricelist.Product) listed {
	out := listed{ID: p.ID, Name: called(p.Name, p.ID), To: grid.Len()}
	today, given := p.Price.Get()
	if given {
		out.Today = today.String()
	}
	low, high := today, today
	r, decided := d.result(i)
	if decided {
		out.Price, out.Range, out.Count = r.Price.String(), ranges(r), r.Allowed.Len()
		if change, ok := r.Change.Get(); ok {
			out.Change = signed(change)
		}
		low, high = r.Price, r.Price
		if given && today.Sign() > 0 {
			low, high = lesser(low, today), greater(high, today)
		}
	}
	if high.Sign() > 0 {
		out.From = max(1, grid.Ceil(low.Part(quoin.MustRate("50%"))))
		out.To = min(grid.Len(), grid.Floor(high.Times(quoin.FactorOf(2))))
	} else {
		out.From, high = 1, grid.Price(1)
	}
	out.At = min(max(1, grid.Floor(high)), grid.Len())
	if decided {
		out.At = grid.Floor(r.Price)
	}
	return out
}

func lesser(a, b quoin.Amount) quoin.Amount {
	if b.Cmp(a) < 0 {
		return b
	}
	return a
}

func greater(a, b quoin.Amount) quoin.Amount {
	if b.Cmp(a) > 0 {
		return b
	}
	return a
}

// signed writes a change to a tenth of a per cent, with its sign.
func signed(change quoin.Rate) string {
	text := change.Round(1).String()
	if !strings.HasPrefix(text, "-") && text != "0%" {
		return "+" + text
	}
	return strings.Replace(text, "-", "−", 1)
}

// ranges says where the price may lie.
func ranges(p pricelist.ProductResult) string {
	var out []string
	for _, r := range p.MayLie {
		out = append(out, within(r))
	}
	if p.MoreRanges {
		out = append(out, "and more")
	}
	return strings.Join(out, ", ")
}

func within(r rule.AllowedRange) string {
	switch {
	case r.NoneLower && r.NoneHigher:
		return "any price"
	case r.NoneHigher:
		return r.First.String() + " and up"
	case r.NoneLower:
		return "up to " + r.Last.String()
	case r.First.Equal(r.Last):
		return r.First.String()
	}
	return r.First.String() + " to " + r.Last.String()
}

// conflictText says a conflict as a printed sheet does, without what stands below it on any sheet.
func conflictText(a pricelist.Answer) string {
	a.Warnings, a.Places, a.Cautions = nil, nil, nil
	return strings.TrimSpace(sheet.Text(a, unbroken))
}

// advice says a warning in one or two sentences.
func advice(p quoin.Problem) string {
	text := p.Found
	for _, more := range []string{p.Wanted, p.Remedy} {
		if more != "" && text != "" {
			text += "; "
		}
		text += more
	}
	return text + "."
}

func (d *desk) product(id string) string {
	return called(d.names.products[id], id)
}

func (d *desk) channel(id string) string {
	return called(d.names.channels[id], id)
}
