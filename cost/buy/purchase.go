package buy

import (
	"cmp"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
)

// Purchase is one invoice, with lines that share costs.
type Purchase struct {
	// What people call it.
	ID string `json:"id" need:"yes"`
	// When what was bought came in.
	Date quoin.Date `json:"date" need:"yes"`
	// What was bought, at prices before what is shared and before tax.
	Lines []PurchaseLine `json:"lines" need:"yes" most:"1000"`
	// Freight, duty and discounts of the whole invoice.
	Shared []SharedCost `json:"shared,omitempty" most:"100"`
	// The rate of tax that cannot be reclaimed, on each line with its share of the rest; it is
	// rounded to money over the whole and shared by it.
	Tax quoin.Rate `json:"tax,omitzero" range:"[0,"`
}

// PurchaseLine is one line of a purchase.
type PurchaseLine struct {
	// Id of the supply.
	Supply string `json:"supply" need:"yes"`
	// How much of it.
	Quantity quoin.Quantity `json:"quantity" need:"yes" range:"(0,"`
	// Of the whole line, before what is shared and before tax.
	Price quoin.Amount `json:"price" need:"yes" range:"[0,"`
	// Of the whole line, where costs are shared by weight.
	Weight quoin.Quantity `json:"weight,omitzero" range:"[0," dim:"mass"`
	// Of the whole line, where costs are shared by volume.
	Volume quoin.Quantity `json:"volume,omitzero" range:"[0," dim:"volume"`
}

// SharedCost is a cost, or a discount, of the whole invoice.
type SharedCost struct {
	// What people call it.
	Name string `json:"name" need:"yes"`
	// How much it is.
	Amount quoin.Amount `json:"amount" need:"yes" range:"[0,"`
	// Whether it is taken off.
	Discount bool `json:"discount,omitzero"`
	// What it is shared by; the prices of the lines where it is not given.
	By By `json:"by,omitempty" or:"line"`
	// Supply whose lines bear it alone, by their prices, in place of by.
	Line string `json:"line,omitempty"`
}

// By says how a cost of a whole invoice is shared by its lines.
type By string

const (
	ByValue  By = "value"   // the prices of the lines
	ByWeight By = "weight"  // their weights
	ByVolume By = "volume"  // their volumes
	ByCount  By = "count"   // the numbers of their quantities, of one unit
	Equally  By = "equally" // every line the same
)

// UnmarshalText reads value, weight, volume, count or equally. The error is a Problem.
func (b *By) UnmarshalText(text []byte) error {
	return form.SetWord(b, text, ByValue, ByWeight, ByVolume, ByCount, Equally)
}

// LandedLine is what a line of an invoice costs once it is here, in units of money.
type LandedLine struct {
	Supply   string
	Quantity quoin.Quantity
	Price    quoin.Amount
	Shares   []quoin.Amount // of each shared cost in order; a discount's is negative
	Tax      quoin.Amount
	Amount   quoin.Amount // all of it
}

// Codes of purchases that cannot be shared out.
const (
	NothingToShareBy quoin.Code = "nothing_to_share_by"  // a cost shared by what lines do not have
	UnknownLine      quoin.Code = "unknown_line"         // a cost of a line that is not on the invoice
	DiscountTooBig   quoin.Code = "discount_above_price" // more off than a line costs
)

// Landed shares the costs of the invoice by its lines, to so many places of money, by largest
// remainder: the lines add up to the invoice, to the cent. The error is Problems: a line lacks
// what a cost is shared by, a cost is for a line that the invoice does not have, quantities of
// different units are counted, an amount is finer than money, or discounts exceed what a line
// costs.
func (p Purchase) Landed(places int) ([]LandedLine, error) {
	out := make([]LandedLine, len(p.Lines))
	for i, l := range p.Lines {
		out[i] = LandedLine{Supply: l.Supply, Quantity: l.Quantity, Price: l.Price, Amount: l.Price}
	}
	var k form.Collector
	for i, s := range p.Shared {
		if p.lacks(&k, s) {
			continue
		}
		parts, err := p.split(s, places)
		k.AddAll(form.In("shared").At(i), err)
		for j, part := range parts {
			if s.Discount {
				part = part.Neg()
			}
			out[j].Shares = append(out[j].Shares, part)
			out[j].Amount = out[j].Amount.Add(part)
		}
	}
	for i, l := range out {
		if l.Amount.Sign() < 0 {
			k.Add(form.In("lines").At(i).Field("price"), fault(DiscountTooBig, "", l.Amount.String()+" after discounts", "discounts of at most what the line costs"))
		}
	}
	if err := k.All().Err(); err != nil {
		return nil, err
	}
	return p.taxed(out, places), nil
}

