package main

import (
	"encoding/json"
	"fmt"
	"os"

	"example.com/quoin/margin/pricelist"
)

func main() {
	data, _ := os.ReadFile(os.Args[1])
	a, err := pricelist.Price(data)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(2)
	}
	e := json.NewEncoder(os.Stdout)
	e.SetIndent("", " ")
	if err := e.Encode(a); err != nil {
		fmt.Fprintln(os.Stderr, err)
	}
}
