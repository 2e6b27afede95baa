// Package zerotest tests that zero values do not surprise: whatever is called with nothing
// works as nothing, returns an error, or panics with a text that says what makes one.
package zerotest

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"reflect"
	"runtime"
	"slices"
	"strings"
	"testing"
)

// Calls calls every exported method of each value, and each value that is a function, twice:
// with zero arguments, where a pointer points to a zero value and a function returns zero
// values, and with whole numbers of 1 and lists of one zero value. It goes through what is
// yielded to functions that are returned, and formats each value. It reports panics that do
// not begin with "quoin: ". A function whose name begins with Must may panic with an error.
func Calls(t testing.TB, values ...any) {
	t.Helper()
	for _, value := range values {
		v := reflect.ValueOf(value)
		if isFunction(v) {
			call(t, nameOf(v), v)
			continue
		}
		for _, verb := range []string{"%v", "%+v", "%s"} {
			if text := fmt.Sprintf(verb, value); strings.Contains(text, "PANIC=") {
				t.Errorf("%T formatted by %s: %s", value, verb, text)
			}
		}
		methods(t, v)
	}
}

// methods calls those of a value and of a pointer to it.
func methods(t testing.TB, v reflect.Value) {
	t.Helper()
	if v.Kind() != reflect.Pointer {
		to := reflect.New(v.Type())
		to.Elem().Set(v)
		v = to
	}
	for i := range v.NumMethod() {
		name := v.Type().Method(i).Name
		if name == "Format" { // is handed a printer, and was called above
			continue
		}
		fresh := reflect.New(v.Type().Elem()) // since a method may change it
		fresh.Elem().Set(v.Elem())
		call(t, v.Type().Elem().String()+"."+name, fresh.Method(i))
	}
}

// isFunction reports whether v is a function, and not a value of a type that is called so.
func isFunction(v reflect.Value) bool { return v.Kind() == reflect.Func && v.Type().Name() == "" }

// mostYielded is how many values are taken from what yields them.
const mostYielded = 100

func call(t testing.TB, name string, f reflect.Value) {
	t.Helper()
	callWith(t, name, f, zero)
	callWith(t, name, f, one)
}

func callWith(t testing.TB, name string, f reflect.Value, value func(reflect.Type) reflect.Value) {
	t.Helper()
	defer func() {
		if r := recover(); r != nil && !documented(name, r) {
			t.Errorf("%s panics: %v", name, r)
		}
	}()
	for _, out := range f.Call(arguments(f.Type(), value)) {
		if out.Kind() == reflect.Func && !out.IsNil() {
			drain(out)
		}
	}
}

// documented reports whether a function of a name may panic so.
func documented(name string, r any) bool {
	if _, ok := r.(error); ok && strings.HasPrefix(name, "Must") {
		_, unforeseen := r.(runtime.Error)
		return !unforeseen
	}
	return strings.HasPrefix(fmt.Sprint(r), "quoin: ")
}

// arguments are values for the parameters of a function but the variadic one.
func arguments(f reflect.Type, value func(reflect.Type) reflect.Value) []reflect.Value {
	n := f.NumIn()
	if f.IsVariadic() {
		n--
	}
	args := make([]reflect.Value, n)
	for i := range args {
		args[i] = value(f.In(i))
	}
	return args
}

// one is a whole number of 1, a list of one zero value, or zero.
func one(t reflect.Type) reflect.Value {
	v := zero(t)
	switch t.Kind() {
	case reflect.Int, reflect.Int64:
		v = reflect.ValueOf(1).Convert(t)
	case reflect.Slice:
		v = reflect.Append(v, zero(t.Elem()))
	}
	return v
}

func zero(t reflect.Type) reflect.Value {
	switch t.Kind() {
	case reflect.Pointer:
		return reflect.New(t.Elem())
	case reflect.Func:
		return reflect.MakeFunc(t, func([]reflect.Value) []reflect.Value {
			out := make([]reflect.Value, t.NumOut())
			for i := range out {
				out[i] = zero(t.Out(i))
			}
			return out
		})
	}
	return reflect.Zero(t)
}

// drain takes what a returned iterator yields; another function is called.
func drain(f reflect.Value) {
	t := f.Type()
	if t.NumIn() != 1 || t.In(0).Kind() != reflect.Func {
		f.Call(arguments(t, zero))
		return
	}
	n := 0
	f.Call([]reflect.Value{reflect.MakeFunc(t.In(0), func([]reflect.Value) []reflect.Value {
		n++
		return []reflect.Value{reflect.ValueOf(n < mostYielded)}
	})})
}

// Complete reports exported functions and types, but interfaces, of the package in the
// working directory that are not among the values.
func Complete(t testing.TB, values ...any) {
	t.Helper()
	have := make(map[string]bool)
	for _, value := range values {
		have[nameOf(reflect.ValueOf(value))] = true
	}
	for _, name := range exported(t) {
		if !have[name] {
			t.Errorf("%s is not called", name)
		}
	}
}

// Printed reports structs among the values that do not print as one line for a person: those
// without a method String, and texts with line breaks, braces or pointers.
func Printed(t testing.TB, values ...any) {
	t.Helper()
	for _, value := range values {
		v := reflect.ValueOf(value)
		if v.Kind() != reflect.Struct {
			continue
		}
		to := reflect.New(v.Type())
		to.Elem().Set(v)
		said, ok := to.Interface().(fmt.Stringer)
		if !ok {
			t.Errorf("%T has no method String", value)
			continue
		}
		if text := said.String(); text == "" || strings.ContainsAny(text, "\n{}") || strings.Contains(text, "<nil>") || strings.Contains(text, "0x") {
			t.Errorf("%T prints as %q", value, text)
		}
	}
}

// nameOf is the name that a value's function or type has in its package.
func nameOf(v reflect.Value) string {
	if isFunction(v) {
		name, _, _ := strings.Cut(runtime.FuncForPC(v.Pointer()).Name(), "[")
		return name[strings.LastIndex(name, ".")+1:]
	}
	t := v.Type()
	if t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	name, _, _ := strings.Cut(t.Name(), "[")
	return name
}

// exported are the exported names of the package in the working directory.
func exported(t testing.TB) []string {
	t.Helper()
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range f.Decls {
			out = append(out, names(d)...)
		}
	}
	slices.Sort(out)
	return out
}

func names(d ast.Decl) []string {
	var out []string
	switch d := d.(type) {
	case *ast.FuncDecl:
		if d.Recv == nil && d.Name.IsExported() {
			out = append(out, d.Name.Name)
		}
	case *ast.GenDecl:
		for _, spec := range d.Specs {
			s, ok := spec.(*ast.TypeSpec)
			if !ok || !s.Name.IsExported() {
				continue
			}
			if _, abstract := s.Type.(*ast.InterfaceType); !abstract {
				out = append(out, s.Name.Name)
			}
		}
	}
	return out
}
