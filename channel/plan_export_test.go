package channel

import "example.com/quoin"

// ByPlan gives tests Takings by the plan alone; false where it leaves them to
// decimals.
func (t Terms) ByPlan(list quoin.Amount) (Takings, bool) {
	if t.fast == nil {
		return Takings{}, false
	}
	return t.fast.takings(list)
}
