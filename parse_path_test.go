package quoin_test

import (
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"

	"example.com/quoin"
)

// drawnPath is put together by any of the ways to make a path, of names that are plain
// words and such that are not.
func drawnPath(t *rapid.T) quoin.Path {
	name := rapid.OneOf(
		rapid.SampledFrom([]string{"channels", "fees", "rate", "a-4", "0", "flat box", "a.b", `["]`, "", "Möwe", "\\", "\xff", "\u2028", "x[0]", "[0]"}),
		rapid.String().Filter(func(s string) bool { return !strings.ContainsFunc(s, unicode.IsControl) })) // which no name has
	index := rapid.SampledFrom([]int{-1, 0, 1, 17, 1<<31 - 2})
	p := quoin.Path{}
	if rapid.Bool().Draw(t, "in a list") {
		p = quoin.InList(name.Draw(t, "list"), index.Draw(t, "entry"))
	}
	for range rapid.IntRange(0, 6).Draw(t, "parts") {
		switch rapid.IntRange(0, 4).Draw(t, "part") {
		case 0:
			p = p.Sub(name.Draw(t, "sub"), index.Draw(t, "entry"))
		case 1:
			p = p.Named(name.Draw(t, "field"), name.Draw(t, "name"), index.Draw(t, "entry"))
		case 2:
			p = p.Inside(name.Draw(t, "object"))
		case 3:
			p = p.Field(name.Draw(t, "leaf"))
		case 4:
			p = p.FieldAt(name.Draw(t, "leaf"), index.Draw(t, "entry"))
		}
	}
	return p
}

// Whatever text String writes is read to a path that is Equal, and written the same.
func TestPathsAreReadBack(t *testing.T) {
	quoted, deep := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		p := drawnPath(t)
		text := p.String()
		var back quoin.Path
		if err := back.UnmarshalText([]byte(text)); err != nil {
			t.Fatal(err)
		}
		if !back.Equal(p) || back.String() != text {
			t.Fatalf("%s is read as %s", text, back)
		}
		if strings.Contains(text, `["`) {
			quoted++
		}
		if strings.Count(text, ".")+strings.Count(text, `["`) > 3 {
			deep++
		}
	})
	if quoted < 10 || deep == 0 {
		t.Errorf("%d quoted, %d deep", quoted, deep)
	}
}

// What was read is not only written alike: its parts stand where they stood.
func TestReadPathGoesOn(t *testing.T) {
	channel := quoin.InList("channels", 0)
	for _, c := range []struct {
		text    string
		made    quoin.Path
		further string
	}{
		{"", quoin.Path{}, "rate"},
		{"overhead", quoin.InField("overhead"), "rate"},
		{"channels[0]", channel, "channels[0].rate"},
		{"channels[0].tax.rate", channel.Inside("tax").Field("rate"), "channels[0].tax.rate"},
		{"channels[0].fees[1]", channel.Sub("fees", 1), "channels[0].fees[1].rate"},
		{"channels[0].fees[1].fixed", channel.Sub("fees", 1).Field("fixed"), "channels[0].fees[1].rate"},
		{`products[2].packing["flat box"][0].supply`, quoin.InList("products", 2).Named("packing", "flat box", 0).Field("supply"), `products[2].packing["flat box"][0].rate`},
		{"sets[0].alternatives[3]", quoin.InList("sets", 0).FieldAt("alternatives", 3), "sets[0].alternatives[3].rate"},
	} {
		var back quoin.Path
		if err := back.UnmarshalText([]byte(c.text)); err != nil || !back.Equal(c.made) || c.made.String() != c.text {
			t.Errorf("%s: %s, %v, wanted %s", c.text, back, err, c.made)
		}
		if got := back.Field("rate").String(); got != c.further {
			t.Errorf("%s: its field rate is %s, wanted %s", c.text, got, c.further)
		}
	}
}

func TestNoPath(t *testing.T) {
	for _, s := range []string{
		".", "a.", ".a", "a..b", "A", "a b", "a[", "a[]", "a[-1]", "a[00]", "a[2147483647]", "a[99999999999999999999]", "a[0][1]",
		`["plain"]`, `["a b]`, `["a b"`, "[`a b`]", `['a']`, `a.["b c"]`, "a[0]b", strings.Repeat("[", 1<<16), strings.Repeat("a.", 1<<16),
	} {
		p := quoin.InField("kept")
		if err := p.UnmarshalText([]byte(s)); err == nil || p.String() != "kept" {
			t.Errorf("%.40q is read as %.40s, %v", s, p, err)
		}
	}
}

func FuzzPath(f *testing.F) {
	f.Add(`products[2].packing["flat box"][0].supply`)
	f.Fuzz(func(t *testing.T, s string) {
		var p, again quoin.Path
		if p.UnmarshalText([]byte(s)) != nil {
			return
		}
		if p.String() != s || again.UnmarshalText([]byte(p.String())) != nil || again != p {
			t.Errorf("%q is read as %q", s, p)
		}
	})
}
