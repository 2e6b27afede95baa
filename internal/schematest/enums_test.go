package schematest_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.com/quoin"
)

const module = "example.com/quoin"

// words lists, sorted, the words that a type is one of: the constants of the
// type in its package. An empty one is what is left out.
func words(t *testing.T, typ reflect.Type) []string {
	t.Helper()
	if typ == reflect.TypeFor[quoin.Rounding]() {
		return roundings()
	}
	dir := filepath.Join("../..", strings.TrimPrefix(typ.PkgPath(), module))
	files, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, constants(file, typ.Name())...)
	}
	if len(out) == 0 {
		t.Errorf("%v has no constants", typ)
	}
	slices.Sort(out)
	return out
}

func constants(file *ast.File, name string) []string {
	var out []string
	ast.Inspect(file, func(n ast.Node) bool {
		spec, ok := n.(*ast.ValueSpec)
		if !ok {
			return true
		}
		if id, ok := spec.Type.(*ast.Ident); !ok || id.Name != name {
			return true
		}
		for _, v := range spec.Values {
			if lit, ok := v.(*ast.BasicLit); ok && lit.Kind == token.STRING {
				if word, err := strconv.Unquote(lit.Value); err == nil && word != "" {
					out = append(out, word)
				}
			}
		}
		return true
	})
	return out
}

// roundings are numbered without a gap, and what is past the last is none.
func roundings() []string {
	var out []string
	for r := quoin.Rounding(0); ; r++ {
		if _, err := quoin.ParseRounding(r.String()); err != nil {
			break
		}
		out = append(out, r.String())
	}
	slices.Sort(out)
	return out
}
