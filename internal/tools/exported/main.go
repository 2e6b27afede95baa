// Command exported keeps the record of what the library exports: internal/api/exported.txt, one line for
// each constant, variable, function, type, field and method, with its type, value and tag.
//
//	go -C internal/tools run ./exported          compares the record with the source
//	go -C internal/tools run ./exported -write   writes the record anew
//
// A name that comes, goes or changes has to be named in the first section of CHANGELOG.md, or the record
// is not written. What has changed since the last version that is out, of which internal/release keeps
// the record, must be named there too.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

const (
	record    = "internal/api/exported.txt"
	kept      = "internal/release/kept"
	keptName  = "internal--api--exported.txt"
	changelog = "CHANGELOG.md"
)

func main() {
	write := flag.Bool("write", false, "write the record anew")
	flag.Parse()
	if err := run(filepath.Join("..", ".."), *write); err != nil {
		fmt.Fprintln(os.Stderr, "exported:", err)
		os.Exit(1)
	}
}

func run(root string, write bool) error {
	now, err := exportedBy(root)
	if err != nil {
		return err
	}
	before, err := lines(filepath.Join(root, record))
	if err != nil {
		return err
	}
	text, err := os.ReadFile(filepath.Join(root, changelog))
	if err != nil {
		return err
	}
	said := firstSection(string(text))
	if unsaid := unnamed(before, now, said); len(before) > 0 && len(unsaid) > 0 {
		return fmt.Errorf("the first section of %s has to name what has changed:\n%s", changelog, strings.Join(unsaid, "\n"))
	}
	last, err := lastRelease(root, string(text))
	if err != nil {
		return err
	}
	if unsaid := unnamed(last, now, said); len(last) > 0 && len(unsaid) > 0 {
		return fmt.Errorf("the first section of %s has to name what has changed since the last release:\n%s", changelog, strings.Join(unsaid, "\n"))
	}
	if write {
		return os.WriteFile(filepath.Join(root, record), []byte(strings.Join(now, "\n")+"\n"), 0o644)
	}
	if gone, come := without(before, now), without(now, before); len(gone)+len(come) > 0 {
		return fmt.Errorf("%s is behind: write it with -write\n- %s\n+ %s", record, strings.Join(gone, "\n- "), strings.Join(come, "\n+ "))
	}
	fmt.Printf("%d lines are exported as recorded; ", len(now))
	if len(last) == 0 {
		fmt.Println("no version is released yet")
	} else {
		fmt.Println("what has changed since the last release is in the changelog")
	}
	return nil
}

// lines are those of a file; none where there is no such file.
func lines(name string) ([]string, error) {
	text, err := os.ReadFile(name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	return strings.Split(strings.TrimSuffix(string(text), "\n"), "\n"), nil
}

// lastRelease is the record of the newest version that is out; none where none is. The first version of
// the changelog is not out while it says so.
func lastRelease(root, changelog string) ([]string, error) {
	names, err := filepath.Glob(filepath.Join(root, kept, "*", keptName))
	if err != nil {
		return nil, err
	}
	names = slices.DeleteFunc(names, func(name string) bool {
		return strings.Contains(changelog, "\n## "+versionOf(name)+", unreleased\n")
	})
	if len(names) == 0 {
		return nil, nil
	}
	return lines(slices.MaxFunc(names, byVersion))
}

func versionOf(name string) string { return filepath.Base(filepath.Dir(name)) }

// byVersion orders 0.9.0 before 0.10.0.
func byVersion(a, b string) int {
	return slices.Compare(numbers(a), numbers(b))
}

func numbers(name string) []int {
	var out []int
	for part := range strings.SplitSeq(versionOf(name), ".") {
		n := 0
		_, _ = fmt.Sscan(part, &n)
		out = append(out, n)
	}
	return out
}

// firstSection is the changelog up to its second version.
func firstSection(text string) string {
	_, rest, _ := strings.Cut(text, "\n## ")
	section, _, _ := strings.Cut(rest, "\n## ")
	return section
}

// unnamed are the changed lines whose name the changelog does not say.
func unnamed(before, now []string, said string) []string {
	var out []string
	for _, line := range append(without(before, now), without(now, before)...) {
		if name := nameOf(line); !strings.Contains(said, name) {
			out = append(out, line)
		}
	}
	return out
}

// nameOf is the name that a line is about: the last one of "margin: field Statement.Net Amount" is Net.
func nameOf(line string) string {
	_, rest, _ := strings.Cut(line, ": ")
	fields := strings.Fields(rest)
	if len(fields) < 2 {
		return line
	}
	name, _, _ := strings.Cut(fields[1], "(")
	return name[strings.LastIndex(name, ".")+1:]
}

// without are the lines of a list that another lacks.
func without(list, other []string) []string {
	has := make(map[string]bool, len(other))
	for _, l := range other {
		has[l] = true
	}
	var out []string
	for _, l := range list {
		if !has[l] {
			out = append(out, l)
		}
	}
	return out
}
