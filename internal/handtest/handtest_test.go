package handtest

import (
	"fmt"
	"strings"
	"testing"
)

// spy keeps what is reported.
type spy struct {
	testing.TB
	errs []string
}

func (*spy) Helper() {}

func (s *spy) Errorf(text string, args ...any) {
	s.errs = append(s.errs, fmt.Sprintf(text, args...))
}

const printed = "goods  2.01  2.17\nstays  7.52.\nlost  −0.40\n"

func TestPage(t *testing.T) {
	quote := "# Page\n\n## First\n\n```text\ngoods  2.01  2.17\nstays  7.52.\n```\n\n"
	for _, c := range []struct{ prose, err string }{
		{"1.34 × 150% = **2.01**; 2.01 + 5.51 = **7.52**.", ""},
		{"1.34 × 150%\n= **2.01**, and (2 − 0.5) × (1 + 1 ÷ 3) = 2, as −3 + 2 = −1 and 1 ÷ 8 = 12.5%: **7.52**", ""},
		{"1 ÷ 8 = 0.13, and −1 ÷ 8 = −0.13", ""}, // halves away from zero
		{"2 − 3 − 4 = −5 and 8 ÷ 4 ÷ 2 = 1 and 1 + 2 × 3 = 7", ""},
		{"1.34 × 1.5 = 2.02", "it comes to 2.01"},
		{"1 ÷ 8 = 0.12", "it comes to 0.13"},
		{"1 ÷ 8 = 13.0%", "it comes to 12.5"},
		{"2 − 3 = 1", "it comes to −1"},
		{"2.01 = 2.01", "found no sum"},
		{"1 ÷ (2 − 2) = 0", "a division by 0"},
		{"(1 + 2 = 3", "wanted a bracket that closes"},
		{"12 1 + 2 = 123", "wanted a sign or the end"},
		{"1 + + 2 = 3", "wanted a number"},
		{"1 + 2) × 2 = 6", "wanted a sign or the end"},
		{"1 + 2 = 3 = 4", "1 of its 2 sums"},
		{"1 + x = 3", "0 of its 1 sums"},
		{"it keeps **2.1**", "do not have 2.1"},
		{"it keeps **01**", "do not have 01"},
		{"it keeps **2.0**", "do not have 2.0"},
		{"it keeps **7**", "do not have 7"},
		{"it loses **−0.40**", "do not have −0.40"}, // printed, but not quoted
		{"it loses **0.40**\n```text\nlost  −0.40\n```\n", "do not have 0.40"},
		{"\n```text\nstays  7.52.\ngoods  2.01  2.17\n```\n", "has no lines"},
		{"\n```text\ngoods  2.01\n```\n", "has no lines"},
		{"\n```text\n2.17\n```\n", "has no lines"},
	} {
		var s spy
		Page(&s, quote+c.prose+"\n", printed, 0, 0)
		switch {
		case c.err == "" && len(s.errs) > 0:
			t.Errorf("%q: %q", c.prose, s.errs)
		case c.err != "" && !strings.Contains(strings.Join(s.errs, "\n"), c.err):
			t.Errorf("%q: %q, want %q", c.prose, s.errs, c.err)
		}
	}
}

// A page that lost its sums or results is no page.
func TestPageHasEnough(t *testing.T) {
	page := "```text\ngoods  2.01  2.17\n```\n\n1.34 × 150% = **2.01**\n"
	for _, c := range []struct{ sums, results, errs int }{{1, 1, 0}, {2, 1, 1}, {1, 2, 1}} {
		var s spy
		if Page(&s, page, printed, c.sums, c.results); len(s.errs) != c.errs {
			t.Errorf("%+v: %q", c, s.errs)
		}
	}
}
