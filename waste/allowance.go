package waste

import "example.com/quoin"

// Allowance is added to a computed cost: a contingency, and the share of parcels that are lost.
type Allowance struct {
	// Contingency is added on top, as a share of the cost: for what nobody
	// counted, such as price drift. It is no substitute for a yield.
	Contingency quoin.Rate
	// Loss is the share of parcels lost or broken on the way to the buyer, at
	// least 0 and below 1; what is lost is made and sent again.
	Loss quoin.Rate
}

// Apply returns cost × (1 + contingency) ÷ (1 − loss). 1.00 with 10% and 2% is 1.1224. It
// panics as Resend does.
func (a Allowance) Apply(cost quoin.Amount) quoin.Amount {
	return a.Resend(cost.Times(a.Contingency.OnePlus()))
}

// Resend returns cost ÷ (1 − loss): what one arrival costs if some are lost on the way. 6.20
// with 2% is 6.3265. It panics if the loss is 100%.
func (a Allowance) Resend(cost quoin.Amount) quoin.Amount {
	arrive := a.Loss.Complement()
	if arrive.IsZero() {
		panic("quoin: a loss of all that is sent, of which nothing arrives: it has to be below 100%")
	}
	return cost.Over(arrive)
}
