package pricelist_test

import (
	"fmt"
	"math/big"
)

// oracleWorks is a shop with its grid, and what has been worked out so far.
type oracleWorks struct {
	shop     *oracleShop
	minors   *big.Int         // how many of the currency's minor units make one
	grid     []*big.Rat       // grid[n] is n steps; grid[0] is no price
	overhead *big.Rat         // per item
	selling  []*big.Rat       // per item, by channel
	weights  [][]*big.Rat     // by channel, kind of order
	goods    [][]oracleGoods  // by product, channel
	average  [][]*oracleSale  // by channel, price
	worst    [][][]oracleSale // by channel, price, kind of order
	allows   [][][]bool       // by rule, product, price; nil where silent
	windows  []*oracleWindows // by rule, for steps only
}

// oracleGoods is the cost of goods per item: of the average and of each kind of order.
type oracleGoods struct {
	average   *big.Rat
	kinds     []*big.Rat
	own, paid *big.Rat // working time in the average
}

// oracleSale is what sales bring in and take away, goods aside.
type oracleSale struct{ revenue, tax, fees, fulfilment *big.Rat }

// oracleLedger is a statement per item.
type oracleLedger struct {
	revenue, tax, goods, gross, fees, fulfilment, selling   *big.Rat
	contribution, overhead, operating, incomeTax, netIncome *big.Rat
	own, paid                                               *big.Rat // of the average
}

const oracleGridLimit = 200_000

var oracleDigits = map[string]int64{
	"JPY": 0, "KRW": 0, "CLP": 0,
	"EUR": 2, "USD": 2, "GBP": 2, "CHF": 2, "SEK": 2, "CAD": 2, "AUD": 2,
	"KWD": 3, "TND": 3, "BHD": 3, "JOD": 3,
}

func newOracleWorks(shop *oracleShop) (*oracleWorks, error) {
	digits, known := oracleDigits[shop.Currency]
	if !known {
		return nil, fmt.Errorf("no currency %q", shop.Currency)
	}
	w := &oracleWorks{shop: shop, minors: new(big.Int).Exp(big.NewInt(10), big.NewInt(digits), nil)}
	if err := w.layGrid(); err != nil {
		return nil, err
	}
	w.openChannels()
	for p := range shop.Products {
		var goods []oracleGoods
		for c := range shop.Channels {
			goods = append(goods, w.goodsOf(p, c))
		}
		w.goods = append(w.goods, goods)
	}
	return w, nil
}

func (w *oracleWorks) layGrid() error {
	step := new(big.Rat).SetFrac(big.NewInt(1), w.minors)
	if w.shop.Step.given() {
		step = w.shop.Step.r
	}
	steps := ratFloor(ratQuo(w.shop.Limit.or(100_000), step))
	if !steps.IsInt64() || steps.Int64() < 1 || steps.Int64() > oracleGridLimit {
		return fmt.Errorf("%s prices are no grid to try one by one", steps)
	}
	w.grid = []*big.Rat{new(big.Rat)}
	for n := int64(1); n <= steps.Int64(); n++ {
		w.grid = append(w.grid, ratMul(ratOf(n), step))
	}
	return nil
}

