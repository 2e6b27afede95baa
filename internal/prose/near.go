// Package prose puts what was found in words: near names, and text as it stood.
package prose

import "unicode/utf8"

// Near returns the one of names that s most likely means: at most a third of
// its letters away, or one in a short name, counting a letter missed, added,
// changed or swapped with its neighbour as one. It returns "" where none is.
// Names of more than 64 bytes are passed over, and for a longer s there is none.
// It takes about as long as comparing s with each name once.
func Near(s string, names []string) string {
	if len(s) > longestNear {
		return ""
	}
	letters := newSpelling(s)
	best, at := "", 0
	for _, name := range names {
		if len(name) > longestNear {
			continue
		}
		n := utf8.RuneCountInString(name)
		most := min(max(1, n/3), max(letters.count, n)-1)
		if best != "" {
			most = min(most, at-1)
		}
		if letters.count-n > most || n-letters.count > most {
			continue
		}
		if d := letters.distance(name); d <= most {
			best, at = name, d
		}
	}
	return best
}

const longestNear = 64 // bytes: the letters of a name are the bits of a word

// spelling is where each letter of a text stands, one bit for each place.
type spelling struct {
	count int
	plain [utf8.RuneSelf]uint64 // of ASCII letters
	other []letter
}

type letter struct {
	r  rune
	at uint64
}

func newSpelling(s string) *spelling {
	l := new(spelling)
	for _, r := range s {
		bit := uint64(1) << l.count
		l.count++
		if r < utf8.RuneSelf {
			l.plain[r] |= bit
			continue
		}
		i := 0
		for i < len(l.other) && l.other[i].r != r {
			i++
		}
		if i == len(l.other) {
			l.other = append(l.other, letter{r: r})
		}
		l.other[i].at |= bit
	}
	return l
}

func (l *spelling) of(r rune) uint64 {
	if r < utf8.RuneSelf {
		return l.plain[r]
	}
	for _, o := range l.other {
		if o.r == r {
			return o.at
		}
	}
	return 0
}

// distance is the edit distance with swaps of neighbours (optimal string
// alignment; Damerau 1964, Levenshtein 1966), a column of the table at a time:
// up and down have a bit where an entry is one more, or one less, than the one
// above it (Myers 1999, and for swaps Hyyrö 2003). The spelling has a letter.
func (l *spelling) distance(name string) int {
	d, last := l.count, uint64(1)<<(l.count-1)
	up, down := ^uint64(0), uint64(0)
	var same, before uint64 // entries as great as the one before and above, and the letter before
	for _, r := range name {
		here := l.of(r)
		swapped := (^same & here) << 1 & before
		same = (here&up + up ^ up) | here | down | swapped
		right, left := down|^(same|up), same&up
		if right&last != 0 {
			d++
		}
		if left&last != 0 {
			d--
		}
		right, left = right<<1|1, left<<1
		up, down = left|^(same|right), right&same
		before = here
	}
	return d
}
