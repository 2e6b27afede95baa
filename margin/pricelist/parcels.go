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

// Shipping says how one kind of order of a product is sent, if its channel uses a tariff.
type Shipping struct {
	// Id of the channel.
	Channel string `json:"channel"`
	// Place of the order in the channel, counted from 0.
	Order int `json:"order"`
	// What is cheapest.
	Shipment parcel.Shipment `json:"shipment"`
	// What one more print would cost to send.
	Next quoin.Amount `json:"next"`
	// The least number of prints that costs more; not given where none does.
	Rises quoin.Optional[int64] `json:"rises,omitzero"`
	// What the document's board in each parcel would cost to send; not given where it has none,
	// or where it goes into no parcel.
	Board quoin.Optional[quoin.Amount] `json:"board,omitzero"`
}

// posts is each tariff that a channel goes by, with the packings, by id.
type posts map[string]post

type post struct {
	*parcel.CompiledTerms
	tariff int // its place
	failed error
}

func (d Document) posts() posts {
	out := make(posts)
	for _, c := range d.Channels {
		if _, known := out[c.Tariff]; known || c.Tariff == "" {
			continue
		}
		for i, t := range d.Tariffs {
			if t.ID == c.Tariff {
				p, err := parcel.ShippingTerms{Packings: d.Packings, Tariff: t}.Compile()
				out[t.ID] = post{p, i, err}
			}
		}
	}
	return out
}

// sender sends the prints of one product through one channel.
type sender struct {
	post
	load parcel.Load
	// packings are the places of those that the product has a packing list for, costs
	// what each of them costs.
	packings []int
	costs    []quoin.Amount
}

// sender is how a product is sent by a tariff: in those packings that it has a
// packing list for.
func (m *sharedCosts) sender(p *Product, tariff string) (sender, error) {
	s := sender{post: m.posts[tariff], load: parcel.Load{Sheet: p.outermost(), Thickness: p.Thickness, Mass: m.mass(p)}}
	if s.failed != nil || s.CompiledTerms == nil {
		return s, s.failed
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
		s.packings, s.costs = append(s.packings, i), append(s.costs, cost.PerOrder(charges))
	}
	return s, nil
}

// beside is how a product is sent in a kind of order, in which each print carries its part of
// what others weigh.
func (s sender) beside(o channel.Order) sender {
	if o.Others != nil {
		one, _ := s.load.Mass.In("g")
		others, _ := o.Others.Mass.In("g")
		each := others.Number().Over(quoin.FactorOf(o.ItemsOr1()))
		s.load.Mass = quoin.Unit("g").Times(one.Number().Add(each).Round(massPlaces, quoin.Up))
	}
	return s
}

// massPlaces is to how many places of a gram the mass of a print beside others is rounded, up.
const massPlaces = 3

// StepMassBeside is the code of the step that adds the mass of others to that of a print, in
// grams, and StepOthersMass that of the part of it that each print carries.
const (
	StepMassBeside quoin.StepCode = "mass_beside_others"
	StepOthersMass quoin.StepCode = "others_mass_each"
)

// explainBeside explains what a print weighs with its part of others, in an order at a path.
func explainBeside(product, order quoin.Path, one quoin.Quantity, o channel.Order) quoin.Origin {
	return func(t *quoin.Trail) quoin.Operand {
		own, _ := one.In("g")
		others, _ := o.Others.Mass.In("g")
		count := quoin.GivenOr("items", order.Field("items"), quoin.FactorOf(o.ItemsOr1()).Figure(), o.Items > 0)
		each := t.Quotient(StepOthersMass, order, t.Given("mass of others", order.Inside("others").Field("mass"), others.Figure()), count)
		return t.Rounded(massPlaces, quoin.Up, t.Sum(StepMassBeside, order, t.Given("one print", product.Field("mass"), own.Figure()), each))
	}
}

// of is loads for a kind of order: those of all, where nothing else lies in it.
func (l loads) of(o channel.Order) loads {
	if o.Others == nil {
		return l
	}
	return l.beside(o).loads()
}

// loads is a product's load on its way to each zone that was asked for.
type loads struct {
	sender
	zones map[string]parcel.PackedLoad
}

func (s sender) loads() loads { return loads{s, make(map[string]parcel.PackedLoad)} }

func (l loads) to(zone string) (parcel.PackedLoad, error) {
	if known, ok := l.zones[zone]; ok {
		return known, nil
	}
	loaded, err := l.Load(zone, l.load, l.packings, l.costs)
	if err == nil {
		l.zones[zone] = loaded
	}
	return loaded, err
}

// outermost is the size that a product is sent with.
func (p *Product) outermost() quoin.Size {
	for _, s := range []quoin.Size{p.Frame, p.Mat, p.Sheet} {
		if !s.IsZero() {
			return s
		}
	}
	return p.Image
}

func (p *Product) sizes() cost.Sizes {
	return cost.Sizes{Image: p.Image, Sheet: p.Sheet, Mat: p.Mat, Frame: p.Frame}
}

