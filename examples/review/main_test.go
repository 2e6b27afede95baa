package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"

	"example.com/quoin/margin/history"
	"example.com/quoin/margin/pricelist"
)

var update = flag.Bool("update", false, "write the golden file anew")

func TestGolden(t *testing.T) {
	for name, args := range map[string][]string{"review.txt": nil, "review.md": {"-markdown"}} {
		file, got := filepath.Join("testdata", name), printed(t, args...)
		if *update {
			if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(string(want), got); diff != "" {
			t.Errorf("%s changed (-was +is):\n%s", file, diff)
		}
	}
}

func printed(t *testing.T, args ...string) string {
	t.Helper()
	var out, errs bytes.Buffer
	if status := run(args, &out, &errs); status != reviewed {
		t.Fatalf("%q exits with %d: %s", args, status, &errs)
	}
	return out.String()
}

func TestLinesFit(t *testing.T) {
	for line := range strings.Lines(printed(t)) {
		line = strings.TrimRight(line, "\n")
		if n := utf8.RuneCountInString(line); n > width {
			t.Errorf("a line of %d: %s", n, line)
		}
		if line != strings.TrimRight(line, " ") {
			t.Errorf("blanks at the end of %q", line)
		}
	}
}

// The cautions stand last, in the text and in the JSON.
func TestCautions(t *testing.T) {
	joined := strings.Join(strings.Fields(printed(t)), " ")
	all := append(pricelist.Cautions(), history.LowestCaution) // the year has a reduction
	if want := strings.Join(all, " "); !strings.HasSuffix(joined, want) {
		t.Errorf("the text does not end with %q", want)
	}
	var found struct{ Cautions []string }
	if err := json.Unmarshal([]byte(printed(t, "-json")), &found); err != nil || !slices.Equal(found.Cautions, all) {
		t.Errorf("the JSON carries %q: %v", found.Cautions, err)
	}
}

// changed is a directory with the embedded year, in one file of which something else
// stands.
func changed(t *testing.T, file, old, with string) string {
	t.Helper()
	dir := t.TempDir()
	for _, name := range []string{"last.json", "now.json", "history.jsonl", "market.json", "review.json"} {
		data, err := embedded.ReadFile("year/" + name)
		if err != nil {
			t.Fatal(err)
		}
		if name == file {
			if !bytes.Contains(data, []byte(old)) {
				t.Fatalf("%s does not hold %q", file, old)
			}
			data = bytes.ReplaceAll(data, []byte(old), []byte(with))
		}
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

func TestExitStatus(t *testing.T) {
	for _, c := range []struct {
		args     []string
		status   int
		out, err string // part of each; empty means nothing at all
	}{
		{nil, reviewed, "wait with 37.50", ""},
		{[]string{"-json"}, reviewed, `"answer": "cannot_tell"`, ""},
		{[]string{changed(t, "review.json", "2026-11-21", "2026-11-28")}, reviewed, "on 2026-11-28", ""},
		{[]string{changed(t, "review.json", `"12000"`, `"1000000"`)}, reviewed, "try 17.00 beside 15.50", ""},
		{[]string{changed(t, "now.json", `"at_least": "10%"`, `"at_least": "95%"`)}, conflict, "cannot hold together: \"a tenth is left\"", ""},
		{[]string{changed(t, "now.json", `"version": 1`, `"version": 2`)}, faulty, "", "now.json:2:14: version: found 2"},
		{[]string{changed(t, "history.jsonl", `"spring-fair-32"`, `"spring-fair-24"`)}, faulty, "", "history.jsonl:"},
		{[]string{changed(t, "market.json", `"sold": 21`, `"sold": -1`)}, faulty, "", "sold"},
		{[]string{changed(t, "review.json", `"today"`, `"day"`)}, faulty, "", "day"},
		{[]string{changed(t, "review.json", `"today": "2026-11-21",`, ``)}, faulty, "", "the field today"},
		{[]string{filepath.Join(t.TempDir(), "none")}, faulty, "", "last.json"},
		{[]string{"a", "b"}, faulty, "", "found 2 directories"},
		{[]string{"-unknown"}, faulty, "", "flag provided but not defined"},
	} {
		var out, errs bytes.Buffer
		if status := run(c.args, &out, &errs); status != c.status {
			t.Errorf("%q exits with %d, want %d", c.args, status, c.status)
		}
		if !strings.Contains(out.String(), c.out) || c.out == "" && out.Len() > 0 {
			t.Errorf("%q prints\n%s\nwant %q", c.args, &out, c.out)
		}
		if !strings.Contains(errs.String(), c.err) || c.err == "" && errs.Len() > 0 {
			t.Errorf("%q prints on standard error\n%s\nwant %q", c.args, &errs, c.err)
		}
	}
}
