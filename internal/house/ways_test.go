package house_test

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// way is a row of the table of ways to use the library: an example, its lines, its command.
var way = regexp.MustCompile("(?m)^\\| [^|]+ \\| `(examples/[a-z]+)` \\| ([0-9,]+) \\| `([^`|]+)` \\|$")

// The README says how many lines each example has, and which command runs it.
func TestWaysToUse(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(top, "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	var named []string
	for _, row := range way.FindAllStringSubmatch(string(text), -1) {
		dir, said, command := row[1], row[2], row[3]
		named = append(named, dir)
		lines := sourceLines(t, filepath.Join(top, dir))
		if n, err := strconv.Atoi(strings.ReplaceAll(said, ",", "")); err != nil || n != lines {
			t.Errorf("README.md says that %s has %s lines; it has %d", dir, said, lines)
		}
		want := "go run ./" + dir
		if _, err := os.Stat(filepath.Join(top, dir, "go.mod")); err == nil {
			want = "cd " + dir + " && go run ."
		}
		if command != want {
			t.Errorf("README.md runs %s by %q, wanted %q", dir, command, want)
		}
	}
	modules, err := filepath.Glob(filepath.Join(top, "examples", "*", "go.mod"))
	if err != nil || len(modules) == 0 {
		t.Fatalf("no examples with a module of their own: %v", err)
	}
	for _, m := range modules {
		if dir := "examples/" + filepath.Base(filepath.Dir(m)); !slices.Contains(named, dir) {
			t.Errorf("README.md has no row for %s", dir)
		}
	}
	if len(named) < 4 {
		t.Errorf("only %d rows were found", len(named))
	}
}

// sourceLines counts the lines of what is written by hand and is no test.
func sourceLines(t *testing.T, dir string) (lines int) {
	t.Helper()
	err := filepath.WalkDir(dir, func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && slices.Contains([]string{"node_modules", "testdata", "browser"}, d.Name()):
			return fs.SkipDir
		case d.IsDir() || strings.HasSuffix(name, "_test.go"):
			return nil
		case !slices.Contains([]string{".go", ".js", ".mjs", ".py", ".html", ".css", ".sql"}, filepath.Ext(name)):
			return nil
		}
		text, err := os.ReadFile(name)
		lines += bytes.Count(text, []byte("\n"))
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return lines
}
