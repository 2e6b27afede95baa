package fair

import "example.com/quoin"

// Outcome is what a fair comes to at the prints expected, and how many it
// takes. Nothing in it is rounded but counts of whole prints.
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

// Average is one print of the mix.
type Average struct {
	Price   quoin.Amount `json:"price"`   // with the tax that it holds
	Revenue quoin.Amount `json:"revenue"` // without it
	Kept    quoin.Amount `json:"kept"`    // before anything of the fair
}

// Volume is how much has to be sold.
type Volume struct {
	// Prints is not rounded; Whole is the next whole number up. Sales is what
	// buyers pay for Prints.
	Prints quoin.Factor `json:"prints"`
	Whole  quoin.Factor `json:"whole"`
	Sales  quoin.Amount `json:"sales"`
	// ByProduct is in the order of the mix.
	ByProduct []Count `json:"by_product"`
}

// Count is how many prints of one product: unrounded prints × share, and the
// nearest whole number, halves up. The whole numbers need not sum to those of
// the volume, which are rounded up in all.
type Count struct {
	Product string       `json:"product"`
	Prints  quoin.Factor `json:"prints"`
	Nearest quoin.Factor `json:"nearest"`
}

// Verdict says what the figures speak for.
type Verdict string

const (
	Go   Verdict = "go"   // the result comes up to what is asked
	Stay Verdict = "stay" // it does not
)

// Reason is why the figures speak for staying.
type Reason string

const (
	Loss         Reason = "loss"          // the result is below zero
	BelowInstead Reason = "below_instead" // it is below what the days bring otherwise
	BelowHours   Reason = "below_hours"   // it is below hours × hour worth
)

// Plan reckons the fair from what a print of each product of its mix brings
// there; prints that are not in the mix are passed over. The error is all
// Problems at once: those of Check, but that neither id nor channel need be given, and
// products of the mix that prints lacks, gives twice, or gives a negative price or revenue.
func (f Fair) Plan(prints []Print) (Outcome, error) {
	picked, err := f.pick(prints)
	if err != nil {
		return Outcome{}, err
	}
	o := Outcome{Fixed: f.fixed(), Average: f.average(picked)}
	o.Sales = o.Average.Price.Times(f.Prints)
	if share, given := f.Cash.Get(); given {
		o.Cash = quoin.Some(o.Sales.Part(share))
	}
	o.Commission = f.commission(o.Average)
	o.Result = o.Average.Kept.Times(f.Prints).Sub(o.Fixed).Sub(o.Commission)
	o.HoursWorth = f.HourWorth.Times(f.Hours)
	o.Asked = greater(f.Instead, o.HoursWorth)
	o.BreakEven = f.volume(o.Fixed, o.Average)
	o.Needed = f.volume(o.Fixed.Add(o.Asked), o.Average)
	o.Safety = safety(o)
	if f.Hours.Sign() > 0 {
		o.PerHour = quoin.Some(o.Result.Over(f.Hours))
	}
	o.Verdict, o.Reasons = f.verdict(o)
	return o, nil
}

// fixed is what going costs whatever is sold.
func (f Fair) fixed() quoin.Amount {
	sum := f.Stand.Add(f.Jury.Over(f.Chance.Or(whole()).Factor())).Add(f.Travel)
	sum = sum.Add(f.Night.Times(quoin.FactorOf(f.Nights))).Add(f.Helper)
	if f.Display.Sign() > 0 {
		sum = sum.Add(f.Display.Over(f.DisplayFairs))
	}
	for _, o := range f.Other {
		sum = sum.Add(o.Amount)
	}
	return sum
}

func (f Fair) average(picked []Print) Average {
	var a Average
	for i, p := range picked {
		a.Price = a.Price.Add(p.Price.Part(f.Mix[i].Share))
		a.Revenue = a.Revenue.Add(p.Revenue.Part(f.Mix[i].Share))
		a.Kept = a.Kept.Add(p.Kept.Part(f.Mix[i].Share))
	}
	return a
}

// base is what the commission is taken of, for one print.
func (f Fair) base(a Average) quoin.Amount {
	if f.CommissionOf == Net {
		return a.Revenue
	}
	return a.Price
}

func (f Fair) commission(a Average) quoin.Amount {
	return greater(f.base(a).Times(f.Prints).Part(f.Commission), f.CommissionAtLeast)
}

// volume is how much has to be sold until a burden is borne. The result is the
// lesser of two lines, one under the minimum commission and one under the
// rate; it is up to zero once both are, so the greater of their zeros counts.
func (f Fair) volume(burden quoin.Amount, a Average) quoin.Optional[Volume] {
	kept := a.Kept.Sub(f.base(a).Part(f.Commission))
	if kept.Sign() <= 0 {
		return quoin.Optional[Volume]{}
	}
	n := burden.Ratio(kept)
	if f.CommissionAtLeast.Sign() > 0 {
		if m := burden.Add(f.CommissionAtLeast).Ratio(a.Kept); m.Cmp(n) > 0 {
			n = m
		}
	}
	v := Volume{Prints: n, Whole: n.Round(0, quoin.Up), Sales: a.Price.Times(n)}
	for _, s := range f.Mix {
		of := n.Times(s.Share.Factor())
		v.ByProduct = append(v.ByProduct, Count{s.Product, of, of.Round(0, quoin.HalfUp)})
	}
	return quoin.Some(v)
}

func safety(o Outcome) quoin.Optional[quoin.Rate] {
	v, ok := o.BreakEven.Get()
	if !ok || o.Sales.Sign() <= 0 {
		return quoin.Optional[quoin.Rate]{}
	}
	return quoin.Some(o.Sales.Sub(v.Sales).Share(o.Sales))
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

func greater(a, b quoin.Amount) quoin.Amount {
	if b.Cmp(a) > 0 {
		return b
	}
	return a
}
