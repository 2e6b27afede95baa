package main

import (
	"bytes"
	"flag"
	"os"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

var update = flag.Bool("update", false, "write the golden file anew")

func TestGolden(t *testing.T) {
	var out bytes.Buffer
	if err := run(&out); err != nil {
		t.Fatal(err)
	}
	if *update {
		if err := os.WriteFile("testdata/output.txt", out.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile("testdata/output.txt")
	if err != nil || !bytes.Equal(want, out.Bytes()) {
		t.Errorf("prints other output than testdata/output.txt (%v); -update writes it anew", err)
	}
}

// Whatever the prices are: each size costs 1.4 to 2.2 times the one before, in each of 60 designs, and
// leaves 4.50 in each of three channels.
func TestEveryDesignKeepsItsRules(t *testing.T) {
	list, err := pricelist.Price(marsh)
	if err != nil || len(list.Products) != 240 {
		t.Fatalf("%d products, %v", len(list.Products), err)
	}
	for i, p := range list.Products {
		for _, c := range p.Channels {
			if c.Statement.Contribution.Cmp(quoin.MustAmount("4.50")) < 0 {
				t.Errorf("%s leaves %s in %s", p.ID, c.Statement.Contribution, c.ID)
			}
		}
		if i%4 == 0 {
			continue
		}
		smaller := list.Products[i-1].Price
		if p.Price.Cmp(smaller.Times(quoin.MustFactor("1.4"))) < 0 || p.Price.Cmp(smaller.Times(quoin.MustFactor("2.2"))) > 0 {
			t.Errorf("%s at %s beside %s", p.ID, p.Price, smaller)
		}
	}
}
