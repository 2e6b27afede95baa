package pricelist_test

import (
	"fmt"
	"math/big"
)

// oracleWorks is a shop with its grid, and what has been worked out so far.
type oracleWorks struct {
	shop     *oracleShop
	minors   *big.Int        // how many of the currency's minor units make one
	grid     []*big.Rat      // grid[n] is n steps; grid[0] is no price
	overhead *big.Rat        // per item
	selling  []*big.Rat      // per item, by channel
	weights  [][]*big.Rat    // by channel, kind of order
	goods    [][]oracleGoods // by product, channel
	average  map[oracleSpot]*oracleSale
	worst    map[oracleSpot][]oracleSale // by kind of order
	allows   [][][]bool                  // by rule, product, price; nil where silent
	windows  []*oracleWindows            // by rule, for steps only
}

// oracleSpot is where sales were worked out; product is 0 where all bring the same.
type oracleSpot struct{ product, channel, price int }

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
	if _, known := oracleDigits[shop.Currency]; !known {
		return nil, fmt.Errorf("no currency %q", shop.Currency)
	}
	w := &oracleWorks{
		shop: shop, minors: oracleMinors(shop.Currency),
		average: map[oracleSpot]*oracleSale{}, worst: map[oracleSpot][]oracleSale{},
	}
	if err := w.layGrid(); err != nil {
		return nil, err
	}
	w.openChannels()
	for p := range shop.Products {
		var goods []oracleGoods
		for c, outlet := range shop.Channels {
			in := oracleGoods{}
			if shop.Products[p].soldIn(outlet) {
				in = w.goodsOf(p, c)
			}
			goods = append(goods, in)
		}
		w.goods = append(w.goods, goods)
	}
	return w, nil
}

// oracleMinors is how many minor units make one unit of a currency.
func oracleMinors(currency string) *big.Int {
	return new(big.Int).Exp(big.NewInt(10), big.NewInt(oracleDigits[currency]), nil)
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
	}
}

func oracleWeighted(weights, figures []*big.Rat) *big.Rat {
	sum := new(big.Rat)
	for i, weight := range weights {
		sum = ratAdd(sum, ratMul(weight, figures[i]))
	}
	return sum
}

// averageSale is a channel's average item at one price.
func (w *oracleWorks) averageSale(at oracleSpot) oracleSale {
	c, product := w.shop.Channels[at.channel], w.shop.Products[at.product].ID
	var revenue, tax, fees, fulfilment []*big.Rat
	for _, o := range c.Orders {
		sale, _ := w.sell(c, o, product, w.grid[at.price])
		revenue = append(revenue, sale.revenue)
		tax = append(tax, sale.tax)
		fees = append(fees, sale.fees)
		fulfilment = append(fulfilment, sale.fulfilment)
	}
	weights := w.weights[at.channel]
	return oracleSale{
		revenue:    oracleWeighted(weights, revenue),
		tax:        oracleWeighted(weights, tax),
		fees:       oracleWeighted(weights, fees),
		fulfilment: oracleWeighted(weights, fulfilment),
	}
}

// worstSales is an item of every kind of order, with every fee in full.
func (w *oracleWorks) worstSales(at oracleSpot) []oracleSale {
	c, product := w.shop.Channels[at.channel], w.shop.Products[at.product].ID
	var sales []oracleSale
	for _, o := range c.Orders {
		sale, full := w.sell(c, o, product, w.grid[at.price])
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

// spot keeps apart what depends on the product: many rules ask for it.
func (w *oracleWorks) spot(product, channel, n int) oracleSpot {
	if !w.shop.Channels[channel].hangsOnProduct() {
		product = 0
	}
	return oracleSpot{product, channel, n}
}

func (w *oracleWorks) statementAt(product, channel, n int) *oracleLedger {
	at := w.spot(product, channel, n)
	if w.average[at] == nil {
		sale := w.averageSale(at)
		w.average[at] = &sale
	}
	goods := w.goods[product][channel]
	l := w.ledger(channel, *w.average[at], goods.average)
	l.own, l.paid = goods.own, goods.paid
	return l
}

func (w *oracleWorks) worstStatementsAt(product, channel, n int) []*oracleLedger {
	at := w.spot(product, channel, n)
	if w.worst[at] == nil {
		w.worst[at] = w.worstSales(at)
	}
	var statements []*oracleLedger
	for i, sale := range w.worst[at] {
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
		"fees": l.fees, "fulfilment": l.fulfilment, "fixed_cost": l.selling,
		"contribution": l.contribution, "overhead": l.overhead, "operating": l.operating,
		"income_tax": l.incomeTax, "net": l.netIncome, "own_time": l.own, "paid_time": l.paid,
	}
}

func ratFloor(x *big.Rat) *big.Int {
	// Div rounds towards minus infinity for the positive denominators of a Rat.
	return new(big.Int).Div(x.Num(), x.Denom())
}
