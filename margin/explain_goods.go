package margin

import (
	"maps"
	"slices"

	"example.com/quoin"
	"example.com/quoin/cost"
)

// making is what an item and an order cost, and how much of that is working
// time of each kind.
type making struct {
	costs
	own, paid *labour
}

// costs is what an item and an order cost; made is the item without packing, where
// anything is sold again.
type costs struct{ perItem, perOrder, made quoin.Operand }

// labour is working time of one kind, packed in one way: per item, of it without
// packing, and per order.
type labour struct{ items, made, orders []quoin.Operand }

func (t *labour) none() bool { return t == nil || len(t.items)+len(t.orders) == 0 }

// makings explains the goods of each kind of order, once for all that are packed
// alike.
func (e explainer) makings(kinds []int) []making {
	type way struct {
		name    string
		parcels int64
	}
	known := make(map[way]making)
	var out []making
	for _, order := range kinds {
		packed := PackingList{Name: e.l.PackingName, Bill: e.l.Packing}
		if order >= 0 && order < len(e.l.Packed) {
			packed = e.l.Packed[order]
		}
		m, done := known[way{packed.Name, packed.Parcels}]
		if !done {
			m = e.goods(packed)
			known[way{packed.Name, packed.Parcels}] = m
		}
		out = append(out, m)
	}
	return out
}

// goods explains the goods of an item and of an order, packed in one way.
func (e explainer) goods(packed PackingList) making {
	if _, printed := e.l.Channel.Prints(); printed {
		base := e.l.Channel.ExplainPrints(e.Trail, e.l.ChannelAt)
		return making{costs: costs{perItem: e.Sum(StepPerItem, e.l.ProductAt, base), perOrder: nothing(StepPerOrder)}}
	}
	of := e.Once(e.l.ProductAt.Named("packing", packed.Name, int(packed.Parcels)), func() any { return e.packed(packed) }).(*billing)
	e.On("")
	made := e.withoutPacking(of.made)
	return making{
		costs: costs{e.total(StepPerItem, of.items), e.total(StepPerOrder, of.orders), made},
		own:   of.time[cost.OwnTime], paid: of.time[cost.PaidTime],
	}
}

// packed explains what goes into an item and an order, packed in one way: for a journal once for
// all channels.
func (e explainer) packed(packed PackingList) *billing {
	b := e.Once(e.l.ProductAt.Sub("bill", -1), func() any { return e.bill() }).(*billing).copied()
	b.explainer, b.parcels = e, packed.Parcels
	for i := range packed.Bill {
		b.line(&packed.Bill[i], e.l.ProductAt.Named("packing", packed.Name, i), false)
	}
	for i, s := range e.l.Stages {
		if !s.Recovers().IsZero() {
			b.both(e.l.Stages.ExplainSalvage(e.Trail, i, stageAt, b.starts[i], b.starts[i+1]).Minus())
		}
	}
	if e.l.Run.Good > 0 {
		b.both(e.l.Run.Explain(e.Trail, e.runAt(), b.used...))
	}
	return b
}

// bill explains the lines of the bill.
func (e explainer) bill() *billing {
	b := &billing{explainer: e, units: make(map[string]quoin.Operand), time: map[cost.Labour]*labour{cost.OwnTime: {}, cost.PaidTime: {}}}
	b.starts = make([]quoin.Operand, len(e.l.Stages)+1)
	for i := range b.starts {
		b.starts[i] = e.l.Stages.ExplainStarts(e.Trail, i, stageAt)
	}
	b.items = make([]quoin.Operand, 0, len(e.l.Bill))
	b.used = make([]quoin.Operand, 0, 2*len(e.l.Bill))
	for i := range e.l.Bill {
		b.line(&e.l.Bill[i], e.billAt(i), true)
	}
	b.made = b.items
	return b
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
	made          []quoin.Operand // items without packing
	used          []quoin.Operand // by a test: unit cost and quantity in turn
	parcels       int64           // that a packing list is taken for
	time          map[cost.Labour]*labour
}

// copied is a bill that more can be added to.
func (b *billing) copied() *billing {
	c := *b
	c.units, c.time = maps.Clone(b.units), make(map[cost.Labour]*labour, len(b.time))
	for kind, l := range b.time {
		c.time[kind] = &labour{slices.Clip(l.items), slices.Clip(l.made), slices.Clip(l.orders)}
	}
	c.items, c.made, c.orders = slices.Clip(b.items), slices.Clip(b.made), slices.Clip(b.orders)
	return &c
}

// line adds a line of the bill, or of the packing list.
func (b *billing) line(l *cost.BillLine, at quoin.Path, ofBill bool) {
	i := b.l.Supply[l.Supply]
	s := &b.l.Supplies[i]
	unit := b.unit(l.Supply, i)
	good := b.Given("good", b.runAt().Field("good"), quoin.FactorOf(b.l.Run.Good).Figure())
	c := cost.Charge{Line: l, Unit: cost.UnitCost{Unit: s.Quantity.Unit()}}
	total, quantity := c.Explain(b.Trail, at, unit, b.startsOf(l.Stage), good)
	tested := ofBill && l.UsedByTest(b.l.Stages.First())
	if tested {
		b.used = append(b.used, unit, quantity)
	}
	if l.ForOrder() && !ofBill && b.parcels > 1 {
		total = b.Product(StepParcels, at, total, quoin.FactorOf(b.parcels).Named("parcels"))
	}
	if l.ForOrder() {
		b.orders = append(b.orders, total)
	} else {
		b.items = append(b.items, total)
	}
	time, labour := b.time[s.Labour]
	if !labour {
		return
	}
	time.add(l, total, ofBill)
	if tested && !l.ForOrder() && b.l.Run.Good > 0 && b.l.Run.Tests > 0 {
		tests := b.Given("tests", b.runAt().Field("tests"), quoin.FactorOf(b.l.Run.Tests).Figure())
		time.add(l, b.Quotient(cost.StepRun, at, unit, quantity, tests, good), true)
	}
}

// add adds what a line costs, and whether that is part of making an item.
func (t *labour) add(l *cost.BillLine, total quoin.Operand, ofBill bool) {
	if l.ForOrder() {
		t.orders = append(t.orders, total)
		return
	}
	t.items = append(t.items, total)
	if ofBill {
		t.made = append(t.made, total)
	}
}

// both adds what is part of an item, and of making it.
func (b *billing) both(o quoin.Operand) { b.items, b.made = append(b.items, o), append(b.made, o) }

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
