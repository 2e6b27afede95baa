package quoin

// Find returns the numbers, counted from 1, of the steps that keep accepts, or of all
// where keep is nil. The list stays whole, so that the numbers operands name remain
// true.
func Find(steps []Step, keep func(Step) bool) []int {
	var out []int
	for i, s := range steps {
		if keep == nil || keep(s) {
			out = append(out, i+1)
		}
	}
	return out
}

// Behind returns the numbers of the steps that the given steps rest on, and of
// these themselves, in order: the way to a figure.
func Behind(steps []Step, numbers ...int) []int {
	wanted := make([]bool, len(steps)+1)
	for _, n := range numbers {
		if n > 0 && n <= len(steps) {
			wanted[n] = true
		}
	}
	for n := len(steps); n > 0; n-- {
		if !wanted[n] {
			continue
		}
		for _, o := range steps[n-1].Operands {
			if o.Step > 0 && o.Step < n {
				wanted[o.Step] = true
			}
		}
	}
	return marked(wanted)
}

// OnDefault returns the numbers of the steps that rest, by themselves or
// through others, on something the document does not give.
func OnDefault(steps []Step) []int {
	rests := make([]bool, len(steps)+1)
	for i, s := range steps {
		for _, o := range s.Operands {
			if o.Default || o.Step > 0 && o.Step <= i && rests[o.Step] {
				rests[i+1] = true
			}
		}
	}
	return marked(rests)
}

func marked(at []bool) []int {
	var out []int
	for n, yes := range at {
		if yes {
			out = append(out, n)
		}
	}
	return out
}
