package fair

import "example.com/quoin"

// Outcome is what a fair brings at the expected number of prints, and how many prints it needs.
// Only numbers of whole prints are rounded.
type Outcome struct {
	// What going costs whatever is sold, a minimum commission apart: stand + jury ÷ chance +
	// travel + nights × night + helper + display ÷ fairs + other.
	Fixed quoin.Amount `json:"fixed"`
	// One print of the mix: each figure times its share.
	Average Average `json:"average"`
	// What buyers pay for the prints expected, with the tax that prices hold.
	Sales quoin.Amount `json:"sales"`
	// How much of it comes in cash, where the document gives the share.
	Cash quoin.Optional[quoin.Amount] `json:"cash,omitzero"`
	// What the organiser takes: the greater of rate × sales, with or without tax, and the
	// minimum.
	Commission quoin.Amount `json:"commission"`
	// Prints × what one keeps − fixed − commission, before own hours.
	Result quoin.Amount `json:"result"`
	// The result in three: what is in the till, what was earned, and what is still there to sell.
	InThree InThree `json:"in_three,omitzero"`
	// Where the result is zero; not given where a print keeps nothing after the commission.
	BreakEven quoin.Optional[Volume] `json:"break_even,omitzero"`
	// Where it is what is asked; not given where a print keeps nothing after the commission.
	Needed quoin.Optional[Volume] `json:"needed,omitzero"`
	// Share of the sales expected that can be missed before the fair loses money: negative below
	// break-even, not given where there is no break-even or no sales.
	Safety quoin.Optional[quoin.Rate] `json:"safety,omitzero"`
	// Result ÷ own hours, where the document gives them.
	PerHour quoin.Optional[quoin.Amount] `json:"per_hour,omitzero"`
	// Hours × what each is to bring.
	HoursWorth quoin.Amount `json:"hours_worth"`
	// The greater of hours_worth and of what the days bring otherwise; the result is held
	// against it.
	Asked quoin.Amount `json:"asked"`
	// Whether the result comes up to what is asked.
	Verdict Verdict `json:"verdict"`
	// Why to stay: the result is below zero, below what the days bring otherwise, or below what
	// the hours are worth.
	Reasons []Reason `json:"reasons,omitempty"`
}

// InThree is the result of a fair in three figures. Profit is cash + stock left − the own time in
// the prints taken along.
type InThree struct {
	// What came in, less all that was paid: fixed costs, the commission, and the goods of all prints
	// taken along, without own time. 30 prints sold of 50 can earn money and leave less cash.
	Cash quoin.Amount `json:"cash"`
	// What the prints sold earned: the result. Goods are those of the prints sold alone.
	Profit quoin.Amount `json:"profit"`
	// What the prints that are left cost: (taken − prints) × goods.
	StockLeft quoin.Amount `json:"stock_left"`
}

// Average is the average print of the mix.
type Average struct {
	// What it costs, with the tax that the price holds.
	Price quoin.Amount `json:"price"`
	// What comes in, without tax.
	Revenue quoin.Amount `json:"revenue"`
	// What is left of it before anything of the fair.
	Kept quoin.Amount `json:"kept"`
}

// Volume is how much must be sold.
type Volume struct {
	// In prints of the mix, not rounded.
	Prints quoin.Factor `json:"prints"`
	// The next whole number up.
	Whole quoin.Factor `json:"whole"`
	// What buyers pay for the prints, not rounded.
	Sales quoin.Amount `json:"sales"`
	// The same by product, in the order of the mix.
	ByProduct []Count `json:"by_product"`
}

// Count is how many prints of one product must be sold: prints × share, not rounded, and the
// nearest whole number, halves up. The whole numbers need not add up to that of the volume,
// which is rounded up.
type Count struct {
	// Id of the product.
	Product string `json:"product"`
	// Prints × share, not rounded.
	Prints quoin.Factor `json:"prints"`
	// The nearest whole number.
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
	Loss                 Reason = "loss"                   // the result is below zero
	BelowOpportunityCost Reason = "below_opportunity_cost" // it is below what the days bring otherwise
	BelowHours           Reason = "below_hours"            // it is below hours × hour worth
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
		InThree:   InThree{money(x.Cash), money(x.Result), money(x.StockLeft)},
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
	if o.Result.Cmp(f.OpportunityCost) < 0 && f.OpportunityCost.Sign() > 0 {
		why = append(why, BelowOpportunityCost)
	}
	if o.Result.Cmp(o.HoursWorth) < 0 && o.HoursWorth.Sign() > 0 {
		why = append(why, BelowHours)
	}
	if why == nil {
		return Go, nil
	}
	return Stay, why
}
