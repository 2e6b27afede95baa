package pricelist_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math/big"
	"slices"
	"strings"
)

// oracleNumber is a number of a document, exact; r is nil where it is missing.
type oracleNumber struct{ r *big.Rat }

// UnmarshalJSON reads text and bare numbers alike from their digits.
func (n *oracleNumber) UnmarshalJSON(text []byte) error {
	digits, percent := strings.CutSuffix(strings.Trim(string(text), `"`), "%")
	r, ok := new(big.Rat).SetString(digits)
	if !ok {
		return fmt.Errorf("%s is not a number", text)
	}
	if percent {
		r = ratQuo(r, ratOf(100))
	}
	n.r = r
	return nil
}

func (n oracleNumber) given() bool { return n.r != nil }

func (n oracleNumber) or(missing int64) *big.Rat {
	if n.r == nil {
		return ratOf(missing)
	}
	return n.r
}

// oracleQuantity is a size in its dimension's first unit, or in the count unit.
type oracleQuantity struct {
	size *big.Rat
	unit string
}

type oracleMeasure struct {
	unit string
	size *big.Rat
}

// oracleWords are other ways to write a unit.
var oracleWords = map[string]string{"sheets": "sheet", "prints": "print", "inches": "in", "feet": "ft", "metres": "m"}

var oracleMeasures = map[string]oracleMeasure{
	"m":   {"m", big.NewRat(1, 1)},
	"cm":  {"m", big.NewRat(1, 100)},
	"mm":  {"m", big.NewRat(1, 1000)},
	"in":  {"m", big.NewRat(254, 10_000)},
	"ft":  {"m", big.NewRat(12*254, 10_000)},
	"m2":  {"m2", big.NewRat(1, 1)},
	"cm2": {"m2", big.NewRat(1, 10_000)},
	"in2": {"m2", big.NewRat(254*254, 100_000_000)},
	"l":   {"l", big.NewRat(1, 1)},
	"ml":  {"l", big.NewRat(1, 1000)},
	"kg":  {"kg", big.NewRat(1, 1)},
	"g":   {"kg", big.NewRat(1, 1000)},
	"lb":  {"kg", big.NewRat(45_359_237, 100_000_000)},
	"oz":  {"kg", big.NewRat(45_359_237, 1_600_000_000)},
	"h":   {"h", big.NewRat(1, 1)},
	"min": {"h", big.NewRat(1, 60)},
	"s":   {"h", big.NewRat(1, 3600)},
}

func (q *oracleQuantity) UnmarshalJSON(text []byte) error {
	words := strings.Fields(strings.Trim(string(text), `"`))
	size, unit := new(big.Rat), oracleWords[words[len(words)-1]]
	if unit == "" {
		unit = words[len(words)-1]
	}
	for _, w := range words[:len(words)-1] { // a whole number and a fraction
		part, ok := new(big.Rat).SetString(w)
		if !ok {
			return fmt.Errorf("%s is not a quantity", text)
		}
		size.Add(size, part)
	}
	if size.Sign() <= 0 {
		return fmt.Errorf("%s is not a quantity", text)
	}
	if m, measured := oracleMeasures[unit]; measured {
		size, unit = ratMul(size, m.size), m.unit
	}
	q.size, q.unit = size, unit
	return nil
}

type oracleShop struct {
	paid        []*big.Rat // for what is in each stock
	Version     int
	Currency    string
	Step        oracleNumber `json:"price_step"`
	Limit       oracleNumber `json:"price_limit"`
	Note, Date  string
	Supplies    []oracleSupply
	Purchases   []oraclePurchase
	Machines    []oracleMachine
	Stages      []oracleStage
	Contingency oracleNumber
	Products    []oraclePrint
	Channels    []oracleOutlet
	Overhead    oracleSpread
	IncomeTax   oracleNumber `json:"income_tax"`
	Comparables []oracleComparable
	Rules       []oracleRule
	Choose      string
}

