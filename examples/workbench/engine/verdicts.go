package main

import (
	"fmt"
	"strconv"

	"example.com/quoin"
	"example.com/quoin/margin/rule"
)

// Whether a rule holds at a price.
const (
	kept   = "kept"
	broken = "broken"
	silent = "silent" // has too little to go by
	waived = "dropped"
)

// verdict is what one rule says of one price.
type verdict struct {
	Rule   string `json:"rule"`
	Words  string `json:"words"` // what it asks of, in words
	Wish   bool   `json:"wish,omitempty"`
	State  string `json:"state"`
	Checks []asks `json:"checks,omitempty"`
}

// asks is one thing that a rule asks of a price, and what the price gives.
type asks struct {
	OK    bool   `json:"ok"`
	Where string `json:"where,omitempty"` // a channel, or the other size
	Asked string `json:"asked"`
	Got   string `json:"got"`
}

// verdicts asks every rule that applies to a product. Rules between sizes compare with the prices
// of the list.
func (d *desk) verdicts(i int, price quoin.Amount) []verdict {
	out := make([]verdict, 0, len(d.speak[i]))
	for _, r := range d.speak[i] {
		ru := d.doc.Rules[r]
		v := verdict{Rule: ru.ID, Words: words(ru.Kind), Wish: ru.Strength == rule.Prefer}
		if k, ok := ru.Kind.(rule.SizeRatio); ok {
			v.Checks = d.sizes(r, k, i, price)
		} else {
			for _, said := range ru.Judge(d.items[i], price) {
				v.Checks = append(v.Checks, d.asks(said))
			}
		}
		v.State = d.state(ru.ID, v.Checks)
		out = append(out, v)
	}
	return out
}

func (d *desk) state(id string, checks []asks) string {
	for _, dropped := range d.answer.Dropped {
		if dropped == id {
			return waived
		}
	}
	if len(checks) == 0 {
		return silent
	}
	for _, c := range checks {
		if !c.OK {
			return broken
		}
	}
	return kept
}

func (d *desk) asks(v rule.Verdict) asks {
	where := ""
	if v.Channel != "" {
		where = d.channel(v.Channel)
	}
	if v.Order > 0 {
		where += ", " + d.order(v.Channel, v.Order)
	}
	if v.Bound == rule.OneOf {
		return asks{v.OK, where, "an ending of the list", d.figure(v.Got)}
	}
	asked, got := d.apart(v.Asked, v.Got)
	return asks{v.OK, where, bound(v.Bound) + " " + asked, got}
}

// order is what people call a kind of order of a channel, counted from 1.
func (d *desk) order(channel string, n int) string {
	for _, c := range d.doc.Channels {
		if c.ID == channel && n <= len(c.Orders) && called(c.Orders[n-1].Name, c.Orders[n-1].ID) != "" {
			return called(c.Orders[n-1].Name, c.Orders[n-1].ID)
		}
	}
	return "kind of order " + strconv.Itoa(n)
}

func bound(b rule.Bound) string {
	if b == rule.AtMost {
		return "at most"
	}
	return "at least"
}

// sizes compares a price with those that the list has for the sizes beside it.
func (d *desk) sizes(r int, k rule.SizeRatio, i int, price quoin.Amount) []asks {
	var out []asks
	for _, pair := range d.ladders[r] {
		before, after := price, price
		other := pair[0]
		if pair[0] == i {
			other = pair[1]
		} else if pair[1] != i {
			continue
		}
		listed, ok := d.result(other)
		if !ok || listed.Price.Sign() <= 0 {
			continue
		}
		if other == pair[0] {
			before = listed.Price
		} else {
			after = listed.Price
		}
		ratio := after.Ratio(before).Figure()
		holds := k.HoldsBetween(before, after)
		where := fmt.Sprintf("%s ÷ %s", d.product(d.doc.Products[pair[1]].ID), d.product(d.doc.Products[pair[0]].ID))
		out = append(out, asks{holds, where, d.between(k), d.figure(ratio)})
	}
	return out
}

func (d *desk) between(k rule.SizeRatio) string {
	least, some := k.AtLeast.Get()
	most, any := k.AtMost.Get()
	switch {
	case some && any:
		return d.figure(least.Figure()) + " to " + d.figure(most.Figure())
	case some:
		return "at least " + d.figure(least.Figure())
	}
	return "at most " + d.figure(most.Figure())
}

// apart writes two figures so that they read as different where they are.
func (d *desk) apart(asked, got quoin.Figure) (string, string) {
	a, g := d.figure(asked), d.figure(got)
	if a == g && !asked.Equal(got) {
		return asked.Long(), got.Long()
	}
	return a, g
}

// figure writes a number for reading: money to the minor unit, rates to a tenth of a per cent,
// factors to two places.
func (d *desk) figure(f quoin.Figure) string {
	switch f.Kind() {
	case quoin.IsAmount:
		if a, ok := f.Amount(); ok {
			return minus(d.doc.Currency.Round(a, quoin.HalfUp))
		}
	case quoin.IsRate:
		return f.Factor().Rate().Round(1).String()
	case quoin.IsFactor:
		return f.Factor().Round(2, quoin.HalfUp).String()
	}
	return f.Round(2)
}

// words says what a kind of rule asks about.
func words(k rule.Kind) string {
	switch k.(type) {
	case rule.Contribution:
		return "what stays with you"
	case rule.CostMultiple:
		return "price against the cost of making it"
	case rule.Ending:
		return "how the price ends"
	case rule.GrossMargin:
		return "gross margin"
	case rule.Market:
		return "what others sell for"
	case rule.MaxChange:
		return "change from today's price"
	case rule.NetMargin:
		return "net margin"
	case rule.Price:
		return "the price itself"
	case rule.SizeRatio:
		return "price against the next size"
	}
	return k.String()
}
