// Release keeps what a version promised, for every later version to be held to: its schemas, what
// it exported, the example documents and the answers to them. Run it in the module for a version
// that is about to be released, and once more if something changes before it is:
//
//	go run ./internal/release 0.1.0
//
// What was kept of a version that is out is never written again.
package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"

	"example.com/quoin/margin/pricelist"
)

// kept is where what was promised stands, a folder for each version.
const kept = "internal/release/kept"

// promises are files that are kept as they are.
var promises = []string{
	"margin/pricelist/document.schema.json", "margin/pricelist/answer.schema.json", "margin/history/line.schema.json", "internal/api/exported.txt",
}

// documents are where example documents stand. What is no shop document is passed over.
var documents = []string{"examples/*/*.json", "margin/pricelist/testdata/cases/*.json", "internal/schematest/testdata/full.json"}

func main() {
	if len(os.Args) != 2 || !version.MatchString(os.Args[1]) {
		fmt.Fprintln(os.Stderr, "release: which version is to be kept? as in: go run ./internal/release 0.1.0")
		os.Exit(2)
	}
	if err := keep(".", os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, "release:", err)
		os.Exit(1)
	}
}

var version = regexp.MustCompile(`^\d+\.\d+\.\d+$`)

// keep writes what the version promises.
func keep(root, version string) error {
	to := filepath.Join(root, kept, version)
	if err := os.RemoveAll(to); err != nil {
		return err
	}
	for _, folder := range []string{"documents", "answers"} {
		if err := os.MkdirAll(filepath.Join(to, folder), 0o755); err != nil {
			return err
		}
	}
	for _, name := range promises {
		text, err := os.ReadFile(filepath.Join(root, name))
		if err != nil {
			return err
		}
		if err := os.WriteFile(filepath.Join(to, keptName(name)), text, 0o644); err != nil {
			return err
		}
	}
	return keepDocuments(root, to)
}

func keepDocuments(root, to string) error {
	for _, pattern := range documents {
		names, err := filepath.Glob(filepath.Join(root, pattern))
		if err != nil {
			return err
		}
		for _, name := range names {
			if err := keepDocument(root, to, name); err != nil {
				return err
			}
		}
	}
	return nil
}

func keepDocument(root, to, name string) error {
	text, err := os.ReadFile(name)
	if err != nil {
		return err
	}
	if !isDocument(text) {
		return nil
	}
	reply, err := answerTo(text)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	within, err := filepath.Rel(root, name)
	if err != nil {
		return err
	}
	as := keptName(within)
	if err := os.WriteFile(filepath.Join(to, "documents", as), text, 0o644); err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(to, "answers", as), reply, 0o644)
}

// isDocument tells shops from other JSON. A shop that is faulty is one.
func isDocument(text []byte) bool {
	var fields map[string]json.RawMessage
	err := json.Unmarshal(text, &fields)
	return err == nil && fields["version"] != nil && fields["products"] != nil && fields["channels"] != nil
}

// keptName is the name of a file with the folders that it stood in.
func keptName(path string) string {
	return strings.ReplaceAll(filepath.ToSlash(path), "/", "--")
}

// answerTo is what the engine says to a document, without steps, or its problems.
func answerTo(text []byte) ([]byte, error) {
	var said any
	answer, err := pricelist.Price(text)
	if said = answer.WithoutSteps(); err != nil {
		said = map[string]any{"problems": err}
	}
	out, err := json.Marshal(said)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	if err := json.Indent(&b, out, "", " "); err != nil {
		return nil, err
	}
	b.WriteByte('\n')
	return b.Bytes(), nil
}
