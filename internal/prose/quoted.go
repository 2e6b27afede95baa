package prose

import "strings"

const longestFound = 48

// Quoted writes text as it was found: in quotes, shortened to
// what a person can take in, without control characters.
func Quoted(s string) string {
	r := []rune(s[:min(len(s), 4*longestFound)])
	if len(r) > longestFound || len(s) > 4*longestFound {
		return `"` + Clean(string(r[:min(len(r), longestFound)])) + `…"`
	}
	return `"` + Clean(s) + `"`
}

// Clean writes text without control characters.
func Clean(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f || r == 0xfffd {
			return '·'
		}
		return r
	}, s)
}
