package pricelist_test

import (
	"fmt"
	"math/big"
	"slices"
)

// oracleOutlet is a channel as the document tells it.
type oracleOutlet struct {
	ID, Name      string
	Note          string
	Packing       string
	Loss          oracleNumber `json:"lost_parcels"`
	Uplift        oracleNumber
	TradeDiscount []oracleNumber `json:"trade_discount"`
	Promotion     oracleNumber
	Tax           struct {
		Rate       oracleNumber
		InPrice    bool `json:"in_price"`
		OnShipping bool `json:"on_shipping"`
		Constant   string
		Classes    []oracleClass
		Per        string
		Rounding   string
		Rounded    string
		Of         string

		ShippingRate string `json:"shipping_rate"`
	}
	Orders      []oracleOrder
	Fees        []oracleFee
	Promotions  []oraclePromotion
	Tag         *oracleTag    `json:"price_points"`
	Abroad      *oracleAbroad `json:"foreign_currency"`
	Trade       *oracleTrade
	Consignment *oracleConsignment
	OnDemand    *oracleOnDemand `json:"on_demand"`
	After       *oracleAfter    `json:"returns"`
	Period      oracleSpread    `json:"fixed_cost"`
}

type oracleOrder struct {
	ID, Name, Note                  string
	Share, Items, Shipping, Postage oracleNumber
	FreeFrom                        oracleNumber  `json:"free_from"`
	FreeTest                        string        `json:"free_test"`
	TaxRate                         oracleNumber  `json:"tax_rate"`
	TaxClasses                      []oracleClass `json:"tax_classes"`
	Codes                           []string
	Others                          *oracleOthers
	Surcharge                       *oracleSurcharge
	Reorder                         bool

	reduced *big.Rat // what a shop that sells for the maker takes off; nil for nothing
}

type oracleSurcharge struct {
	Rate, Fixed oracleNumber
	TaxRate     oracleNumber `json:"tax_rate"`
}

type oracleOthers struct {
	Items, Worth oracleNumber
	TaxClass     string `json:"tax_class"`
}

type oracleClass struct {
	Class string
	Rate  oracleNumber
}

type oracleFee struct {
	Name, Note  string
	Rate, Fixed oracleNumber
	Of          []string
	Net         bool `json:"without_tax"`
	Per         string
	AtLeast     oracleNumber `json:"at_least"`
	AtMost      oracleNumber `json:"at_most"`
	Over        oracleNumber `json:"orders_together"`
	Expected    bool
	Orders      []string
	Share, Tax  oracleNumber
	Tiers       []struct{ From, Rate, Fixed oracleNumber }
	TierMode    string `json:"tier_mode"`
	Rounding    string
}

type oracleAbroad struct {
	Currency, Date   string
	Rate, Conversion oracleNumber
}

type oracleTrade struct {
	Case, Opening, Reorder oracleNumber
	Freight                string
	FreeFrom               oracleNumber `json:"free_from"`
	Allowance              oracleNumber
	Agent, Defects         oracleNumber
	LineSheet              any          `json:"line_sheet"` // changes no price
	AgentReorder           oracleNumber `json:"agent_reorder"`
	Credit                 struct {
		Days, Early, Taken, Bad oracleNumber
		Money                   oracleNumber `json:"interest"`
		EarlyRounded            string       `json:"early_rounded"`
		EarlyDays               oracleNumber `json:"early_days"`
	}
}

type oracleConsignment struct {
	Commission oracleNumber
	OnMaker    oracleNumber `json:"on_maker"`
	Net        bool         `json:"without_tax"`
	CostsFirst oracleNumber `json:"costs_first"`
	Discount   struct {
		Rate, Share oracleNumber
		Borne       string
	}
	Registered []string
	Days       oracleNumber
	Money      oracleNumber `json:"interest"`
	Loss       oracleNumber `json:"lost_pieces"`
}

type oracleOnDemand struct {
	Pays           string
	Rate           oracleNumber
	Net            bool `json:"without_tax"`
	CodesFromMaker bool `json:"codes_from_maker"`
	Sizes          []struct {
		Product    string
		Base, Flat oracleNumber
	}
}

type oracleAfter struct {
	Returned, Part        oracleNumber
	Shipping, Surcharge   bool
	Postage, Resold, Fees oracleNumber
	Disputed, Lost        oracleNumber
	DisputeFee            oracleNumber `json:"fee"`
}

