package edition_test

import (
	"testing"

	"example.com/quoin/margin/edition"
)

func TestSpansAreReadBack(t *testing.T) {
	for _, c := range []struct {
		text string
		want edition.Span
	}{
		{"7", edition.Span{From: 7, To: 7}},
		{"21–50", edition.Span{From: 21, To: 50}},
		{"0", edition.Span{}},
	} {
		var s edition.Span
		if err := s.UnmarshalText([]byte(c.text)); err != nil || s != c.want || s.String() != c.text {
			t.Errorf("%s is read as %v, %v", c.text, s, err)
		}
	}
	for _, text := range []string{"", "–", "a", "7–", "–7", "1–2–3", "1-2", "9223372036854775808", " 7"} {
		s := edition.Span{From: 3, To: 4}
		if err := s.UnmarshalText([]byte(text)); err == nil || s.From != 3 {
			t.Errorf("%q is read as %v", text, s)
		}
	}
}
