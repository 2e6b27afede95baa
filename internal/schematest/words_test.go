package schematest_test

import (
	"slices"
	"strings"
	"testing"
)

// keywords is all that the schemas use; a misspelt keyword would be passed over.
var keywords = []string{
	"$schema", "$id", "$ref", "$defs", "title", "description", "examples",
	"type", "enum", "const", "pattern", "minLength", "maxLength",
	"minimum", "exclusiveMinimum", "maximum", "exclusiveMaximum",
	"items", "minItems", "maxItems", "uniqueItems",
	"properties", "required", "additionalProperties", "unevaluatedProperties", "dependentRequired",
	"allOf", "anyOf", "oneOf", "not", "if", "then", "else",
}

// each visits a schema and every schema in it, with the keyword path to it.
func each(at string, v any, visit func(at string, s map[string]any)) {
	s, ok := v.(map[string]any)
	if !ok {
		return // true or false
	}
	visit(at, s)
	for _, word := range []string{"$defs", "properties"} {
		named, _ := s[word].(map[string]any)
		for name, sub := range named {
			each(at+"/"+word+"/"+name, sub, visit)
		}
	}
	for _, word := range []string{"items", "additionalProperties", "unevaluatedProperties", "not", "if", "then", "else"} {
		each(at+"/"+word, s[word], visit)
	}
	for _, word := range []string{"allOf", "anyOf", "oneOf"} {
		list, _ := s[word].([]any)
		for _, sub := range list {
			each(at+"/"+word, sub, visit)
		}
	}
}

// conditional reports whether a keyword path leads into a condition, which
// describes no field.
func conditional(at string) bool {
	return slices.ContainsFunc(strings.Split(at, "/"), func(p string) bool { return p == "if" || p == "then" || p == "else" })
}

func TestSchemasAreReadable(t *testing.T) {
	for id, text := range texts(t) {
		each(id, parsed(t, text), func(at string, s map[string]any) {
			for word := range s {
				if !slices.Contains(keywords, word) {
					t.Errorf("%s: %q is no keyword that is known here", at, word)
				}
			}
			parts := strings.Split(at, "/")
			named := len(parts) > 1 && slices.Contains([]string{"properties", "$defs"}, parts[len(parts)-2])
			words, _ := s["description"].(string)
			if named && !conditional(at) && (len(words) < 10 || !strings.HasSuffix(words, ".")) {
				t.Errorf("%s is described as %q", at, words)
			}
		})
	}
}

func TestExamplesAreValid(t *testing.T) {
	n := 0
	for id, text := range texts(t) {
		each("#", parsed(t, text), func(at string, s map[string]any) {
			examples, _ := s["examples"].([]any)
			for _, e := range examples {
				n++
				if err := compiled(t, id, at).Validate(e); err != nil {
					t.Errorf("%s%s: the example %v: %v", id, at, e, err)
				}
			}
		})
	}
	if n == 0 {
		t.Error("no examples")
	}
}
