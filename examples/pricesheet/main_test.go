package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

const (
	cases = "../../margin/pricelist/testdata/cases/"
	shops = "../shops/"
)

func TestExitStatus(t *testing.T) {
	for _, c := range []struct {
		args     []string
		in       string
		status   int
		out, err string // part of each; empty means nothing at all
	}{
		{nil, "", decided, "Bittern in the reeds, A4", ""},
		{[]string{cases + "01-cost-multiple.json"}, "", decided, "17.50 USD", ""},
		{[]string{"-json", cases + "01-cost-multiple.json"}, "", decided, `"price": "17.50"`, ""},
		{[]string{cases + "04-nothing-fits.json"}, "", conflict, `"multiple" and "market" cannot hold together`, ""},
		{[]string{"-json", cases + "04-nothing-fits.json"}, "", conflict, `"conflict"`, ""},
		{[]string{"-why", "bittern-a3"}, "", decided, "Why not lower?", ""},
		{[]string{"-why", "bittern-a3", "-channel", "fair"}, "", decided, "Weekend fair: one item at", ""},
		{[]string{"-why", "bittern-a3", "-channel", "web"}, "", faulty, "", `found no product "bittern-a3" in a channel "web"`},
		{[]string{"-why", "heron"}, "", faulty, "", `found no product "heron"`},
		{[]string{"-why", "warbler-a4", cases + "04-nothing-fits.json"}, "", conflict, "asks at least 30.22", ""},
		{[]string{"-markdown"}, "", decided, "| price of one print | 18.00 |", ""},
		{[]string{"-full"}, "", decided, "net margin", ""},
		{[]string{"-full", "-markdown"}, "", decided, "| net margin |", ""},
		{[]string{"-html"}, "", decided, "<h1>Price list</h1>", ""},
		{[]string{"-full", "-html"}, "", decided, "<td>net margin</td>", ""},
		{[]string{"-line-sheet", "shops", shops + "shops.json"}, "", decided, "Line sheet, Marsh Bird Prints", ""},
		{[]string{"-line-sheet", "shops", "-csv", shops + "shops.json"}, "", decided, "product,name,size", ""},
		{[]string{"-line-sheet", "shops", "-html", shops + "shops.json"}, "", decided, "<h1>Line sheet, Marsh Bird Prints</h1>", ""},
		{[]string{"-labels", "3x8"}, "", decided, "<strong>18.00 EUR</strong>", ""},
		{[]string{"-labels", "3 by 8"}, "", faulty, "", `found -labels "3 by 8"`},
		{[]string{"-labels", "3x80"}, "", faulty, "", "Down: found 80"},
		{[]string{"-labels", "3x8", "-paper", "the large one"}, "", faulty, "", "the large one"},
		{[]string{"-labels", "3x8", cases + "04-nothing-fits.json"}, "", conflict, "cannot hold together", ""},
		{[]string{"-picture", "bittern-a4"}, "", decided, "<title id=\"keeps-2-t\">What a sale keeps: Bittern in the reeds, A4</title>", ""},
		{[]string{"-picture", "heron"}, "", faulty, "", `found no product "heron"`},
		{[]string{"-line-sheet", "library", shops + "shops.json"}, "", faulty, "", `found no channel "library"`},
		{[]string{"-line-sheet", "fair", shops + "fairs.json"}, "", faulty, "", "that sells to shops on trade terms"},
		{[]string{"-line-sheet", "shops", cases + "04-nothing-fits.json"}, "", conflict, "cannot hold together", ""},
		{[]string{"-"}, `{"version": 2}`, faulty, "", "<stdin>:1:13: version: found 2, wanted a value of 1"},
		{[]string{"../../margin/pricelist/testdata/codes/unknown_currency.json"}, "", faulty, "", "unknown_currency.json:3:15: currency: found"},
		{[]string{"no such file"}, "", faulty, "", "no such file"},
		{[]string{"a", "b"}, "", faulty, "", "found 2 files"},
		{[]string{"-unknown"}, "", faulty, "", "flag provided but not defined"},
	} {
		var out, errs bytes.Buffer
		status := run(c.args, strings.NewReader(c.in), &out, &errs)
		if status != c.status {
			t.Errorf("%q exits with %d, want %d", c.args, status, c.status)
		}
		if !strings.Contains(out.String(), c.out) || c.out == "" && out.Len() > 0 {
			t.Errorf("%q prints\n%s\nwant %q", c.args, &out, c.out)
		}
		if !strings.Contains(errs.String(), c.err) || c.err == "" && errs.Len() > 0 {
			t.Errorf("%q prints on standard error\n%s\nwant %q", c.args, &errs, c.err)
		}
	}
}

var update = flag.Bool("update", false, "write the golden files anew")

