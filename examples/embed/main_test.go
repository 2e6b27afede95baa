package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"example.com/quoin/margin/pricelist/embedded"
)

// built is made once, by TestMain.
var built Built

func TestMain(m *testing.M) {
	dir, err := os.MkdirTemp("", "embed")
	if err == nil {
		built, err = Build(context.Background(), dir)
	}
	if err != nil {
		os.Stderr.WriteString(err.Error())
		os.Exit(1)
	}
	status := m.Run()
	os.RemoveAll(dir)
	os.Exit(status)
}

// documents are all example documents, the cases worked out by hand, documents with mistakes, and files that are none.
func documents(t testing.TB) []string {
	t.Helper()
	var out []string
	for _, pattern := range []string{
		"*.json", "../*/*.json", "../../margin/pricelist/testdata/cases/*.json", "../../margin/pricelist/testdata/codes/*.json",
	} {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) == 0 {
			t.Fatalf("no documents as %s: %v", pattern, err)
		}
		out = append(out, files...)
	}
	dir := t.TempDir()
	for name, text := range map[string]string{
		"empty": "", "cut": `{"version": 1, "products": [`, "bytes": "\xff\x00\xfe", "none": "null",
		"long": `{"version": 1, "note": "` + strings.Repeat("é", 700_000) + `"}`,
	} {
		file := filepath.Join(dir, name)
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		out = append(out, file)
	}
	return out
}

// Every byte of a reply is the same in Go, in Node and in Python, one document after the other in the same instance.
func TestSameBytesInEveryLanguage(t *testing.T) {
	files := documents(t)
	if len(files) < 100 {
		t.Fatalf("only %d documents", len(files))
	}
	var want [][]byte
	answered := 0
	for _, f := range files {
		document, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		reply := embedded.Price(document)
		if bytes.HasPrefix(reply, []byte(`{"version":1,`)) && bytes.Contains(reply, []byte(`,"answer":{`)) {
			answered++
		}
		want = append(want, reply)
	}
	if answered < 20 || answered > len(files)-20 {
		t.Fatalf("%d of %d documents answered: too few, or too few refused", answered, len(files))
	}
	for _, h := range built.Hosts() {
		t.Run(h.Name, func(t *testing.T) {
			text, err := h.Run(t.Context(), files...)
			if err != nil {
				t.Fatal(err)
			}
			got := bytes.Split(bytes.TrimSuffix(text, []byte("\n")), []byte("\n"))
			if len(got) != len(want) {
				t.Fatalf("%d replies to %d documents", len(got), len(want))
			}
			for i := range want {
				if !bytes.Equal(got[i], want[i]) {
					t.Errorf("%s: not the bytes that Go replies", files[i])
				}
			}
		})
	}
}

// The command prints the prices by both, and the cautions. Costs of the print: half a sheet of 1.35 and a quarter of an
// hour of 18.00, by 0.88, is 5.8807, and with the envelope of 0.84 it is 6.7207. 12.00 stay of a price p where
// p + 3.50 − 4.10 − 6.7207 − 2.4% × (p + 3.50) − 0.20 ≥ 12.00, so p ≥ 20.0888: 20.50 on the grid, and 21.00 of today is
// above it, and above twice 6.7207.
func TestCommandPrintsPrices(t *testing.T) {
	var b strings.Builder
	if err := run(t.Context(), &b, t.TempDir(), ""); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"Node, through WASI:\nReed bunting, A4: 21.00 EUR\n", "Python, through the C library:\nReed bunting, A4: 21.00 EUR\n"} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("%q is not in\n%s", want, &b)
		}
	}
	if n := strings.Count(b.String(), "This is not tax, legal or accounting advice."); n != 2 {
		t.Errorf("cautions %d times", n)
	}
	if err := run(t.Context(), &b, t.TempDir(), "no such file"); err == nil || !strings.Contains(err.Error(), "no such file") {
		t.Errorf("a file that is not there: %v", err)
	}
}

// Two builds are the same bytes.
func TestBuildsAreReproducible(t *testing.T) {
	again, err := Build(t.Context(), t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	for _, pair := range [][2]string{{built.Module, again.Module}, {built.Library, again.Library}} {
		one, err1 := os.ReadFile(pair[0])
		two, err2 := os.ReadFile(pair[1])
		if err1 != nil || err2 != nil || len(one) == 0 || !bytes.Equal(one, two) {
			t.Errorf("%s: %d and %d bytes, not the same (%v, %v)", filepath.Base(pair[0]), len(one), len(two), err1, err2)
		}
	}
}

// BenchmarkPrice is one call with the document of this example, in each language. Processes start and instances are made
// before it is counted.
func BenchmarkPrice(b *testing.B) {
	document, err := os.ReadFile("shop.json")
	if err != nil {
		b.Fatal(err)
	}
	b.Run("Go", func(b *testing.B) {
		for b.Loop() {
			embedded.Price(document)
		}
	})
	for _, h := range built.Hosts() {
		b.Run(h.Name, func(b *testing.B) {
			text, err := h.Run(b.Context(), "--time", strconv.Itoa(b.N), "shop.json")
			if err != nil {
				b.Fatal(err)
			}
			ns, err := strconv.ParseFloat(strings.TrimSpace(string(text)), 64)
			if err != nil {
				b.Fatal(err)
			}
			b.ReportMetric(ns/float64(b.N), "ns/op")
		})
	}
}
