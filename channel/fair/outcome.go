package fair

import "example.com/quoin"

// Outcome is what a fair brings at the expected number of prints, and how many prints it needs.
// Only numbers of whole prints are rounded.
type Outcome struct {
	// Fixed is what going costs whatever is sold, a minimum commission apart:
	// stand + jury ÷ chance + travel + nights × night + helper + display ÷
	// fairs + other.
	Fixed quoin.Amount `json:"fixed"`
	// Average is one print at the mix: each figure times its share.
	Average Average `json:"average"`
	// Sales is what buyers pay for the prints expected, with the tax their
	// prices hold, and Cash how much of it comes in coins and notes, where that
	// share is given.
	Sales quoin.Amount                 `json:"sales"`
	Cash  quoin.Optional[quoin.Amount] `json:"cash,omitzero"`
	// Commission is the greater of rate × sales, with or without tax, and the
	// minimum.
	Commission quoin.Amount `json:"commission"`
	// Result is kept × prints − fixed − commission, before own hours.
	Result quoin.Amount `json:"result"`
	// BreakEven is where the result is zero, and Needed where it is what Asked
	// says. Both are none where a print keeps nothing after the commission.
	BreakEven quoin.Optional[Volume] `json:"break_even,omitzero"`
	Needed    quoin.Optional[Volume] `json:"needed,omitzero"`
	// Safety is the share of the sales expected that can be missed before the
	// fair loses money: negative below break-even, none where there is no
	// break-even or no sales.
	Safety quoin.Optional[quoin.Rate] `json:"safety,omitzero"`
	// PerHour is result ÷ own hours, none where no hours are given.
	PerHour quoin.Optional[quoin.Amount] `json:"per_hour,omitzero"`
	// HoursWorth is hours × hour worth. Asked is the greater of it and of what
	// the days bring instead; the result is held against it.
	HoursWorth quoin.Amount `json:"hours_worth"`
	Asked      quoin.Amount `json:"asked"`
	// Verdict is go where the result comes up to what is asked, else stay, and
	// Reasons is why to stay.
	Verdict Verdict  `json:"verdict"`
	Reasons []Reason `json:"reasons,omitempty"`
}

// Average is the average print of the mix.
type Average struct {
	Price   quoin.Amount `json:"price"`   // with the tax that it holds
	Revenue quoin.Amount `json:"revenue"` // without it
	Kept    quoin.Amount `json:"kept"`    // before anything of the fair
}

// Volume is how much must be sold.
type Volume struct {
	// Prints is not rounded; Whole is the next whole number up. Sales is what
	// buyers pay for Prints.
	Prints quoin.Factor `json:"prints"`
	Whole  quoin.Factor `json:"whole"`
	Sales  quoin.Amount `json:"sales"`
	// ByProduct is in the order of the mix.
	ByProduct []Count `json:"by_product"`
}

// Count is how many prints of one product must be sold: prints × share, not rounded, and the
// nearest whole number, halves up. The whole numbers need not add up to that of the volume,
// which is rounded up.
type Count struct {
	Product string       `json:"product"`
	Prints  quoin.Factor `json:"prints"`
	Nearest quoin.Factor `json:"nearest"`
}

// Verdict says whether the figures are for going or for staying.
type Verdict string

const (
	Go   Verdict = "go"   // the result comes up to what is asked
	Stay Verdict = "stay" // it does not
)

// Reason is why the figures are for staying.
type Reason string

const (
	Loss         Reason = "loss"          // the result is below zero
	BelowInstead Reason = "below_instead" // it is below what the days bring otherwise
	BelowHours   Reason = "below_hours"   // it is below hours × hour worth
)

// Outcome computes what the fair brings, from what a print of each product of its mix brings
// there. Prints that are not in the mix are ignored. The error is Problems, all at once: what
// Check finds, except that id and channel may be missing; and products of the mix that are
// missing in prints, given twice, or have a negative price or revenue.
func (f Fair) Outcome(prints []Print) (Outcome, error) {
	picked, err := f.pick(prints)
	if err != nil {
		return Outcome{}, err
	}
	given := make([]PrintOperands, len(picked))
	for i, p := range picked {
		given[i] = p.Given(quoin.Path{})
	}
	x := f.Explain(quoin.Silent(), quoin.Path{}, given)
	o := Outcome{
		Fixed: money(x.Fixed), Average: Average{money(x.Price), money(x.Revenue), money(x.Kept)}, Sales: money(x.Sales),
		Commission: money(x.Commission), Result: money(x.Result), HoursWorth: f.HourWorth.Times(f.Hours), Asked: money(x.Asked),
		BreakEven: f.volume(x.BreakEven, x.Price), Needed: f.volume(x.Needed, x.Price),
	}
	if share, given := f.Cash.Get(); given {
		o.Cash = quoin.Some(o.Sales.Part(share))
	}
	if v, some := o.BreakEven.Get(); some && o.Sales.Sign() > 0 {
		o.Safety = quoin.Some(o.Sales.Sub(v.Sales).Share(o.Sales))
	}
	if per, some := x.PerHour.Get(); some {
		o.PerHour = quoin.Some(money(per))
	}
	o.Verdict, o.Reasons = f.verdict(o)
	return o, nil
}

// money is a figure that is money, also where it is nothing.
func money(o quoin.Operand) quoin.Amount {
	a, _ := o.Value.Amount()
	return a
}

// volume is so many prints of the mix, none where no number is enough.
func (f Fair) volume(prints quoin.Optional[quoin.Operand], price quoin.Operand) quoin.Optional[Volume] {
	x, some := prints.Get()
	if !some {
		return quoin.Optional[Volume]{}
	}
	n := x.Value.Factor()
	v := Volume{Prints: n, Whole: n.Round(0, quoin.Up), Sales: money(price).Times(n)}
	for _, s := range f.Mix {
		of := n.Times(s.Share.Factor())
		v.ByProduct = append(v.ByProduct, Count{s.Product, of, of.Round(0, quoin.HalfUp)})
	}
	return quoin.Some(v)
}

func (f Fair) verdict(o Outcome) (Verdict, []Reason) {
	var why []Reason
	if o.Result.Sign() < 0 {
		why = append(why, Loss)
	}
	if o.Result.Cmp(f.Instead) < 0 && f.Instead.Sign() > 0 {
		why = append(why, BelowInstead)
	}
	if o.Result.Cmp(o.HoursWorth) < 0 && o.HoursWorth.Sign() > 0 {
		why = append(why, BelowHours)
	}
	if why == nil {
		return Go, nil
	}
	return Stay, why
}
