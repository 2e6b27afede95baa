package form

import (
	"fmt"
	"reflect"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
)

// mostSpare is how many bytes of a list are kept for the next one.
const mostSpare = 1 << 16

func (r *reader) list(f *Field, s *shape, v reflect.Value) error {
	if _, err := r.json.ReadToken(); err != nil {
		return err
	}
	most := f.Most
	if s.as == asArray {
		most = v.Len()
	}
	to, n := v, 0
	if s.as == asList {
		spare := s.borrow(v.Type())
		defer s.giveBack(spare)
		to = *spare
	}
	for ; r.json.PeekKind() != ']'; n++ {
		if most > 0 && n >= most {
			if err := r.json.SkipValue(); err != nil {
				return err
			}
			continue
		}
		if s.as == asList {
			to.Grow(1)
			to.SetLen(n + 1)
		}
		r.enter("", n)
		if err := r.value(f, s.of, to.Index(n)); err != nil {
			return err
		}
		r.leave()
	}
	switch {
	case s.as == asArray && n != most:
		r.add(quoin.Problem{Code: quoin.WrongType, Found: fmt.Sprintf("a list of %d", n), Wanted: fmt.Sprintf("a list of %d", most)})
	case most > 0 && n > most:
		r.TooMany(r.path(), n, most)
	case f.Some && n == 0 && !r.stored:
		r.Empty(r.path())
	}
	if s.as == asList && (n > 0 || f.Need || r.stored) { // given, and no field that is missing
		v.Set(reflect.MakeSlice(v.Type(), to.Len(), to.Len()))
		reflect.Copy(v, to)
	}
	_, err := r.json.ReadToken()
	return err
}

// borrow is an empty list to read into, with the room that former ones took, so that lists
// are as long as what they hold.
func (s *shape) borrow(t reflect.Type) *reflect.Value {
	if list, ok := s.spare.Get().(*reflect.Value); ok {
		return list
	}
	list := reflect.New(t).Elem()
	return &list
}

func (s *shape) giveBack(list *reflect.Value) {
	if list.Cap()*int(list.Type().Elem().Size()) > mostSpare {
		return
	}
	list.Clear()
	list.SetLen(0)
	s.spare.Put(list)
}

// lists reads an object of lists, such as the packing lists of a product.
func (r *reader) lists(f *Field, of *shape, v reflect.Value) error {
	if _, err := r.json.ReadToken(); err != nil {
		return err
	}
	v.Set(reflect.MakeMap(v.Type()))
	for r.json.PeekKind() != '}' {
		name, err := r.token()
		if err != nil {
			return err
		}
		key := r.keep(name.text)
		r.enter(key, 0)
		if !r.readable(key) {
			r.Text(r.path(), key)
		}
		if v.MapIndex(reflect.ValueOf(key)).IsValid() {
			r.add(quoin.Problem{Code: quoin.DuplicateField, Found: prose.Quoted(key) + " again", Wanted: "each name once"})
		}
		one := reflect.New(v.Type().Elem()).Elem()
		if err := r.value(f, of, one); err != nil {
			return err
		}
		v.SetMapIndex(reflect.ValueOf(key), one)
		r.leave()
	}
	_, err := r.json.ReadToken()
	return err
}
