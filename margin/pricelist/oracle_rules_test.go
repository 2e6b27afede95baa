package pricelist_test

import (
	"math/big"
	"slices"
	"sort"
)

// oracleSets holds, for each product, the numbers of its grid prices, rising.
type oracleSets [][]int

// oracleWindows says, for a price's number, which numbers a step rule lets
// stand after it and before it.
type oracleWindows struct{ ahead, behind [][2]int }

func (w *oracleWorks) decide() oracleAnswer {
	w.askRules()
	return w.asked()
}

// asked decides when it is known which prices each rule allows.
func (w *oracleWorks) asked() oracleAnswer {
	answer := oracleAnswer{Currency: w.shop.Currency, Paid: w.shop.paid}
	kept := w.rulesOf(false)
	if _, fits := w.join(kept); !fits {
		answer.Conflict = w.ruleIDs(w.smallestConflict(kept))
		return answer
	}
	var dropped []int
	for _, r := range w.rulesOf(true) {
		if _, fits := w.join(append(slices.Clone(kept), r)); fits {
			kept = append(kept, r)
		} else {
			dropped = append(dropped, r)
		}
	}
	answer.Dropped = w.ruleIDs(dropped)
	allowed, _ := w.join(kept)
	answer.Products = w.describe(allowed, w.choose(kept, allowed))
	return answer
}

func (w *oracleWorks) rulesOf(preferred bool) []int {
	var rules []int
	for i, r := range w.shop.Rules {
		if (r.Strength == "prefer") == preferred {
			rules = append(rules, i)
		}
	}
	return rules
}

func (w *oracleWorks) ruleIDs(rules []int) []string {
	var ids []string
	for _, r := range rules {
		ids = append(ids, w.shop.Rules[r].ID)
	}
	return ids
}

// askRules tries every rule on every price of every product.
func (w *oracleWorks) askRules() {
	for _, r := range w.shop.Rules {
		sets := make([][]bool, len(w.shop.Products))
		var windows *oracleWindows
		if r.Rule == "size_ratio" {
			windows = w.windowsOf(r)
		} else {
			w.askRule(r, sets)
		}
		w.allows = append(w.allows, sets)
		w.windows = append(w.windows, windows)
	}
}

func (w *oracleWorks) askRule(r oracleRule, sets [][]bool) {
	for p, product := range w.shop.Products {
		if !r.speaksOf(product) {
			continue
		}
		passes := w.testOf(r, p)
		sets[p] = make([]bool, len(w.grid))
		for n := 1; n < len(w.grid); n++ {
			sets[p][n] = passes(n)
		}
	}
}

// testOf is what a rule asks of a product at a price on the grid.
func (w *oracleWorks) testOf(r oracleRule, product int) func(n int) bool {
	switch r.Rule {
	case "price":
		return w.between(r.AtLeast.r, r.AtMost.r)
	case "market":
		return w.marketTest(r, w.shop.Products[product].ID)
	case "ending":
		return func(n int) bool { return r.endsRight(w.grid[n]) }
	case "max_change":
		return w.moveTest(r, w.shop.Products[product].Price)
	case "cost_multiple":
		return w.costTest(r, product)
	default:
		return w.statementTest(r, product)
	}
}

// between passes everything on the side where the bound is nil.
func (w *oracleWorks) between(least, most *big.Rat) func(n int) bool {
	return func(n int) bool {
		return (least == nil || w.grid[n].Cmp(least) >= 0) && (most == nil || w.grid[n].Cmp(most) <= 0)
	}
}

func (w *oracleWorks) moveTest(r oracleRule, today oracleNumber) func(n int) bool {
	if !today.given() {
		return w.between(nil, nil)
	}
	reach := ratMul(r.AtMost.or(0), today.r)
	return w.between(ratSub(today.r, reach), ratAdd(today.r, reach))
}

func (r oracleRule) endsRight(price *big.Rat) bool {
	modulus := r.Modulus.or(1)
	times := ratFloor(ratQuo(price, modulus))
	rest := ratSub(price, ratMul(new(big.Rat).SetInt(times), modulus))
	return slices.ContainsFunc(r.Of, func(ending oracleNumber) bool { return rest.Cmp(ending.r) == 0 })
}

func (w *oracleWorks) channelsOf(r oracleRule, product int) []int {
	var channels []int
	for i, c := range w.shop.Channels {
		if w.shop.Products[product].soldIn(c) && (r.Channels == nil || slices.Contains(r.Channels, c.ID)) {
			channels = append(channels, i)
		}
	}
	return channels
}

func (w *oracleWorks) costTest(r oracleRule, product int) func(n int) bool {
	channels := w.channelsOf(r, product)
	return func(n int) bool {
		for _, c := range channels {
			if w.grid[n].Cmp(ratMul(r.AtLeast.r, w.goods[product][c].average)) < 0 {
				return false
			}
		}
		return true
	}
}

