package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"
)

const top = "../.."

// The files are what the types and their comments say.
func TestFilesAreAsGenerated(t *testing.T) {
	for _, s := range schemas() {
		file, err := os.ReadFile(filepath.Join(top, s.file))
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(file, s.build(newComments(top))) {
			t.Errorf("%s is not what its types say: go run ./internal/schemas writes it again", s.file)
		}
	}
}

// The patterns of whole numbers take those of their range and no others, zeros before them
// apart.
func TestBetween(t *testing.T) {
	for _, c := range [][2]int64{{0, 0}, {0, 1}, {0, 9}, {0, 365}, {1, 1}, {1, 9}, {1, 10}, {1, 600}, {1, 999}, {1, 1000}, {2, 1000}, {7, 1234}, {15, 2019}, {99, 101}, {0, 2999}} {
		of := regexp.MustCompile("^0*" + between(c[0], c[1]) + "$")
		for n := range int64(3100) {
			text := strconv.FormatInt(n, 10)
			if got, want := of.MatchString(text), c[0] <= n && n <= c[1]; got != want {
				t.Errorf("%d to %d as %s: %s taken is %v", c[0], c[1], of, text, got)
			}
			if n > 0 && of.MatchString(text) != of.MatchString("00"+text) {
				t.Errorf("%s with zeros before it", text)
			}
		}
	}
}

// Decimal numbers end at their bound, with or without it.
func TestUpTo(t *testing.T) {
	for _, most := range []int64{1, 2, 7, 10, 11} {
		for _, below := range []bool{false, true} {
			of := regexp.MustCompile("^0*" + upTo(most, 2, below) + "$")
			for hundredths := range int64(1400) {
				text := fmt.Sprintf("%d.%02d", hundredths/100, hundredths%100)
				want := hundredths < most*100 || hundredths == most*100 && !below
				if got := of.MatchString(text); got != want {
					t.Errorf("up to %d, below it %v: %s taken is %v", most, below, text, got)
				}
			}
		}
	}
}
