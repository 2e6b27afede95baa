package main

import (
	"fmt"
	"io"
	"strings"

	"example.com/quoin/channel"
	"example.com/quoin/margin/pricelist"
)

// sayNotes lists what is still to be replaced in a document that has been priced.
func sayNotes(errs io.Writer, data []byte) {
	doc, err := pricelist.Decode(data)
	if err != nil {
		return // it has been priced, so this cannot be
	}
	notes := toReplace(doc)
	if len(notes) == 0 {
		return
	}
	fmt.Fprintln(errs, "These figures are still those of the example. Put yours in their place, and remove the note:")
	for _, n := range notes {
		fmt.Fprintln(errs, "- "+n)
	}
}

// toReplace is the notes of a document that still begin with "replace", as those of a new document
// do, each behind the place and the name of what it stands on.
func toReplace(doc pricelist.Document) []string {
	var out []string
	add := func(at, name, note string) {
		if !strings.HasPrefix(strings.ToLower(note), "replace") {
			return
		}
		if name != "" {
			at += " " + name
		}
		out = append(out, at+": "+note)
	}
	add("the document", "", doc.Note)
	for i, s := range doc.Supplies {
		add(fmt.Sprintf("supplies[%d]", i), s.ID, s.Note)
	}
	for i, s := range doc.Stages {
		add(fmt.Sprintf("stages[%d]", i), s.ID, s.Note)
	}
	for i, p := range doc.Products {
		add(fmt.Sprintf("products[%d]", i), p.ID, p.Note)
	}
	for i, c := range doc.Channels {
		inChannel(fmt.Sprintf("channels[%d]", i), c, add)
	}
	for i, r := range doc.Rules {
		add(fmt.Sprintf("rules[%d]", i), r.ID, r.Note)
	}
	return out
}

func inChannel(at string, c channel.Channel, add func(at, name, note string)) {
	add(at, c.ID, c.Note)
	for i, o := range c.Orders {
		add(fmt.Sprintf("%s.orders[%d]", at, i), o.ID, o.Note)
	}
	for i, f := range c.Fees {
		add(fmt.Sprintf("%s.fees[%d]", at, i), f.Name, f.Note)
	}
}