func (w *oracleWorks) statementTest(r oracleRule, product int) func(n int) bool {
	channels := w.channelsOf(r, product)
	return func(n int) bool {
		for _, c := range channels {
			if !w.everyStatementPasses(r, product, c, n) {
				return false
			}
		}
		return true
	}
}

func (w *oracleWorks) everyStatementPasses(r oracleRule, product, channel, n int) bool {
	if r.In != "worst" {
		return r.satisfiedBy(w.statementAt(product, channel, n))
	}
	for _, statement := range w.worstStatementsAt(product, channel, n) {
		if !r.satisfiedBy(statement) {
			return false
		}
	}
	return true
}

func (r oracleRule) satisfiedBy(l *oracleLedger) bool {
	asked := r.AtLeast.r
	switch r.Rule {
	case "contribution":
		return l.contribution.Cmp(asked) >= 0
	case "gross_margin":
		return l.revenue.Sign() > 0 && l.gross.Cmp(ratMul(asked, l.revenue)) >= 0
	default:
		return l.revenue.Sign() > 0 && l.netIncome.Cmp(ratMul(asked, l.revenue)) >= 0
	}
}

// oracleRecord is a comparable with its weight and its place among the others.
type oracleRecord struct {
	venue                   string
	price, weight, position *big.Rat
}

func (w *oracleWorks) marketTest(r oracleRule, product string) func(n int) bool {
	records := w.records(r, product)
	venues := map[string]bool{}
	for _, c := range records {
		venues[c.venue] = true
	}
	if ratOf(int64(len(records))).Cmp(r.MinSales.or(5)) < 0 || ratOf(int64(len(venues))).Cmp(r.MinVenues.or(2)) < 0 {
		return w.between(nil, nil)
	}
	return w.between(oracleQuantile(records, r.From.r), oracleQuantile(records, r.To.r))
}

func (w *oracleWorks) records(r oracleRule, product string) []oracleRecord {
	var records []oracleRecord
	perVenue := map[string]int64{}
	for _, c := range w.shop.Comparables {
		if c.Product == product && c.Sold.or(0).Cmp(r.MinSold.or(1)) >= 0 {
			records = append(records, oracleRecord{venue: c.Venue, price: c.Price.r})
			perVenue[c.Venue]++
		}
	}
	sort.SliceStable(records, func(i, j int) bool { return records[i].price.Cmp(records[j].price) < 0 })
	all, before := ratOf(int64(len(perVenue))), new(big.Rat)
	for i := range records {
		weight := big.NewRat(1, perVenue[records[i].venue])
		middle := ratAdd(before, ratMul(weight, big.NewRat(1, 2)))
		records[i].weight, records[i].position = weight, ratQuo(middle, all)
		before = ratAdd(before, weight)
	}
	return records
}

func (w *oracleWorks) windowsOf(r oracleRule) *oracleWindows {
	top := len(w.grid) - 1
	all := [2]int{1, top}
	ws := &oracleWindows{ahead: [][2]int{all}, behind: [][2]int{all}}
	for n := 1; n <= top; n++ {
		number := ratOf(int64(n))
		ahead, behind := all, all
		if r.AtLeast.or(0).Sign() > 0 {
			ahead[0] = ratCeil(ratMul(number, r.AtLeast.r), top)
			behind[1] = ratFloorUpTo(ratQuo(number, r.AtLeast.r), top)
		}
		if r.AtMost.given() {
			ahead[1] = ratFloorUpTo(ratMul(number, r.AtMost.r), top)
			behind[0] = ratCeil(ratQuo(number, r.AtMost.r), top)
		}
		ws.ahead, ws.behind = append(ws.ahead, ahead), append(ws.behind, behind)
	}
	return ws
}

func ratFloorUpTo(x *big.Rat, top int) int {
	return int(ratFloor(ratMin(x, ratOf(int64(top)))).Int64())
}

// ratCeil is more than top for whatever lies above it.
func ratCeil(x *big.Rat, top int) int {
	x = ratMin(x, ratOf(int64(top+1)))
	return -int(ratFloor(new(big.Rat).Neg(x)).Int64())
}

// join is what a group of rules leaves of every product's prices, and whether
// it leaves every product some.
func (w *oracleWorks) join(rules []int) (oracleSets, bool) {
	var sets oracleSets
	for p := range w.shop.Products {
		var numbers []int
		for n := 1; n < len(w.grid); n++ {
			if w.allAllow(rules, p, n) {
				numbers = append(numbers, n)
			}
		}
		sets = append(sets, numbers)
	}
	w.prune(rules, sets)
	for _, numbers := range sets {
		if len(numbers) == 0 {
			return sets, false
		}
	}
	return sets, true
}

