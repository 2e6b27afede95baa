package main

import (
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
)

const top = "../.."

// versions are the folders of what was kept.
func versions(t *testing.T) []string {
	t.Helper()
	folders, err := filepath.Glob(filepath.Join(top, kept, "*.*.*"))
	if err != nil || len(folders) == 0 {
		t.Fatalf("nothing was kept of any version: %v", err)
	}
	return folders
}

func contents(t *testing.T, name string) []byte {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// What a released version accepted is accepted, and what its answers promised they keep.
func TestSchemasKeepWhatTheyPromised(t *testing.T) {
	for _, folder := range versions(t) {
		for _, name := range promises[:3] {
			older, newer := contents(t, filepath.Join(folder, keptName(name))), contents(t, filepath.Join(top, name))
			for _, n := range narrower(read(t, string(older)), read(t, string(newer)), strings.Contains(name, "answer")) {
				t.Errorf("%s since %s: %s", name, filepath.Base(folder), n)
			}
		}
	}
}

// Every example document of every version is still answered, and whatever its answer said then it says
// now. What came since may stand beside it.
func TestDocumentsAreAnsweredAsEver(t *testing.T) {
	for _, folder := range versions(t) {
		names, err := filepath.Glob(filepath.Join(folder, "documents", "*.json"))
		if err != nil || len(names) < 10 {
			t.Fatalf("%d documents of %s: %v", len(names), folder, err)
		}
		for _, name := range names {
			reply, err := answerTo(contents(t, name))
			if err != nil {
				t.Fatal(err)
			}
			before, now := parsed(t, contents(t, filepath.Join(folder, "answers", filepath.Base(name)))), parsed(t, reply)
			if lost := lost("", before, now); len(lost) > 0 {
				t.Errorf("%s of %s is answered otherwise:\n%s", filepath.Base(name), filepath.Base(folder), strings.Join(lost[:min(5, len(lost))], "\n"))
			}
		}
	}
}

func parsed(t *testing.T, text []byte) (v any) {
	t.Helper()
	if err := json.Unmarshal(text, &v); err != nil {
		t.Fatal(err)
	}
	return v
}

// sentences are for people, and no promise. The version is that of the engine that answers.
var sentences = []string{"found", "wanted", "remedy", "text", "engine"}

// lost are the places where a value no longer holds what another did.
func lost(at string, before, now any) []string {
	switch before := before.(type) {
	case map[string]any:
		fields, _ := now.(map[string]any)
		var out []string
		for _, name := range slices.Sorted(maps.Keys(before)) {
			if !slices.Contains(sentences, name) {
				out = append(out, lost(at+"."+name, before[name], fields[name])...)
			}
		}
		return out
	case []any:
		entries, _ := now.([]any)
		if strings.HasSuffix(at, "warnings") {
			return lostWarnings(at, before, entries)
		}
		if len(before) != len(entries) {
			return []string{fmt.Sprintf("%s had %d entries and has %d", at, len(before), len(entries))}
		}
		var out []string
		for i := range before {
			out = append(out, lost(fmt.Sprintf("%s[%d]", at, i), before[i], entries[i])...)
		}
		return out
	}
	if !reflect.DeepEqual(before, now) {
		return []string{fmt.Sprintf("%s was %.80v and is %.80v", at, before, now)}
	}
	return nil
}

// lostWarnings are those that are no longer said. Others may come.
func lostWarnings(at string, before, now []any) []string {
	var out []string
	for i, w := range before {
		if !slices.ContainsFunc(now, func(n any) bool { return len(lost("", w, n)) == 0 }) {
			out = append(out, fmt.Sprintf("%s[%d] is no longer said: %.200v", at, i, w))
		}
	}
	return out
}

func TestLost(t *testing.T) {
	const before = `{"price": "20.00", "runs": [[1, 2], [4, 5]], "warnings": [{"code": "a", "path": "x", "text": "old"}], "engine": "0.1.0"}`
	for _, c := range []struct{ from, to, want string }{
		{"", "", ""},
		{`"0.1.0"`, `"0.2.0"`, ""},
		{`"old"`, `"new"`, ""},
		{`"price"`, `"more": 1, "price"`, ""},
		{`[{"code"`, `[{"code": "b"}, {"code"`, ""},
		{"20.00", "20.01", ".price was 20.00 and is 20.01"},
		{`"price": "20.00", `, "", ".price was 20.00 and is <nil>"},
		{"[4, 5]", "[4, 6]", ".runs[1][1] was 5 and is 6"},
		{", [4, 5]", "", ".runs had 2 entries and has 1"},
		{`"path": "x"`, `"path": "y"`, ".warnings[0] is no longer said"},
	} {
		got := strings.Join(lost("", read(t, before), read(t, strings.Replace(before, c.from, c.to, 1))), "; ")
		if got != c.want && (c.want == "" || !strings.HasPrefix(got, c.want)) {
			t.Errorf("%s for %s: %q, want %q", c.to, c.from, got, c.want)
		}
	}
}

// What is kept of the version that is not out yet is what it is now.
func TestTheComingVersionIsKept(t *testing.T) {
	log := string(contents(t, filepath.Join(top, "CHANGELOG.md")))
	_, rest, _ := strings.Cut(log, "\n## ")
	heading, _, _ := strings.Cut(rest, "\n")
	coming, unreleased := strings.CutSuffix(heading, ", unreleased")
	if !unreleased || !version.MatchString(coming) {
		t.Skipf("the first version of the changelog, %q, is out", heading)
	}
	for _, name := range promises {
		if string(contents(t, filepath.Join(top, kept, coming, keptName(name)))) != string(contents(t, filepath.Join(top, name))) {
			t.Errorf("%s has changed since it was kept: go run ./internal/release %s", name, coming)
		}
	}
}