// mass is what a product weighs, in grams where it is added up.
func (m *sharedCosts) mass(p *Product) quoin.Quantity {
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
func (m *sharedCosts) lineMass(l cost.BillLine, sizes cost.Sizes) (quoin.Factor, bool) {
	if l.Per != "" && l.Per != cost.EachItem {
		return quoin.Factor{}, false
	}
	s := m.supplies[l.Supply]
	if s == nil {
		return quoin.Factor{}, false
	}
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
func (d derivedDocument) explainMass(i int, m *sharedCosts) quoin.Origin {
	p, at := d.Products[i], quoin.InList("products", i)
	return func(t *quoin.Trail) quoin.Operand {
		var parts []quoin.Operand
		t.On(p.ID)
		for _, l := range p.Bill {
			if g, ok := m.lineMass(l, p.sizes()); ok {
				parts = append(parts, quoin.Given(l.Supply, quoin.Path{}, quoin.Unit("g").Times(g).Figure()))
			}
		}
		return t.Sum(StepMass, at, parts...)
	}
}

// StepMass is the code of the step that adds up what a product weighs, in grams.
const StepMass quoin.StepCode = "product_mass"

// send works out how a product's orders are sent by the tariff of a channel, and
// their postage.
func (m *sharedCosts) send(p *Product, c *sold) (err error) {
	if c.sender, err = m.sender(p, c.Tariff); err != nil {
		return err
	}
	c.Orders = slices.Clone(c.Orders)
	loads := c.sender.loads()
	for k, o := range c.Orders {
		loaded, err := loads.of(o).to(o.Zone)
		if err != nil {
			return err
		}
		shipment, err := loaded.Cheapest(o.ItemsOr1())
		if err != nil {
			return err
		}
		c.Orders[k].Postage = shipment.Postage
		c.packed = append(c.packed, margin.PackingList{Name: shipment.Packing, Bill: p.Packing[shipment.Packing], Parcels: shipment.Parcels})
		c.shipments = append(c.shipments, shipment)
	}
	return nil
}

// parcels is how the orders of product i are sent through all channels.
func (d derivedDocument) parcels(i int, m *sharedCosts) ([]Shipping, error) {
	var out []Shipping
	for _, j := range m.soldIn(&d.Products[i]) {
		c, err := m.sold(&d.Products[i], j)
		if err != nil {
			return nil, err
		}
		if len(c.shipments) == 0 {
			continue
		}
		loads := c.sender.loads()
		stiff := loads
		if d.WhatIfBoard != nil {
			stiff = c.sender.loads()
			stiff.load.Board = *d.WhatIfBoard
		}
		for k, shipment := range c.shipments {
			one := Shipping{Channel: c.ID, Order: k, Shipment: shipment}
			zone, items := c.Orders[k].Zone, c.Orders[k].ItemsOr1()
			if loaded, err := loads.of(c.Orders[k]).to(zone); err == nil {
				one.onward(loaded, items)
			}
			if with, err := stiff.of(c.Orders[k]).to(zone); d.WhatIfBoard != nil && err == nil {
				if then, err := with.Cheapest(items); err == nil {
					one.Board = quoin.Some(then.Total.Sub(shipment.Total))
				}
			}
			out = append(out, one)
		}
	}
	return out, nil
}

// onward is what more prints cost to send.
func (p *Shipping) onward(l parcel.PackedLoad, items int64) {
	if next, err := l.Next(items); err == nil {
		p.Next = next.Cost
	}
	if n, err := l.Rise(items); err == nil && n > 0 {
		p.Rises = quoin.Some(n)
	}
}

// sending explains the postage of product i's orders in channel j, beside what
// else the document's figures rest on.
func (d derivedDocument) sending(i, j int, m *sharedCosts, c sold) map[quoin.Path]quoin.Origin {
	origins := maps.Clone(d.origins)
	if origins == nil {
		origins = make(map[quoin.Path]quoin.Origin)
	}
	at := quoin.InList("products", i)
	if d.Products[i].Mass.IsZero() {
		origins[at.Field("mass")] = d.explainMass(i, m)
	}
	for k, shipment := range c.shipments {
		shipment.Index = c.sender.packings[shipment.Index]
		places := parcel.Places{Packing: quoin.InList("packings", shipment.Index), Load: at, Tariff: quoin.InList("tariffs", c.sender.tariff)}
		order, o := quoin.InList("channels", j).Sub("orders", k), c.Orders[k]
		if o.Others != nil {
			origins[order.Field("mass")] = explainBeside(at, order, c.sender.load.Mass, o)
			places.Load = order
		}
		load := c.sender.beside(o).load
		origins[order.Field("postage")] = func(t *quoin.Trail) quoin.Operand {
			plan := parcel.ShippingTerms{Packings: d.Packings, Tariff: d.Tariffs[c.sender.tariff]}
			return plan.ExplainPostage(t, places, load, shipment)
		}
	}
	return origins
}
