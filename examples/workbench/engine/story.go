package main

import (
	"strings"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist/sheet"
)

const (
	unbroken = 100_000 // wide enough that no sentence is broken
	readable = 64      // characters of a line of a story
)

// reasons are why a price is not lower and not higher, each line a sentence or a question. Deeper
// ones begin with spaces. There are none on a conflict.
func (d *desk) reasons(product string) []string {
	text, ok := sheet.WhyNot(d.answer, product, unbroken)
	if !ok {
		return nil
	}
	return strings.Split(strings.TrimSpace(text), "\n")
}

// story is every sum behind a price, as text that is at most so wide as a narrow column.
func (d *desk) story(product string) string {
	text, _ := sheet.Why(d.answer, product, readable)
	return text
}

// file is something to be kept: its name, what it is, and its text.
type file struct {
	Name string `json:"name"`
	Type string `json:"type"`
	Text string `json:"text"`
}

// download makes a file out of the answer: list and full, pages to print; labels for a stand;
// answer, for programs; or the line sheet of a channel as a page, as Markdown or as CSV.
func (d *desk) download(kind, channel string) (file, error) {
	switch kind {
	case "list":
		return file{"price-list.html", "text/html", sheet.HTML(d.answer)}, nil
	case "full":
		return file{"price-list-full.html", "text/html", sheet.FullHTML(d.answer)}, nil
	case "labels":
		text, err := sheet.Labels(d.answer, sheet.LabelSheet{})
		return file{"labels.html", "text/html", text}, err
	case "answer":
		text, err := d.answer.WithCurves().MarshalJSON()
		return file{"answer.json", "application/json", string(text)}, err
	}
	for _, s := range d.answer.LineSheets {
		switch {
		case s.Channel != channel:
			continue
		case kind == "line-sheet":
			return file{"line-sheet.html", "text/html", sheet.LineSheetHTML(s)}, nil
		case kind == "markdown":
			return file{"line-sheet.md", "text/markdown", sheet.LineSheetMarkdown(s)}, nil
		case kind == "csv":
			return file{"line-sheet.csv", "text/csv", sheet.LineSheetCSV(s)}, nil
		}
	}
	return file{}, quoin.Problem{
		Severity: quoin.Fault, Code: quoin.UnknownWord, Found: strings.TrimSpace(kind + " " + channel),
		Wanted: "list, full, labels, answer, or line-sheet, markdown or csv of a channel that sells at trade price",
	}
}
