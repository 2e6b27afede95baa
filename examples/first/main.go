// Command first prices the first document of the README: two prints in one web shop.
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
	fmt.Printf("print      %s price  not lower, because of     stays with you\n", list.Currency)
	for _, p := range list.Products {
		why, _ := p.Lower.Why()
		kept := list.Currency.Round(p.Channels[0].Statement.Contribution, quoin.HalfUp)
		fmt.Printf("%-9s  %9s  %-24s  %14s\n", p.Name, p.Price, why.By[0].Rule, kept)
	}
	fmt.Println(strings.Join(list.Cautions, "\n"))
}
