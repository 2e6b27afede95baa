package form

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"example.com/quoin"
)

// Columns are counted in bytes from 1, by hand.
func TestLocate(t *testing.T) {
	text := "{\"a\": 1,\n \"list\": [ 5,\n{\"b\":\"x\", \"flat box\":[7]}, \"]\"],\n\"c.d\":{\"e\":null} , \"c.d\" : 2}"
	for _, c := range []struct {
		path string
		code quoin.Code
		want string
	}{
		{"", "", "1:1"},
		{"a", "", "1:7"},
		{"list", "", "2:10"},
		{"list[0]", "", "2:12"},
		{"list[1]", "", "3:1"},
		{"list[1].b", "", "3:6"},
		{`list[1]["flat box"]`, "", "3:22"},
		{`list[1]["flat box"][0]`, "", "3:23"},
		{"list[2]", "", "3:28"},
		{`["c.d"]`, "", "4:7"},
		{`["c.d"].e`, "", "4:12"},
		{`["c.d"]`, quoin.DuplicateField, "4:28"}, // where it stands again
		{"a", quoin.DuplicateField, "1:7"},        // which it does not
		{"list[9].b", "", "2:10"},                 // the nearest part that is there
		{"list[1].b.z", "", "3:6"},
		{"missing", "", "1:1"},
		{"missing.z[1]", "", "1:1"},
	} {
		p := quoin.Problems{{Path: c.path, Code: c.code}}
		Locate([]byte(text), p)
		if got := fmt.Sprintf("%d:%d", p[0].Line, p[0].Column); got != c.want {
			t.Errorf("%s %s stands at %s, want %s", c.path, c.code, got, c.want)
		}
	}
	// All at once, as each alone.
	all := quoin.Problems{{Path: "list[1].b"}, {Path: "a"}, {Path: `["c.d"]`, Code: quoin.DuplicateField}, {Path: "list[1].b"}}
	Locate([]byte(text), all)
	if got := fmt.Sprint(all[0].Line, all[0].Column, all[1].Line, all[1].Column, all[2].Line, all[2].Column, all[3].Line, all[3].Column); got != "3 6 1 7 4 28 3 6" {
		t.Error(got)
	}
	Locate([]byte(text), nil)
}

// A text that stands within a document, from a line and a column on.
func TestLocateIn(t *testing.T) {
	root := In("lines").At(2)
	ps := quoin.Problems{{Path: "lines[2].a"}, {Path: "lines[2]"}, {Path: "lines[2].b"}, {Path: "lines[20].a", Line: 7, Column: 8}, {Path: "a", Line: 9}, {Path: "lines[2].b.c"}}
	LocateIn([]byte("{\"a\":1,\n\"b\":2}"), root, 5, 11, ps)
	want := []string{"5:16", "5:11", "6:5", "7:8", "9:0", "6:5"} // the sixth byte of the first line is its 16th
	for i, p := range ps {
		if got := fmt.Sprintf("%d:%d", p.Line, p.Column); got != want[i] {
			t.Errorf("%s stands at %s, want %s", p.Path, got, want[i])
		}
	}
	broken := quoin.Problems{{Path: "lines[2]", Code: quoin.BadJSON}}
	LocateIn([]byte(`{"a":x}`), root, 5, 11, broken)
	if got := fmt.Sprintf("%d:%d", broken[0].Line, broken[0].Column); got != "5:16" {
		t.Errorf("no JSON at %s, want 5:16", got)
	}
}

func TestParents(t *testing.T) {
	for path, want := range map[string]string{
		"": "", "a": "", "a.b": "a", "a[1]": "a", "a[1].b": "a[1]", "a[1][2]": "a[1]", `a["x.y]"]`: "a", `a["x"][3]`: `a["x"]`, `["a b"]`: "", `a.b["x"…]`: "a.b", "[0]": "",
	} {
		if got := parent(path); got != want {
			t.Errorf("above %s is %q, want %q", path, got, want)
		}
	}
	for _, c := range []struct {
		at, in string
		want   bool
	}{
		{"a.b", "a", true}, {"a[1]", "a", true}, {"a", "a", true}, {"ab", "a", false}, {"a", "a.b", false}, {"a", "", true}, {"", "", true}, {"", "a", false}, {"a_b", "a", false},
	} {
		if got := within(c.at, c.in); got != c.want {
			t.Errorf("%q is in %q: %t", c.at, c.in, got)
		}
	}
}

// What a path begins with, and what stands along it in a value.
func TestAlongPaths(t *testing.T) {
	root := (*Path)(nil)
	for _, c := range []struct {
		at    *Path
		field string
		entry int
	}{{root, "", -1}, {In("id"), "id", -1}, {In("lines").At(3), "lines", 3}, {In("lines").At(3).Field("name"), "lines", 3}, {In("gift").Field("name"), "gift", -1}, {In("lists").Field("a").At(1), "lists", -1}} {
		if field, entry := c.at.Begins(); field != c.field || entry != c.entry {
			t.Errorf("%s begins with %s, %d, want %s, %d", c.at, field, entry, c.field, c.entry)
		}
	}
	o := sound()
	o.Lines = []line{{Name: "a"}, {Name: "b"}}
	o.Lists = map[string][]line{"box": {{Name: "c"}}}
	o.Gift = &line{Name: "d"}
	v := reflect.ValueOf(&o)
	for path, want := range map[string]string{ // each part that is there, and the text at the last
		"lines[1].name": "lines, lines[1], lines[1].name, b", "gift.name": "gift, gift.name, d",
		"lists.box[0].name": "lists, lists.box, lists.box[0], lists.box[0].name, c", "lines[2].name": "lines", "lines[-1]": "lines", "lines[x]": "lines",
		"id": "id, heron", "id.name": "id, heron", "lists.bag[0]": "lists", "gift.none": "gift", "nothing": "", "": "",
	} {
		var got []string
		text := ""
		Along(v, path, func(at string, v reflect.Value) {
			got, text = append(got, at), ""
			if v.Kind() == reflect.String {
				text = v.String()
			}
		})
		if text != "" {
			got = append(got, text)
		}
		if said := strings.Join(got, ", "); said != want {
			t.Errorf("%s: %s, want %s", path, said, want)
		}
	}
	for _, at := range []*Path{In("lines").At(1).Field("name"), In("lists").Field("box").At(0).Field("name"), In("gift").Field("name"), In("id"), root} {
		got := at.In(v.Elem())
		want := map[string]string{"lines[1].name": "b", "lists.box[0].name": "c", "gift.name": "d", "id": "heron"}[at.String()]
		if at != nil && got.String() != want || at == nil && got.Type() != reflect.TypeFor[order]() {
			t.Errorf("at %s stands %v, want %s", at, got, want)
		}
	}
}