// open gives a channel its kinds of order: one of a single item where the
// document has none, and each in two where a shop's discount touches the maker.
func (c *oracleOutlet) open() {
	if c.Orders == nil {
		c.Orders = []oracleOrder{{}}
	}
	if c.Consignment == nil {
		return
	}
	d := c.Consignment.Discount
	if d.Rate.or(0).Sign() == 0 || d.Borne == "shop" || d.Borne == "forbidden" {
		return
	}
	var kinds []oracleOrder
	for _, o := range c.Orders {
		with, without := o, o
		with.reduced = d.Rate.r
		with.Share.r = ratMul(o.Share.or(1), d.Share.or(1))
		without.Share.r = ratSub(o.Share.or(1), with.Share.r)
		if d.Share.or(1).Cmp(ratOf(1)) < 0 {
			kinds = append(kinds, without)
		}
		kinds = append(kinds, with)
	}
	c.Orders = kinds
}

func (s *oracleShop) checkChannel(c oracleOutlet) error {
	shares := new(big.Rat)
	for _, o := range c.Orders {
		shares = ratAdd(shares, o.Share.or(1))
	}
	if shares.Cmp(ratOf(1)) != 0 {
		return fmt.Errorf("channel %q: shares come to %s", c.ID, shares)
	}
	for _, p := range s.Products {
		if _, found := p.Packing[c.Packing]; c.Packing != "" && !found && p.soldIn(c) {
			return fmt.Errorf("channel %q: product %q has no packing %q", c.ID, p.ID, c.Packing)
		}
	}
	return s.checkWays(c)
}

func (s *oracleShop) checkWays(c oracleOutlet) error {
	ways := 0
	for _, given := range []bool{c.Trade != nil, c.Consignment != nil, c.OnDemand != nil} {
		if given {
			ways++
		}
	}
	if ways > 1 {
		return fmt.Errorf("channel %q sells in %d ways", c.ID, ways)
	}
	for _, f := range c.Fees {
		for _, id := range f.Orders {
			if !slices.ContainsFunc(c.Orders, func(o oracleOrder) bool { return o.ID == id }) {
				return fmt.Errorf("channel %q: a fee on orders %q, which there are none of", c.ID, id)
			}
		}
	}
	for _, o := range c.Orders {
		for _, id := range o.Codes {
			i := slices.IndexFunc(c.Promotions, func(p oraclePromotion) bool { return p.ID == id })
			if i < 0 || c.Promotions[i].Alone && len(o.Codes) > 1 {
				return fmt.Errorf("channel %q: an order takes codes %q", c.ID, o.Codes)
			}
		}
		if c.Trade != nil && c.Trade.Freight != "" && (o.Shipping.given() || o.FreeFrom.given()) {
			return fmt.Errorf("channel %q: freight and shipping", c.ID)
		}
	}
	if c.OnDemand != nil {
		if c.paysTooMuch() {
			return fmt.Errorf("channel %q: the house pays more than it has", c.ID)
		}
		for _, p := range s.Products {
			if _, _, found := c.OnDemand.size(p.ID); !found && p.soldIn(c) {
				return fmt.Errorf("channel %q: no size of %q", c.ID, p.ID)
			}
		}
	}
	return nil
}

// ofOrder is what an order's own items bear of what is paid once for it.
func (o oracleOrder) ofOrder(amount *big.Rat) *big.Rat {
	if o.Others == nil {
		return amount
	}
	own := o.Items.or(1)
	return ratQuo(ratMul(amount, own), ratAdd(own, o.Others.Items.r))
}

// worth is what else lies in it.
func (o oracleOrder) worth() *big.Rat {
	if o.Others == nil {
		return new(big.Rat)
	}
	return o.Others.Worth.or(0)
}

// size is what a house asks and what it pays for a product.
func (d *oracleOnDemand) size(product string) (base, flat *big.Rat, found bool) {
	for _, s := range d.Sizes {
		if s.Product == product {
			return s.Base.or(0), s.Flat.or(0), true
		}
	}
	return nil, nil, false
}

// hangsOnProduct is whether what an order brings depends on more than its price.
func (c oracleOutlet) hangsOnProduct() bool {
	if c.Tax.Classes != nil || slices.ContainsFunc(c.Orders, func(o oracleOrder) bool { return o.TaxClasses != nil }) {
		return true
	}
	return c.OnDemand != nil || slices.ContainsFunc(c.Promotions, func(p oraclePromotion) bool { return p.Products != nil })
}

// rate is what one unit of the money that buyers pay in costs.
func (c oracleOutlet) rate() *big.Rat {
	if c.Abroad == nil {
		return ratOf(1)
	}
	return c.Abroad.Rate.r
}

// weightsOf is what each kind of order's figures count in the average item.
func (c oracleOutlet) weightsOf() []*big.Rat {
	items := new(big.Rat)
	for _, o := range c.Orders {
		items = ratAdd(items, ratMul(o.Share.or(1), o.Items.or(1)))
	}
	var weights []*big.Rat
	for _, o := range c.Orders {
		weights = append(weights, ratQuo(o.Share.or(1), items))
	}
	return weights
}
