package margin

import (
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
	StepParcels      quoin.StepCode = "goods_per_parcels" // what one parcel takes × parcels
	StepMade         quoin.StepCode = "made_per_item"     // of goods per item: without packing
	StepBack         quoin.StepCode = "sold_again"        // what need not be made again: made × items × share
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
	StepFixedCost    quoin.StepCode = "fixed_cost"        //
	StepContribution quoin.StepCode = "contribution"      //
	StepOverhead     quoin.StepCode = "overhead"          //
	StepOperating    quoin.StepCode = "operating"         //
	StepTaxedIncome  quoin.StepCode = "operating_above_0" //
	StepIncomeTax    quoin.StepCode = "income_tax"        //
	StepNet          quoin.StepCode = "net"               //
)

// StatementInputs is one product in one channel as a document gives it. A statement is
// explained from it.
type StatementInputs struct {
	Currency    quoin.Currency
	Supplies    []cost.Supply
	Supply      map[string]int // index in Supplies, by id
	Stages      waste.Route
	Contingency quoin.Rate
	Bill        cost.Bill
	Packing     cost.Bill
	PackingName string
	// Packed has one packing list for each order of the channel's list. It is nil if all
	// orders use Packing.
	Packed    []PackingList
	Run       cost.Run
	Channel   channel.Channel
	Overhead  channel.FixedCost
	IncomeTax quoin.Rate
	// ProductAt and ChannelAt are the paths of product and channel.
	ProductAt, ChannelAt quoin.Path
	// BillAt has the path of each line of the bill, if some are another product's. Nil
	// means that all stand in order under ProductAt. RunAt is the path of the run; the zero
	// path means under ProductAt.
	BillAt []quoin.Path
	RunAt  quoin.Path
	// SupplyAt has the path of each supply. Nil means that all stand in supplies.
	SupplyAt []quoin.Path
	// Origins explain the figures that the document does not give itself, by their paths.
	Origins map[quoin.Path]quoin.Origin
}

// PackingList is a packing list of the product, its name, and how many parcels an order takes;
// 0 means 1.
type PackingList struct {
	Name    string
	Bill    cost.Bill
	Parcels int64
}

// Explain computes the statement of one item at a list price step by step, from the given
// figures to net income. Every line of the statement is the value of the step with its code.
// Recipe.Check and Channel.Check must accept the inputs.
func (l StatementInputs) Explain(list quoin.Amount) []quoin.Step {
	t := quoin.NewTrail(24 + 4*len(l.Bill) + 4*len(l.Packing) + len(l.Channel.Orders)*(9+5*len(l.Channel.Fees)))
	l.ExplainOn(t, list)
	return t.Steps()
}

// ExplainOn is Explain on a trail of the caller.
func (l StatementInputs) ExplainOn(t *quoin.Trail, list quoin.Amount) {
	t.Rests(l.Origins)
	explainer{t, &l}.statement(list)
}