// The scenario, one whole story of a price, the cases, and one document for each
// way of selling, as they are printed.
func TestGolden(t *testing.T) {
	golden := map[string][]string{
		"sheet.txt":              nil,
		"sheet-narrow.txt":       {"-width", "46"},
		"sheet.md":               {"-markdown"},
		"sheet.html":             {"-html"},
		"sheet-full.txt":         {"-full"},
		"why-bittern-a4.txt":     {"-why", "bittern-a4"},
		"01-cost-multiple.txt":   {"-why", "print", cases + "01-cost-multiple.json"},
		"02-two-sizes.txt":       {"-why", "warbler-a3", cases + "02-two-sizes-four-channels.json"},
		"03-cliff.txt":           {"-why", "print", cases + "03-cliff-in-the-commission.json"},
		"04-nothing-fits.txt":    {cases + "04-nothing-fits.json"},
		"04-nothing-fits.md":     {"-markdown", cases + "04-nothing-fits.json"},
		"02-two-sizes-sheet.txt": {cases + "02-two-sizes-four-channels.json"},
		"shops/line-sheet.txt":   {"-line-sheet", "shops", shops + "shops.json"},
		"shops/line-sheet.md":    {"-line-sheet", "shops", "-markdown", shops + "shops.json"},
		"shops/line-sheet.csv":   {"-line-sheet", "shops", "-csv", shops + "shops.json"},
	}
	for _, name := range shopDocuments(t) {
		golden["shops/"+name+".txt"] = []string{shops + name + ".json"}
	}
	for name, args := range golden {
		var out bytes.Buffer
		if status := run(args, nil, &out, os.Stderr); status == faulty {
			t.Errorf("%q exits with %d", args, status)
		}
		file := filepath.Join("testdata", filepath.FromSlash(name))
		if *update {
			if err := os.WriteFile(file, out.Bytes(), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Error(err)
			continue
		}
		if diff := cmp.Diff(string(want), out.String()); diff != "" {
			t.Errorf("%s changed (-was +is):\n%s", name, diff)
		}
	}
}

// Every example of a way of selling decides its prices, and its page tells of it.
func TestShopsDecide(t *testing.T) {
	page, err := os.ReadFile(shops + "README.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range shopDocuments(t) {
		var out, errs bytes.Buffer
		if status := run([]string{shops + name + ".json"}, nil, &out, &errs); status != decided {
			t.Errorf("%s exits with %d:\n%s%s", name, status, &out, &errs)
		}
		if !strings.Contains(string(page), name+".json") {
			t.Errorf("the page on the examples says nothing of %s", name)
		}
	}
}

// shopDocuments are the names of the examples of ways of selling.
func shopDocuments(t *testing.T) []string {
	files, err := filepath.Glob(shops + "*.json")
	if err != nil || len(files) == 0 {
		t.Fatalf("found %d examples of ways of selling: %v", len(files), err)
	}
	names := make([]string, len(files))
	for i, f := range files {
		names[i] = strings.TrimSuffix(filepath.Base(f), ".json")
	}
	return names
}

// A product takes a screen at most: 24 lines of 80 characters.
func TestAScreenForEachProduct(t *testing.T) {
	all := append(shopDocuments(t), "")
	for _, name := range all {
		var args []string
		if name != "" {
			args = []string{shops + name + ".json"}
		}
		var out bytes.Buffer
		run(args, nil, &out, os.Stderr)
		for _, block := range strings.Split(out.String(), "\n\n") {
			if n := strings.Count(strings.TrimSpace(block), "\n") + 1; strings.Contains(block, "One print, on average") && n > 24 {
				t.Errorf("%s: %d lines:\n%s", name, n, block)
			}
		}
	}
}

// Nothing is printed without its cautions, and every width keeps its bound.
func TestCautionsAndWidths(t *testing.T) {
	for _, width := range []string{"36", "44", "60", "80", "200"} {
		var out bytes.Buffer
		run([]string{"-width", width}, nil, &out, os.Stderr)
		joined := strings.Join(strings.Fields(out.String()), " ")
		for _, caution := range []string{"estimates from the figures", "not tax, legal or accounting advice", "ask the authority or a licensed professional"} {
			if !strings.Contains(joined, caution) {
				t.Errorf("width %s: no caution %q", width, caution)
			}
		}
		n := map[string]int{"36": 36, "44": 44, "60": 60, "80": 80, "200": 200}[width]
		for line := range strings.Lines(out.String()) {
			if len([]rune(strings.TrimRight(line, "\n"))) > n {
				t.Errorf("width %s: a line of %d: %s", width, len([]rune(line)), line)
			}
		}
	}
	var out bytes.Buffer
	run([]string{"-json"}, nil, &out, os.Stderr)
	var answer struct{ Cautions []string }
	if err := json.Unmarshal(out.Bytes(), &answer); err != nil || len(answer.Cautions) != 3 {
		t.Errorf("the JSON carries %d cautions: %v", len(answer.Cautions), err)
	}
}
