package rule

// patterns is what pairs of patterns come to together, or why they cannot be put together.
type patterns map[[2]*comb]pattern

type pattern struct {
	of  *comb
	err error
}

// mostTogether bounds how many pairs are remembered.
const mostTogether = 1 << 10

// and is Set.and, which puts the same patterns together once.
func (p patterns) and(a, b Set) (Set, error) {
	if a.comb == nil || b.comb == nil || a.comb == b.comb {
		return a.and(b)
	}
	both, known := p[[2]*comb{a.comb, b.comb}]
	if !known {
		both.of, both.err = a.comb.and(b.comb, a.grid.Len())
		if len(p) == mostTogether {
			clear(p)
		}
		p[[2]*comb{a.comb, b.comb}] = both
	}
	if both.err != nil {
		return Set{}, both.err
	}
	return a.meet(b.runs, both.of), nil
}
