package pricelist_test

import (
	"strconv"
	"strings"

	"pgregory.net/rapid"
)

// set writes a value into a JSON tree at a path such as channels[0].fees[1].rate.
func set(t *rapid.T, tree any, path, value string) {
	steps := strings.FieldsFunc(path, func(r rune) bool { return r == '.' || r == '[' || r == ']' })
	for i, step := range steps {
		last := i == len(steps)-1
		switch node := tree.(type) {
		case map[string]any:
			if last {
				node[step] = value
			}
			tree = node[step]
		case []any:
			n, err := strconv.Atoi(step)
			if err != nil || n >= len(node) {
				t.Fatalf("no %s in %s", step, path)
			}
			if last {
				node[n] = value
			}
			tree = node[n]
		default:
			t.Fatalf("nothing at %s of %s", step, path)
		}
	}
}
