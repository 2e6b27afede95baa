package margin

import (
	"encoding/json"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/cost"
	"example.com/quoin/waste"
)

// Codes of the steps that explain a statement, one for each of its lines, and
// of those that lead there.
const (
	StepPerItem      quoin.StepCode = "goods_per_item"    // lines − salvage + run
	StepPerOrder     quoin.StepCode = "goods_per_order"   // lines that a parcel takes once
	StepOrderCost    quoin.StepCode = "order_cost"        // per item × items + per order
	StepOrderGoods   quoin.StepCode = "order_goods"       // × (1 + contingency) ÷ (1 − loss)
	StepOrderItems   quoin.StepCode = "items_per_order"   // Σ share × items
	StepTotal        quoin.StepCode = "weighted_total"    // Σ share × figure
	StepRevenue      quoin.StepCode = "revenue"           // per item, like all that follow
	StepTax          quoin.StepCode = "tax_passed_on"     //
	StepGoods        quoin.StepCode = "goods"             //
	StepGross        quoin.StepCode = "gross"             //
	StepFees         quoin.StepCode = "fees"              //
	StepFulfilment   quoin.StepCode = "fulfilment"        //
	StepSelling      quoin.StepCode = "selling"           //
	StepContribution quoin.StepCode = "contribution"      //
	StepOverhead     quoin.StepCode = "overhead"          //
	StepOperating    quoin.StepCode = "operating"         //
	StepTaxedIncome  quoin.StepCode = "operating_above_0" //
	StepIncomeTax    quoin.StepCode = "income_tax"        //
	StepNet          quoin.StepCode = "net"               //
)

// Ledger is one product in one channel as a document gives it: what a
// statement is explained from.
type Ledger struct {
	Currency    quoin.Currency
	Supplies    []cost.Supply
	Supply      map[string]int // index in Supplies, by id
	Stages      waste.Route
	Contingency quoin.Rate
	Bill        cost.Bill
	Packing     cost.Bill
	PackingName string
	Run         cost.Run
	Channel     channel.Channel
	Overhead    channel.Period
	IncomeTax   quoin.Rate
	// ProductAt and ChannelAt are where product and channel stand.
	ProductAt, ChannelAt quoin.Path
}

// Explain computes the statement of one item at a list price step by step, from
// what is given to net. Every line of the statement is the value of the step
// with its code. The ledger is one that Recipe and Channel accept.
func (l Ledger) Explain(list quoin.Amount) []quoin.Step {
	e := explainer{Trail: quoin.NewTrail(24 + 4*len(l.Bill) + 4*len(l.Packing) + len(l.Channel.Orders)*(9+5*len(l.Channel.Fees))), l: l}
	perItem, perOrder := e.goods()
	e.statement(list, perItem, perOrder)
	return e.Steps()
}

// Explanation is a statement's reasons: the ledger it rests on and the list
// price. Its steps are computed when they are asked for; there is no way to
// have the statement without them.
type Explanation struct {
	Ledger Ledger
	List   quoin.Amount
}

// Steps returns the steps, from what the document gives to net: each line of
// the statement is the value of the step with its code.
func (e Explanation) Steps() []quoin.Step { return e.Ledger.Explain(e.List) }

// MarshalJSON writes the steps.
func (e Explanation) MarshalJSON() ([]byte, error) { return json.Marshal(e.Steps()) }

type explainer struct {
	*quoin.Trail
	l Ledger
}

func stageAt(i int) quoin.Path { return quoin.InList("stages", i) }

func literal(name string, n int64) quoin.Operand {
	return quoin.Given(name, quoin.Path{}, quoin.FactorOf(n).Figure())
}

func nothing(code quoin.StepCode) quoin.Operand {
	return quoin.Given(string(code), quoin.Path{}, quoin.Amount{}.Figure())
}

// goods explains the goods of an item and of an order.
func (e explainer) goods() (perItem, perOrder quoin.Operand) {
	starts := make([]quoin.Operand, len(e.l.Stages)+1)
	for i := range starts {
		starts[i] = e.l.Stages.ExplainStarts(e.Trail, i, stageAt)
	}
	units := make(map[string]quoin.Operand)
	var items, orders, used []quoin.Operand
	line := func(l cost.Line, at quoin.Path, ofBill bool) {
		total, quantity := e.line(l, at, units, starts)
		if l.ForOrder() {
			orders = append(orders, total)
			return
		}
		items = append(items, total)
		if ofBill && l.UsedByTest(e.l.Stages.First()) {
			used = append(used, units[l.Supply], quantity)
		}
	}
	for i, l := range e.l.Bill {
		line(l, e.l.ProductAt.Sub("bill", i), true)
	}
	for i, l := range e.l.Packing {
		line(l, e.l.ProductAt.Named("packing", e.l.PackingName, i), false)
	}
	for i, s := range e.l.Stages {
		if !s.Recovery.IsZero() {
			items = append(items, e.l.Stages.ExplainSalvage(e.Trail, i, stageAt, starts[i], starts[i+1]).Minus())
		}
	}
	if e.l.Run.Good > 0 {
		items = append(items, e.l.Run.Explain(e.Trail, e.l.ProductAt.Sub("run", -1), used...))
	}
	e.On("")
	return e.total(StepPerItem, items), e.total(StepPerOrder, orders)
}