func (p Purchase) taxed(lines []LandedLine, places int) []LandedLine {
	if p.Tax.IsZero() {
		return lines
	}
	weights := make([]quoin.Factor, len(lines))
	var sum quoin.Amount
	for i, l := range lines {
		weights[i] = l.Amount.Ratio(quoin.AmountOf(1, 0))
		sum = sum.Add(l.Amount)
	}
	if sum.Sign() == 0 {
		return lines
	}
	parts, _ := sum.Part(p.Tax).Round(places, quoin.HalfUp).Split(places, weights...) // of whole cents, by weights above 0
	for i, part := range parts {
		lines[i].Tax = part
		lines[i].Amount = lines[i].Amount.Add(part)
	}
	return lines
}

func (p Purchase) split(s SharedCost, places int) ([]quoin.Amount, error) {
	weights, err := p.weights(s)
	if err != nil {
		return nil, err
	}
	parts, err := s.Amount.Split(places, weights...)
	if err == nil {
		return parts, nil
	}
	if s.Amount.IsZero() {
		return make([]quoin.Amount, len(p.Lines)), nil
	}
	if !s.Amount.Equal(s.Amount.Round(places, quoin.Down)) {
		return nil, fault(quoin.NotSplittable, "amount", s.Amount.String(), "a whole number of the smallest unit of money")
	}
	return nil, fault(NothingToShareBy, "by", "lines without "+string(s.by()), "lines that have it, or another way to share")
}

func (s SharedCost) by() By { return cmp.Or(s.By, ByValue) }

func (p Purchase) weights(s SharedCost) ([]quoin.Factor, error) {
	out := make([]quoin.Factor, len(p.Lines))
	found := false
	for i, l := range p.Lines {
		switch {
		case s.Line != "":
			if l.Supply == s.Line {
				out[i], found = l.Price.Ratio(quoin.AmountOf(1, 0)), true
			}
		case s.by() == ByValue:
			out[i] = l.Price.Ratio(quoin.AmountOf(1, 0))
		case s.by() == ByWeight, s.by() == ByVolume:
			out[i], _ = l.measured(s.by()) // which has been looked at
		case s.by() == Equally:
			out[i] = quoin.FactorOf(1)
		case l.Quantity.Unit() != p.Lines[0].Quantity.Unit():
			return nil, fault(NothingToShareBy, "by", "lines counted in "+string(p.Lines[0].Quantity.Unit())+" and "+string(l.Quantity.Unit()), "one unit, or another way to share")
		default:
			out[i] = l.Quantity.Number()
		}
	}
	switch {
	case s.Line != "" && s.By != "":
		return nil, fault(quoin.RivalFields, "line", "line beside by", "one of them")
	case s.Line != "" && !found:
		return nil, fault(UnknownLine, "line", prose.Quoted(s.Line), "the supply of a line of the purchase")
	}
	return out, nil
}

// lacks reports, and says, whether lines lack the weight or the volume that a cost is shared by.
func (p Purchase) lacks(k *form.Collector, s SharedCost) (any bool) {
	if s.Line != "" || s.by() != ByWeight && s.by() != ByVolume {
		return false
	}
	for i, l := range p.Lines {
		_, err := l.measured(s.by())
		any = any || err != nil
		if at := form.In("lines").At(i); err != nil && !k.Under(at.Field(string(s.by()))) {
			k.AddAll(at, err)
		}
	}
	return any
}

// measured is the weight, or the volume, of a line.
func (l PurchaseLine) measured(by By) (quoin.Factor, error) {
	q, unit := l.Weight, quoin.Unit("g")
	if by == ByVolume {
		q, unit = l.Volume, "ml"
	}
	if q.IsZero() {
		return quoin.Factor{}, fault(NothingToShareBy, string(by), "a line without a "+string(by), "the "+string(by)+" of every line, or another way to share")
	}
	in, err := q.In(unit)
	return in.Number(), err
}

func fault(code quoin.Code, path, found, wanted string) quoin.Problem {
	return quoin.Problem{Code: code, Severity: quoin.Fault, Path: path, Found: found, Wanted: wanted}
}
