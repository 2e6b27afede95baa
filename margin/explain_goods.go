package margin

import (
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

func (l *labour) none() bool { return l == nil || len(l.items)+len(l.orders) == 0 }

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
	starts := e.Once(quoin.InField("stages"), e.starts)
	b := billing{explainer: e, starts: starts, units: make(map[string]quoin.Operand), time: make(map[cost.Labour]*labour)}
	b.items = make([]quoin.Operand, 0, len(e.l.Bill)+len(packed.Bill)+len(e.l.Stages)+1)
	b.used = make([]quoin.Operand, 0, 2*len(e.l.Bill))
	for i := range e.l.Bill {
		b.line(&e.l.Bill[i], e.billAt(i), e.l.ProductAt.Sub("bill", i), true)
	}
	b.parcels = packed.Parcels
	b.made = slices.Clone(b.items)
	for i := range packed.Bill {
		at := e.l.ProductAt.Named("packing", packed.Name, i)
		b.line(&packed.Bill[i], at, at, false)
	}
	for i, s := range e.l.Stages {
		if !s.Recovers().IsZero() {
			b.both(e.l.Stages.ExplainSalvage(e.Trail, i, stageAt, starts[i], starts[i+1]).Minus())
		}
	}
	if e.l.Run.Good > 0 {
		b.both(e.l.Run.Explain(e.Trail, e.runAt(), b.used...))
	}
	e.On("")
	made := e.withoutPacking(b.made)
	return making{
		costs: costs{e.total(StepPerItem, b.items), e.total(StepPerOrder, b.orders), made},
		own:   b.timeOf(cost.OwnTime), paid: b.timeOf(cost.PaidTime),
	}
}

func (e explainer) starts() []quoin.Operand {
	starts := make([]quoin.Operand, len(e.l.Stages)+1)
	for i := range starts {
		starts[i] = e.l.Stages.ExplainStarts(e.Trail, i, stageAt)
	}
	return starts
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

// line adds a line of the bill, or of the packing list, that the document has at one place; own is
// its place among those of the product.
func (b *billing) line(l *cost.BillLine, at, own quoin.Path, ofBill bool) {
	tested := ofBill && l.UsedByTest(b.l.Stages.First())
	of := b.Once(own, func() []quoin.Operand { return b.lineCost(l, at, tested) })
	total := of[0]
	if tested {
		b.used = append(b.used, of[1], of[2])
	}
	if l.ForOrder() && !ofBill && b.parcels > 1 {
		total = b.On(l.Supply).Product(StepParcels, at, total, quoin.FactorOf(b.parcels).Named("parcels"))
	}
	if l.ForOrder() {
		b.orders = append(b.orders, total)
	} else {
		b.items = append(b.items, total)
	}
	if kind := b.l.Supplies[b.l.Supply[l.Supply]].Labour; kind != "" {
		b.timeOf(kind).add(l, total, of[3:], ofBill)
	}
}

// add adds what a line costs, and what of that tests take.
func (t *labour) add(l *cost.BillLine, total quoin.Operand, inTests []quoin.Operand, ofBill bool) {
	if l.ForOrder() {
		t.orders = append(t.orders, total)
		return
	}
	t.items = append(append(t.items, total), inTests...)
	if ofBill {
		t.made = append(append(t.made, total), inTests...)
	}
}

// lineCost explains what a line costs, the cost of its unit and its quantity, and, of working time
// that a test takes, what of that an item bears.
func (b *billing) lineCost(l *cost.BillLine, at quoin.Path, tested bool) []quoin.Operand {
	i := b.l.Supply[l.Supply]
	s := &b.l.Supplies[i]
	unit := b.unit(l.Supply, i)
	good := b.Given("good", b.runAt().Field("good"), quoin.FactorOf(b.l.Run.Good).Figure())
	c := cost.Charge{Line: l, Unit: cost.UnitCost{Unit: s.Quantity.Unit()}}
	total, quantity := c.Explain(b.Trail, at, unit, b.startsOf(l.Stage), good)
	out := []quoin.Operand{total, unit, quantity}
	if tested && !l.ForOrder() && s.Labour != "" && b.l.Run.Good > 0 && b.l.Run.Tests > 0 {
		tests := b.Given("tests", b.runAt().Field("tests"), quoin.FactorOf(b.l.Run.Tests).Figure())
		out = append(out, b.Quotient(cost.StepRun, at, unit, quantity, tests, good))
	}
	return out
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
	unit = b.Once(at, func() []quoin.Operand {
		unit, rested := b.Rested(string(cost.StepUnitCost), at)
		if !rested {
			unit = b.l.Supplies[i].Explain(b.Trail, at)
		}
		return []quoin.Operand{unit}
	})[0]
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
