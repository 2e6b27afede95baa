package pricelist

import (
	"example.com/quoin"
	"example.com/quoin/cost"
	"example.com/quoin/internal/form"
)

// plannedReader reads the text of a product straight into what a plan prices, where it says
// nothing that would have to be checked or worked out further. It refuses every other text, a
// faulty one too, which a form.Collector then reads.
type plannedReader struct {
	form.Scan
	*plannedProduct
	shop *sharedCosts
	seen uint // fields of the product that were given
}

// Fields of a product that a plannedReader knows.
const (
	seenID uint = 1 << iota
	seenName
	seenNote
	seenDesign
	seenChannels
	seenPrice
	seenBill
	seenPacking
	seenRun
)

// read fills in the product that a text says; false where the general way has to read it.
func (m *plannedProduct) read(s *sharedCosts, text []byte) bool {
	shop := s.plan
	m.begin(shop.goodsPlan)
	m.ID, m.Design, m.name, m.Today, m.run = "", "", "", quoin.Optional[quoin.Amount]{}, cost.Run{}
	m.recovered = s.course.Recovered()
	for j := range m.Goods {
		m.Goods[j].Sold = true
	}
	r := plannedReader{Scan: form.NewScan(text), plannedProduct: m, shop: s}
	r.Open('{')
	for n := 0; r.More(n, '}'); n++ {
		if !r.field(r.Name()) {
			return false
		}
	}
	if !r.End() || m.ID == "" {
		return false
	}
	m.Size, m.Comparables = quoin.Size{}, s.comparables[m.ID]
	for j := range m.Goods {
		if c := &shop.channels[j]; m.Goods[j].Sold && shop.packings[c.packing] != "" && !m.has[c.packing] {
			return false
		}
	}
	return true
}

// once notes that a field was given; false where it was before.
func (r *plannedReader) once(field uint) bool {
	again := r.seen&field != 0
	r.seen |= field
	return !again
}

// text reads a text that is short enough for any.
func (r *plannedReader) text() ([]byte, bool) {
	t := r.Text()
	return t, len(t) <= plainText
}

// plainText is how long texts are that are read at sight.
const plainText = 200

func (r *plannedReader) field(name []byte) bool {
	switch string(name) {
	case "id":
		id, ok := r.text()
		r.ID = string(id)
		return ok && r.once(seenID)
	case "name":
		name, ok := r.text()
		r.name = string(name)
		return ok && r.once(seenName)
	case "note":
		_, ok := r.text()
		return ok && r.once(seenNote)
	case "design":
		design, ok := r.text()
		r.Design = string(design)
		return ok && r.once(seenDesign)
	case "price":
		n, places, ok := r.amount()
		r.Today = quoin.Some(quoin.AmountOf(n, places))
		return ok && r.once(seenPrice)
	case "channels":
		return r.once(seenChannels) && r.channels()
	case "bill":
		var ok bool
		r.bill, ok = r.lines(r.bill)
		return ok && r.once(seenBill)
	case "packing":
		return r.once(seenPacking) && r.packing()
	case "run":
		return r.once(seenRun) && r.readRun()
	}
	return false
}

// amount reads an amount, as ParseAmount does.
func (r *plannedReader) amount() (n int64, places int, ok bool) {
	n, places, ok = form.Digits(r.Text(), 12, 8)
	return n, places, ok && !r.Odd()
}

func (r *plannedReader) channels() bool {
	for j := range r.Goods {
		r.Goods[j].Sold = false
	}
	n := 0
	r.Open('[')
	for ; r.More(n, ']'); n++ {
		j, known := r.shop.plan.channelAt[string(r.Text())]
		if !known || r.Goods[j].Sold {
			return false
		}
		r.Goods[j].Sold = true
	}
	return n > 0 && !r.Odd()
}

func (r *plannedReader) packing() bool {
	r.Open('{')
	for n := 0; r.More(n, '}'); n++ {
		at, used := r.shop.plan.packingAt[string(r.Name())]
		if !used || r.has[at] {
			return false
		}
		var ok bool
		if r.lists[at], ok = r.lines(r.lists[at]); !ok {
			return false
		}
		r.has[at] = true
	}
	return !r.Odd()
}

func (r *plannedReader) lines(to []plannedLine) ([]plannedLine, bool) {
	r.Open('[')
	for n := 0; r.More(n, ']'); n++ {
		to = append(to, plannedLine{once: true})
		if !r.line(&to[len(to)-1]) {
			return to, false
		}
	}
	return to, !r.Odd()
}

// line reads a line that takes so much of a supply for each print or each order.
func (r *plannedReader) line(l *plannedLine) bool {
	var supply, stage, per, quantity []byte
	r.Open('{')
	for n := 0; r.More(n, '}'); n++ {
		var to *[]byte
		switch string(r.Name()) {
		case "supply":
			to = &supply
		case "quantity":
			to = &quantity
		case "stage":
			to = &stage
		case "per":
			to = &per
		}
		if to == nil || *to != nil {
			return false
		}
		if *to = r.Text(); len(*to) == 0 {
			return false
		}
	}
	unit, known := r.shop.costs[string(supply)]
	if l.perOrder = string(per) == string(cost.EachOrder); !known || per != nil && !l.perOrder && string(per) != string(cost.EachItem) {
		return false
	}
	l.unit, l.labour = unit.Amount, unit.Labour
	l.tested = !l.perOrder && string(stage) == r.shop.course.First()
	if stage != nil {
		starts, known := r.shop.course.Starts(string(stage))
		if !known {
			return false
		}
		l.times, l.over, l.once = starts, quoin.FactorOf(1), false
	}
	return l.quantity(quantity, &unit)
}

// quantity reads a number and a unit, as ParseQuantity does: most often the unit that the supply is
// bought by.
func (l *plannedLine) quantity(text []byte, of *cost.UnitCost) bool {
	number := len(text) - len(of.Unit) - 1
	if number > 0 && text[number] == ' ' && string(text[number+1:]) == string(of.Unit) {
		if n, places, ok := form.Digits(text[:number], 12, 12); ok {
			l.number = quoin.AmountOf(n, places).Ratio(quoin.AmountOf(1, 0))
			return true
		}
	}
	q, err := quoin.ParseQuantity(string(text))
	if err != nil || q.Sign() < 0 {
		return false
	}
	in, err := q.In(of.Unit)
	l.number = in.Number()
	return err == nil
}

func (r *plannedReader) readRun() bool {
	seen := [3]bool{}
	once := func(i int) bool {
		again := seen[i]
		seen[i] = true
		return !again
	}
	ok := true
	r.Open('{')
	for n := 0; ok && r.More(n, '}'); n++ {
		switch string(r.Name()) {
		case "good":
			r.run.Good = r.Whole()
			ok = once(0)
		case "tests":
			r.run.Tests = r.Whole()
			ok = once(1)
		case "setup":
			units, places, fine := r.amount()
			r.run.Setup = quoin.AmountOf(units, places)
			ok = fine && once(2)
		default:
			ok = false
		}
	}
	return ok && !r.Odd() && r.run.Good >= 1 && r.run.Good <= mostRun && r.run.Tests <= mostRun
}

// mostRun is the most prints of a run, good ones and tests.
const mostRun = 1_000_000_000
