// Command pricesheet prices a shop document and prints the price list.
//
//	go run ./examples/pricesheet              the embedded scenario
//	go run ./examples/pricesheet -new         a document to start from
//	go run ./examples/pricesheet FILE         a document; - reads standard input
//	go run ./examples/pricesheet -json FILE   the answer as JSON
//	go run ./examples/pricesheet -full        the list with all that was worked out
//	go run ./examples/pricesheet -markdown    the list as Markdown, also with -full
//	go run ./examples/pricesheet -html        the list as a page for a browser, also with -full
//	go run ./examples/pricesheet -picture PRODUCT  what a sale keeps at other prices, as SVG
//	go run ./examples/pricesheet -labels 3x8  price labels to print, so many across and down a sheet; -paper Letter
//	go run ./examples/pricesheet -why PRODUCT the whole story of one price
//	go run ./examples/pricesheet -why PRODUCT -channel CHANNEL  the same, in one channel
//	go run ./examples/pricesheet -line-sheet CHANNEL  what a shop is handed, also with -markdown, -html or -csv
//
// It exits with 0 when the prices are decided, 1 when rules conflict, and 2
// when the document is at fault, with its problems on standard error. There it also
// lists the notes that begin with "replace", as in a new document: figures that are
// still those of the example.
//
// The scenario is a linocut artist of marsh birds. The artist, the fees and
// the prices in it are invented.
package main

import (
	_ "embed"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/picture"
	"example.com/quoin/margin/pricelist/sheet"
)

//go:embed scenario.json
var scenario []byte

// newDocument is what -new prints: the first document of the README, with a note on
// each figure.
//
//go:embed new.json
var newDocument []byte

const (
	decided  = 0
	conflict = 1
	faulty   = 2
)

