package history_test

import (
	"encoding/json"
	"os"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.com/quoin/internal/form"
	"example.com/quoin/margin/history"
)

var kinds = map[history.Kind]reflect.Type{
	history.PriceRecord: reflect.TypeFor[history.Price](), history.ReductionRecord: reflect.TypeFor[history.Reduction](),
	history.SaleRecord: reflect.TypeFor[history.Sale](), history.TrialRecord: reflect.TypeFor[history.Trial](),
}

// object is a part of the schema.
type object = map[string]any

func schema(t *testing.T) object {
	t.Helper()
	data, err := os.ReadFile("line.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	var s object
	if err := json.Unmarshal(data, &s); err != nil {
		t.Fatal(err)
	}
	return s
}

func TestTheSchemaHasTheFieldsOfItsTypes(t *testing.T) {
	defs := schema(t)["$defs"].(object)
	for kind, of := range kinds {
		def := defs[string(kind)].(object)
		want, needed := []string{"record"}, []string{"record"}
		for _, f := range form.Of(of).Fields {
			want = append(want, f.Name)
			if f.Need && len(f.Instead) == 0 {
				needed = append(needed, f.Name)
			}
		}
		var got, required []string
		for name, p := range def["properties"].(object) {
			got = append(got, name)
			if name != "record" && p.(object)["description"] == nil {
				t.Errorf("%s: %s is not described", kind, name)
			}
		}
		for _, name := range def["required"].([]any) {
			required = append(required, name.(string))
		}
		for _, list := range [][]string{want, needed, got, required} {
			slices.Sort(list)
		}
		if !slices.Equal(got, want) || !slices.Equal(required, needed) || def["additionalProperties"] != false {
			t.Errorf("%s has %q, of them needed %q, want %q and %q and no others", kind, got, required, want, needed)
		}
	}
}

// fits says whether a value fits a part of the schema, as far as the schema
// uses the keywords of its standard (JSON Schema 2020-12): those that bound
// numbers are left to a validator.
func fits(root, s object, v any) bool {
	if ref, ok := s["$ref"].(string); ok {
		def := root["$defs"].(object)[strings.TrimPrefix(ref, "#/$defs/")].(object)
		if !fits(root, def, v) {
			return false
		}
	}
	if c, ok := s["const"]; ok && c != v {
		return false
	}
	if e, ok := s["enum"].([]any); ok && !slices.Contains(e, v) {
		return false
	}
	if one, ok := s["oneOf"].([]any); ok {
		n := 0
		for _, o := range one {
			if fits(root, o.(object), v) {
				n++
			}
		}
		if n != 1 {
			return false
		}
	}
	switch x := v.(type) {
	case string:
		pattern, _ := s["pattern"].(string)
		return typed(s, "string") && regexp.MustCompile(pattern).MatchString(x)
	case json.Number:
		return typed(s, "number") || typed(s, "integer") && !strings.ContainsAny(string(x), ".eE")
	case object:
		return typed(s, "object") && fitsObject(root, s, x)
	}
	return s["type"] == nil
}

func typed(s object, name string) bool {
	switch of := s["type"].(type) {
	case string:
		return of == name
	case []any:
		return slices.Contains(of, any(name))
	}
	return true
}

func fitsObject(root, s, x object) bool {
	required, _ := s["required"].([]any)
	for _, name := range required {
		if _, ok := x[name.(string)]; !ok {
			return false
		}
	}
	properties, _ := s["properties"].(object)
	for name, v := range x {
		p, ok := properties[name].(object)
		if !ok && s["additionalProperties"] == false || ok && !fits(root, p, v) {
			return false
		}
	}
	return true
}

func parsed(t *testing.T, line string) any {
	t.Helper()
	d := json.NewDecoder(strings.NewReader(line))
	d.UseNumber()
	var v any
	if err := d.Decode(&v); err != nil {
		t.Fatal(err, line)
	}
	return v
}

func TestLinesFitTheSchema(t *testing.T) {
	root := schema(t)
	data, err := os.ReadFile("testdata/history.jsonl")
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(data)) {
		if !fits(root, root, parsed(t, line)) {
			t.Errorf("does not fit: %s", line)
		}
	}
	for _, line := range []string{
		`{"record":"sale","edition":"e","number":"7","date":"2026-01-01","price":0}`,
		`{"record":"trial","id":"t","product":"a","channel":"web","price":9.5,"from":"2026-01-01","until":"2026-02-01","exposure":2.5,"exposure_unit":"stand_days","sold":"0"}`,
	} {
		if _, err := history.ReadAll(strings.NewReader(line)); err != nil || !fits(root, root, parsed(t, line)) {
			t.Errorf("does not fit, or is not read: %s, %v", line, err)
		}
	}
	for _, line := range []string{
		`[]`, `7`, `{}`, `{"record":"prise"}`, `{"record":"price","product":"a","price":"9"}`,
		`{"record":"price","product":"a","price":"9","from":"2026-13-01"}`,
		`{"record":"price","product":"a","price":"0.00","from":"2026-01-01"}`,
		`{"record":"price","product":"a","price":"9,5","from":"2026-01-01"}`,
		`{"record":"price","product":"a","price":"9","from":"2026-01-01","edition":"e"}`,
		`{"record":"sale","edition":"e","date":"2026-01-01"}`,
		`{"record":"sale","edition":"e","number":1,"proof":1,"date":"2026-01-01"}`,
		`{"record":"sale","edition":"e","number":"0","date":"2026-01-01"}`,
		`{"record":"sale","edition":"e","number":1.5,"date":"2026-01-01"}`,
		`{"record":"sale","edition":"e\n","number":1,"date":"2026-01-01"}`,
	} {
		if _, err := history.ReadAll(strings.NewReader(line)); err == nil || fits(root, root, parsed(t, line)) {
			t.Errorf("fits, or is read: %s", line)
		}
	}
}

