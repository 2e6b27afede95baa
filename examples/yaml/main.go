// Command yaml prices a shop that is written as YAML: the embedded one, or with go run . FILE yours.
// It exits with 1 when rules conflict, 2 without an answer. What the embedded shop says is invented.
package main

import (
	_ "embed"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/sheet"
	"go.yaml.in/yaml/v4"
)

//go:embed shop.yaml
var shop []byte

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, out, errs io.Writer) int {
	name, text, err := "shop.yaml", shop, error(nil)
	if len(args) > 0 {
		name = args[0]
		text, err = os.ReadFile(name)
	}
	var answer pricelist.Answer
	if err == nil {
		answer, err = price(name, text)
	}
	if err == nil {
		_, err = fmt.Fprint(out, sheet.Text(answer, 80))
	}
	if err != nil {
		fmt.Fprintln(errs, err)
		return 2
	}
	return min(len(answer.Conflict), 1)
}

// price decides a document. Problems say where they stand in the YAML.
func price(name string, text []byte) (answer pricelist.Answer, err error) {
	var root yaml.Node
	if err := yaml.Load(text, &root); err != nil {
		return answer, fmt.Errorf("%s: wanted one shop as YAML: %w", name, err)
	}
	var doc document
	if err := doc.add(root.Content[0], 0); err != nil {
		return answer, fmt.Errorf("%s:%w", name, err)
	}
	answer, err = pricelist.Price(doc.json)
	problems, ok := errors.AsType[quoin.Problems](err)
	if !ok {
		return answer, err
	}
	for i, p := range problems {
		from := doc.nodes[max(0, p.Line-2)]
		problems[i].Line, problems[i].Column = from.Line, from.Column
	}
	return answer, errors.New(problems.InFile(name))
}

// document is YAML written as JSON. Line n+2 of the JSON begins with node n, a name or a value.
type document struct {
	json  []byte
	nodes []*yaml.Node
}

func (d *document) add(n *yaml.Node, depth int) error {
	switch {
	case depth > 100 || len(d.json) > 8<<20:
		return refused(n, "more than is read", "100 levels and 8 MiB of JSON at most, with all aliases written out")
	case n.Kind == yaml.AliasNode:
		return d.add(n.Alias, depth+1)
	case n.Style&yaml.TaggedStyle != 0:
		return refused(n, "the tag "+n.Tag, "a value without a tag")
	}
	d.json, d.nodes = append(d.json, '\n'), append(d.nodes, n)
	marks := map[yaml.Kind]string{yaml.SequenceNode: "[,,]", yaml.MappingNode: "{,:}"}[n.Kind]
	if marks == "" {
		d.json = append(d.json, scalar(n)...)
		return nil
	}
	d.json = append(d.json, marks[0])
	for i, child := range n.Content {
		if n.Kind == yaml.MappingNode && i%2 == 0 && child.Tag != "!!str" {
			return refused(child, "what is no name of a field", "a name such as supplies, and merged fields written out")
		}
		if i > 0 {
			d.json = append(d.json, marks[1+i%2])
		}
		if err := d.add(child, depth+1); err != nil {
			return err
		}
	}
	d.json = append(d.json, marks[3])
	return nil
}

// scalar is the text as it is written, in quotes: the library reads the digits of a number, and
// an id such as 0123 is none. Only true, false and null without quotes stay themselves.
func scalar(n *yaml.Node) []byte {
	text, _ := json.Marshal(n.Value) // any text has JSON
	switch n.Tag {
	case "!!bool":
		text = []byte(strings.ToLower(n.Value))
	case "!!null":
		text = []byte("null")
	}
	return text
}

func refused(n *yaml.Node, found, wanted string) error {
	return fmt.Errorf("%d:%d: found %s, wanted %s", n.Line, n.Column, found, wanted)
}
