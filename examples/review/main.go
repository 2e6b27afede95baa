// Command review goes over a price list a year later: what has changed, what that
// did to the least prices, what to do about each price now, and what the trials of
// the year can and cannot tell.
//
//	go run ./examples/review            the embedded year
//	go run ./examples/review DIRECTORY  a year of one's own, in files of the same names
//	go run ./examples/review -json      the results as JSON
//
// A year is five files: last.json and now.json, the shop document as it was and as
// it is, history.jsonl, what was asked, tried, reduced and sold, market.json, what
// prints like these sold for, and review.json, the day and the bounds of the review.
// Nothing looks at a clock.
//
// It exits with 0 when the review can say what to do, 1 when the rules of the new
// document conflict, and 2 when a file is at fault, with its problems on standard
// error.
//
// The artist, a linocut printer of marsh birds, the fees, the prices and the sales
// are invented.
package main

import (
	"embed"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
)

//go:embed year
var embedded embed.FS

const (
	reviewed = 0
	conflict = 1
	faulty   = 2
)

func main() {
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
}

func run(args []string, out, errs io.Writer) int {
	flags := flag.NewFlagSet("review", flag.ContinueOnError)
	flags.SetOutput(errs)
	asJSON := flags.Bool("json", false, "print the results as JSON")
	if err := flags.Parse(args); err != nil {
		return faulty
	}
	files, err := filesOf(flags.Args())
	if err != nil {
		fmt.Fprintln(errs, err)
		return faulty
	}
	status, err := show(files, *asJSON, out)
	if err != nil {
		fmt.Fprintln(errs, err)
	}
	return status
}

func filesOf(args []string) (fs.FS, error) {
	switch len(args) {
	case 0:
		return fs.Sub(embedded, "year")
	case 1:
		return os.DirFS(args[0]), nil
	}
	return nil, fmt.Errorf("found %d directories, wanted one", len(args))
}

func show(files fs.FS, asJSON bool, out io.Writer) (int, error) {
	y, err := read(files)
	if err != nil {
		return faulty, err
	}
	found, err := y.results()
	if err != nil {
		return faulty, err
	}
	if err := write(found, asJSON, out); err != nil {
		return faulty, err
	}
	if len(found.Review.Conflict) > 0 {
		return conflict, nil
	}
	return reviewed, nil
}

func write(found results, asJSON bool, out io.Writer) error {
	if !asJSON {
		_, err := io.WriteString(out, found.text())
		return err
	}
	e := json.NewEncoder(out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(found)
}
