//go:build !(js && wasm)

package main

import (
	"fmt"
	"os"
)

func main() {
	fmt.Fprintln(os.Stderr, "This is the engine of a page in a browser: go run ./examples/workbench builds it and shows the page.")
	os.Exit(2)
}
