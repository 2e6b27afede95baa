package main

import (
	"os"
	"testing"

	"example.com/quoin/internal/handtest"
)

// What is worked out by hand of the review is right, and is what is printed.
func TestByHand(t *testing.T) {
	page, err := os.ReadFile("BYHAND.md")
	if err != nil {
		t.Fatal(err)
	}
	output, err := os.ReadFile("testdata/review.txt")
	if err != nil {
		t.Fatal(err)
	}
	handtest.Page(t, string(page), string(output), 99, 40)
}
