package form

import (
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"

	"example.com/quoin"
)

func TestByteOrderMark(t *testing.T) {
	const bom = "\ufeff"
	for _, text := range []string{`{"price": "1,5"}`, "{\n \"price\": \"1,5\"}", `{"price"`, `x`, ``} {
		var found [2]quoin.Problems
		for i, before := range []string{"", bom} {
			var c Collector
			var to struct {
				Price quoin.Amount `json:"price"`
			}
			c.Read([]byte(before+text), &to)
			Locate([]byte(before+text), c.Problems)
			found[i] = c.Problems
		}
		if len(found[0]) == 0 || found[0].Error() != found[1].Error() {
			t.Errorf("%q with a mark: %v, want %v", text, found[1], found[0])
		}
	}
	for _, text := range []string{"", "a", "ab", "one\ntwo", bom, "\xef\xbb"} {
		for name, of := range map[string]func(io.Reader) io.Reader{"at once": func(r io.Reader) io.Reader { return r }, "byte by byte": iotest.OneByteReader, "with its end": iotest.DataErrReader} {
			got, err := io.ReadAll(Unmarked(of(strings.NewReader(bom + text))))
			if string(got) != text || err != nil {
				t.Errorf("%q with a mark, read %s: %q, %v", text, name, got, err)
			}
			got, err = io.ReadAll(Unmarked(of(strings.NewReader(text))))
			if want := strings.TrimPrefix(text, bom); string(got) != want || err != nil {
				t.Errorf("%q read %s: %q, %v", text, name, got, err)
			}
		}
	}
	broken := errors.New("broken")
	got, err := io.ReadAll(Unmarked(io.MultiReader(strings.NewReader("ab"), iotest.ErrReader(broken))))
	if string(got) != "ab" || err != broken {
		t.Errorf("a reader that breaks: %q, %v", got, err)
	}
	lines := NewLines(strings.NewReader(bom+"one\ntwo\n"), 3)
	for _, want := range []string{"one", "two"} {
		if err := lines.Next(); err != nil || string(lines.Text) != want || lines.Long {
			t.Errorf("line %d is %q, %v, want %q", lines.Line, lines.Text, err, want)
		}
	}
}
