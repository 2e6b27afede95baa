package quoin

// Near returns the one of names that s most likely means: at most a third of
// its letters away, or one in a short name, counting a letter missed, added,
// changed or swapped with its neighbour as one. It returns "" where none is.
func Near(s string, names []string) string {
	best, at := "", 0
	for _, name := range names {
		if len(s) > 64 || len(name) > 64 {
			continue
		}
		a, b := []rune(s), []rune(name)
		d := distance(a, b)
		if d > max(1, len(b)/3) || d >= max(len(a), len(b)) {
			continue
		}
		if best == "" || d < at {
			best, at = name, d
		}
	}
	return best
}

// distance is the edit distance with swaps of neighbours (optimal string
// alignment; Damerau 1964, Levenshtein 1966).
func distance(a, b []rune) int {
	var before []int
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range a {
		next := make([]int, len(b)+1)
		next[0] = i + 1
		for j := range b {
			cost := 1
			if a[i] == b[j] {
				cost = 0
			}
			next[j+1] = min(row[j]+cost, row[j+1]+1, next[j]+1)
			if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
				next[j+1] = min(next[j+1], before[j-1]+1)
			}
		}
		before, row = row, next
	}
	return row[len(b)]
}
