// Schemas writes the JSON Schemas of the shop document, of its answer and of the lines of a
// history, from the types that these are read into: from the tags of their fields, and what
// the comments in their source say. Run it in the module after either was changed:
//
//	go run ./internal/schemas
package main

import (
	"fmt"
	"os"
)

func main() {
	for _, s := range schemas() {
		if err := os.WriteFile(s.file, s.build(newComments(".")), 0o644); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
	}
}
