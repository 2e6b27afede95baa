package pricelist_test

import (
	"cmp"
	"fmt"
	"math/big"
	"sort"
	"strings"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// oracleMarkets is what options of market rules ask of a document.
type oracleMarkets struct {
	Products []struct {
		ID, Sheet, Image string
		Base             string `json:"extends"`
	}
	Listed []oracleListed `json:"comparables"`
	Rules  []oracleOptions
}

type oracleListed struct {
	Product, Venue, Seller, Size string
	Price, Sold, Tax, Postage    oracleNumber
	OnTop                        oracleNumber `json:"postage_on_top"`
	Framed                       bool
	FrameWorth                   oracleNumber `json:"frame_worth"`
}

type oracleOptions struct {
	ID, Rule  string
	From      oracleNumber `json:"from_quantile"`
	To        oracleNumber `json:"to_quantile"`
	MinSold   oracleNumber `json:"min_sold"`
	MinSales  oracleNumber `json:"min_sales"`
	MinVenues oracleNumber `json:"min_venues"`
	BySeller  bool         `json:"by_seller"`
	Quantiles string
	Basis     *struct{ Tax, Exponent oracleNumber }
}

// askMarkets asks the market rules again, with their options.
func (w *oracleWorks) askMarkets(m oracleMarkets) {
	for r, options := range m.Rules {
		if options.Rule != "market" {
			continue
		}
		for p, allows := range w.allows[r] {
			passes := w.between(m.bounds(options, m.Products[p].ID))
			for n := 1; n < len(allows); n++ {
				allows[n] = passes(n)
			}
		}
	}
}

// bounds is between which prices a rule keeps a product, nil where it is silent.
func (m oracleMarkets) bounds(o oracleOptions, product string) (least, most *big.Rat) {
	records, venues, _ := m.counting(o, product)
	if len(records) == 0 || o.short(records, venues) {
		return nil, nil
	}
	return oracleQuantile(records, o.From.r), oracleQuantile(records, o.To.r)
}

// short reports whether too few count.
func (o oracleOptions) short(records []oracleRecord, venues int) bool {
	return ratOf(int64(len(records))).Cmp(o.MinSales.or(5)) < 0 || ratOf(int64(venues)).Cmp(o.MinVenues.or(2)) < 0
}

// counting is the records that count, rising, with weights and positions; from how many venues
// and sellers they are.
func (m oracleMarkets) counting(o oracleOptions, product string) (records []oracleRecord, fromVenues, fromSellers int) {
	var sellers []string
	people := map[string]bool{}
	venues, sold := map[string]map[string]int64{}, m.area(product)
	for _, c := range m.Listed {
		price := o.brought(c, sold)
		if c.Product != product || price == nil {
			continue
		}
		seller := ""
		if o.BySeller {
			seller = c.Seller
		}
		if venues[c.Venue] == nil {
			venues[c.Venue] = map[string]int64{}
		}
		venues[c.Venue][seller]++
		if people["seller "+c.Seller] = true; c.Seller == "" {
			delete(people, "seller ")
			people["venue "+c.Venue] = true
		}
		weight := new(big.Rat) // known when all are counted
		records, sellers = append(records, oracleRecord{c.Venue, price, weight, nil}), append(sellers, seller)
	}
	for i, r := range records {
		of := venues[r.venue]
		r.weight.SetFrac64(1, int64(len(venues))*int64(len(of))*of[sellers[i]])
	}
	sort.SliceStable(records, func(i, j int) bool { return records[i].price.Cmp(records[j].price) < 0 })
	free := new(big.Rat) // at each end
	if o.Quantiles == "type_6" && len(records) > 0 {
		free.SetFrac64(1, int64(2*len(records)))
	}
	before := new(big.Rat)
	for i, r := range records {
		middle := ratAdd(ratAdd(before, ratMul(r.weight, big.NewRat(1, 2))), free)
		records[i].position = ratQuo(middle, ratAdd(ratOf(1), ratMul(free, ratOf(2))))
		before = ratAdd(before, r.weight)
	}
	return records, len(venues), len(people)
}

// position is what an answer says of the market of a product, as one line, by the options of the
// market rule about it whose id is the first by the alphabet.
func (m oracleMarkets) position(w *oracleWorks, p, places int, today, price *big.Rat) string {
	var o oracleOptions
	for r, rule := range m.Rules {
		if rule.Rule == "market" && w.allows[r][p] != nil && (o.ID == "" || rule.ID < o.ID) {
			o = rule
		}
	}
	product, listed := m.Products[p].ID, 0
	for _, c := range m.Listed {
		if c.Product == product {
			listed++
		}
	}
	if listed == 0 {
		return ""
	}
	records, venues, sellers := m.counting(o, product)
	line := fmt.Sprintf("%d of %d from %d and %d", len(records), listed, venues, sellers)
	if len(records) == 0 {
		return line
	}
	money := func(share *big.Rat) string { return " " + ratHalfUp(oracleQuantile(records, share), places) }
	line += money(ratOf(0)) + money(ratOf(1))
	if o.short(records, venues) {
		return line
	}
	line += money(big.NewRat(1, 4)) + money(big.NewRat(1, 2)) + money(big.NewRat(3, 4))
	above := func(of *big.Rat) string {
		sum := new(big.Rat)
		for _, r := range records {
			switch r.price.Cmp(of) {
			case -1:
				sum = ratAdd(sum, r.weight)
			case 0:
				sum = ratAdd(sum, ratMul(r.weight, big.NewRat(1, 2)))
			}
		}
		return " " + ratHalfUp(ratMul(sum, ratOf(100)), 2)
	}
	if today != nil {
		line += above(today)
	}
	return line + above(price)
}

// ratHalfUp rounds a number that is not negative.
func ratHalfUp(x *big.Rat, places int) string {
	tens := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil)
	n := ratAdd(ratMul(x, new(big.Rat).SetInt(tens)), big.NewRat(1, 2))
	whole := new(big.Int).Quo(n.Num(), n.Denom())
	return new(big.Rat).SetFrac(whole, tens).FloatString(places)
}

