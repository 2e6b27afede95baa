package prose_test

import (
	"strings"
	"testing"

	"example.com/quoin/internal/prose"
)

// What was found is quoted up to 48 letters, however many bytes they have.
func TestQuoted(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"", `""`},
		{"Cotton rag", `"Cotton rag"`},
		{"a\tb\x1f\x7f~ \ufffd\ufffc\xff", `"a·b··~ ·` + "\ufffc" + `·"`},
		{strings.Repeat("a", 48), `"` + strings.Repeat("a", 48) + `"`},
		{strings.Repeat("a", 49), `"` + strings.Repeat("a", 48) + `…"`},
		{strings.Repeat("a", 500), `"` + strings.Repeat("a", 48) + `…"`},
		{strings.Repeat("ö", 48), `"` + strings.Repeat("ö", 48) + `"`},
		{strings.Repeat("ö", 49), `"` + strings.Repeat("ö", 48) + `…"`},
		{strings.Repeat("😀", 48), `"` + strings.Repeat("😀", 48) + `"`}, // 192 bytes
		{strings.Repeat("😀", 49), `"` + strings.Repeat("😀", 48) + `…"`},
		{strings.Repeat("\n", 60), `"` + strings.Repeat("·", 48) + `…"`},
	} {
		if got := prose.Quoted(c.in); got != c.want {
			t.Errorf("%q is quoted as %s, want %s", c.in, got, c.want)
		}
	}
	if got := prose.Clean("two\nlines\x00 " + strings.Repeat("x", 60)); got != "two·lines· "+strings.Repeat("x", 60) {
		t.Errorf("%q", got)
	}
}

// Letters changed over count as one slip, and short names take only one.
func TestNearByHand(t *testing.T) {
	for _, c := range []struct{ s, name, want string }{
		{"hreon", "heron", "heron"},
		{"ehron", "heron", "heron"},
		{"heorn", "heron", "heron"},
		{"herno", "heron", "heron"},
		{"hxron", "heron", "heron"},
		{"hxrxn", "heron", ""}, // two of five
		{"hern", "heron", "heron"},
		{"hherron", "heron", ""},
		{"bxttxrn", "bittern", "bittern"}, // two of seven
		{"bxtxxrn", "bittern", ""},
		{"a", "ab", "ab"},
		{"a", "b", ""}, // nothing in common
		{"ab", "ba", "ba"},
		{"", "a", ""},
		{"", "", ""},
		{"a", "", ""},
		{"\u0080a", "\u0080ab", "\u0080ab"},
		{"öü", "öüö", "öüö"},
		{"äöü", "äöü", "äöü"},
		{"hxron", "éxrxn", ""}, // two of five
		{"mööwe", "möwe", "möwe"},
		{strings.Repeat("a", 64), strings.Repeat("a", 63), strings.Repeat("a", 63)},
		{strings.Repeat("a", 65), strings.Repeat("a", 64), ""},
		{strings.Repeat("a", 63), strings.Repeat("a", 64), strings.Repeat("a", 64)},
		{strings.Repeat("a", 64), strings.Repeat("a", 65), ""},
	} {
		if got := prose.Near(c.s, []string{c.name}); got != c.want {
			t.Errorf("%q beside %q: %q, want %q", c.s, c.name, got, c.want)
		}
	}
	// The nearest, and the first of equal ones; none that is too long keeps another from being found.
	for _, c := range []struct {
		s, names, want string
	}{
		{"heron", "herons heron", "heron"},
		{"heronx", "herony heronz", "herony"},
		{"bittxrx", "bitters bittern", "bitters"},
		{"bitterx", "battery bittern", "bittern"},
		{"heron", strings.Repeat("h", 70) + " hero", "hero"},
	} {
		if got := prose.Near(c.s, strings.Fields(c.names)); got != c.want {
			t.Errorf("%q among %s: %q, want %q", c.s, c.names, got, c.want)
		}
	}
}

// Text without anything to escape is copied as it is.
func TestPlainTextAllocatesNothing(t *testing.T) {
	b := make([]byte, 0, 100)
	for _, s := range []string{"", "Heron at dawn, No. 1 ~", "Möwe im Ried ≈"} {
		if n := testing.AllocsPerRun(20, func() { _ = prose.AppendJSON(b, s) }); n != 0 {
			t.Errorf("%q allocates %v times", s, n)
		}
	}
}
