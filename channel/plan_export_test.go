package channel

import "example.com/quoin"

// ByPlan gives tests Proceeds by the plan alone; false where it leaves them to
// decimals.
func (t Terms) ByPlan(list quoin.Amount) (Proceeds, bool) {
	if t.fast == nil {
		return Proceeds{}, false
	}
	return t.fast.proceeds(list)
}

// PlainBelow gives tests the list price below which all kinds of order are settled without
// dividing; 0 where one is not.
func (p *Plan) PlainBelow() uint64 { return p.plainBelow }
