package rule

import (
	"bytes"
	"encoding/json"
	"fmt"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
)

// Kinds returns the kinds of rule that a document can hold, each as its zero
// value.
func Kinds() []Kind {
	return []Kind{
		Price{}, CostMultiple{}, GrossMargin{}, NetMargin{}, Contribution{}, Market{}, Ending{}, Move{}, Step{},
	}
}

// UnknownRule is the code of a word that is no kind of rule.
const UnknownRule quoin.Code = "unknown_rule"

var _ = form.Kinds(UnknownRule, UnknownRule, Kind.String, Kinds()...)

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
	kind, err := readKind(head.Name, data)
	if err != nil {
		return problems(err)
	}
	*r = Rule(head.common)
	r.Kind = kind
	return nil
}

func readKind(name string, data []byte) (Kind, error) {
	switch name {
	case Price{}.String():
		return readAs[Price](data)
	case CostMultiple{}.String():
		return readAs[CostMultiple](data)
	case GrossMargin{}.String():
		return readAs[GrossMargin](data)
	case NetMargin{}.String():
		return readAs[NetMargin](data)
	case Contribution{}.String():
		return readAs[Contribution](data)
	case Market{}.String():
		return readAs[Market](data)
	case Ending{}.String():
		return readAs[Ending](data)
	case Move{}.String():
		return readAs[Move](data)
	case Step{}.String():
		return readAs[Step](data)
	}
	return nil, fault(quoin.Problem{Code: quoin.UnknownWord, Path: "rule", Found: prose.Quoted(name), Wanted: "a kind of rule"})
}

func readAs[K Kind](data []byte) (Kind, error) {
	var k K
	err := json.Unmarshal(data, &k)
	return k, err
}