func (w *oracleWorks) allAllow(rules []int, product, n int) bool {
	for _, r := range rules {
		if set := w.allows[r][product]; set != nil && !set[n] {
			return false
		}
	}
	return true
}

// prune takes away prices without a partner until none is left to take.
func (w *oracleWorks) prune(rules []int, sets oracleSets) {
	for changed := true; changed; {
		changed = false
		for _, r := range rules {
			if w.windows[r] != nil && w.pruneChain(r, sets) {
				changed = true
			}
		}
	}
}

func (w *oracleWorks) pruneChain(rule int, sets oracleSets) (changed bool) {
	windows := w.windows[rule]
	for _, chain := range w.shop.chains(w.shop.Rules[rule]) {
		for i := 1; i < len(chain); i++ {
			before, after := chain[i-1], chain[i]
			was := len(sets[before]) + len(sets[after])
			sets[before] = oracleWithPartner(sets[before], windows.ahead, sets[after])
			sets[after] = oracleWithPartner(sets[after], windows.behind, sets[before])
			changed = changed || len(sets[before])+len(sets[after]) < was
		}
	}
	return changed
}

func oracleWithPartner(numbers []int, windows [][2]int, partners []int) []int {
	var kept []int
	for _, n := range numbers {
		i, _ := slices.BinarySearch(partners, windows[n][0])
		if i < len(partners) && partners[i] <= windows[n][1] {
			kept = append(kept, n)
		}
	}
	return kept
}

// smallestConflict tries all groups by size, and groups of a size in the
// document's order.
func (w *oracleWorks) smallestConflict(rules []int) []int {
	for size := 1; size <= len(rules); size++ {
		if group := w.conflictAmong(rules, nil, size); group != nil {
			return group
		}
	}
	return nil
}

func (w *oracleWorks) conflictAmong(rules, group []int, size int) []int {
	if len(group) == size {
		if _, fits := w.join(group); fits {
			return nil
		}
		return group
	}
	for i, r := range rules {
		if found := w.conflictAmong(rules[i+1:], append(slices.Clone(group), r), size); found != nil {
			return found
		}
	}
	return nil
}

// choose picks product by product, each choice pruning the rest.
func (w *oracleWorks) choose(rules []int, allowed oracleSets) []int {
	sets := slices.Clone(allowed)
	var chosen []int
	for p := range sets {
		for left := slices.Clone(sets[p]); ; {
			n := w.pick(p, left)
			with := slices.Clone(sets)
			with[p] = []int{n}
			w.prune(rules, with)
			if !slices.ContainsFunc(with, func(numbers []int) bool { return len(numbers) == 0 }) {
				chosen, sets = append(chosen, n), with
				break
			}
			// Where ladders make a ring, a price that would leave another product none is passed over.
			left = slices.DeleteFunc(left, func(m int) bool { return m == n })
		}
	}
	return chosen
}

func (w *oracleWorks) pick(product int, numbers []int) int {
	today := w.shop.Products[product].Price
	switch {
	case w.shop.Choose == "greatest":
		return numbers[len(numbers)-1]
	case w.shop.Choose == "least" || !today.given():
		return numbers[0]
	default:
		return w.nearest(numbers, today.r)
	}
}

func (w *oracleWorks) nearest(numbers []int, today *big.Rat) int {
	distance := func(n int) *big.Rat {
		d := ratSub(w.grid[n], today)
		return d.Abs(d)
	}
	best := numbers[0]
	for _, n := range numbers {
		if distance(n).Cmp(distance(best)) < 0 {
			best = n
		}
	}
	return best
}

func (w *oracleWorks) describe(allowed oracleSets, chosen []int) []oracleProduct {
	var products []oracleProduct
	for p, numbers := range allowed {
		product := oracleProduct{
			ID:       w.shop.Products[p].ID,
			Price:    w.grid[chosen[p]],
			Least:    w.grid[numbers[0]],
			Greatest: w.grid[numbers[len(numbers)-1]],
			Allowed:  w.runsOf(numbers),
		}
		for c, outlet := range w.shop.Channels {
			if !w.shop.Products[p].soldIn(outlet) {
				continue
			}
			statement := w.statementAt(p, c, chosen[p]).figures()
			product.Channels = append(product.Channels, oracleChannel{ID: outlet.ID, Statement: statement})
		}
		products = append(products, product)
	}
	return products
}

func (w *oracleWorks) runsOf(numbers []int) [][2]*big.Rat {
	var runs [][2]*big.Rat
	first := numbers[0]
	for i, n := range numbers {
		if i+1 == len(numbers) || numbers[i+1] != n+1 {
			runs = append(runs, [2]*big.Rat{w.grid[first], w.grid[n]})
			if i+1 < len(numbers) {
				first = numbers[i+1]
			}
		}
	}
	return runs
}
