package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// A module of its own, with one of each kind.
const source = `package quoin

const Most = 3
var Any = "x"
type Amount struct { Value int ` + "`json:\"value\"`" + `; hidden int }
func (a Amount) Add(b Amount) Amount { return a }
func (a *Amount) Set(n int) {}
func (a Amount) hide() {}
type List[T any] []T
func Sum(list List[int], more ...Amount) (int, error) { return 0, nil }
func none() {}
`

func library(t *testing.T, code, log string) string {
	t.Helper()
	root := t.TempDir()
	for name, text := range map[string]string{"go.mod": "module example.com/quoin\n\ngo 1.26\n", "quoin.go": code, changelog: log} {
		if err := os.WriteFile(filepath.Join(root, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for _, folder := range []string{"internal/api", filepath.Join(kept, "0.9.0"), filepath.Join(kept, "0.10.0"), filepath.Join(kept, "0.11.0")} {
		if err := os.MkdirAll(filepath.Join(root, folder), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	return root
}

func TestEachKindIsListed(t *testing.T) {
	got, err := exportedBy(library(t, source, ""))
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		"quoin: const Most untyped int = 3",
		"quoin: field Amount.Value int `json:\"value\"`",
		"quoin: func Sum(list List[int], more ...Amount) (int, error)",
		"quoin: method Amount.Add(b Amount) Amount",
		"quoin: method Amount.Set(n int)",
		"quoin: type Amount struct",
		"quoin: type List[T any] []T",
		"quoin: var Any string",
	}
	if !slices.Equal(got, want) {
		t.Errorf("exported is\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

func TestChangesAreInTheChangelog(t *testing.T) {
	const before, silent, said = "# Changelog\n\n## next\n\n- Nothing.\n", "\n\n## next\n\n- Nothing.\n\n## 0.1.0\n\n- Add\n", "\n\n## next\n\n- `Amount.Add` takes two.\n"
	changed := strings.Replace(source, "Add(b Amount)", "Add(b, c Amount)", 1)
	root := library(t, source, before)
	if err := run(root, true); err != nil {
		t.Fatalf("a first record: %v", err)
	}
	write := func(name, text string) {
		if err := os.WriteFile(filepath.Join(root, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	asks := func(when string, write bool, want string) {
		t.Helper()
		if err := run(root, write); err == nil && want != "" || err != nil && (want == "" || !strings.Contains(err.Error(), want)) {
			t.Errorf("%s: %v, want %q", when, err, want)
		}
	}
	asks("nothing has changed", false, "")
	write("quoin.go", changed)
	write(changelog, silent)
	asks("the changelog is silent", true, "has to name what has changed")
	write(changelog, said)
	asks("the record is behind", false, "is behind")
	asks("it is written", true, "")
	asks("it is as recorded", false, "")
	write(filepath.Join(kept, "0.9.0", keptName), "quoin: method Amount.Gone()\n")
	write(filepath.Join(kept, "0.10.0", keptName), "quoin: method Amount.Left()\n")
	write(filepath.Join(kept, "0.11.0", keptName), "quoin: method Amount.Coming()\n")
	write(changelog, "\n\n## 0.11.0, unreleased\n\n- `Amount.Add` takes two.\n\n## 0.10.0\n")
	asks("something that a release had is gone", false, "Amount.Left")
}
