package fair

import "example.com/quoin"

// Codes of the steps that explain whether a fair pays.
const (
	StepJury         quoin.StepCode = "fair_jury"                 // jury ÷ chance
	StepNights       quoin.StepCode = "fair_nights"               // nights × night
	StepDisplay      quoin.StepCode = "fair_display"              // display ÷ fairs it serves
	StepFixed        quoin.StepCode = "fair_fixed"                // all that is due whatever is sold
	StepPrice        quoin.StepCode = "fair_price"                // average price at the mix
	StepRevenue      quoin.StepCode = "fair_revenue"              // average revenue at the mix
	StepKept         quoin.StepCode = "fair_kept"                 // average kept at the mix
	StepSales        quoin.StepCode = "fair_sales"                // price × prints
	StepBase         quoin.StepCode = "fair_base"                 // revenue × prints, for a commission of net sales
	StepRated        quoin.StepCode = "fair_commission_rated"     // rate × sales
	StepCommission   quoin.StepCode = "fair_commission"           // that, or the minimum
	StepContribution quoin.StepCode = "fair_contribution"         // kept × prints
	StepResult       quoin.StepCode = "fair_result"               // contribution − fixed − commission
	StepGoods        quoin.StepCode = "fair_goods"                // average goods at the mix
	StepOwnTime      quoin.StepCode = "fair_own_time"             // average own time in them at the mix
	StepLeft         quoin.StepCode = "fair_prints_left"          // taken − prints
	StepStock        quoin.StepCode = "fair_stock_left"           // prints left × goods
	StepPaidGoods    quoin.StepCode = "fair_goods_paid"           // goods − own time
	StepTakenGoods   quoin.StepCode = "fair_goods_taken"          // taken × that
	StepSoldGoods    quoin.StepCode = "fair_goods_sold"           // prints × goods
	StepCash         quoin.StepCode = "fair_cash"                 // result + goods sold − goods taken
	StepPerHour      quoin.StepCode = "fair_per_hour"             // result ÷ hours
	StepHoursWorth   quoin.StepCode = "fair_hours_worth"          // hours × hour worth
	StepAsked        quoin.StepCode = "fair_asked"                // the greater of that and the opportunity cost
	StepPerPrint     quoin.StepCode = "fair_commission_per_print" // rate × the base of one print
	StepAfter        quoin.StepCode = "fair_kept_after"           // kept − commission of one print
	StepBurden       quoin.StepCode = "fair_burden"               // fixed, with a minimum commission or what is asked
	StepByRate       quoin.StepCode = "fair_prints_by_rate"       // burden ÷ kept after
	StepByMinimum    quoin.StepCode = "fair_prints_by_minimum"    // burden with the minimum ÷ kept
	StepVolume       quoin.StepCode = "fair_prints"               // the greater of both
	StepVolumeSales  quoin.StepCode = "fair_prints_sales"         // prints × price
)

// PrintOperands is what one print brings, as operands of the caller.
type PrintOperands struct {
	Product              string
	Price, Revenue, Kept quoin.Operand
	Goods, OwnTime       quoin.Operand
}

// Given returns the figures of a print as operands, from the fields price, revenue, kept,
// goods and own_time at a path. Where it is zero, they are figures that no document gives.
func (p Print) Given(at quoin.Path) PrintOperands {
	given := func(name, field string, a quoin.Amount) quoin.Operand {
		if at.IsZero() {
			return quoin.Given(name, at, a.Figure())
		}
		return quoin.Given(name, at.Field(field), a.Figure())
	}
	return PrintOperands{
		Product: p.Product,
		Price:   given("price", "price", p.Price),
		Revenue: given("revenue", "revenue", p.Revenue),
		Kept:    given("kept", "kept", p.Kept),
		Goods:   given("goods", "goods", p.Goods),
		OwnTime: given("own time", "own_time", p.OwnTime),
	}
}

// OutcomeOperands are the figures of an Outcome as operands.
type OutcomeOperands struct {
	Fixed, Price, Revenue, Kept       quoin.Operand
	Sales, Commission, Result         quoin.Operand
	Cash, StockLeft, Asked            quoin.Operand
	PerHour                           quoin.Optional[quoin.Operand]
	BreakEven, BreakEvenSales, Needed quoin.Optional[quoin.Operand]
}

