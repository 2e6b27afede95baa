package compare

import "bytes"

// specialist is what one would write by hand for this one shop: it knows the text of a product but
// for its figures, and what the shop's own figures come to. It refuses any other text.
func specialist(doc []byte) ([]int64, bool) {
	if !bytes.HasPrefix(doc, []byte(shopHead)) {
		return nil, false
	}
	r := productReader{rest: doc[len(shopHead):]}
	prices := make([]int64, 0, len(r.rest)/400)
	for {
		p, ok := r.product()
		if !ok {
			return nil, false
		}
		prices = append(prices, p.nearest())
		if !bytes.HasPrefix(r.rest, []byte(",\n")) {
			return prices, string(r.rest) == "]}"
		}
		r.rest = r.rest[2:]
	}
}

// productReader reads products out of what is left of a document.
type productReader struct {
	rest []byte
	ok   bool
}

func (r *productReader) product() (p Product, ok bool) {
	r.ok = true
	p.ID = r.figure(0)
	name := r.figure(1)
	p.Price = 100 * r.figure(2)
	p.Price += r.figure(3)
	p.Paper = 10 * r.figure(4)
	p.Paper += r.figure(5)
	p.Ink = 10 * r.figure(6)
	p.Ink += r.figure(7)
	p.Good = r.figure(8)
	p.Tests = r.figure(9)
	r.skip(10)
	return p, r.ok && name == p.ID && p.Good > 0
}

// figure reads the whole number behind the i-th part of a product's text.
func (r *productReader) figure(i int) (n int64) {
	r.skip(i)
	digits := 0
	for digits < len(r.rest) && r.rest[digits]-'0' < 10 {
		n = 10*n + int64(r.rest[digits]-'0')
		digits++
	}
	r.ok = r.ok && digits > 0 && digits < 10
	r.rest = r.rest[digits:]
	return n
}

// skip reads the i-th part of a product's text.
func (r *productReader) skip(i int) {
	text := productText[i]
	if len(r.rest) < len(text) || string(r.rest[:len(text)]) != text {
		r.ok = false
		return
	}
	r.rest = r.rest[len(text):]
}

// nearest returns the price in cents that is nearest to today's, of two the lower, among those that
// end in .00 or .50 and pass all rules.
//
// What is spent is counted in hundredths of a cent. A sheet costs 309.6 cents, a millilitre 57.5.
// With what one item is printed with as a, it takes a ÷ 0.9016 in the run and a × tests ÷ good
// before it, and sleeve and board take 46 cents ÷ 0.98:
//
//	g = (10000 × (a + 4232) × good + 9016 × a × tests) ÷ (9016 × good)
//
// An order of n items takes (n × g + 6600) × 1.04 ÷ 0.99, and its postage ÷ 0.99.
func (p Product) nearest() int64 {
	a := 3096*p.Paper + 575*p.Ink
	g := spent{n: 10000*(a+4232)*p.Good + 9016*a*p.Tests, d: 9016 * p.Good}
	// Three times what an item takes through the marketplace, where a parcel holds one:
	// 100 × price ≥ 3 × (g + 6600) × 104 ÷ 99.
	by := 9900 * g.d
	least := (312*(g.n+6600*g.d) + by - 1) / by
	lower := p.Price / 50 * 50
	higher := max(lower, (least+49)/50*50)
	if higher == lower {
		higher += 50
	}
	for {
		switch {
		case lower >= least && p.Price-lower <= higher-p.Price:
			if g.passes(lower) {
				return lower
			}
			lower -= 50
		case g.passes(higher):
			return higher
		default:
			higher += 50
		}
	}
}

// spent is n ÷ d hundredths of a cent, for one item.
type spent struct{ n, d int64 }

// passes reports whether a tenth is left in both channels, and 2.00 in each kind of order.
func (g spent) passes(price int64) bool {
	one := order{items: price, shipping: 450, count: 1, postage: 520}
	two := order{items: 2 * price, shipping: 450, count: 2, postage: 610}
	if two.items >= 6000 {
		two.shipping = 0
	}
	sold := order{items: halfUp(price*110, 100), shipping: 450, count: 1, postage: 520}
	revenue1, left1 := one.left(g, halfUp((one.items+450)*21, 1000)+27)
	revenue2, left2 := two.left(g, halfUp((two.items+two.shipping)*21, 1000)+27)
	revenue3, left3 := sold.left(g, halfUp((sold.items+450)*90, 1000)+halfUp((sold.items+450)*33, 1000)+27)
	cent := 9900 * g.d
	return left1 >= 200*cent && left2 >= 2*200*cent && left3 >= 200*cent &&
		10*(7*left1+3*left2) >= (7*revenue1+3*revenue2)*cent && 10*left3 >= revenue3*cent
}

// order is one order, in cents.
type order struct{ items, shipping, count, postage int64 }

// left returns what an order brings without the tax in it, in cents, and what it leaves after fees
// and all that is spent, in cents × 9900 × d.
func (o order) left(g spent, fees int64) (revenue, left int64) {
	paid := o.items + o.shipping
	revenue = paid - halfUp(paid*20, 120)
	return revenue, (9900*(revenue-fees)-10000*o.postage)*g.d - 104*(o.count*g.n+6600*g.d)
}
