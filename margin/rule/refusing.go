package rule

import "example.com/quoin"

// Refusing names the rules that refuse an item the price that the endings
// would allow next to p: below it where side is −1, above it where it is +1.
// A ladder refuses it where no price of a neighbour is left beside it.
func (d Decision) Refusing(item int, p quoin.Amount, side int) []string {
	next, ok := d.beside(item, p, side)
	if !ok {
		return nil
	}
	var out []string
	for r, row := range d.ByRule {
		if d.kept(r) && (!row[item].Contains(next) || d.ladderRefuses(r, item, next)) {
			out = append(out, d.rules[r].ID)
		}
	}
	return out
}

// beside returns the next price on the side of p that every kept rule on
// endings allows.
func (d Decision) beside(item int, p quoin.Amount, side int) (quoin.Amount, bool) {
	at := All(d.Allowed[item].grid)
	for r, row := range d.ByRule {
		if _, ending := d.rules[r].Kind.(Ending); ending && d.kept(r) {
			if both, err := at.And(row[item]); err == nil {
				at = both
			}
		}
	}
	step := at.grid.Step()
	if side < 0 {
		return at.Prev(p.Sub(step))
	}
	return at.Next(p.Add(step))
}

func (d Decision) kept(r int) bool {
	for _, id := range d.Dropped {
		if d.rules[r].ID == id {
			return false
		}
	}
	return true
}

func (d Decision) ladderRefuses(r, item int, p quoin.Amount) bool {
	s := solver{items: d.items, rules: d.rules, index: d.index}
	alone := Between(d.Allowed[item].grid, p, p)
	for _, pair := range s.pairs([]int{r}) {
		var reach Set
		var err error
		var other int
		switch item {
		case pair.before:
			reach, err = pair.step.Up(alone)
			other = pair.next
		case pair.next:
			reach, err = pair.step.Down(alone)
			other = pair.before
		default:
			continue
		}
		if err != nil {
			continue
		}
		if both, err := reach.And(d.Allowed[other]); err == nil && both.IsEmpty() {
			return true
		}
	}
	return false
}
