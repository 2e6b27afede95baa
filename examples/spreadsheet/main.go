// Command spreadsheet prices a shop that is kept as a workbook, or as a folder of CSV files, and
// writes the price list as a workbook whose formulas work every figure out again.
//
//	go run .                      prices the embedded shop and writes prices.xlsx
//	go run . -template shop.xlsx  writes a workbook to fill in, with the embedded shop in it
//	go run . shop.xlsx            prices a workbook
//	go run . FOLDER               prices CSV files, one for each sheet
//	go run . -out FILE …          writes the price list there
//
// It exits with 0 when the prices are decided, 1 when rules conflict, and 2 when there is no
// answer. The artist, the fees and the prices in the embedded shop are invented.
package main

import (
	"cmp"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/tables"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, out, errs io.Writer) int {
	flags := flag.NewFlagSet("spreadsheet", flag.ContinueOnError)
	flags.SetOutput(errs)
	blank := flags.String("template", "", "write a workbook to fill in to this file, and price nothing")
	to := flags.String("out", "prices.xlsx", "write the price list to this file")
	if err := flags.Parse(args); err != nil {
		return 2
	}
	answer, err := pricelist.Answer{}, error(nil)
	if *blank != "" {
		err, to = template(*blank), blank
	} else {
		answer, err = price(flags.Arg(0), *to)
	}
	if err != nil {
		fmt.Fprintln(errs, err)
		return 2
	}
	fmt.Fprintln(out, "written:", *to)
	return min(1, len(answer.Conflict))
}

// price reads a shop, decides it, and writes the list.
func price(from, to string) (pricelist.Answer, error) {
	shop, err := tablesOf(from)
	if err != nil {
		return pricelist.Answer{}, err
	}
	doc, err := tables.Read(shop)
	if problems, ok := errors.AsType[quoin.Problems](err); ok {
		return pricelist.Answer{}, errors.New(problems.InFile(cmp.Or(from, "embedded shop")))
	}
	if err != nil {
		return pricelist.Answer{}, err
	}
	return write(doc, to)
}

// write decides a document and writes the list as a workbook.
func write(doc pricelist.Document, to string) (pricelist.Answer, error) {
	answer, err := pricelist.Decide(doc)
	if err != nil {
		return answer, err
	}
	b := newBook(answer)
	b.list(doc)
	if len(answer.Conflict) == 0 {
		b.prove(doc)
	}
	return answer, b.save(to)
}

func tablesOf(from string) (map[string][][]string, error) {
	if from == "" {
		return tables.Example(), nil
	}
	about, err := os.Stat(from)
	switch {
	case err != nil:
		return nil, err
	case about.IsDir():
		return folder(os.DirFS(from), from)
	}
	return workbook(from)
}
