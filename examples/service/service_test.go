package main

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"

	"example.com/quoin/margin/pricelist"
	"github.com/google/go-cmp/cmp"
	"github.com/pb33f/libopenapi"
	validator "github.com/pb33f/libopenapi-validator"
)

// program is built once, by TestMain: the tests ask the real service over the loopback.
var program string

func TestMain(m *testing.M) {
	dir, err := os.MkdirTemp("", "service")
	if err != nil {
		panic(err)
	}
	program = filepath.Join(dir, "service")
	if text, err := exec.Command("go", "build", "-o", program, ".").CombinedOutput(); err != nil {
		os.Stderr.Write(text)
		os.Exit(1)
	}
	status := m.Run()
	os.RemoveAll(dir)
	os.Exit(status)
}

// running is a service that was started.
type running struct {
	t   testing.TB
	url string
	*exec.Cmd
	ended chan error
}

func start(t testing.TB, flags ...string) *running {
	t.Helper()
	c := exec.Command(program, append([]string{"-addr", "127.0.0.1:0"}, flags...)...)
	log, err := c.StderrPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewScanner(log)
	var first struct{ URL string }
	for first.URL == "" && lines.Scan() {
		if err := json.Unmarshal(lines.Bytes(), &first); err != nil {
			t.Fatalf("the log is not JSON: %s", lines.Bytes())
		}
	}
	r := &running{t, first.URL, c, make(chan error, 1)}
	go func() {
		for lines.Scan() {
			if !json.Valid(lines.Bytes()) {
				t.Errorf("the log is not JSON: %s", lines.Bytes())
			}
		}
		r.ended <- c.Wait()
	}()
	t.Cleanup(r.stop)
	return r
}

// stop ends the service as a host does, which must leave nothing behind.
func (r *running) stop() {
	workers := r.workers()
	_ = r.Process.Signal(syscall.SIGTERM)
	if err := <-r.ended; err != nil {
		r.t.Errorf("it ended with %v", err)
	}
	r.ended <- nil
	for _, w := range workers {
		if err := syscall.Kill(w, 0); !errors.Is(err, syscall.ESRCH) {
			r.t.Errorf("worker %d is left: %v", w, err)
		}
	}
}

// workers are the processes that the service has started.
func (r *running) workers() []int {
	tasks, _ := filepath.Glob("/proc/" + strconv.Itoa(r.Process.Pid) + "/task/*/children")
	var out []int
	for _, task := range tasks {
		text, _ := os.ReadFile(task)
		for pid := range strings.FieldsSeq(string(text)) {
			n, err := strconv.Atoi(pid)
			if err != nil {
				r.t.Fatal(err)
			}
			out = append(out, n)
		}
	}
	return out
}

// answered is what came back.
type answered struct {
	status int
	header http.Header
	body   []byte
}

func (a answered) problem(t testing.TB) (p problem) {
	t.Helper()
	if kind := a.header.Get("Content-Type"); kind != "application/problem+json" {
		t.Fatalf("%d with Content-Type %q: %.300s", a.status, kind, a.body)
	}
	if err := json.Unmarshal(a.body, &p); err != nil {
		t.Fatal(err)
	}
	if p.Status != a.status || p.Title == "" || p.Detail == "" || !strings.HasPrefix(p.Type, "tag:example.com,2026:quoin/") {
		t.Errorf("status %d and %+v", a.status, p)
	}
	return p
}

func (r *running) ask(method, path string, body io.Reader, header ...string) answered {
	r.t.Helper()
	q, err := http.NewRequest(method, r.url+path, body)
	if err != nil {
		r.t.Fatal(err)
	}
	for i := 0; i < len(header); i += 2 {
		q.Header.Set(header[i], header[i+1])
	}
	a, err := http.DefaultClient.Do(q)
	if err != nil {
		r.t.Fatal(err)
	}
	defer a.Body.Close()
	text, err := io.ReadAll(a.Body)
	if err != nil {
		r.t.Fatal(err)
	}
	return answered{a.StatusCode, a.Header, text}
}

func (r *running) post(path string, document []byte, header ...string) answered {
	r.t.Helper()
	return r.ask("POST", path, bytes.NewReader(document), append([]string{"Content-Type", "application/json"}, header...)...)
}

// documents are the example documents, the cases, and documents with mistakes.
func documents(t testing.TB) map[string][]byte {
	t.Helper()
	out := make(map[string][]byte)
	for _, pattern := range []string{"../first/*.json", "../pricesheet/*.json", "../shops/*.json", "../../margin/pricelist/testdata/cases/*.json", "../../margin/pricelist/testdata/codes/*.json"} {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) == 0 {
			t.Fatalf("no documents as %s: %v", pattern, err)
		}
		for _, f := range files {
			if out[f], err = os.ReadFile(f); err != nil {
				t.Fatal(err)
			}
		}
	}
	return out
}

func shop(t testing.TB) []byte { return documents(t)["../first/shop.json"] }

// What the service answers is what the library answers, to the byte; what it refuses has the whole list of problems. All of
// it is as /openapi.json says.
func TestAnswersAreThoseOfTheLibrary(t *testing.T) {
	s := start(t)
	described, errs := libopenapi.NewDocument(s.ask("GET", "/openapi.json", nil).body)
	if errs != nil {
		t.Fatal(errs)
	}
	v, all := validator.NewValidator(described)
	if len(all) > 0 {
		t.Fatal(all)
	}
	if ok, wrong := v.ValidateDocument(); !ok {
		t.Fatalf("/openapi.json is no OpenAPI 3.1: %v", wrong)
	}
	counts := make(map[int]int)
	for name, document := range documents(t) {
		for _, path := range []string{"/price", "/check", "/curve"} {
			q, _ := http.NewRequest("POST", s.url+path, bytes.NewReader(document))
			q.Header.Set("Content-Type", "application/json")
			a, err := http.DefaultClient.Do(q)
			if err != nil {
				t.Fatal(err)
			}
			body, err := io.ReadAll(a.Body)
			if err != nil {
				t.Fatal(err)
			}
			got := answered{a.StatusCode, a.Header, body}
			counts[got.status]++
			want, err := pricelist.Price(document)
			text, _ := want.AppendJSON(nil)
			switch path {
			case "/check":
				_, err = pricelist.Decode(document)
			case "/curve":
				text, _ = want.WithCurves().AppendJSON(nil)
			}
			switch {
			case err != nil:
				p := got.problem(t)
				if diff := cmp.Diff(err, error(p.Problems)); got.status != 422 || !strings.HasSuffix(p.Type, "/mistakes") || diff != "" {
					t.Errorf("%s %s: %d %s", path, name, got.status, diff)
				}
			case path == "/check":
				if got.status != 204 || len(body) > 0 || got.header.Get("Content-Type") != "" {
					t.Errorf("%s %s: %d %s", path, name, got.status, body)
				}
			default:
				if got.status != 200 || !bytes.Equal(body, text) || got.header.Get("Content-Type") != "application/json" {
					t.Errorf("%s %s: status %d, and not the bytes of the library", path, name, got.status)
				}
			}
			a.Body = io.NopCloser(bytes.NewReader(body))
			if ok, wrong := v.ValidateHttpResponse(q, a); !ok {
				t.Errorf("%s %s is not as /openapi.json says: %v", path, name, wrong[0])
			}
		}
	}
	if counts[200] < 40 || counts[204] < 20 || counts[422] < 60 {
		t.Errorf("too few of one status: %v", counts)
	}
}