type oracleSupply struct {
	ID, Name, Note                           string
	Quantity                                 oracleQuantity
	Price, Discount, Freight, Duty, Exchange oracleNumber
	Labour                                   string
	Sheet                                    struct{ Size, Border, Grain string }
	Offer                                    *oracleOffer
	Stock                                    *oracleStock
	Yearly                                   *struct {
		Spent   oracleNumber
		Printed oracleQuantity
	}
}

type oracleStage struct {
	ID, Note        string
	Yield, Recovery oracleNumber
	LostOfStarted   oracleNumber `json:"lost_of_started"`
	LostOfGood      oracleNumber `json:"lost_of_good"`
	Seconds         *struct{ Share, Price oracleNumber }
}

// good is the share of what is started that comes out good.
func (s oracleStage) good() *big.Rat {
	switch {
	case s.Yield.given():
		return s.Yield.r
	case s.LostOfStarted.given():
		return ratSub(ratOf(1), s.LostOfStarted.r)
	}
	return ratQuo(ratOf(1), ratAdd(ratOf(1), s.LostOfGood.or(0)))
}

// brings is what a spoiled piece gives back.
func (s oracleStage) brings() *big.Rat {
	if s.Seconds == nil {
		return s.Recovery.or(0)
	}
	others := ratSub(ratOf(1), s.Seconds.Share.r)
	return ratAdd(ratMul(s.Recovery.or(0), others), ratMul(s.Seconds.Price.r, s.Seconds.Share.r))
}

type oracleLine struct {
	Supply   string
	Quantity oracleQuantity
	Stage    string
	Per      string
	Over     oracleNumber `json:"shared_by"`
	Cut      *oracleCut
	Ink      *oracleInk
	Area     string
	Moulding *struct{ Width, Allowance, Glass string }
}

// oraclePrint is a product as the document tells it.
type oraclePrint struct {
	TaxClass         string `json:"tax_class"`
	ID, Name, Design string
	Note             string
	Sheet, Image     string
	Channels         []string
	Price            oracleNumber
	Base             string `json:"extends"`
	Bill             []oracleLine
	Packing          map[string][]oracleLine
	Run              *struct{ Good, Tests, Setup oracleNumber }
}

// oracleSpread is a cost shared by a number of items.
type oracleSpread struct{ Cost, Items oracleNumber }

func (s oracleSpread) perItem() *big.Rat { return ratQuo(s.Cost.or(0), s.Items.or(1)) }

type oracleComparable struct {
	Product, Venue string
	Price, Sold    oracleNumber
}

type oracleRule struct {
	ID, Rule, Strength string
	Note               string
	In                 string `json:"asked_of"`
	Products, Channels []string
	Designs            []string
	Order              string
	AtLeast            oracleNumber   `json:"at_least"`
	AtMost             oracleNumber   `json:"at_most"`
	From               oracleNumber   `json:"from_quantile"`
	To                 oracleNumber   `json:"to_quantile"`
	MinSold            oracleNumber   `json:"min_sold"`
	MinSales           oracleNumber   `json:"min_sales"`
	MinVenues          oracleNumber   `json:"min_venues"`
	Of                 []oracleNumber `json:"ends_in"`
	Modulus            oracleNumber   `json:"every"`
}

func readOracleShop(doc []byte) (*oracleShop, error) {
	var s oracleShop
	d := json.NewDecoder(bytes.NewReader(doc))
	d.UseNumber()
	d.DisallowUnknownFields()
	if err := d.Decode(&s); err != nil {
		return nil, err
	}
	s.workOut()
	for i := range s.Products {
		if err := s.layOver(&s.Products[i]); err != nil {
			return nil, err
		}
	}
	for i := range s.Channels {
		s.Channels[i].open()
	}
	return &s, s.check()
}

