package form

import (
	"reflect"
	"sync"
)

// Copy returns a copy that shares no list, map or object with the original,
// so that what is set in the one leaves the other as it is.
func Copy[T any](v T) T {
	own(reflect.ValueOf(&v).Elem())
	return v
}

// referring is which fields of structs refer to something, by their types.
var referring sync.Map

// own gives a value its own copy of all that it refers to.
func own(v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		for _, i := range referringIn(v.Type()) {
			own(v.Field(i))
		}
	case reflect.Interface, reflect.Pointer:
		ownObject(v)
	case reflect.Slice:
		if v.IsNil() {
			return
		}
		list := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
		reflect.Copy(list, v)
		if refers(v.Type().Elem()) {
			for i := range v.Len() {
				own(list.Index(i))
			}
		}
		v.Set(list)
	case reflect.Map:
		if v.IsNil() {
			return
		}
		named := reflect.MakeMapWithSize(v.Type(), v.Len())
		for it := v.MapRange(); it.Next(); {
			one := reflect.New(v.Type().Elem()).Elem()
			one.Set(it.Value())
			own(one)
			named.SetMapIndex(it.Key(), one)
		}
		v.Set(named)
	}
}

// ownObject copies what a pointer, or an interface, holds.
func ownObject(v reflect.Value) {
	if v.IsNil() || v.Kind() == reflect.Interface && !refers(v.Elem().Type()) {
		return
	}
	to := reflect.New(v.Elem().Type())
	to.Elem().Set(v.Elem())
	own(to.Elem())
	if v.Kind() == reflect.Interface {
		to = to.Elem()
	}
	v.Set(to)
}

// refers reports whether values of a type hold lists, maps or objects that
// would be shared by a plain copy.
func refers(t reflect.Type) bool {
	switch t.Kind() {
	case reflect.Pointer, reflect.Slice, reflect.Map, reflect.Interface:
		return true
	case reflect.Struct:
		return len(referringIn(t)) > 0
	}
	return false
}

func referringIn(t reflect.Type) []int {
	if known, ok := referring.Load(t); ok {
		return known.([]int)
	}
	var out []int
	for i := range t.NumField() {
		if f := t.Field(i); f.IsExported() && refers(f.Type) {
			out = append(out, i)
		}
	}
	referring.Store(t, out)
	return out
}
