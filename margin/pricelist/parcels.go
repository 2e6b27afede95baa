package pricelist

import (
	"maps"
	"slices"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/parcel"
	"example.com/quoin/cost"
	"example.com/quoin/cost/cut"
	"example.com/quoin/cost/paper"
	"example.com/quoin/margin"
)

// Parceled is how one kind of order of a product is sent, where its channel goes
// by a tariff.
type Parceled struct {
	Channel string `json:"channel"`
	// Order is its place among the channel's orders.
	Order    int             `json:"order"`
	Shipment parcel.Shipment `json:"shipment"`
	// Next is what one more print would cost to send, Rises the least number of
	// prints that costs more; none where none does.
	Next  quoin.Amount          `json:"next"`
	Rises quoin.Optional[int64] `json:"rises,omitzero"`
	// Board is what the document's board in each parcel would cost to send; none
	// where the document has none, or where it goes into no parcel.
	Board quoin.Optional[quoin.Amount] `json:"board,omitzero"`
}

// sender sends the prints of one product through one channel.
type sender struct {
	plan parcel.Plan
	load parcel.Load
	// at is where each packing of the plan stands in the document, tariff where the
	// tariff does.
	at     []int
	tariff int
	cost   map[string]quoin.Amount // of a packing, by id
}

// sender is how a product is sent by a tariff: in those packings that it has a
// packing list for.
func (m *maker) sender(p Product, tariff string) (sender, error) {
	s := sender{cost: make(map[string]quoin.Amount), load: parcel.Load{Sheet: p.outermost(), Thickness: p.Thickness, Mass: m.mass(p)}}
	for i, t := range m.doc.Tariffs {
		if t.ID == tariff {
			s.plan.Tariff, s.tariff = t, i
		}
	}
	for i, k := range m.doc.Packings {
		list, has := p.Packing[k.ID]
		if !has {
			continue
		}
		charges, err := list.Charges(m.costs, m.course.Starts, p.Run)
		if err != nil {
			return s, err
		}
		s.plan.Packings, s.at = append(s.plan.Packings, k), append(s.at, i)
		s.cost[k.ID] = cost.PerOrder(charges)
	}
	return s, nil
}

// send is the shipment of one order.
func (s sender) send(o channel.Order) (parcel.Shipment, error) {
	return s.plan.Cheapest(o.Zone, s.load, o.ItemsOr1(), s.packing)
}

func (s sender) packing(id string) quoin.Amount { return s.cost[id] }

// outermost is the size that a product is sent with.
func (p Product) outermost() quoin.Size {
	for _, s := range []quoin.Size{p.Frame, p.Mat, p.Sheet} {
		if !s.IsZero() {
			return s
		}
	}
	return p.Image
}

func (p Product) sizes() cost.Sizes {
	return cost.Sizes{Image: p.Image, Sheet: p.Sheet, Mat: p.Mat, Frame: p.Frame}
}

// mass is what a product weighs, in grams where it is added up.
func (m *maker) mass(p Product) quoin.Quantity {
	if !p.Mass.IsZero() {
		return p.Mass
	}
	sum := quoin.Factor{}
	for _, l := range p.Bill {
		if g, ok := m.lineMass(l, p.sizes()); ok {
			sum = sum.Add(g)
		}
	}
	return quoin.Unit("g").Times(sum)
}

// lineMass is what a line of a bill adds to the mass of an item, in grams; false
// where nobody says.
func (m *maker) lineMass(l cost.Line, sizes cost.Sizes) (quoin.Factor, bool) {
	if l.Per != "" && l.Per != cost.EachItem {
		return quoin.Factor{}, false
	}
	s := m.supplies[l.Supply]
	if l.Cut != nil && !s.Grammage.IsZero() {
		piece := l.Cut.Piece
		if piece.IsZero() {
			piece = sizes.Of(cut.Part(l.Cut.Of))
		}
		g, err := paper.Mass(piece, s.Grammage)
		return g.Number(), err == nil
	}
	if s.Mass.IsZero() {
		return quoin.Factor{}, false
	}
	n, err := l.Quantity.In(s.Quantity.Unit())
	g, err2 := s.Mass.In("g")
	return n.Number().Times(g.Number()), err == nil && err2 == nil
}

// explainMass explains what a product weighs.
func (d worked) explainMass(i int, m *maker) quoin.Origin {
	p, at := d.Products[i], quoin.InList("products", i)
	return func(t *quoin.Trail) quoin.Operand {
		var parts []quoin.Operand
		t.On(p.ID)
		for j, l := range p.Bill {
			if g, ok := m.lineMass(l, p.sizes()); ok {
				parts = append(parts, quoin.Given(l.Supply, d.billAt[i][j], quoin.Unit("g").Times(g).Figure()))
			}
		}
		return t.Sum(StepMass, at, parts...)
	}
}

// StepMass is the code of the step that adds up what a product weighs, in grams.
const StepMass quoin.StepCode = "product_mass"

// send works out how a product's orders are sent by the tariff of a channel, and
// their postage.
func (m *maker) send(p Product, c *sold) (err error) {
	if c.sender, err = m.sender(p, c.Tariff); err != nil {
		return err
	}
	c.Orders = slices.Clone(c.Orders)
	for k, o := range c.Orders {
		shipment, err := c.sender.send(o)
		if err != nil {
			return err
		}
		c.Orders[k].Postage = shipment.Postage
		c.packed = append(c.packed, margin.Packed{Name: shipment.Packing, Bill: p.Packing[shipment.Packing], Parcels: shipment.Parcels})
		c.shipments = append(c.shipments, shipment)
	}
	return nil
}

// parcels is how the orders of product i are sent through all channels.
func (d worked) parcels(i int, m *maker) ([]Parceled, error) {
	var out []Parceled
	for j := range d.Channels {
		c, err := m.sold(d.Products[i], j)
		if err != nil {
			return nil, err
		}
		s := c.sender
		for k, shipment := range c.shipments {
			o := c.Orders[k]
			one := Parceled{Channel: c.ID, Order: k, Shipment: shipment}
			if next, err := s.plan.Next(o.Zone, s.load, o.ItemsOr1(), s.packing); err == nil {
				one.Next = next.Cost
			}
			if n, err := s.plan.Rise(o.Zone, s.load, o.ItemsOr1(), s.packing); err == nil && n > 0 {
				one.Rises = quoin.Some(n)
			}
			if b := d.Board; b != nil {
				if with, err := s.plan.WithBoard(o.Zone, s.load, o.ItemsOr1(), *b, s.packing); err == nil {
					one.Board = quoin.Some(with.Cost)
				}
			}
			out = append(out, one)
		}
	}
	return out, nil
}

// sending explains the postage of product i's orders in channel j, beside what
// else the document's figures rest on.
func (d worked) sending(i, j int, m *maker, c sold) map[quoin.Path]quoin.Origin {
	origins := maps.Clone(d.origins)
	if origins == nil {
		origins = make(map[quoin.Path]quoin.Origin)
	}
	at := quoin.InList("products", i)
	if d.Products[i].Mass.IsZero() {
		origins[at.Field("mass")] = d.explainMass(i, m)
	}
	for k, shipment := range c.shipments {
		places := parcel.Places{Packing: quoin.InList("packings", c.sender.at[shipment.Index]), Load: at, Tariff: quoin.InList("tariffs", c.sender.tariff)}
		origins[quoin.InList("channels", j).Sub("orders", k).Field("postage")] = func(t *quoin.Trail) quoin.Operand {
			return c.sender.plan.ExplainPostage(t, places, c.sender.load, shipment)
		}
	}
	return origins
}
