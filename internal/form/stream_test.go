package form

import (
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"

	"example.com/quoin"
)

func TestStream(t *testing.T) {
	s := NewStream(iotest.OneByteReader(strings.NewReader(`{"a": [1, "x"], "b": {"c": null} } `)))
	if err := s.Open(true); err != nil || !s.More() {
		t.Fatal(err)
	}
	name, err := s.Name()
	if name != "a" || err != nil || s.Open(false) != nil {
		t.Fatal(name, err)
	}
	for _, want := range []string{`1`, `"x"`} {
		if text, err := s.Value(); string(text) != want || err != nil {
			t.Errorf("%s, %v, want %s", text, err, want)
		}
	}
	if s.More() || s.Close() != nil || !s.More() || s.Offset() != 14 {
		t.Errorf("at byte %d", s.Offset())
	}
	name, _ = s.Name()
	text, err := s.Value()
	if name != "b" || string(text) != `{"c": null}` || err != nil || s.More() || s.Close() != nil || s.End() != nil {
		t.Errorf("%s %s, %v", name, text, err)
	}
}

func TestStreamFaults(t *testing.T) {
	broken := errors.New("broken")
	for what, c := range map[string]struct {
		text  string
		do    func(*Stream) error
		says  string
		at    int64
		other error
	}{
		"a list for an object": {`[1]`, func(s *Stream) error { return s.Open(true) }, "found an object is wanted, wanted a JSON document (RFC 8259) [bad_json]", 1, nil},
		"an object for a list": {`{}`, func(s *Stream) error { return s.Open(false) }, "found a list is wanted, wanted a JSON document (RFC 8259) [bad_json]", 1, nil},
		"more behind it": {
			`[] []`, func(s *Stream) error { return errors.Join(s.Open(false), s.Close(), s.End()) },
			"found something after the end of the document, wanted a JSON document (RFC 8259) [bad_json]", 4, nil,
		},
		"no JSON behind it": {
			`[] x`, func(s *Stream) error { return errors.Join(s.Open(false), s.Close(), s.End()) },
			"found something after the end of the document, wanted a JSON document (RFC 8259) [bad_json]", 2, nil,
		},
		"nothing": {``, func(s *Stream) error { return s.Open(false) }, "found the end of the text, after 0 bytes, wanted a JSON document (RFC 8259) [bad_json]", 0, nil},
		"an end too early": {
			`[1`, func(s *Stream) error { _ = s.Open(false); _, _ = s.Value(); _, err := s.Value(); return err },
			"found the end of the text, after 2 bytes, wanted a JSON document (RFC 8259) [bad_json]", 2, nil,
		},
		"no name": {`{1`, func(s *Stream) error { _ = s.Open(true); _, err := s.Name(); return err }, "", 1, nil},
	} {
		s := NewStream(strings.NewReader(c.text))
		err := c.do(s)
		if err == nil {
			t.Errorf("%s: no error", what)
			continue
		}
		p, at := s.Fault(err)
		if c.says != "" && p.Error() != c.says || at != c.at || p.Severity != quoin.Fault || p.Code != quoin.BadJSON {
			t.Errorf("%s: %s at %d, want %s at %d", what, p, at, c.says, c.at)
		}
	}
	s := NewStream(io.MultiReader(strings.NewReader(`[]`), iotest.ErrReader(broken)))
	if err := errors.Join(s.Open(false), s.Close()); err != nil {
		t.Fatal(err)
	}
	if err := s.End(); !errors.Is(err, broken) {
		t.Errorf("a reader that breaks: %v", err)
	}
}

func TestTextOf(t *testing.T) {
	for text, want := range map[string]string{
		`{"a":1,"kind":"fair","kind":"shop"}`: "fair", `{"kind":5}`: "", `{"kind":{}}`: "", `{"kind":[]}`: "", `{"a":"kind"}`: "", `{}`: "", ``: "", `{"kind"`: "", `{"a":{"kind":"x"},"kind":"y"}`: "y",
		`{"kind":"M\u00f6we"}`: "Möwe", `{x`: "", `{"a":x`: "",
	} {
		if got := TextOf([]byte(text), "kind"); got != want {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
}
