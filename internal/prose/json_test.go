package prose_test

import (
	"bytes"
	"encoding/json"
	"testing"

	"example.com/quoin/internal/prose"
)

// A text is the string that encoding/json writes of it, behind what stood there before.
func FuzzAppendJSON(f *testing.F) {
	for _, s := range []string{
		"", "Heron at dawn, No. 1", `"Möwe" \ im Ried`, "\x00\x07\b\t\n\v\f\r\x1f\x7f", "<b>&</b>", "\u2028\u2029\u2027 ≈", "\ufffd \xff\xe2\x80", "\xe2\x80\xa8\xe2", "a\x80", "\x0e\x0f", "a b",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		var want bytes.Buffer
		e := json.NewEncoder(&want)
		e.SetEscapeHTML(false)
		if err := e.Encode(s); err != nil {
			t.Fatal(err)
		}
		if got := prose.AppendJSON([]byte("before "), s); string(got)+"\n" != "before "+want.String() {
			t.Errorf("%q is written as %s, by encoding/json as %s", s, got, want.String())
		}
	})
}
