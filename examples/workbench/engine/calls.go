// Command engine is quoin for a page in a browser: a few calls that take text and return JSON
// text. Built for js and wasm it gives them to the page as the object quoin; elsewhere it says
// only what it is.
package main

import (
	"fmt"

	"example.com/quoin"
)

// bench is what the calls work on: the document that lies open, if any.
type bench struct{ desk *desk }

// call answers one call of the page. What cannot be answered is answered with problems, and so is
// a defect of the engine: the page goes on.
func (b *bench) call(name string, args ...string) (text string) {
	defer func() {
		if defect := recover(); defect != nil {
			text = written(refused(fmt.Errorf("a defect of the engine in %s: %v", name, defect)))
		}
	}()
	if name == "decide" && len(args) == 1 {
		return b.decide(args[0])
	}
	if b.desk == nil {
		return written(refused(quoin.Problem{Severity: quoin.Fault, Found: "no document", Wanted: "decide before " + name}))
	}
	v, err := b.desk.answerTo(name, args)
	if err != nil {
		return written(refused(err))
	}
	return written(v)
}

// decide opens a document. A document with mistakes leaves the one before open, so that a page can
// go on showing it.
func (b *bench) decide(text string) string {
	d, err := open([]byte(text))
	if err != nil {
		return written(refused(err))
	}
	l, err := d.list()
	if err != nil {
		return written(refused(err))
	}
	b.desk = d
	return written(l)
}

func (d *desk) answerTo(name string, args []string) (any, error) {
	arg := func(i int) string {
		if i < len(args) {
			return args[i]
		}
		return ""
	}
	switch name {
	case "look":
		return d.look(arg(0), arg(1), arg(2))
	case "pin":
		return d.pin(arg(0), arg(1))
	case "reasons":
		return d.reasons(arg(0)), nil
	case "story":
		return d.story(arg(0)), nil
	case "picture":
		return d.drawn(arg(0), arg(1)), nil
	case "download":
		return d.download(arg(0), arg(1))
	}
	return nil, quoin.Problem{
		Severity: quoin.Fault, Code: quoin.UnknownWord, Found: name, Wanted: "decide, look, pin, reasons, story, picture or download",
	}
}