// toldPosition is the same line of an answer.
func toldPosition(p pricelist.ProductResult, places int) string {
	m := p.Market
	if m == nil {
		return ""
	}
	listed := m.Counted
	for _, l := range m.LeftOut {
		listed += l.Count
	}
	line := fmt.Sprintf("%d of %d from %d and %d", m.Counted, listed, m.Venues, m.Sellers)
	for _, a := range []quoin.Optional[quoin.Amount]{m.Low, m.High, m.LowerQuartile, m.Median, m.UpperQuartile} {
		if money, ok := a.Get(); ok {
			line += " " + money.Rat().FloatString(places)
		}
	}
	for _, r := range []quoin.Optional[quoin.Rate]{m.TodayAbove, m.PriceAbove} {
		if share, ok := r.Get(); ok {
			line += " " + ratMul(share.Rat(), ratOf(100)).FloatString(2)
		}
	}
	return line
}

// brought is the price of a comparable as a rule compares it, for a product with an
// area; nil where it does not count.
func (o oracleOptions) brought(c oracleListed, area *big.Rat) *big.Rat {
	if c.Sold.or(0).Cmp(o.MinSold.or(1)) < 0 {
		return nil
	}
	if o.Basis == nil {
		return c.Price.r
	}
	price := ratSub(ratSub(ratAdd(c.Price.r, c.OnTop.or(0)), c.Postage.or(0)), c.FrameWorth.or(0))
	price = ratQuo(ratMul(price, ratAdd(ratOf(1), o.Basis.Tax.or(0))), ratAdd(ratOf(1), c.Tax.or(0)))
	if price.Sign() <= 0 || c.Framed && !c.FrameWorth.given() {
		return nil
	}
	if !o.Basis.Exponent.given() {
		return price
	}
	own := oracleArea(c.Size)
	if own == nil || area == nil {
		return nil
	}
	for range o.Basis.Exponent.r.Num().Int64() { // 0, 1 or 2
		price = ratQuo(ratMul(price, area), own)
	}
	return price
}

// area is that of the sheet of a product, or else of its image, each its own or that
// of its base; nil where it has neither.
func (m oracleMarkets) area(product string) *big.Rat {
	var sheet, image string
	for id := product; id != ""; {
		for _, p := range m.Products {
			if p.ID == id {
				sheet, image, id = cmp.Or(sheet, p.Sheet), cmp.Or(image, p.Image), p.Base
				break
			}
		}
	}
	return oracleArea(cmp.Or(sheet, image))
}

// oracleArea reads the area of a size such as "12 x 17 cm"; nil of none.
func oracleArea(size string) *big.Rat {
	parts := strings.Fields(size)
	if len(parts) != 4 {
		return nil
	}
	area := ratMul(oracleMeasures[parts[3]].size, oracleMeasures[parts[3]].size)
	for _, side := range []string{parts[0], parts[2]} {
		length, _ := new(big.Rat).SetString(side)
		area = ratMul(area, length)
	}
	return area
}

func oracleQuantile(records []oracleRecord, at *big.Rat) *big.Rat {
	if at.Cmp(records[0].position) <= 0 {
		return records[0].price
	}
	for i := 1; i < len(records); i++ {
		a, b := records[i-1], records[i]
		if at.Cmp(b.position) <= 0 {
			part := ratQuo(ratSub(at, a.position), ratSub(b.position, a.position))
			return ratAdd(a.price, ratMul(part, ratSub(b.price, a.price)))
		}
	}
	return records[len(records)-1].price
}
