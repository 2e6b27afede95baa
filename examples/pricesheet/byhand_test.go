package main

import (
	"os"
	"testing"

	"example.com/quoin/internal/handtest"
)

// What is worked out by hand of the scenario is right, and is what is printed.
func TestByHand(t *testing.T) {
	var page, printed string
	for name, into := range map[string]*string{
		"BYHAND.md": &page, "testdata/sheet-full.txt": &printed, "testdata/why-bittern-a4.txt": &printed,
	} {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		*into += string(text)
	}
	handtest.Page(t, page, printed, 130, 32)
}
