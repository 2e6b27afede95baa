// Package embedded is the one call by which programs in other languages use quoin: bytes in,
// bytes out.
//
//	reply := embedded.Price(document)
//
// A shop document as JSON goes in. A reply as JSON comes out, one object on one line, which is
// either of
//
//	{"version":1,"engine":"quoin 0.1.0","answer":{…}}
//	{"version":1,"engine":"quoin 0.1.0","problems":[…]}
//
// The engine is the library with its version, by which the reply was worked out.
// The answer is that of pricelist.Price, as answer.schema.json describes it. Problems are
// quoin.Problems: code, severity, path, found, wanted, remedy, line and column. A conflict of
// rules is an answer.
//
// What will not change, whatever version of the library answers: the signature of Price; that a
// reply is one JSON object with version, and with exactly one of answer and problems; that the same
// library gives the same bytes for the same document, on every machine and in every language. What
// may come: further fields anywhere. A reader skips those that it does not know. Version rises when
// a field vanishes or means something else; a host that gets a version it does not know should stop.
//
// Two programs under examples/embed wrap this call, as a WASI module and as a C shared library.
package embedded

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"

	"example.com/quoin"
	"example.com/quoin/internal/version"
	"example.com/quoin/margin/pricelist"
)

// Version is the version of the reply, which stands in every reply.
const Version = 1

// Defect is the code of the only problem of a reply where the library itself is at fault. In
// another language a panic would end the host, so that here it is a problem.
const Defect quoin.Code = "defect"

// Price prices a shop document and returns the reply, which the caller owns. The document is not
// kept. It never panics, and may be called from any number of goroutines.
func Price(document []byte) []byte { return reply(document, pricelist.Price) }

func reply(document []byte, price func([]byte) (pricelist.Answer, error)) (text []byte) {
	defer func() {
		if stopped := recover(); stopped != nil {
			text = refused(fmt.Errorf("%v", stopped))
		}
	}()
	answer, err := price(document)
	if err != nil {
		return refused(err)
	}
	text, err = answer.AppendJSON(head("answer"))
	if err != nil {
		return refused(err)
	}
	return append(text, '}')
}

func head(field string) []byte {
	return fmt.Appendf(nil, `{"version":%d,"engine":%q,"%s":`, Version, version.Engine, field)
}

func defect(err error) quoin.Problem {
	return quoin.Problem{
		Code: Defect, Severity: quoin.Fault, Found: "a defect of quoin: " + err.Error(),
		Wanted: "an answer or problems", Remedy: "report it with the document",
	}
}

// refused is the reply of what has no answer.
func refused(err error) []byte {
	var all quoin.Problems
	if !errors.As(err, &all) {
		all = quoin.Problems{defect(err)}
	}
	b := bytes.NewBuffer(head("problems"))
	e := json.NewEncoder(b)
	e.SetEscapeHTML(false) // as in an answer
	_ = e.Encode(all)      // of texts and numbers, into memory
	return append(bytes.TrimSuffix(b.Bytes(), []byte("\n")), '}')
}
