// Command first prices the first document of the README: two prints, in one web shop and in shops.
package main

import (
	_ "embed"
	"fmt"
	"log"
	"strings"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

//go:embed shop.json
var shop []byte

func main() {
	list, err := pricelist.Price(shop)
	if err != nil {
		log.Fatal(err) // every mistake in the document, with its line
	}
	if len(list.Conflict) > 0 {
		log.Fatal("these rules contradict each other: ", strings.Join(list.Conflict, ", "))
	}
	fmt.Printf("print      %s price  not lower, because of  stays online  in shops\n", list.Currency)
	for _, p := range list.Products {
		why, _ := p.Lower.Why()
		fmt.Printf("%-9s  %9s  %-21s", p.Name, p.Price, why.By[0].Rule)
		for _, c := range p.Channels {
			fmt.Printf("  %10s", list.Currency.Round(c.Statement.Contribution, quoin.HalfUp))
		}
		fmt.Println()
	}
	fmt.Println(strings.Join(list.Cautions, "\n"))
}
