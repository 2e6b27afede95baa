package zerotest_test

import (
	"fmt"
	"iter"
	"slices"
	"strings"
	"testing"

	"example.com/quoin/internal/zerotest"
)

// heard keeps what is reported in place of failing.
type heard struct {
	testing.TB
	lines []string
}

func (h *heard) Helper()                      {}
func (h *heard) Errorf(text string, v ...any) { h.lines = append(h.lines, fmt.Sprintf(text, v...)) }

type list struct{ of []int }

func (l list) First() int                { return l.of[0] }
func (l *list) Add(n int)                { l.of[n] = n }
func (l list) Made() int                 { panic("quoin: a list of NewList") }
func (l list) Len() int                  { return len(l.of) }
func (l list) All() iter.Seq[int]        { return func(yield func(int) bool) { yield(l.of[0]) } }
func (l list) Each(f func(int) *int) int { return *f(0) }
func (l list) In(m *list) int            { return len(m.of) }

func divided(n int) int { return 1 / n }

type bare struct{ Of []int }

type said struct{ text string }

func (s said) String() string { return s.text }

// What prints as Go does is reported, and what prints as several lines.
func TestPrintedReports(t *testing.T) {
	var h heard
	zerotest.Printed(&h, bare{}, said{"one line"}, said{"two\nlines"}, said{}, said{"{}"}, divided)
	want := []string{"zerotest_test.bare has no method String", "zerotest_test.said prints as \"two\\nlines\"", "zerotest_test.said prints as \"\"", "zerotest_test.said prints as \"{}\""}
	if !slices.Equal(h.lines, want) {
		t.Errorf("%q, want %q", h.lines, want)
	}
}

// What panics with anything but our own text is reported: methods of values and pointers,
// functions, and what is yielded later.
func TestCallsReport(t *testing.T) {
	var h heard
	zerotest.Calls(&h, list{}, divided)
	got := strings.Join(h.lines, "\n")
	for _, want := range []string{"list.First panics", "list.Add panics", "list.All panics", "divided panics"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is not reported in:\n%s", want, got)
		}
	}
	if len(h.lines) != 7 { // what divides no more by 1 once, all else twice
		t.Errorf("reported:\n%s", got)
	}
}
