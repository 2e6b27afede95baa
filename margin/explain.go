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
	StepItemTime     quoin.StepCode = "time_per_item"     // working time in goods per item
	StepOrderTime    quoin.StepCode = "time_per_order"    // working time in goods per order
	StepOwnTime      quoin.StepCode = "own_time"          // in goods, where there is any
	StepPaidTime     quoin.StepCode = "paid_time"         // in goods, where there is any
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
	// BillAt is where each line of the bill stands, where some are another
	// product's; none means all in order under ProductAt. RunAt is where the
	// run stands; the zero path means under ProductAt.
	BillAt []quoin.Path
	RunAt  quoin.Path
	// SupplyAt is where each supply stands, where not all stand in supplies.
	SupplyAt []quoin.Path
	// Origins explain the figures that the document does not give itself, by
	// where they stand.
	Origins map[quoin.Path]quoin.Origin
}

// Explain computes the statement of one item at a list price step by step, from
// what is given to net. Every line of the statement is the value of the step
// with its code. The ledger is one that Recipe and Channel accept.
func (l Ledger) Explain(list quoin.Amount) []quoin.Step {
	e := explainer{Trail: quoin.NewTrail(24 + 4*len(l.Bill) + 4*len(l.Packing) + len(l.Channel.Orders)*(9+5*len(l.Channel.Fees))), l: l}
	e.Rests(l.Origins)
	e.statement(list, e.goods())
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

func nothing(code quoin.StepCode) quoin.Operand {
	return quoin.Given(string(code), quoin.Path{}, quoin.Amount{}.Figure())
}

// perItem averages a figure over the kinds of order.
type perItem struct {
	shares []quoin.Operand // of each kind of order
	items  quoin.Operand   // of an average order
}

func (e explainer) statement(list quoin.Amount, m making) {
	price := quoin.Given("list price", quoin.Path{}, list.Figure())
	n := max(len(e.l.Channel.Orders), 1)
	settled := make([]channel.Settled, n)
	goods := make([]quoin.Operand, n)
	var weights []quoin.Operand
	var avg perItem
	for i := range n {
		settled[i] = e.l.Channel.Explain(e.Trail, e.l.ChannelAt, e.l.Currency, i, price)
		goods[i] = e.orderGoods(i, settled[i].Count, m.perItem, m.perOrder)
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
	e.time(StepOwnTime, m.own, settled, avg)
	e.time(StepPaidTime, m.paid, settled, avg)
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
	whole := e.Weighted(StepOrderCost, at, itemCost, count, orderCost, quoin.FactorOf(1).Called("one"))
	return e.Quotient(StepOrderGoods, at, whole,
		quoin.GivenOr("contingency", quoin.InField("contingency"), e.l.Contingency.Figure(), !e.l.Contingency.IsZero()).OnePlus(),
		quoin.GivenOr("loss", e.l.ChannelAt.Field("loss"), e.l.Channel.Loss.Figure(), !e.l.Channel.Loss.IsZero()).OneMinus())
}

// time explains how much of the goods is working time of one kind.
func (e explainer) time(code quoin.StepCode, l labour, settled []channel.Settled, avg perItem) {
	if l.none() {
		return
	}
	items, orders := e.total(StepItemTime, l.items), e.total(StepOrderTime, l.orders)
	e.average(code, avg, func(i int) quoin.Operand { return e.orderGoods(i, settled[i].Count, items, orders) })
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