func (w *oracleWorks) openChannels() {
	w.overhead = w.shop.Overhead.perItem()
	for _, c := range w.shop.Channels {
		w.weights = append(w.weights, c.weightsOf())
		w.selling = append(w.selling, c.Period.perItem())
		w.average = append(w.average, make([]*oracleSale, len(w.grid)))
		w.worst = append(w.worst, make([][]oracleSale, len(w.grid)))
	}
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

func oracleWeighted(weights, figures []*big.Rat) *big.Rat {
	sum := new(big.Rat)
	for i, weight := range weights {
		sum = ratAdd(sum, ratMul(weight, figures[i]))
	}
	return sum
}

// averageSale is a channel's average item at one price.
func (w *oracleWorks) averageSale(channel, n int) oracleSale {
	c := w.shop.Channels[channel]
	var revenue, tax, fees, fulfilment []*big.Rat
	for _, o := range c.Orders {
		sale, _ := w.sell(c, o, w.grid[n])
		revenue = append(revenue, sale.revenue)
		tax = append(tax, sale.tax)
		fees = append(fees, sale.fees)
		fulfilment = append(fulfilment, sale.fulfilment)
	}
	weights := w.weights[channel]
	return oracleSale{
		revenue:    oracleWeighted(weights, revenue),
		tax:        oracleWeighted(weights, tax),
		fees:       oracleWeighted(weights, fees),
		fulfilment: oracleWeighted(weights, fulfilment),
	}
}

// worstSales is an item of every kind of order, with every fee in full.
func (w *oracleWorks) worstSales(channel, n int) []oracleSale {
	c := w.shop.Channels[channel]
	var sales []oracleSale
	for _, o := range c.Orders {
		sale, full := w.sell(c, o, w.grid[n])
		items := o.Items.or(1)
		sales = append(sales, oracleSale{
			revenue:    ratQuo(sale.revenue, items),
			tax:        ratQuo(sale.tax, items),
			fees:       ratQuo(full, items),
			fulfilment: ratQuo(sale.fulfilment, items),
		})
	}
	return sales
}

// sell is one order at a list price, and its fees were each charged in full.
func (w *oracleWorks) sell(c oracleOutlet, o oracleOrder, price *big.Rat) (sale oracleSale, feesInFull *big.Rat) {
	items := w.itemsCharged(c, o, price)
	shipping := o.Shipping.or(0)
	if o.FreeFrom.given() && items.Cmp(o.FreeFrom.r) >= 0 {
		shipping = new(big.Rat)
	}
	tax, onTop := w.salesTax(c, o, items, shipping)
	sale.revenue = ratAdd(items, shipping)
	if c.Tax.InPrice {
		sale.revenue = ratSub(sale.revenue, tax)
	}
	sale.tax = tax
	sale.fulfilment = ratQuo(o.Postage.or(0), ratSub(ratOf(1), c.Loss.or(0)))
	sale.fees, feesInFull = new(big.Rat), new(big.Rat)
	base := map[string]*big.Rat{"items": items, "shipping": shipping, "tax": onTop}
	for _, f := range c.Fees {
		fee := w.feeInFull(f, base, o.Items.or(1))
		feesInFull = ratAdd(feesInFull, fee)
		sale.fees = ratAdd(sale.fees, ratMul(fee, f.Share.or(1)))
	}
	return sale, feesInFull
}

func (w *oracleWorks) itemsCharged(c oracleOutlet, o oracleOrder, price *big.Rat) *big.Rat {
	unit := ratMul(price, ratAdd(ratOf(1), c.Uplift.or(0)))
	for _, d := range c.TradeDiscount {
		unit = ratMul(unit, ratSub(ratOf(1), d.or(0)))
	}
	unit = w.round(unit, "half_up")
	items := ratMul(unit, o.Items.or(1))
	return w.round(ratMul(items, ratSub(ratOf(1), c.Promotion.or(0))), "half_up")
}

// salesTax is an order's tax, and the part of it that a fee may be charged on.
func (w *oracleWorks) salesTax(c oracleOutlet, o oracleOrder, items, shipping *big.Rat) (tax, onTop *big.Rat) {
	rate := c.Tax.Rate.or(0)
	if o.TaxRate.given() {
		rate = o.TaxRate.r
	}
	taxable := items
	if c.Tax.OnShipping {
		taxable = ratAdd(items, shipping)
	}
	tax = ratMul(taxable, rate)
	if c.Tax.InPrice {
		return w.round(ratQuo(tax, ratAdd(ratOf(1), rate)), "half_up"), new(big.Rat)
	}
	tax = w.round(tax, "half_up")
	return tax, tax
}

func (w *oracleWorks) feeInFull(f oracleFee, parts map[string]*big.Rat, items *big.Rat) *big.Rat {
	of := f.Of
	if of == nil {
		of = []string{"items"}
	}
	base := new(big.Rat)
	for _, part := range of {
		base = ratAdd(base, parts[part])
	}
	fixed := f.Fixed.or(0)
	if f.Per == "item" {
		fixed = ratMul(fixed, items)
	}
	fee := ratAdd(f.onBase(base), fixed)
	if f.AtLeast.given() {
		fee = ratMax(fee, f.AtLeast.r)
	}
	if f.AtMost.given() {
		fee = ratMin(fee, f.AtMost.r)
	}
	fee = w.round(fee, f.Rounding)
	return ratAdd(fee, w.round(ratMul(fee, f.Tax.or(0)), f.Rounding))
}

func (f oracleFee) onBase(base *big.Rat) *big.Rat {
	switch {
	case len(f.Tiers) == 0:
		return ratMul(base, f.Rate.or(0))
	case f.TierMode == "whole":
		return ratMul(base, f.tierReached(base))
	}
	sum := new(big.Rat)
	for i, tier := range f.Tiers {
		top := base
		if i+1 < len(f.Tiers) {
			top = ratMin(base, f.Tiers[i+1].From.or(0))
		}
		slice := ratMax(ratSub(top, tier.From.or(0)), new(big.Rat))
		sum = ratAdd(sum, ratMul(slice, tier.Rate.or(0)))
	}
	return sum
}

func (f oracleFee) tierReached(base *big.Rat) *big.Rat {
	rate := new(big.Rat)
	for _, tier := range f.Tiers {
		if base.Cmp(tier.From.or(0)) >= 0 {
			rate = tier.Rate.or(0)
		}
	}
	return rate
}

// statementAt keeps what does not depend on the product: many rules ask for it.
func (w *oracleWorks) statementAt(product, channel, n int) *oracleLedger {
	if w.average[channel][n] == nil {
		sale := w.averageSale(channel, n)
		w.average[channel][n] = &sale
	}
	goods := w.goods[product][channel]
	l := w.ledger(channel, *w.average[channel][n], goods.average)
	l.own, l.paid = goods.own, goods.paid
	return l
}

func (w *oracleWorks) worstStatementsAt(product, channel, n int) []*oracleLedger {
	if w.worst[channel][n] == nil {
		w.worst[channel][n] = w.worstSales(channel, n)
	}
	var statements []*oracleLedger
	for i, sale := range w.worst[channel][n] {
		statements = append(statements, w.ledger(channel, sale, w.goods[product][channel].kinds[i]))
	}
	return statements
}

func (w *oracleWorks) ledger(channel int, sale oracleSale, goods *big.Rat) *oracleLedger {
	l := &oracleLedger{
		revenue:    sale.revenue,
		tax:        sale.tax,
		goods:      goods,
		fees:       sale.fees,
		fulfilment: sale.fulfilment,
		selling:    w.selling[channel],
		overhead:   w.overhead,
	}
	l.gross = ratSub(l.revenue, l.goods)
	l.contribution = ratSub(ratSub(ratSub(l.gross, l.fees), l.fulfilment), l.selling)
	l.operating = ratSub(l.contribution, l.overhead)
	l.incomeTax = ratMax(ratMul(w.shop.IncomeTax.or(0), l.operating), new(big.Rat))
	l.netIncome = ratSub(l.operating, l.incomeTax)
	return l
}

func (l *oracleLedger) figures() map[string]*big.Rat {
	return map[string]*big.Rat{
		"revenue": l.revenue, "tax": l.tax, "goods": l.goods, "gross": l.gross,
		"fees": l.fees, "fulfilment": l.fulfilment, "selling": l.selling,
		"contribution": l.contribution, "overhead": l.overhead, "operating": l.operating,
		"income_tax": l.incomeTax, "net": l.netIncome, "own_time": l.own, "paid_time": l.paid,
	}
}

// round takes an amount that is not negative to the minor unit.
func (w *oracleWorks) round(x *big.Rat, mode string) *big.Rat {
	whole, rest := new(big.Int), new(big.Int)
	whole.QuoRem(whole.Mul(x.Num(), w.minors), x.Denom(), rest)
	if oracleRoundsUp(mode, whole, rest, x.Denom()) {
		whole.Add(whole, big.NewInt(1))
	}
	return new(big.Rat).SetFrac(whole, w.minors)
}

// oracleRoundsUp judges what is over the whole units, as a part of one unit.
func oracleRoundsUp(mode string, whole, rest, one *big.Int) bool {
	half := new(big.Int).Lsh(rest, 1).Cmp(one)
	switch mode {
	case "up":
		return rest.Sign() > 0
	case "down":
		return false
	case "half_even":
		return half > 0 || half == 0 && whole.Bit(0) == 1
	default:
		return half >= 0
	}
}

func ratFloor(x *big.Rat) *big.Int {
	// Div rounds towards minus infinity for the positive denominators of a Rat.
	return new(big.Int).Div(x.Num(), x.Denom())
}
