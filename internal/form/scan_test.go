package form

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
)

// scanned reads an object of lists of a text and a whole number, such as {"a":[["x",1]]}.
func scanned(text string) (string, bool) {
	s := NewScan([]byte(text))
	var out strings.Builder
	s.Open('{')
	for n := 0; s.More(n, '}'); n++ {
		fmt.Fprintf(&out, "%s:", s.Name())
		s.Open('[')
		for n := 0; s.More(n, ']'); n++ {
			s.Open('[')
			s.More(0, ']')
			fmt.Fprintf(&out, " %s", s.Text())
			s.More(1, ']')
			fmt.Fprintf(&out, " %d", s.Whole())
			s.More(2, ']')
		}
		out.WriteString(";")
	}
	return out.String(), s.End()
}

func TestScan(t *testing.T) {
	for _, c := range []struct{ text, want string }{ // empty where it is odd
		{`{"a":[["x",1]]}`, "a: x 1;"},
		{" {\n\"a\" :\t[ [ \"x\" , 1 ] , [\"\",0] ] , \"b\":[\r]}  ", "a: x 1  0;b:;"},
		{`{"a ~!":[["}]",123456789012345678]]}`, "a ~!: }] 123456789012345678;"},
		{`{}`, ""}, // of which nothing is said, but see below
		{`{"a":[["x",1234567890123456789]]}`, ""},
		{`{"a":[["x",01]]}`, ""},
		{`{"a":[["x",-1]]}`, ""},
		{`{"a":[["x",1.5]]}`, ""},
		{`{"a":[["x",1e5]]}`, ""},
		{`{"a":[["x",1E5]]}`, ""},
		{`{"a":[["x",]]}`, ""},
		{`{"a":[["x\"",1]]}`, ""},
		{`{"a":[["é",1]]}`, ""},
		{"{\"a\":[[\"\x1f\",1]]}", ""},
		{"{\"a\":[[\"\x7f\",1]]}", ""},
		{`{"a":[["x,1]]}`, ""},
		{`{"a":[["x`, ""},
		{`{"a":[["x",1]]}x`, ""},
		{`{"a":[["x",1]]} 0`, ""},
		{`{"a":[["x",1]]`, ""},
		{`{"a":[["x",1]}}`, ""},
		{`["a":[["x",1]]}`, ""},
		{`{"a"[["x",1]]}`, ""},
		{`{"a":[["x" 1]]}`, ""},
		{`{"a":[["x",1]]"b":[]}`, ""},
		{`{a:[["x",1]]}`, ""},
		{``, ""},
		{`x`, ""},
		{"{\"a\":[[\"x\",1]]}\x00", ""},
	} {
		got, ok := scanned(c.text)
		if ok != (c.want != "" || c.text == `{}`) || ok && got != c.want {
			t.Errorf("%s is scanned as %q, %t, want %q", c.text, got, ok, c.want)
		}
		if s := NewScan([]byte(c.text)); s.Odd() {
			t.Errorf("%s is odd before it is read", c.text)
		}
	}
	s := NewScan([]byte(`x`))
	if s.Open('{'); !s.Odd() || s.More(0, '}') || s.Text() != nil || s.End() {
		t.Error("what is odd goes on")
	}
}

// Whatever is scanned to its end is JSON, and says the same there.
func TestScanAgreesWithJSON(t *testing.T) {
	plain, odd := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		text := `{` + rapid.StringMatching(`(" ?[a-c\\é]{0,2}" ?: ?\[(\["x",[0-9.e-]{1,3}\] ?)?\](, ?)?){0,2}`).Draw(t, "text") + `}`
		got, ok := scanned(text)
		var want map[string][][]any
		d := json.NewDecoder(strings.NewReader(text))
		d.UseNumber()
		err := d.Decode(&want)
		if !ok {
			odd++
			return
		}
		if plain++; err != nil {
			t.Fatalf("%s is scanned as %s, and is no JSON: %v", text, got, err)
		}
		for name, list := range want {
			said := name + ":"
			for _, pair := range list {
				said += fmt.Sprintf(" %v %v", pair[0], pair[1])
			}
			if !strings.Contains(got, said) {
				t.Fatalf("%s is scanned as %s, want %s", text, got, said)
			}
		}
	})
	if plain == 0 || odd == 0 {
		t.Errorf("drawn: %d plain, %d odd", plain, odd)
	}
}

