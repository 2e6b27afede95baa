package rule

import (
	"encoding/json"
	"fmt"

	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
)

// common is what every rule has, without Rule's methods.
type common Rule

// MarshalJSON writes the rule as one object, with its kind under "rule". It errs for a Custom
// rule, which cannot be in a document.
func (r Rule) MarshalJSON() ([]byte, error) {
	if p, bad := kindProblem(r.Kind); bad {
		return nil, of("rule", fault(p))
	}
	if own, ok := r.Kind.(Custom); ok {
		return nil, own.failed(prose.Quoted(own.Name)+" in a document", "a rule of a kind that documents have")
	}
	head, err := json.Marshal(common(r))
	if err != nil {
		return nil, err
	}
	kind, err := json.Marshal(r.Kind)
	if err != nil {
		return nil, err
	}
	text := fmt.Appendf(head[:len(head)-1], `,"rule":%q`, r.Kind)
	if string(kind) != "{}" {
		text = append(text, ',')
	}
	return append(text, kind[1:]...), nil
}

// UnmarshalJSON reads a rule as it stands in a document. Fields, words and ranges are checked;
// the names that it uses are not. The error is quoin.Problems.
func (r *Rule) UnmarshalJSON(data []byte) error {
	var c form.Collector
	var out Rule
	c.Read(data, &out)
	err := c.All().Err()
	if err == nil {
		*r = out
	}
	return err
}
