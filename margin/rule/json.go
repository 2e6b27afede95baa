package rule

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
)

// common is what every rule has, without Rule's methods.
type common Rule

// MarshalJSON writes the rule as one object, with its kind under "rule". It
// errs for a rule of the caller's own, which has no place in a document.
func (r Rule) MarshalJSON() ([]byte, error) {
	if p, bad := kindProblem(r.Kind); bad {
		return nil, of("rule", fault(p))
	}
	if own, ok := r.Kind.(Own); ok {
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
	name := fmt.Appendf(nil, `,"rule":%q`, r.Kind)
	if string(kind) == "{}" {
		return bytes.Join([][]byte{head[:len(head)-1], name, {'}'}}, nil), nil
	}
	return bytes.Join([][]byte{head[:len(head)-1], name, {','}, kind[1:]}, nil), nil
}

// UnmarshalJSON reads what MarshalJSON writes. It does not check the rule; a
// whole document is decoded, and checked, by package pricelist.
func (r *Rule) UnmarshalJSON(data []byte) error {
	var head struct {
		common
		Name string `json:"rule"`
	}
	if err := json.Unmarshal(data, &head); err != nil {
		return problems(err)
	}
	i := slices.IndexFunc(kinds, func(k row) bool { return k.zero.String() == head.Name })
	if i < 0 {
		return fault(quoin.Problem{Code: quoin.UnknownWord, Path: "rule", Found: prose.Quoted(head.Name), Wanted: "a kind of rule"})
	}
	kind, err := kinds[i].read(data)
	if err != nil {
		return problems(err)
	}
	*r = Rule(head.common)
	r.Kind = kind
	return nil
}
