package margin

import (
	"example.com/quoin"
	"example.com/quoin/cost"
)

// making is what an item and an order cost, and how much of that is working
// time of each kind.
type making struct {
	perItem, perOrder quoin.Operand
	own, paid         labour
}

type labour struct{ items, orders []quoin.Operand }

func (l labour) none() bool { return len(l.items)+len(l.orders) == 0 }

// goods explains the goods of an item and of an order.
func (e explainer) goods() making {
	starts := make([]quoin.Operand, len(e.l.Stages)+1)
	for i := range starts {
		starts[i] = e.l.Stages.ExplainStarts(e.Trail, i, stageAt)
	}
	b := billing{explainer: e, starts: starts, units: make(map[string]quoin.Operand), time: make(map[cost.Labour]*labour)}
	for i, l := range e.l.Bill {
		b.line(l, e.billAt(i), true)
	}
	for i, l := range e.l.Packing {
		b.line(l, e.l.ProductAt.Named("packing", e.l.PackingName, i), false)
	}
	for i, s := range e.l.Stages {
		if !s.Recovers().IsZero() {
			b.items = append(b.items, e.l.Stages.ExplainSalvage(e.Trail, i, stageAt, starts[i], starts[i+1]).Minus())
		}
	}
	if e.l.Run.Good > 0 {
		b.items = append(b.items, e.l.Run.Explain(e.Trail, e.runAt(), b.used...))
	}
	e.On("")
	return making{
		perItem: e.total(StepPerItem, b.items), perOrder: e.total(StepPerOrder, b.orders),
		own: b.labour(cost.OwnTime), paid: b.labour(cost.PaidTime),
	}
}

func (e explainer) billAt(i int) quoin.Path {
	if i < len(e.l.BillAt) {
		return e.l.BillAt[i]
	}
	return e.l.ProductAt.Sub("bill", i)
}

func (e explainer) runAt() quoin.Path {
	if e.l.RunAt.IsZero() {
		return e.l.ProductAt.Sub("run", -1)
	}
	return e.l.RunAt
}

func (e explainer) total(code quoin.StepCode, parts []quoin.Operand) quoin.Operand {
	if len(parts) == 0 {
		return nothing(code)
	}
	return e.Sum(code, e.l.ProductAt, parts...)
}

// billing gathers the lines of a bill and what they come to.
type billing struct {
	explainer
	starts        []quoin.Operand
	units         map[string]quoin.Operand // unit costs, by supply
	items, orders []quoin.Operand
	used          []quoin.Operand // by a test: unit cost and quantity in turn
	time          map[cost.Labour]*labour
}

func (b *billing) line(l cost.Line, at quoin.Path, ofBill bool) {
	i := b.l.Supply[l.Supply]
	s := b.l.Supplies[i]
	unit := b.unit(l.Supply, i)
	good := b.Given("good", b.runAt().Field("good"), quoin.FactorOf(b.l.Run.Good).Figure())
	c := cost.Charge{Line: l, Unit: cost.UnitCost{Unit: s.Quantity.Unit()}}
	total, quantity := c.Explain(b.Trail, at, unit, b.startsOf(l.Stage), good)
	tested := ofBill && l.UsedByTest(b.l.Stages.First())
	if tested {
		b.used = append(b.used, unit, quantity)
	}
	time := b.timeOf(s.Labour)
	if l.ForOrder() {
		b.orders = append(b.orders, total)
		time.orders = append(time.orders, total)
		return
	}
	b.items = append(b.items, total)
	time.items = append(time.items, total)
	if tested && s.Labour != "" && b.l.Run.Good > 0 && b.l.Run.Tests > 0 {
		tests := b.Given("tests", b.runAt().Field("tests"), quoin.FactorOf(b.l.Run.Tests).Figure())
		time.items = append(time.items, b.Quotient(cost.StepRun, at, unit, quantity, tests, good))
	}
}

// unit explains what one unit of supply i costs, once.
func (b *billing) unit(id string, i int) quoin.Operand {
	unit, known := b.units[id]
	if known {
		return unit
	}
	at := quoin.InList("supplies", i)
	if i < len(b.l.SupplyAt) {
		at = b.l.SupplyAt[i]
	}
	unit, rested := b.Rested(string(cost.StepUnitCost), at)
	if !rested {
		unit = b.l.Supplies[i].Explain(b.Trail, at)
	}
	b.units[id] = unit
	return unit
}

func (b *billing) startsOf(stage string) quoin.Operand {
	for j, s := range b.l.Stages {
		if s.ID == stage {
			return b.starts[j]
		}
	}
	return b.starts[len(b.l.Stages)]
}

func (b *billing) timeOf(kind cost.Labour) *labour {
	if b.time[kind] == nil {
		b.time[kind] = &labour{}
	}
	return b.time[kind]
}

func (b *billing) labour(kind cost.Labour) labour { return *b.timeOf(kind) }
