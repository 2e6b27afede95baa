// Command review goes over a price list a year later: what has changed, what that
// did to the least prices, what to do about each price now, and what the trials of
// the year can and cannot tell.
//
//	go run ./examples/review            the embedded year
//	go run ./examples/review DIRECTORY  a year of one's own, in files of the same names
//	go run ./examples/review -json      the results as JSON
//	go run ./examples/review -markdown  the review as Markdown
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
	"bytes"
	"embed"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"

	"example.com/quoin"
	"example.com/quoin/margin/history"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/annual"
)

//go:embed year
var embedded embed.FS

const (
	reviewed = 0
	conflict = 1
	faulty   = 2
)

// width is the most characters to a line, where nothing else is asked for.
const width = 79

func main() {
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
}

func run(args []string, out, errs io.Writer) int {
	flags := flag.NewFlagSet("review", flag.ContinueOnError)
	flags.SetOutput(errs)
	var how manner
	flags.BoolVar(&how.json, "json", false, "print the results as JSON")
	flags.BoolVar(&how.markdown, "markdown", false, "print the review as Markdown")
	flags.IntVar(&how.width, "width", width, "print at most so many characters to a line")
	if err := flags.Parse(args); err != nil {
		return faulty
	}
	files, err := filesOf(flags.Args())
	if err != nil {
		fmt.Fprintln(errs, err)
		return faulty
	}
	status, err := show(files, how, out)
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

// manner is how the results are printed.
type manner struct {
	json, markdown bool
	width          int
}

func show(files fs.FS, how manner, out io.Writer) (int, error) {
	year, err := read(files)
	if err != nil {
		return faulty, err
	}
	found, err := annual.Review(year)
	if err != nil {
		return faulty, err
	}
	if err := write(found, how, out); err != nil {
		return faulty, err
	}
	if len(found.Review.Conflict) > 0 {
		return conflict, nil
	}
	return reviewed, nil
}

func read(files fs.FS) (y annual.Year, err error) {
	err = errors.Join(
		into(&y.Last, files, "last.json", pricelist.Decode),
		into(&y.Now, files, "now.json", pricelist.Decode),
		into(&y.History, files, "history.jsonl", past),
		into(&y.Market, files, "market.json", annual.DecodeMarket),
		into(&y.Terms, files, "review.json", annual.DecodeTerms),
	)
	return y, err
}

// into reads a part of a year from its file.
func into[T any](to *T, files fs.FS, name string, decode func([]byte) (T, error)) error {
	data, err := fs.ReadFile(files, name)
	if err != nil {
		return err
	}
	var ps quoin.Problems
	switch *to, err = decode(data); {
	case errors.As(err, &ps):
		return errors.New(ps.InFile(name))
	case err != nil:
		return fmt.Errorf("%s: %w", name, err)
	}
	return nil
}

func past(data []byte) (history.History, error) {
	records, err := history.ReadAll(bytes.NewReader(data))
	if err != nil {
		return history.History{}, err
	}
	return history.New(records)
}

func write(found annual.Results, how manner, out io.Writer) error {
	text := ""
	switch {
	case how.json:
		e := json.NewEncoder(out)
		e.SetEscapeHTML(false)
		e.SetIndent("", "  ")
		return e.Encode(found)
	case how.markdown:
		text = annual.Markdown(found)
	default:
		text = annual.Text(found, how.width)
	}
	_, err := io.WriteString(out, text)
	return err
}
