package pricelist

import (
	"reflect"
	"testing"

	"example.com/quoin"
)

// TestLayoutKeyHoldsEverything: two layouts that differ in anything have different keys,
// so that no line is cut as another one.
func TestLayoutKeyHoldsEverything(t *testing.T) {
	var l layout
	nothing := string(l.key(nil))
	seen := map[string]string{nothing: "no layout"}
	var change func(name string, v reflect.Value)
	change = func(name string, v reflect.Value) {
		switch to := v.Addr().Interface().(type) {
		case *quoin.Quantity:
			*to = quoin.MustQuantity("3 mm")
		case *quoin.Size:
			*to = quoin.MustSize("A5")
		default:
			if v.Kind() == reflect.Struct {
				for i := range v.NumField() {
					change(name+" "+v.Type().Field(i).Name, v.Field(i))
				}
				return
			}
			if v.Kind() == reflect.String {
				v.SetString("word")
			} else {
				v.SetInt(2)
			}
		}
		key := string(l.key(nil))
		if same, known := seen[key]; known {
			t.Errorf("%s has the key of %s", name, same)
		}
		seen[key] = name
		v.SetZero()
	}
	for name, part := range map[string]any{
		"sheet": &l.sheet, "roll": &l.roll, "stick": &l.stick, "cut": &l.cut, "moulding": &l.moulding, "unit": &l.unit,
	} {
		change(name, reflect.ValueOf(part).Elem())
	}
	if parts := reflect.TypeFor[layout]().NumField(); parts != 6 || len(seen) < 25 {
		t.Errorf("%d parts, %d layouts", parts, len(seen))
	}
}