// Explain computes the outcome of a fair step by step. Fair.Plan must accept the fair, which
// stands at a path. The figures of the prints are the caller's.
func (f Fair) Explain(t *quoin.Trail, at quoin.Path, prints []PrintOperands) OutcomeOperands {
	e := explainer{t.On(f.name()), f, at}
	x := OutcomeOperands{Fixed: f.ExplainFixed(t, at)}
	mix := e.mixed(prints)
	x.Price = e.average(StepPrice, mix, func(g *PrintOperands) quoin.Operand { return g.Price })
	x.Revenue = e.average(StepRevenue, mix, func(g *PrintOperands) quoin.Operand { return g.Revenue })
	x.Kept = e.average(StepKept, mix, func(g *PrintOperands) quoin.Operand { return g.Kept })
	n := e.Given("prints", at.Field("prints"), f.Prints.Figure())
	x.Sales = e.Product(StepSales, at, x.Price, n)
	x.Commission = e.commission(x, n)
	x.Result = e.Sum(StepResult, at, e.Product(StepContribution, at, x.Kept, n), x.Fixed.Minus(), x.Commission.Minus())
	e.inThree(&x, mix, n)
	x.Asked = e.asked()
	if f.Hours.Sign() > 0 {
		x.PerHour = quoin.Some(e.Quotient(StepPerHour, at, x.Result, e.Given("hours", at.Field("hours"), f.Hours.Figure())))
	}
	x.volumes(e)
	return x
}

// ExplainFixed computes the fixed costs of going, step by step.
func (f Fair) ExplainFixed(t *quoin.Trail, at quoin.Path) quoin.Operand {
	e := explainer{t.On(f.name()), f, at}
	parts := []quoin.Operand{e.amount("stand", f.Stand)}
	if f.Jury.Sign() > 0 {
		chance := quoin.GivenOr("chance", at.Field("chance"), f.Chance.Or(whole()).Figure(), !f.Chance.IsZero())
		parts = append(parts, e.Quotient(StepJury, at, e.amount("jury", f.Jury), chance))
	}
	parts = append(parts, e.amount("travel", f.Travel))
	if f.Nights > 0 {
		nights := e.Given("nights", at.Field("nights"), quoin.FactorOf(f.Nights).Figure())
		parts = append(parts, e.Product(StepNights, at, e.amount("night", f.Night), nights))
	}
	parts = append(parts, e.amount("helper", f.Helper))
	if f.Display.Sign() > 0 {
		fairs := e.Given("display fairs", at.Field("display_fairs"), f.DisplayFairs.Figure())
		parts = append(parts, e.Quotient(StepDisplay, at, e.amount("display", f.Display), fairs))
	}
	for i, o := range f.Other {
		parts = append(parts, e.Given(o.Name, at.Sub("other", i).Field("amount"), o.Amount.Figure()))
	}
	return e.Sum(StepFixed, at, parts...)
}

type explainer struct {
	*quoin.Trail
	f  Fair
	at quoin.Path
}

// amount is money of the fair, zero by default.
func (e explainer) amount(field string, a quoin.Amount) quoin.Operand {
	if a.IsZero() {
		return quoin.GivenOr(field, e.at.Field(field), a.Figure(), false)
	}
	return e.Given(field, e.at.Field(field), a.Figure())
}

func (e explainer) rate() quoin.Operand {
	return quoin.GivenOr("commission", e.at.Field("commission"), e.f.Commission.Figure(), !e.f.Commission.IsZero())
}

func (e explainer) minimum() quoin.Operand {
	return e.amount("commission_at_least", e.f.CommissionAtLeast)
}

// mixed is the mix: of each print its figures, and pairs of operands with the shares in them.
type mixed struct {
	prints []*PrintOperands
	pairs  []quoin.Operand
}

