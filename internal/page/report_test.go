package page_test

import (
	"strings"
	"testing"

	"example.com/quoin/internal/page"
)

// write says everything that a report can say.
func write(r page.Report) string {
	r.Title("A year of %s", "prints")
	r.Section("sold", " in 2026")
	r.Topic("%s, A4", "Bittern")
	r.Line(1, "%d sales", 27)
	r.Line(2, "of them %d at fairs", 3)
	r.Table(1, "print", "sold", "left")
	r.Row(1, "A4", "17", "3")
	r.Row(2, "of them signed", "2")
	r.Row(1, "A name that is far too long for a column of so few letters", "1", "2")
	r.Row(1, "alone")
	r.Gap()
	r.Table(0, "what")
	r.Row(0, "x")
	r.Cautions([]string{"Take care.", "Count again, for those that were returned are not in it."})
	return r.String()
}

func TestTextReport(t *testing.T) {
	const want = `A year of prints

SOLD in 2026

  Bittern, A4
    27 sales
      of them 3 at fairs
    print                  sold      left
    A4                       17         3
      of them signed                    2
    A name that is far too long for a
      column of so few letters
                              1         2
    alone

  what
  x

Take care.
Count again, for those that were returned
  are not in it.
`
	if got := write(page.TextReport(41)); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestMarkdownReport(t *testing.T) {
	const want = `# A year of prints

## sold in 2026

### Bittern, A4

- 27 sales
  - of them 3 at fairs

| print | sold | left |
|---|--:|--:|
| **A4** | **17** | **3** |
| of them signed |  | 2 |
| **A name that is far too long for a column of so few letters** | **1** | **2** |
| **alone** |  |  |

| what |
|---|
| x |

## Cautions

- Take care.
- Count again, for those that were returned are not in it.
`
	if got := write(page.MarkdownReport()); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	r := page.MarkdownReport()
	r.Line(1, "under no topic")
	r.Table(0, "what", "n")
	r.Row(1, "a", "1")
	r.Row(1, "b", "2")
	r.Row(0, "all", "3")
	const rows = "  - under no topic\n\n| what | n |\n|---|--:|\n| a | 1 |\n| b | 2 |\n| **all** | **3** |\n"
	if got := r.String(); got != rows || r.String() != rows {
		t.Errorf("got\n%s\nwant\n%s", got, rows)
	}
}

// Columns that are wider than the text are written as words, behind their heads.
func TestNarrowTextReport(t *testing.T) {
	right := func(blanks int, columns ...string) string { // each ends where the next ten characters do
		line := strings.Repeat(" ", blanks)
		for _, c := range columns {
			line += strings.Repeat(" ", 10-len(c)) + c
		}
		return line + "\n"
	}
	for width, want := range map[int]string{
		21: right(2, "n", "share") + "  A4: n 17, share 3%\n  all" + right(6, "9%"), // two columns behind two blanks are 22
		22: right(2, "n", "share") + "  A4\n" + right(2, "17", "3%") + "  all" + right(7, "9%"),
		23: right(3, "n", "share") + "  A4\n" + right(3, "17", "3%") + "  all" + right(8, "9%"),
		24: right(4, "n", "share") + "  A4" + right(0, "17", "3%") + "  all" + right(9, "9%"),
	} {
		r := page.TextReport(width)
		r.Table(0, "", "n", "share")
		r.Row(0, "A4", "17", "3%")
		r.Row(0, "all", "9%")
		if got := r.String(); got != want {
			t.Errorf("%d wide:\n%s\nwant\n%s", width, got, want)
		}
	}
}
