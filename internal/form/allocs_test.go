//go:build !race

// The race detector lets pools forget, so that it is not counted there what is allocated.
package form

import (
	"reflect"
	"strings"
	"testing"

	"example.com/quoin"
)

// What is sound is not said where: going through it, and reading it, takes as much memory whatever
// its texts and numbers are.
func TestSoundValuesAllocateLittle(t *testing.T) {
	walk := func(v priced) float64 {
		in := reflect.ValueOf(&v).Elem()
		c := new(Collector)
		return testing.AllocsPerRun(20, func() { c.Walk(nil, in) })
	}
	plain := walk(priced{})
	for _, v := range []priced{{ID: "heron", Note: "at dawn ~"}, {ID: "Möwe", Price: quoin.MustAmount("5.00")}, {ID: "a", Price: quoin.MustAmount("1"), Note: strings.Repeat("x", 400)}} {
		if got := walk(v); got > plain {
			t.Errorf("%v takes %v pieces of memory, nothing %v", v, got, plain)
		}
	}
	var v priced
	c := new(Collector)
	read := func(text string) float64 {
		data := []byte(text)
		return testing.AllocsPerRun(20, func() { c.Read(data, &v) })
	}
	none, short := read(`{}`), read(`{"id":"heron","price":"5.00"}`)
	long, escaped := read(`{"id":"`+strings.Repeat("heron", 9)+`","price":"5.00"}`), read(`{"id":"h\u0065ron","price":"5.00"}`)
	if short != none || long != short+1 || escaped <= short {
		t.Errorf("%v pieces of memory for nothing, %v for short texts, %v for a long one, %v for one that is escaped", none, short, long, escaped)
	}
}

// A list is one piece of memory, however long it is.
func TestListsTakeOnePiece(t *testing.T) {
	texts := func(n int) float64 {
		data := []byte(`{"of":[` + strings.TrimSuffix(strings.Repeat(`{"b":1},`, n), ",") + `],"needed":[1]}`)
		return testing.AllocsPerRun(20, func() {
			var v lists
			new(Collector).Read(data, &v)
		})
	}
	if few, many := texts(1), texts(50); few != many {
		t.Errorf("a list of one takes %v pieces of memory, one of fifty %v", few, many)
	}
}
