package history_test

import (
	"os"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.com/quoin/internal/form"
	"example.com/quoin/margin/history"
)

var kinds = map[history.Kind]reflect.Type{
	history.PriceRecord: reflect.TypeFor[history.Price](), history.ReductionRecord: reflect.TypeFor[history.Reduction](),
	history.SaleRecord: reflect.TypeFor[history.Sale](), history.TrialRecord: reflect.TypeFor[history.Trial](),
}

// format.md has a table with every field, and the example that is tested.
func TestThePageIsTrue(t *testing.T) {
	data, err := os.ReadFile("format.md")
	if err != nil {
		t.Fatal(err)
	}
	page := string(data)
	for kind, of := range kinds {
		_, rest, ok := strings.Cut(page, "## `"+string(kind)+"`\n")
		if !ok {
			t.Errorf("no chapter on %s", kind)
		}
		chapter, _, _ := strings.Cut(rest, "\n## ")
		var named []string
		for row := range strings.Lines(chapter) {
			if cells := strings.Split(row, "|"); strings.HasPrefix(row, "| `") {
				for _, name := range regexp.MustCompile("`([a-z_]+)`").FindAllStringSubmatch(cells[1], -1) {
					named = append(named, name[1])
				}
			}
		}
		var want []string
		for _, f := range form.Of(of).Fields {
			want = append(want, f.Name)
		}
		slices.Sort(named)
		slices.Sort(want)
		if !slices.Equal(named, want) {
			t.Errorf("the table of %s has %q, want %q", kind, named, want)
		}
	}
	_, rest, _ := strings.Cut(page, "```json\n")
	shown, _, _ := strings.Cut(rest, "```")
	example, err := os.ReadFile("testdata/history.jsonl")
	if err != nil {
		t.Fatal(err)
	}
	if shown != string(example) {
		t.Error("the example of the page is not testdata/history.jsonl")
	}
}

// What Append writes is how the example is written.
func TestTheExampleIsAsWritten(t *testing.T) {
	data, err := os.ReadFile("testdata/history.jsonl")
	if err != nil {
		t.Fatal(err)
	}
	records, err := history.ReadAll(strings.NewReader(string(data)))
	if err != nil {
		t.Fatal(err)
	}
	var lines []byte
	for _, r := range records {
		if lines, err = history.Append(lines, r.Entry); err != nil {
			t.Fatal(err)
		}
	}
	if string(lines) != string(data) {
		t.Errorf("written as\n%s", lines)
	}
}