func TestDigits(t *testing.T) {
	for _, c := range []struct {
		text          string
		whole, places int
		n             int64
		after         int
		ok            bool
	}{
		{"17.50", 12, 8, 1750, 2, true},
		{"0", 12, 8, 0, 0, true},
		{"0.5", 12, 8, 5, 1, true},
		{"9", 1, 0, 9, 0, true},
		{"0.00", 12, 8, 0, 2, true},
		{"123456789012", 12, 8, 123456789012, 0, true},
		{"1234567890123", 12, 8, 0, 0, false},
		{"1.12345678", 12, 8, 112345678, 8, true},
		{"1.123456789", 12, 8, 0, 0, false},
		{"1234567890.12345678", 12, 8, 123456789012345678, 8, true},
		{"12345678901.12345678", 12, 8, 0, 0, false}, // 18 digits and 19
		{"", 12, 8, 0, 0, false},
		{".5", 12, 8, 0, 0, false},
		{"5.", 12, 8, 0, 0, false},
		{"05", 12, 8, 0, 0, false},
		{"00", 12, 8, 0, 0, false},
		{"-5", 12, 8, 0, 0, false},
		{"5,5", 12, 8, 0, 0, false},
		{"5.5.5", 12, 8, 0, 0, false},
		{"5.-5", 12, 8, 0, 0, false},
		{"5x", 12, 8, 0, 0, false},
		{"1.5", 12, 0, 0, 0, false},
		{"1/5", 12, 8, 0, 0, false},
		{"1:5", 12, 8, 0, 0, false},
	} {
		n, after, ok := Digits([]byte(c.text), c.whole, c.places)
		if n != c.n || after != c.after || ok != c.ok {
			t.Errorf("%s: %d, %d, %t, want %d, %d, %t", c.text, n, after, ok, c.n, c.after, c.ok)
		}
		if a, err := quoin.ParseAmount(c.text); ok && (err != nil || !a.Equal(quoin.AmountOf(n, after))) {
			t.Errorf("%s is %d units of %d places, and the amount %s, %v", c.text, n, after, a, err)
		}
	}
}

// Lines are handed out without their ends, up to a bound.
func TestLines(t *testing.T) {
	for _, c := range []struct {
		text string
		most int
		want string
	}{
		{"", 9, ""},
		{"\n", 9, `1:""blank`},
		{"one", 9, `1:"one"`},
		{"one\n", 9, `1:"one"`},
		{"one\n\ntwo", 9, `1:"one" 2:""blank 3:"two"`},
		{"one \r\n\t \n", 9, `1:"one \r" 2:"\t "blank`},
		{"123\n1234\n123", 3, `1:"123" 2:long 3:"123"`},
		{"1234", 3, `1:long`},
		{"1234\n", 4, `1:"1234"`},
		{strings.Repeat("x", 70_000) + "\ny", 70_000, `1:70000 2:"y"`}, // more than is read at a time
		{strings.Repeat("x", 70_001) + "\ny", 70_000, `1:long 2:"y"`},
		{strings.Repeat("x", 140_000) + "\ny", 3, `1:long 2:"y"`},
	} {
		var got []string
		l := NewLines(strings.NewReader(c.text), c.most)
		for l.Next() == nil {
			said := strconv.Quote(string(l.Text))
			switch {
			case l.Long:
				said = "long"
			case len(l.Text) > 99:
				said = strconv.Itoa(len(l.Text))
			}
			if l.Blank() {
				said += "blank"
			}
			got = append(got, fmt.Sprintf("%d:%s", l.Line, said))
		}
		if s := strings.Join(got, " "); s != c.want {
			t.Errorf("%.20q: %s, want %s", c.text, s, c.want)
		}
		if l.Next() == nil {
			t.Errorf("%.20q goes on behind its end", c.text)
		}
	}
}