// layOver gives a product what it shares with its base, which has been given
// its own by then.
func (s *oracleShop) layOver(p *oraclePrint) error {
	if p.Base == "" {
		return nil
	}
	b := s.product(p.Base)
	if b < 0 || &s.Products[b] == p {
		return fmt.Errorf("product %q: no base %q", p.ID, p.Base)
	}
	base := s.Products[b]
	p.Bill = append(slices.Clone(base.Bill), p.Bill...)
	if p.Packing == nil {
		p.Packing = base.Packing
	}
	if p.Run == nil {
		p.Run = base.Run
	}
	return nil
}

// check keeps a slip in a generated document from passing for a shop.
func (s *oracleShop) check() error {
	for _, p := range s.Products {
		if err := s.checkLines(p); err != nil {
			return err
		}
	}
	for _, c := range s.Channels {
		if err := s.checkChannel(c); err != nil {
			return err
		}
	}
	for _, r := range s.Rules {
		if err := s.checkRule(r); err != nil {
			return err
		}
	}
	return nil
}

func (s *oracleShop) checkLines(p oraclePrint) error {
	lines := slices.Clone(p.Bill)
	for _, packing := range p.Packing {
		lines = append(lines, packing...)
	}
	for _, l := range lines {
		supply, found := s.supply(l.Supply)
		if !found || supply.Quantity.unit != l.Quantity.unit {
			return fmt.Errorf("product %q: no supply %q in %s", p.ID, l.Supply, l.Quantity.unit)
		}
		if l.Stage != "" && s.stage(l.Stage) < 0 {
			return fmt.Errorf("product %q: no stage %q", p.ID, l.Stage)
		}
	}
	return nil
}

var oracleRuleNames = []string{
	"price", "cost_multiple", "gross_margin", "net_margin", "contribution", "market", "ending", "max_change", "size_ratio",
}

func (s *oracleShop) checkRule(r oracleRule) error {
	if !slices.Contains(oracleRuleNames, r.Rule) {
		return fmt.Errorf("rule %q: no rule %q", r.ID, r.Rule)
	}
	for _, id := range r.Products {
		if s.product(id) < 0 {
			return fmt.Errorf("rule %q: no product %q", r.ID, id)
		}
	}
	for _, id := range r.Channels {
		if !slices.ContainsFunc(s.Channels, func(c oracleOutlet) bool { return c.ID == id }) {
			return fmt.Errorf("rule %q: no channel %q", r.ID, id)
		}
	}
	return nil
}

func (s *oracleShop) supply(id string) (oracleSupply, bool) {
	i := slices.IndexFunc(s.Supplies, func(x oracleSupply) bool { return x.ID == id })
	if i < 0 {
		return oracleSupply{}, false
	}
	return s.Supplies[i], true
}

func (s *oracleShop) stage(id string) int {
	return slices.IndexFunc(s.Stages, func(x oracleStage) bool { return x.ID == id })
}

// soldIn is whether a channel sells a product.
func (p oraclePrint) soldIn(c oracleOutlet) bool {
	return p.Channels == nil || slices.Contains(p.Channels, c.ID)
}

func (s *oracleShop) product(id string) int {
	return slices.IndexFunc(s.Products, func(x oraclePrint) bool { return x.ID == id })
}

func ratOf(n int64) *big.Rat        { return big.NewRat(n, 1) }
func ratAdd(a, b *big.Rat) *big.Rat { return new(big.Rat).Add(a, b) }
func ratSub(a, b *big.Rat) *big.Rat { return new(big.Rat).Sub(a, b) }
func ratMul(a, b *big.Rat) *big.Rat { return new(big.Rat).Mul(a, b) }
func ratQuo(a, b *big.Rat) *big.Rat { return new(big.Rat).Quo(a, b) }

func ratMin(a, b *big.Rat) *big.Rat {
	if a.Cmp(b) <= 0 {
		return a
	}
	return b
}

func ratMax(a, b *big.Rat) *big.Rat {
	if a.Cmp(b) >= 0 {
		return a
	}
	return b
}