func (e explainer) mixed(prints []PrintOperands) mixed {
	byName := make(map[string]*PrintOperands, len(prints))
	for i := range prints {
		byName[prints[i].Product] = &prints[i]
	}
	m := mixed{make([]*PrintOperands, len(e.f.Mix)), make([]quoin.Operand, 2*len(e.f.Mix))}
	for i, s := range e.f.Mix {
		if m.prints[i] = byName[s.Product]; m.prints[i] == nil {
			m.prints[i] = new(PrintOperands)
		}
		m.pairs[2*i+1] = e.Given("share of "+s.Product, e.at.Sub("mix", i).Field("share"), s.Share.Figure())
	}
	return m
}

// average weights a figure of each print of the mix by its share.
func (e explainer) average(code quoin.StepCode, m mixed, of func(*PrintOperands) quoin.Operand) quoin.Operand {
	for i, p := range m.prints {
		m.pairs[2*i] = of(p)
	}
	return e.Weighted(code, e.at, m.pairs...)
}

func (e explainer) commission(x OutcomeOperands, n quoin.Operand) quoin.Operand {
	base := x.Sales
	if e.f.CommissionOf == Net {
		base = e.Product(StepBase, e.at, x.Revenue, n)
	}
	rated := e.Product(StepRated, e.at, base, e.rate())
	return e.Greatest(StepCommission, e.at, rated, e.minimum())
}

// inThree is the cash and the stock of a fair, beside its result.
func (e explainer) inThree(x *OutcomeOperands, mix mixed, sold quoin.Operand) {
	goods := e.average(StepGoods, mix, func(g *PrintOperands) quoin.Operand { return g.Goods })
	own := e.average(StepOwnTime, mix, func(g *PrintOperands) quoin.Operand { return g.OwnTime })
	taken := sold.Named("as many as are sold")
	if e.f.Taken.Sign() > 0 {
		taken = e.Given("taken", e.at.Field("taken"), e.f.Taken.Figure())
	}
	x.StockLeft = e.Product(StepStock, e.at, goods, e.Sum(StepLeft, e.at, taken, sold.Minus()))
	paid := e.Product(StepTakenGoods, e.at, e.Sum(StepPaidGoods, e.at, goods, own.Minus()), taken)
	x.Cash = e.Sum(StepCash, e.at, x.Result, e.Product(StepSoldGoods, e.at, goods, sold), paid.Minus())
}

func (e explainer) asked() quoin.Operand {
	worth := e.Product(StepHoursWorth, e.at, e.amount("hour_worth", e.f.HourWorth),
		quoin.GivenOr("hours", e.at.Field("hours"), e.f.Hours.Figure(), !e.f.Hours.IsZero()))
	return e.Greatest(StepAsked, e.at, e.amount("opportunity_cost", e.f.OpportunityCost), worth)
}

// volumes are how many prints bear what going costs, without and with what is asked; none
// where a print keeps nothing after the commission.
func (x *OutcomeOperands) volumes(e explainer) {
	base := x.Price
	if e.f.CommissionOf == Net {
		base = x.Revenue
	}
	after := e.Sum(StepAfter, e.at, x.Kept, e.Product(StepPerPrint, e.at, base, e.rate()).Minus())
	if after.Value.Factor().Sign() <= 0 {
		return
	}
	n := e.volume(after, x.Kept, x.Fixed)
	x.BreakEven = quoin.Some(n)
	x.BreakEvenSales = quoin.Some(e.Product(StepVolumeSales, e.at, x.Price, n))
	x.Needed = quoin.Some(e.volume(after, x.Kept, x.Fixed, x.Asked))
}

// volume is how many prints bear a burden. The result is the lesser of two lines, one under
// the minimum commission and one under the rate; it is up to zero once both are, so the
// greater of their zeros counts.
func (e explainer) volume(after, kept quoin.Operand, burden ...quoin.Operand) quoin.Operand {
	byRate := e.Quotient(StepByRate, e.at, e.Sum(StepBurden, e.at, burden...), after)
	if e.f.CommissionAtLeast.Sign() <= 0 {
		return e.Greatest(StepVolume, e.at, byRate)
	}
	least := e.Sum(StepBurden, e.at, append(burden, e.minimum())...)
	return e.Greatest(StepVolume, e.at, byRate, e.Quotient(StepByMinimum, e.at, least, kept))
}
