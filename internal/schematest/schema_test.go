package schematest_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

const (
	draft      = "https://json-schema.org/draft/2020-12/schema"
	documentID = "https://example.com/quoin/document.schema.json"
	answerID   = "https://example.com/quoin/answer.schema.json"
	lineID     = "https://example.com/quoin/history/line.schema.json"
	lineFile   = "../../margin/history/line.schema.json"
	lineFiles  = "../../margin/history/testdata/history.jsonl"
	caseFiles  = "../../margin/pricelist/testdata/cases/*.json"
	scenario   = "../../examples/pricesheet/scenario.json"
	full       = "testdata/full.json"
	worst      = "testdata/worst.json"
)

// texts is all schemas by their ids.
func texts(t testing.TB) map[string][]byte {
	t.Helper()
	line, err := os.ReadFile(lineFile)
	if err != nil {
		t.Fatal(err)
	}
	return map[string][]byte{documentID: pricelist.DocumentSchema(), answerID: pricelist.AnswerSchema(), lineID: line}
}

// parsed keeps numbers as they are written.
func parsed(t testing.TB, data []byte) any {
	t.Helper()
	v, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	if err != nil {
		t.Fatalf("%v in %.200s", err, data)
	}
	return v
}

// compiled compiles a schema, or a part of it such as #/$defs/amount.
func compiled(t testing.TB, id, part string) *jsonschema.Schema {
	t.Helper()
	c := jsonschema.NewCompiler()
	if err := c.AddResource(id, parsed(t, texts(t)[id])); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile(id + part)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// documents is every sound document of the tree, by its file.
func documents(t testing.TB) map[string][]byte {
	t.Helper()
	files, err := filepath.Glob(caseFiles)
	if err != nil {
		t.Fatal(err)
	}
	files = slices.DeleteFunc(files, func(f string) bool { return strings.HasSuffix(f, ".want.json") })
	if len(files) == 0 {
		t.Fatal("no cases")
	}
	out := make(map[string][]byte)
	for _, f := range append(files, scenario, full, worst) {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		out[f] = data
	}
	return out
}

func TestSchemasAreSchemas(t *testing.T) {
	meta, err := jsonschema.NewCompiler().Compile(draft)
	if err != nil {
		t.Fatal(err)
	}
	for id, text := range texts(t) {
		v := parsed(t, text)
		if err := meta.Validate(v); err != nil {
			t.Errorf("%s is no schema of 2020-12: %v", id, err)
		}
		head := v.(map[string]any)
		if head["$schema"] != draft || head["$id"] != id {
			t.Errorf("%s says that it is %v, of %v", id, head["$id"], head["$schema"])
		}
		if s := compiled(t, id, ""); s.DraftVersion != 2020 {
			t.Errorf("%s compiles as draft %d", id, s.DraftVersion)
		}
	}
}

// What a caller does to its copy is not seen by the next.
func TestCopiesAreFresh(t *testing.T) {
	for _, schema := range []func() []byte{pricelist.DocumentSchema, pricelist.AnswerSchema} {
		text := schema()
		before := slices.Clone(text)
		clear(text)
		if !bytes.Equal(schema(), before) {
			t.Errorf("%.200s can be changed through a copy", before)
		}
	}
}

func TestSoundDocumentsAreValid(t *testing.T) {
	s := compiled(t, documentID, "")
	for name, data := range documents(t) {
		if err := s.Validate(parsed(t, data)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		doc, err := pricelist.Decode(data)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		written, err := json.Marshal(doc)
		if err != nil {
			t.Fatal(err)
		}
		if err := s.Validate(parsed(t, written)); err != nil {
			t.Errorf("%s, decoded and written again: %v", name, err)
		}
	}
}

// verdict is what schema and decoder say of one document.
type verdict struct {
	schema error
	engine quoin.Problems
}

func judge(t testing.TB, s *jsonschema.Schema, doc []byte) verdict {
	t.Helper()
	var v verdict
	v.schema = s.Validate(parsed(t, doc))
	if _, err := pricelist.Decode(doc); err != nil && !errors.As(err, &v.engine) {
		t.Fatal(err)
	}
	return v
}

// places is where the schema found something wrong, as paths of the engine.
func (v verdict) places() []string {
	var invalid *jsonschema.ValidationError
	if !errors.As(v.schema, &invalid) {
		return nil
	}
	return places(invalid)
}

func places(e *jsonschema.ValidationError) []string {
	if len(e.Causes) > 0 {
		var out []string
		for _, c := range e.Causes {
			out = append(out, places(c)...)
		}
		return out
	}
	at := ""
	for _, name := range e.InstanceLocation {
		if _, err := strconv.Atoi(name); err == nil {
			at += "[" + name + "]"
		} else {
			at += "." + name
		}
	}
	return []string{strings.TrimPrefix(at, ".")}
}

// meet reports whether schema and engine found something wrong in one place: a
// schema says of the object around it that a field is missing or unknown.
func (v verdict) meet() bool {
	for _, at := range v.places() {
		for _, p := range v.engine {
			if rest, ok := strings.CutPrefix(p.Path, at); ok && strings.Count(rest, ".") <= 1 {
				return true
			}
		}
	}
	return false
}