func main() {
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

func run(args []string, in io.Reader, out, errs io.Writer) int {
	flags := flag.NewFlagSet("pricesheet", flag.ContinueOnError)
	flags.SetOutput(errs)
	var how manner
	flags.BoolVar(&how.json, "json", false, "print the answer as JSON")
	flags.BoolVar(&how.markdown, "markdown", false, "print the list as Markdown")
	flags.BoolVar(&how.html, "html", false, "print the list as a page for a browser")
	flags.BoolVar(&how.full, "full", false, "print all that was worked out")
	flags.StringVar(&how.why, "why", "", "print the whole story of the price of this product")
	flags.StringVar(&how.channel, "channel", "", "with -why, tell of this channel alone")
	flags.StringVar(&how.lines, "line-sheet", "", "print the line sheet of this channel, which sells to shops")
	flags.BoolVar(&how.csv, "csv", false, "print the line sheet as comma-separated values")
	flags.StringVar(&how.picture, "picture", "", "print a picture of what a sale of this product keeps at other prices")
	flags.StringVar(&how.labels, "labels", "", "print price labels, so many across and down a sheet, such as 3x8")
	flags.StringVar(&how.paper, "paper", "A4", "with -labels, the size of the sheet")
	flags.IntVar(&how.copies, "copies", 1, "with -labels, how many labels of each product")
	flags.IntVar(&how.width, "width", 80, "print at most so many characters to a line")
	fresh := flags.Bool("new", false, "print a document to start from")
	if err := flags.Parse(args); err != nil {
		return faulty
	}
	if *fresh {
		if _, err := out.Write(newDocument); err != nil {
			fmt.Fprintln(errs, err)
			return faulty
		}
		return decided
	}
	name, data, err := document(flags.Args(), in)
	if err != nil {
		fmt.Fprintln(errs, err)
		return faulty
	}
	answer, err := pricelist.Price(data)
	if err != nil {
		fmt.Fprintln(errs, located(name, err))
		return faulty
	}
	if err := show(out, answer, how); err != nil {
		fmt.Fprintln(errs, err)
		return faulty
	}
	sayNotes(errs, data)
	if len(answer.Conflict) > 0 {
		return conflict
	}
	return decided
}

// document is the text of a document, and what its file is called.
func document(args []string, in io.Reader) (name string, data []byte, err error) {
	switch {
	case len(args) == 0:
		return "scenario.json", scenario, nil
	case len(args) > 1:
		return "", nil, fmt.Errorf("found %d files, wanted one", len(args))
	case args[0] == "-":
		data, err = io.ReadAll(in)
		return "<stdin>", data, err
	}
	data, err = os.ReadFile(args[0])
	return args[0], data, err
}

// located says problems behind the name of their file, as compilers do.
func located(name string, err error) string {
	var ps quoin.Problems
	if errors.As(err, &ps) {
		return ps.InFile(name)
	}
	return name + ": " + err.Error()
}

// manner is how the answer is printed.
type manner struct {
	json, markdown, html, csv, full bool
	why, channel, lines             string
	labels, paper, picture          string
	width, copies                   int
}

func show(out io.Writer, answer pricelist.Answer, how manner) error {
	text := ""
	switch {
	case how.json:
		e := json.NewEncoder(out)
		e.SetEscapeHTML(false)
		e.SetIndent("", "  ")
		return e.Encode(answer)
	case how.picture != "" && len(answer.Conflict) == 0:
		drawn, ok := picture.Keeps(answer.WithCurves(), how.picture)
		if !ok {
			return fmt.Errorf("found no product %q that a channel sells", how.picture)
		}
		text = drawn.SVG()
	case how.labels != "" && len(answer.Conflict) == 0:
		sheets, err := labels(answer, how)
		if err != nil {
			return err
		}
		text = sheets
	case how.lines != "" && len(answer.Conflict) == 0:
		lines, err := lineSheet(answer, how)
		if err != nil {
			return err
		}
		text = lines
	case how.markdown || how.html:
		text = page(answer, how)
	case how.why != "" && len(answer.Conflict) == 0:
		story, err := story(answer, how)
		if err != nil {
			return err
		}
		text = story
	case how.full:
		text = sheet.FullText(answer, how.width)
	default:
		text = sheet.Text(answer, how.width)
	}
	_, err := io.WriteString(out, text)
	return err
}

// page is the list as Markdown or for a browser.
func page(answer pricelist.Answer, how manner) string {
	switch {
	case how.html && how.full:
		return sheet.FullHTML(answer)
	case how.html:
		return sheet.HTML(answer)
	case how.full:
		return sheet.FullMarkdown(answer)
	}
	return sheet.Markdown(answer)
}

func story(answer pricelist.Answer, how manner) (string, error) {
	if how.channel == "" {
		if text, ok := sheet.Why(answer, how.why, how.width); ok {
			return text, nil
		}
		return "", fmt.Errorf("found no product %q", how.why)
	}
	if text, ok := sheet.WhyIn(answer, how.why, how.channel, how.width); ok {
		return text, nil
	}
	return "", fmt.Errorf("found no product %q in a channel %q", how.why, how.channel)
}

func lineSheet(answer pricelist.Answer, how manner) (string, error) {
	for _, s := range answer.LineSheets {
		switch {
		case s.Channel != how.lines:
			continue
		case how.html:
			return sheet.LineSheetHTML(s), nil
		case how.csv:
			return sheet.LineSheetCSV(s), nil
		case how.markdown:
			return sheet.LineSheetMarkdown(s), nil
		}
		return sheet.LineSheet(s, how.width), nil
	}
	return "", fmt.Errorf("found no channel %q that sells to shops on trade terms", how.lines)
}

// labels are price labels, so many across and down a sheet of paper.
func labels(answer pricelist.Answer, how manner) (string, error) {
	across, down, _ := strings.Cut(how.labels, "x")
	wide, notWide := strconv.Atoi(across)
	high, notHigh := strconv.Atoi(down)
	if notWide != nil || notHigh != nil || wide == 0 || high == 0 {
		return "", fmt.Errorf("found -labels %q, wanted how many across and down, such as 3x8", how.labels)
	}
	paper, err := quoin.ParseSize(how.paper)
	if err != nil {
		return "", err
	}
	return sheet.Labels(answer, sheet.LabelSheet{Paper: paper, Across: wide, Down: high, Copies: how.copies})
}