// format.md has a table with every field, and the example that is tested.
func TestThePageIsTrue(t *testing.T) {
	data, err := os.ReadFile("format.md")
	if err != nil {
		t.Fatal(err)
	}
	page := string(data)
	for kind, of := range kinds {
		_, rest, ok := strings.Cut(page, "## `"+string(kind)+"`\n")
		if !ok {
			t.Errorf("no chapter on %s", kind)
		}
		chapter, _, _ := strings.Cut(rest, "\n## ")
		var named []string
		for row := range strings.Lines(chapter) {
			if cells := strings.Split(row, "|"); strings.HasPrefix(row, "| `") {
				for _, name := range regexp.MustCompile("`([a-z_]+)`").FindAllStringSubmatch(cells[1], -1) {
					named = append(named, name[1])
				}
			}
		}
		var want []string
		for _, f := range form.Of(of).Fields {
			want = append(want, f.Name)
		}
		slices.Sort(named)
		slices.Sort(want)
		if !slices.Equal(named, want) {
			t.Errorf("the table of %s has %q, want %q", kind, named, want)
		}
	}
	_, rest, _ := strings.Cut(page, "```json\n")
	shown, _, _ := strings.Cut(rest, "```")
	example, err := os.ReadFile("testdata/history.jsonl")
	if err != nil {
		t.Fatal(err)
	}
	if shown != string(example) {
		t.Error("the example of the page is not testdata/history.jsonl")
	}
}

// What Append writes is how the example is written.
func TestTheExampleIsAsWritten(t *testing.T) {
	data, err := os.ReadFile("testdata/history.jsonl")
	if err != nil {
		t.Fatal(err)
	}
	records, err := history.ReadAll(strings.NewReader(string(data)))
	if err != nil {
		t.Fatal(err)
	}
	var lines []byte
	for _, r := range records {
		if lines, err = history.Append(lines, r.Entry); err != nil {
			t.Fatal(err)
		}
	}
	if string(lines) != string(data) {
		t.Errorf("written as\n%s", lines)
	}
}
