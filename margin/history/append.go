package history

import (
	"bytes"
	"encoding/json"
	"fmt"

	"example.com/quoin"
)

// Append puts an entry behind lines, as a line of its own with its end, and
// returns them longer. It errs with Problems, as Check does, where Read would
// not read the line again; then lines come back as they were.
//
// Lines are only ever added: what stands in a history happened.
func Append(lines []byte, e Entry) ([]byte, error) {
	if err := check(e); err != nil {
		return lines, err
	}
	var b bytes.Buffer
	to := json.NewEncoder(&b) // which writes the end of the line
	to.SetEscapeHTML(false)
	if err := to.Encode(e); err != nil {
		return lines, err
	}
	lines = fmt.Appendf(lines, `{"record":%q,`, e.Kind())
	return append(lines, b.Bytes()[1:]...), nil
}

// check refuses what is no Entry that Read returns, nil and pointers, and what Check does.
func check(e Entry) error {
	switch e.(type) {
	case Price, Reduction, Sale, Trial:
		return e.Check()
	}
	return quoin.Problems{{
		Code: quoin.WrongType, Severity: quoin.Fault, Found: fmt.Sprintf("an entry of type %T", e), Wanted: "a Price, Reduction, Sale or Trial as a value",
	}}
}
