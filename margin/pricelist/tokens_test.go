package pricelist

import (
	"bytes"
	"encoding/json"
	"testing"
)

func FuzzTokens(f *testing.F) {
	for _, s := range []string{
		`{"a": [1, -2.5e+3, true, false, null, "x\u00e4\"\\", {}], "b":{"c" : []}}`, `[]`, ` 7 `, `"é"`, "\"\xff\"", `{"a":1}{`, `[1,,2]`, ``, `"\ud800"`, `[[[[`, `{"a" "b"}`,
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) { sameTokens(t, data) })
}

// sameTokens: tokens, whether there is more before each, where each ends and the
// error at the end are those of a json.Decoder.
func sameTokens(t *testing.T, data []byte) {
	ours, theirs := newTokens(data), json.NewDecoder(bytes.NewReader(data))
	theirs.UseNumber()
	for n := 0; ; n++ {
		if a, b := ours.More(), theirs.More(); a != b && n > 0 {
			t.Fatalf("%q, token %d: more %t, want %t", data, n, a, b)
		}
		a, err := ours.Token()
		b, want := theirs.Token()
		if (err == nil) != (want == nil) || err != nil && err.Error() != want.Error() {
			t.Fatalf("%q, token %d: %v, want %v", data, n, err, want)
		}
		if err != nil {
			return
		}
		if a != b || ours.InputOffset() != theirs.InputOffset() {
			t.Fatalf("%q, token %d: %#v at %d, want %#v at %d", data, n, a, ours.InputOffset(), b, theirs.InputOffset())
		}
	}
}

func TestTokensReadValuesWhole(t *testing.T) {
	r := newTokens([]byte(`{"a": {"b": ["]", "}", "\""]} , "c": 7}`))
	for _, c := range []struct {
		before int // tokens
		want   string
	}{{2, `{"b": ["]", "}", "\""]}`}, {1, `7`}} {
		for range c.before {
			if _, err := r.Token(); err != nil {
				t.Fatal(err)
			}
		}
		if got, err := r.Value(); err != nil || string(got) != c.want {
			t.Errorf("%s, %v, want %s", got, err, c.want)
		}
	}
}
