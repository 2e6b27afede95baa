package main

import (
	"cmp"
	"encoding"
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"reflect"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/quoin"
)

// module is the path that all packages with types of the schemas begin with.
const module = "example.com/quoin"

// comments are what the source of packages says.
type comments struct {
	top  string // the directory of the module
	read map[string]*texts
}

func newComments(top string) *comments { return &comments{top, make(map[string]*texts)} }

// texts is what stands in the files of a package.
type texts struct {
	says  map[[2]string]string // of types and their fields; of a type the field is empty
	words map[string][]string  // the constants of types
}

// source returns that of the package of a type.
func (c *comments) source(t reflect.Type) *texts {
	pkg := strings.TrimPrefix(t.PkgPath(), module)
	if pkg == "main" { // as this one is called while it runs
		pkg = "internal/schemas"
	}
	if c.read[pkg] == nil {
		c.read[pkg] = parsed(filepath.Join(c.top, pkg))
	}
	return c.read[pkg]
}

// words are the words that a type is one of: those that its reader wants, or its constants;
// none where it may be any.
func (c *comments) words(t reflect.Type) []string {
	if to, ok := reflect.New(t).Interface().(encoding.TextUnmarshaler); ok {
		p, _ := to.UnmarshalText([]byte("?")).(quoin.Problem)
		if list, ok := strings.CutPrefix(p.Wanted, "one of "); ok && p.Code == quoin.UnknownWord {
			return strings.Split(list, ", ")
		}
	}
	if t.Kind() != reflect.String {
		return nil
	}
	return c.source(t).words[t.Name()]
}

// of returns the first paragraph of a comment as a sentence that begins without the name:
// "Order is one kind of order." says "One kind of order."
func (c *comments) of(t reflect.Type, field string) string {
	name := plainName(t)
	text, _, _ := strings.Cut(c.source(t).says[[2]string{name, field}], "\n\n")
	text = strings.Join(strings.Fields(text), " ")
	for _, is := range []string{" is ", " are ", " says ", " "} {
		if rest, ok := strings.CutPrefix(text, cmp.Or(field, name)+is); ok {
			text = rest
			break
		}
	}
	if text == "" {
		return ""
	}
	first, n := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(first)) + text[n:]
}

// plainName is the name of a type without what it is of.
func plainName(t reflect.Type) string {
	name, _, _ := strings.Cut(t.Name(), "[")
	return name
}

func parsed(dir string) *texts {
	out := &texts{make(map[[2]string]string), make(map[string][]string)}
	files, _ := filepath.Glob(filepath.Join(dir, "*.go")) // which errs for bad patterns alone
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ParseComments|parser.SkipObjectResolution)
		if err != nil {
			panic(err)
		}
		for _, d := range file.Decls {
			if of, ok := d.(*ast.GenDecl); ok {
				out.add(of)
			}
		}
	}
	return out
}

func (s *texts) add(of *ast.GenDecl) {
	for _, spec := range of.Specs {
		switch spec := spec.(type) {
		case *ast.ValueSpec:
			t, _ := spec.Type.(*ast.Ident)
			for _, v := range spec.Values {
				if lit, ok := v.(*ast.BasicLit); ok && t != nil && lit.Kind == token.STRING && lit.Value != `""` {
					s.words[t.Name] = append(s.words[t.Name], strings.Trim(lit.Value, `"`))
				}
			}
		case *ast.TypeSpec:
			s.says[[2]string{spec.Name.Name, ""}] = of.Doc.Text() + spec.Doc.Text()
			in, ok := spec.Type.(*ast.StructType)
			if !ok {
				continue
			}
			for _, f := range in.Fields.List {
				for _, name := range f.Names {
					s.says[[2]string{spec.Name.Name, name.Name}] = f.Doc.Text() + f.Comment.Text()
				}
			}
		}
	}
}
