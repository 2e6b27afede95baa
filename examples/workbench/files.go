package main

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"mime"
	"net/http"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// page is what the browser is given beside the engine.
//
//go:embed page
var page embed.FS

const (
	module = "example.com/quoin"
	worker = "worker.js" // it is told the names of all other files
	engine = "engine.wasm"
)

// files are all files of the page by their names.
type files map[string][]byte

// build puts the files together: it builds the engine, and takes what begins a page from the
// examples of this module.
func build() (files, error) {
	all := files{}
	entries, err := fs.ReadDir(page, "page")
	if err != nil {
		return nil, err
	}
	for _, e := range entries {
		if all[e.Name()], err = page.ReadFile(path.Join("page", e.Name())); err != nil {
			return nil, err
		}
	}
	if all[engine], err = compiled(); err != nil {
		return nil, err
	}
	goroot, err := goSays("env", "GOROOT")
	if err != nil {
		return nil, err
	}
	if all["wasm_exec.js"], err = os.ReadFile(filepath.Join(goroot, "lib", "wasm", "wasm_exec.js")); err != nil {
		return nil, err
	}
	for name, from := range map[string]string{"first.json": "first/shop.json", "scenario.json": "pricesheet/scenario.json"} {
		dir, err := goSays("list", "-f", "{{.Dir}}", module+"/examples/"+path.Dir(from))
		if err != nil {
			return nil, err
		}
		if all[name], err = os.ReadFile(filepath.Join(dir, path.Base(from))); err != nil {
			return nil, err
		}
	}
	all[worker], err = all.told(all[worker])
	return all, err
}

// compiled is the engine for the browser. Inlining would make it a fifth longer.
func compiled() ([]byte, error) {
	dir, err := os.MkdirTemp("", "workbench")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	out := filepath.Join(dir, engine)
	c := exec.Command("go", "build", "-trimpath", "-gcflags=all=-l", "-ldflags=-s -w", "-o", out, module+"/examples/workbench/engine")
	c.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	if said, err := c.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("the engine cannot be built: %w\n%s", err, said)
	}
	return os.ReadFile(out)
}

func goSays(args ...string) (string, error) {
	out, err := exec.Command("go", args...).Output()
	if fault, ok := errors.AsType[*exec.ExitError](err); ok {
		return "", fmt.Errorf("go %s: %s", strings.Join(args, " "), fault.Stderr)
	}
	return strings.TrimSpace(string(out)), err
}

// told writes into the service worker which files there are, and a name for this state of them.
func (all files) told(script []byte) ([]byte, error) {
	names := slices.Sorted(maps.Keys(all))
	sum := sha256.New()
	for _, name := range names {
		fmt.Fprintf(sum, "%s %d\n%s", name, len(all[name]), all[name])
	}
	keep := slices.DeleteFunc(names, func(name string) bool { return name == worker })
	list, err := json.Marshal(append([]string{"./"}, keep...))
	if err != nil {
		return nil, err
	}
	script = bytes.Replace(script, []byte("[/*files*/]"), list, 1)
	return bytes.Replace(script, []byte("/*state*/"), []byte(hex.EncodeToString(sum.Sum(nil)[:8])), 1), nil
}

// write writes the files into a folder, and the engine compressed too, for hosts that send such
// files as they are.
func (all files) write(dir string) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	for _, name := range slices.Sorted(maps.Keys(all)) {
		if err := os.WriteFile(filepath.Join(dir, name), all[name], 0o644); err != nil {
			return err
		}
	}
	var short bytes.Buffer
	w, err := gzip.NewWriterLevel(&short, gzip.BestCompression)
	if err != nil {
		return err
	}
	if _, err := w.Write(all[engine]); err != nil {
		return err
	}
	if err := w.Close(); err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(dir, engine+".gz"), short.Bytes(), 0o644)
}

// policy forbids everything that the page does not do: above all, to load from or send to
// anywhere else. The page itself says the same, for hosts that send no such header.
const policy = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data: blob:; " +
	"connect-src 'self'; worker-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'"

// served answers requests with the files. Nothing else is sent, and nothing is taken in.
func (all files) served() http.Handler {
	tags := map[string]string{}
	for name, body := range all {
		sum := sha256.Sum256(body)
		tags[name] = `"` + hex.EncodeToString(sum[:8]) + `"`
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		name := strings.TrimPrefix(r.URL.Path, "/")
		if name == "" {
			name = "index.html"
		}
		body, ok := all[name]
		if !ok {
			http.NotFound(w, r)
			return
		}
		h := w.Header()
		h.Set("Content-Type", kind(name))
		h.Set("Content-Security-Policy", policy+"; frame-ancestors 'none'")
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cache-Control", "no-cache")
		h.Set("ETag", tags[name])
		http.ServeContent(w, r, name, time.Time{}, bytes.NewReader(body))
	})
}

// kind is the type of a file. Tables of types differ from machine to machine: those that the
// browser insists on are said here.
func kind(name string) string {
	switch path.Ext(name) {
	case ".js":
		return "text/javascript; charset=utf-8"
	case ".wasm":
		return "application/wasm"
	case ".css":
		return "text/css; charset=utf-8"
	case ".html":
		return "text/html; charset=utf-8"
	case ".json":
		return "application/json"
	case ".svg":
		return "image/svg+xml"
	case ".webmanifest":
		return "application/manifest+json"
	}
	return mime.TypeByExtension(path.Ext(name))
}