func (e explainer) total(code quoin.StepCode, parts []quoin.Operand) quoin.Operand {
	if len(parts) == 0 {
		return nothing(code)
	}
	return e.Sum(code, e.l.ProductAt, parts...)
}

func (e explainer) line(l cost.Line, at quoin.Path, units map[string]quoin.Operand, starts []quoin.Operand) (total, quantity quoin.Operand) {
	i := e.l.Supply[l.Supply]
	s := e.l.Supplies[i]
	unit, known := units[l.Supply]
	if !known {
		unit = s.Explain(e.Trail, quoin.InList("supplies", i))
		units[l.Supply] = unit
	}
	c := cost.Charge{Line: l, Unit: cost.UnitCost{Unit: s.Quantity.Unit()}}
	if l.Stage == "" {
		return c.Explain(e.Trail, at, unit)
	}
	for j, stage := range e.l.Stages {
		if stage.ID == l.Stage {
			return c.Explain(e.Trail, at, unit, starts[j])
		}
	}
	return c.Explain(e.Trail, at, unit)
}

// perItem averages a figure over the kinds of order.
type perItem struct {
	shares []quoin.Operand // of each kind of order
	items  quoin.Operand   // of an average order
}

func (e explainer) statement(list quoin.Amount, itemCost, orderCost quoin.Operand) {
	price := quoin.Given("list price", quoin.Path{}, list.Figure())
	n := max(len(e.l.Channel.Orders), 1)
	settled := make([]channel.Settled, n)
	goods := make([]quoin.Operand, n)
	var weights []quoin.Operand
	var avg perItem
	for i := range n {
		settled[i] = e.l.Channel.Explain(e.Trail, e.l.ChannelAt, e.l.Currency, i, price)
		goods[i] = e.orderGoods(i, settled[i].Count, itemCost, orderCost)
		avg.shares = append(avg.shares, settled[i].Share)
		weights = append(weights, settled[i].Share, settled[i].Count)
	}
	avg.items = e.Weighted(StepOrderItems, e.l.ChannelAt, weights...)
	figure := func(code quoin.StepCode, of func(i int) quoin.Operand) quoin.Operand {
		return e.average(code, avg, of)
	}
	revenue := figure(StepRevenue, func(i int) quoin.Operand { return settled[i].Revenue })
	figure(StepTax, func(i int) quoin.Operand { return settled[i].Tax })
	cogs := figure(StepGoods, func(i int) quoin.Operand { return goods[i] })
	fees := figure(StepFees, func(i int) quoin.Operand { return settled[i].Fees })
	fulfilment := figure(StepFulfilment, func(i int) quoin.Operand { return settled[i].Fulfilment })
	selling := e.period(StepSelling, e.l.ChannelAt.Sub("period", -1), e.l.Channel.Period)
	overhead := e.period(StepOverhead, quoin.Path{}.Sub("overhead", -1), e.l.Overhead)
	at := e.l.ChannelAt
	gross := e.Sum(StepGross, at, revenue, cogs.Minus())
	contribution := e.Sum(StepContribution, at, gross, fees.Minus(), fulfilment.Minus(), selling.Minus())
	operating := e.Sum(StepOperating, at, contribution, overhead.Minus())
	taxed := e.Greatest(StepTaxedIncome, at, operating, nothing("nothing"))
	tax := e.Product(StepIncomeTax, at, taxed,
		quoin.GivenOr("income tax", quoin.InField("income_tax"), e.l.IncomeTax.Figure(), !e.l.IncomeTax.IsZero()))
	e.Sum(StepNet, at, operating, tax.Minus())
}

func (e explainer) orderGoods(i int, count, itemCost, orderCost quoin.Operand) quoin.Operand {
	at := e.l.ChannelAt
	if len(e.l.Channel.Orders) > 0 {
		at = at.Sub("orders", i)
	}
	whole := e.Weighted(StepOrderCost, at, itemCost, count, orderCost, literal("one", 1))
	return e.Quotient(StepOrderGoods, at, whole,
		quoin.GivenOr("contingency", quoin.InField("contingency"), e.l.Contingency.Figure(), !e.l.Contingency.IsZero()).OnePlus(),
		quoin.GivenOr("loss", e.l.ChannelAt.Field("loss"), e.l.Channel.Loss.Figure(), !e.l.Channel.Loss.IsZero()).OneMinus())
}

func (e explainer) average(code quoin.StepCode, avg perItem, of func(i int) quoin.Operand) quoin.Operand {
	pairs := make([]quoin.Operand, 0, 2*len(avg.shares))
	for i, share := range avg.shares {
		pairs = append(pairs, of(i), share)
	}
	return e.Quotient(code, e.l.ChannelAt, e.Weighted(StepTotal, e.l.ChannelAt, pairs...), avg.items)
}

func (e explainer) period(code quoin.StepCode, at quoin.Path, p channel.Period) quoin.Operand {
	if p.Cost.IsZero() {
		return e.Sum(code, at, quoin.GivenOr("cost", at.Field("cost"), quoin.Amount{}.Figure(), false))
	}
	return e.Quotient(code, at,
		quoin.Given("cost", at.Field("cost"), p.Cost.Figure()), quoin.Given("items", at.Field("items"), p.Items.Figure()))
}
