package main

import (
	"cmp"
	"fmt"
	"go/constant"
	"go/types"
	"slices"
	"strings"

	"golang.org/x/tools/go/packages"
)

const module = "example.com/quoin"

// exportedBy lists what all packages export that others may import, in order.
func exportedBy(root string) ([]string, error) {
	loaded, err := packages.Load(&packages.Config{Dir: root, Mode: packages.NeedName | packages.NeedTypes | packages.NeedImports | packages.NeedDeps | packages.NeedSyntax | packages.NeedTypesInfo}, "./...")
	if err != nil {
		return nil, err
	}
	var out []string
	for _, p := range loaded {
		if len(p.Errors) > 0 {
			return nil, p.Errors[0]
		}
		if p.Name == "main" || strings.Contains(p.PkgPath, "/internal/") || strings.Contains(p.PkgPath, "/examples/") {
			continue
		}
		out = append(out, ofPackage(p.Types)...)
	}
	slices.Sort(out)
	return slices.Compact(out), nil
}

type lister struct {
	pkg   *types.Package
	label string
	out   []string
}

func ofPackage(pkg *types.Package) []string {
	label := strings.TrimPrefix(strings.TrimPrefix(pkg.Path(), module), "/")
	l := &lister{pkg: pkg, label: cmp.Or(label, "quoin")}
	for _, name := range pkg.Scope().Names() {
		if o := pkg.Scope().Lookup(name); o.Exported() {
			l.object(o)
		}
	}
	return l.out
}

func (l *lister) add(format string, args ...any) {
	l.out = append(l.out, l.label+": "+fmt.Sprintf(format, args...))
}

// written is a type with short names of packages.
func (l *lister) written(t types.Type) string {
	return types.TypeString(t, func(p *types.Package) string {
		if p == l.pkg {
			return ""
		}
		return p.Name()
	})
}

func (l *lister) object(o types.Object) {
	switch o := o.(type) {
	case *types.Const:
		l.add("const %s %s = %s", o.Name(), l.written(o.Type()), exactly(o.Val()))
	case *types.Var:
		l.add("var %s %s", o.Name(), l.written(o.Type()))
	case *types.Func:
		l.add("func %s%s", o.Name(), strings.TrimPrefix(l.written(o.Type()), "func"))
	case *types.TypeName:
		l.typeName(o)
	}
}

func exactly(v constant.Value) string { return v.ExactString() }

func (l *lister) typeName(o *types.TypeName) {
	named, ok := o.Type().(*types.Named)
	if o.IsAlias() || !ok {
		l.add("type %s = %s", o.Name(), l.written(types.Unalias(o.Type())))
		return
	}
	name := o.Name() + parameters(l, named)
	switch t := named.Underlying().(type) {
	case *types.Struct:
		l.add("type %s struct", name)
		l.fields(o.Name(), t)
	case *types.Interface:
		l.add("type %s %s", name, l.written(t))
	default:
		l.add("type %s %s", name, l.written(t))
	}
	for method := range types.NewMethodSet(types.NewPointer(named)).Methods() {
		if f := method.Obj(); f.Exported() && !types.IsInterface(named) {
			l.add("method %s.%s%s", o.Name(), f.Name(), strings.TrimPrefix(l.written(f.Type()), "func"))
		}
	}
}

func parameters(l *lister, named *types.Named) string {
	var out []string
	for p := range named.TypeParams().TypeParams() {
		out = append(out, p.Obj().Name()+" "+l.written(p.Constraint()))
	}
	if len(out) == 0 {
		return ""
	}
	return "[" + strings.Join(out, ", ") + "]"
}

func (l *lister) fields(of string, t *types.Struct) {
	for i := range t.NumFields() {
		f := t.Field(i)
		if !f.Exported() {
			continue
		}
		tag := ""
		if t.Tag(i) != "" {
			tag = " `" + t.Tag(i) + "`"
		}
		l.add("field %s.%s %s%s", of, f.Name(), l.written(f.Type()), tag)
	}
}