type explainer struct {
	*quoin.Trail
	l *StatementInputs
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

func (e explainer) statement(list quoin.Amount) {
	kinds := e.l.Channel.Kinds()
	made := e.makings(kinds)
	price := quoin.Given("list price", quoin.Path{}, list.Figure())
	settled := make([]channel.OrderFigures, len(kinds))
	goods := make([]quoin.Operand, len(kinds))
	weights := make([]quoin.Operand, 0, 2*len(kinds))
	avg := perItem{shares: make([]quoin.Operand, 0, len(kinds))}
	for i, order := range e.l.Channel.ExplainOrders(e.Trail, e.l.ChannelAt, e.l.Currency, price) {
		settled[i] = order
		goods[i] = e.orderGoods(kinds[i], &settled[i], made[i].costs)
		avg.shares = append(avg.shares, order.Share)
		weights = append(weights, order.Share, order.Count)
	}
	avg.items = e.Weighted(StepOrderItems, e.l.ChannelAt, weights...)
	figure := func(code quoin.StepCode, of func(i int) quoin.Operand) quoin.Operand { return e.average(code, avg, of) }
	revenue := figure(StepRevenue, func(i int) quoin.Operand { return settled[i].Revenue })
	figure(StepTax, func(i int) quoin.Operand { return settled[i].Tax })
	cogs := figure(StepGoods, func(i int) quoin.Operand { return goods[i] })
	e.time(StepOwnTime, kinds, settled, avg, func(i int) *labour { return made[i].own })
	e.time(StepPaidTime, kinds, settled, avg, func(i int) *labour { return made[i].paid })
	fees := figure(StepFees, func(i int) quoin.Operand { return settled[i].Fees })
	fulfilment := figure(StepFulfilment, func(i int) quoin.Operand { return settled[i].Fulfilment })
	fixedCost := e.period(StepFixedCost, e.l.ChannelAt.Sub("fixed_cost", -1), e.l.Channel.FixedCost)
	overhead := e.period(StepOverhead, quoin.Path{}.Sub("overhead", -1), e.l.Overhead)
	at := e.l.ChannelAt
	gross := e.Sum(StepGross, at, revenue, cogs.Minus())
	contribution := e.Sum(StepContribution, at, gross, fees.Minus(), fulfilment.Minus(), fixedCost.Minus())
	operating := e.Sum(StepOperating, at, contribution, overhead.Minus())
	taxed := e.Greatest(StepTaxedIncome, at, operating, nothing("nothing"))
	tax := e.Product(StepIncomeTax, at, taxed,
		quoin.GivenOr("income tax", quoin.InField("income_tax"), e.l.IncomeTax.Figure(), !e.l.IncomeTax.IsZero()))
	e.Sum(StepNet, at, operating, tax.Minus())
}

// orderGoods explains the goods of one order, which stands at a place in the
// channel's list, −1 where it has none.
func (e explainer) orderGoods(order int, settled *channel.OrderFigures, of costs) quoin.Operand {
	at, c, count := e.l.ChannelAt, e.l.Channel, settled.Count
	if order >= 0 {
		at = at.Sub("orders", order)
	}
	if cost, _ := of.perOrder.Value.Amount(); !cost.IsZero() {
		of.perOrder = settled.Order.ExplainOfOrder(e.Trail, at, of.perOrder, count)
	}
	whole := e.Weighted(StepOrderCost, at, of.perItem, count, of.perOrder, quoin.FactorOf(1).Named("one"))
	if _, printed := c.Prints(); printed {
		return whole
	}
	if !c.Back().IsZero() {
		back := e.Product(StepBack, at, of.made, count, c.ExplainBack(e.Trail, e.l.ChannelAt))
		whole = e.Sum(StepOrderCost, at, whole, back.Minus())
	}
	return e.Quotient(StepOrderGoods, at, whole,
		quoin.GivenOr("contingency", quoin.InField("contingency"), e.l.Contingency.Figure(), !e.l.Contingency.IsZero()).OnePlus(),
		c.ExplainLost(e.Trail, e.l.ChannelAt).OneMinus())
}

// time explains how much of the goods is working time of one kind: of the labour
// of each kind of order, added up once for all that are packed alike.
func (e explainer) time(code quoin.StepCode, kinds []int, settled []channel.OrderFigures, avg perItem, of func(kind int) *labour) {
	any := false
	for i := range kinds {
		any = any || !of(i).none()
	}
	if !any {
		return
	}
	known := make(map[*labour]costs)
	e.average(code, avg, func(i int) quoin.Operand {
		l := of(i)
		time, done := known[l]
		if !done {
			time = costs{e.total(StepItemTime, l.items), e.total(StepOrderTime, l.orders), e.withoutPacking(l.made)}
			known[l] = time
		}
		return e.orderGoods(kinds[i], &settled[i], time)
	})
}

// withoutPacking is what making an item takes, where anything is sold again.
func (e explainer) withoutPacking(parts []quoin.Operand) quoin.Operand {
	if e.l.Channel.Back().IsZero() {
		return nothing(StepMade)
	}
	return e.total(StepMade, parts)
}

func (e explainer) average(code quoin.StepCode, avg perItem, of func(i int) quoin.Operand) quoin.Operand {
	pairs := make([]quoin.Operand, 0, 8) // of four kinds without the heap
	for i, share := range avg.shares {
		pairs = append(pairs, of(i), share)
	}
	return e.Quotient(code, e.l.ChannelAt, e.Weighted(StepTotal, e.l.ChannelAt, pairs...), avg.items)
}

func (e explainer) period(code quoin.StepCode, at quoin.Path, p channel.FixedCost) quoin.Operand {
	if p.Cost.IsZero() {
		return e.Sum(code, at, quoin.GivenOr("cost", at.Field("cost"), quoin.Amount{}.Figure(), false))
	}
	return e.Quotient(code, at,
		quoin.Given("cost", at.Field("cost"), p.Cost.Figure()), quoin.Given("items", at.Field("items"), p.Items.Figure()))
}
