// Command designs prices a shop of 60 designs in four sizes, sold at price points in three
// channels, from one document: marsh.json. One rule steps from size to size of every design.
// It prints a line for each design, with today's price where the decided one is another.
// The shop, its fees and its prices are invented.
package main

import (
	_ "embed"
	"errors"
	"fmt"
	"io"
	"log"
	"os"
	"slices"
	"strings"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

//go:embed marsh.json
var marsh []byte

var sizes = [4]string{"A5", "A4", "A3", "A2"}

func main() {
	if err := run(os.Stdout); err != nil {
		log.Fatal(err)
	}
}

func run(out io.Writer) error {
	doc, err := pricelist.Decode(marsh)
	var ps quoin.Problems
	if errors.As(err, &ps) {
		return errors.New(ps.InFile("marsh.json"))
	}
	list, err := pricelist.Decide(doc)
	if err != nil {
		return err
	}
	if len(list.Conflict) > 0 {
		return fmt.Errorf("these rules contradict each other: %q", list.Conflict)
	}
	t := tableOf(doc, list)
	fmt.Fprintf(out, "Prices in %s; in brackets today's price, where the decided one is another.\n\n", list.Currency)
	fmt.Fprintf(out, "%-28s%16s%16s%16s%16s\n", "design", sizes[0], sizes[1], sizes[2], sizes[3])
	for _, design := range t.designs {
		p := t.price[design]
		fmt.Fprintf(out, "%-28s%16s%16s%16s%16s\n", design, p[0], p[1], p[2], p[3])
	}
	fmt.Fprintf(out, "\n%d prices, %d of them as today.\n", len(list.Products), t.kept)
	for _, id := range list.Dropped {
		fmt.Fprintf(out, "The wish %q was dropped: with it no price would be left for %s.\n", id, strings.Join(list.Emptied, ", "))
	}
	for _, caution := range list.Cautions {
		fmt.Fprintln(out, caution)
	}
	return nil
}

// table is the price list with a row for each design and a column for each size.
type table struct {
	designs []string
	price   map[string]*[4]string // by design, in the order of sizes
	kept    int                   // prices that stay as they are
}

func tableOf(doc pricelist.Document, list pricelist.Answer) table {
	t := table{price: make(map[string]*[4]string)}
	for i, p := range list.Products {
		given := doc.Products[i]
		if t.price[given.Design] == nil {
			t.designs = append(t.designs, given.Design)
			t.price[given.Design] = new([4]string)
		}
		text := p.Price.String()
		switch today, sold := given.Price.Get(); {
		case sold && today.Equal(p.Price):
			t.kept++
		case sold:
			text = "(" + today.String() + ") " + text
		default:
			text = "(new) " + text
		}
		t.price[given.Design][column(given.Sheet)] = text
	}
	return t
}

// column is where a paper size stands; the document has no others.
func column(sheet quoin.Size) int {
	return slices.IndexFunc(sizes[:], func(s string) bool { return quoin.MustSize(s).Equal(sheet) })
}
