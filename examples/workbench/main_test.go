package main

import (
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// What is served and what is written are the same files, and the page's own policy is the one that
// is sent.
func TestFiles(t *testing.T) {
	if testing.Short() {
		t.Skip("builds the engine")
	}
	files, err := build()
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	if err := files.write(dir); err != nil {
		t.Fatal(err)
	}
	handler := files.served()
	for name, body := range files {
		on, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil || string(on) != string(body) {
			t.Errorf("%s in the folder is another: %v", name, err)
		}
		w := httptest.NewRecorder()
		handler.ServeHTTP(w, httptest.NewRequest("GET", "/"+name, nil))
		if w.Code != 200 || w.Body.String() != string(body) || kind(name) == "" {
			t.Errorf("%s is served with %d, as %q", name, w.Code, kind(name))
		}
		if sent := w.Header().Get("Content-Security-Policy"); !strings.HasPrefix(sent, policy) {
			t.Errorf("%s is sent with the policy %q", name, sent)
		}
		again := httptest.NewRequest("GET", "/"+name, nil)
		again.Header.Set("If-None-Match", w.Header().Get("ETag"))
		w = httptest.NewRecorder()
		if handler.ServeHTTP(w, again); w.Code != 304 {
			t.Errorf("%s, unchanged, is sent again with %d", name, w.Code)
		}
		if name != worker && !strings.Contains(string(files[worker]), `"`+name+`"`) {
			t.Errorf("%s is not kept for when there is no network", name)
		}
	}
	if !strings.Contains(string(files["index.html"]), `content="`+policy+`"`) {
		t.Error("the page has another policy than the one that is sent")
	}
	for _, other := range []string{"/../main.go", "/page/index.html", "/nothing"} {
		w := httptest.NewRecorder()
		if handler.ServeHTTP(w, httptest.NewRequest("GET", other, nil)); w.Code != 404 {
			t.Errorf("%s is answered with %d", other, w.Code)
		}
	}
}
