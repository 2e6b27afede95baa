package form

import (
	"fmt"
	"reflect"
	"strings"
	"unicode"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
)

// mostSaid is how many entries of a list are written one by one.
const mostSaid = 3

// String writes a struct as a line for a person who reads a log or a test: what kind of thing
// it is, its id or name, and under the names of their tags the fields that are given. Amounts
// are written to eight places, long lists by their number. What is not given is left out, but
// for a number that a document always says:
//
//	stage "print": yield 85%, seconds (share 40%, price 4.50)
func String(v any) string {
	of := reflect.ValueOf(v)
	text := inWords(of.Type().Name())
	if leftOut(&Field{leaf: true}, addressable(of)) {
		return "no " + text
	}
	rest := said(of, "")
	for _, head := range []string{"id", "name"} {
		if name := of.FieldByNameFunc(func(s string) bool { return strings.EqualFold(s, head) }); name.IsValid() && name.Kind() == reflect.String && name.Len() > 0 {
			rest = said(of, head)
			text += " " + prose.Quoted(name.String())
			break
		}
	}
	if len(rest) == 0 {
		return text
	}
	return text + ": " + strings.Join(rest, ", ")
}

// said lists the fields that are given, but the one that stands before.
func said(v reflect.Value, head string) []string {
	var out []string
	for i := range v.NumField() {
		f := v.Type().Field(i)
		switch name := label(f); {
		case f.Anonymous && f.IsExported() && v.Field(i).Kind() == reflect.Struct:
			out = append(out, said(v.Field(i), head)...)
		case !f.IsExported() || name == head:
		case f.Type.Kind() == reflect.Bool:
			if v.Field(i).Bool() {
				out = append(out, name)
			}
		default:
			text := say(v.Field(i))
			if text == "" && always(f) {
				text = "0"
			}
			if text != "" {
				out = append(out, name+" "+text)
			}
		}
	}
	return out
}

// always reports whether a document says a field though it is 0: one that it may not leave out,
// and that nobody has to give.
func always(f reflect.StructField) bool {
	tag := f.Tag.Get("json")
	if tag == "" || tag == "-" || strings.Contains(tag, ",omit") || f.Tag.Get("need") != "" {
		return false
	}
	if f.Type.Kind() == reflect.Int64 || f.Type.Kind() == reflect.Int {
		return true
	}
	_, number := reflect.Zero(f.Type).Interface().(interface{ Figure() quoin.Figure })
	return number
}

// label is what a field is called: as in a document, or as in Go.
func label(f reflect.StructField) string {
	if name, _, _ := strings.Cut(f.Tag.Get("json"), ","); name != "" && name != "-" {
		return strings.ReplaceAll(name, "_", " ")
	}
	return inWords(f.Name)
}

// inWords is a name in Go as words: PerItem is per item.
func inWords(name string) string {
	name, _, _ = strings.Cut(name, "[")
	var b strings.Builder
	runes := []rune(name)
	for i, r := range runes {
		if unicode.IsUpper(r) && i > 0 && !unicode.IsUpper(runes[i-1]) {
			b.WriteByte(' ')
		}
		b.WriteRune(unicode.ToLower(r))
	}
	return b.String()
}

// say writes a value; empty where it was not given.
func say(v reflect.Value) string {
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		if v.IsNil() {
			return ""
		}
		return say(v.Elem())
	case reflect.Slice, reflect.Map:
		return sayList(v)
	case reflect.String:
		if v.Len() > 0 && v.Type() == reflect.TypeFor[string]() {
			return prose.Quoted(v.String())
		}
		return v.String()
	case reflect.Struct:
		return sayStruct(v)
	case reflect.Func, reflect.Invalid:
		return ""
	}
	if v.IsZero() {
		return ""
	}
	return fmt.Sprint(v.Interface())
}

func sayList(v reflect.Value) string {
	if v.Len() == 0 {
		return ""
	}
	if v.Kind() == reflect.Map || v.Len() > mostSaid || !short(v.Index(0)) {
		return fmt.Sprintf("(%d)", v.Len())
	}
	parts := make([]string, v.Len())
	for i := range parts {
		if parts[i] = say(v.Index(i)); parts[i] == "" {
			parts[i] = "0"
		}
	}
	return "[" + strings.Join(parts, " ") + "]"
}

// short reports whether a value is written in a word or two.
func short(v reflect.Value) bool {
	return IsLeaf(v.Type()) || v.Kind() == reflect.Struct && ownWords(v) != ""
}

// ownWords is what a struct says of itself, where that is not what String does.
func ownWords(v reflect.Value) string {
	if own, ok := v.Interface().(fmt.Stringer); ok && own.String() != String(v.Interface()) {
		return own.String()
	}
	return ""
}

func sayStruct(v reflect.Value) string {
	if leftOut(&Field{leaf: true}, addressable(v)) {
		return ""
	}
	switch x := v.Interface().(type) {
	case quoin.Problem:
		return x.Error()
	case interface{ Figure() quoin.Figure }:
		return x.Figure().Long()
	case quoin.Figure:
		return x.Long()
	}
	name := v.Type().Name()
	switch {
	case strings.HasPrefix(name, "Optional["):
		is := v.MethodByName("Get").Call(nil)[0]
		if text := say(is); text != "" {
			return text
		}
		return fmt.Sprint(is.Interface()) // 0, which was given
	case strings.HasPrefix(name, "Range["):
		return say(v.Field(0)) + " to " + say(v.Field(1))
	}
	if text := ownWords(v); text != "" {
		return text
	}
	if parts := said(v, ""); len(parts) > 0 {
		return "(" + strings.Join(parts, ", ") + ")"
	}
	return ""
}
