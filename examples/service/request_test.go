package main

import (
	"bytes"
	"fmt"
	"io"
	"net"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/prometheus/common/expfmt"
	"github.com/prometheus/common/model"
)

// A request that is no request for prices is told what is wanted.
func TestRequests(t *testing.T) {
	s := start(t)
	document := shop(t)
	for _, c := range []struct {
		name, method, path, kind string
		body                     []byte
		status                   int
		problem                  string
	}{
		{"no type", "POST", "/price", "", document, 415, "media-type"},
		{"another type", "POST", "/price", "text/plain", document, 415, "media-type"},
		{"a charset", "POST", "/price", "application/json; charset=utf-8", document, 200, ""},
		{"at the limit", "POST", "/check", "application/json", append(bytes.Repeat([]byte(" "), mostBytes-len(document)), document...), 204, ""},
		{"a byte more", "POST", "/check", "application/json", append(bytes.Repeat([]byte(" "), mostBytes-len(document)+1), document...), 413, "too-large"},
		{"no body", "POST", "/price", "application/json", nil, 422, "mistakes"},
		{"no method", "GET", "/price", "", nil, 405, ""},
		{"no path", "POST", "/prices", "application/json", document, 404, ""},
	} {
		a := s.ask(c.method, c.path, bytes.NewReader(c.body), "Content-Type", c.kind)
		if a.status != c.status {
			t.Errorf("%s: status %d, wanted %d: %.200s", c.name, a.status, c.status, a.body)
			continue
		}
		if c.problem != "" && !strings.HasSuffix(a.problem(t).Type, "/"+c.problem) {
			t.Errorf("%s: %s", c.name, a.body)
		}
	}
	// A body that does not say how long it is, and goes on.
	if a := s.ask("POST", "/price", io.MultiReader(bytes.NewReader(document), strings.NewReader(strings.Repeat(" ", mostBytes))), "Content-Type", "application/json"); a.status != 413 {
		t.Errorf("a body without a length: %d", a.status)
	}
	if a := s.ask("GET", "/schema?of=answer", nil); a.status != 200 || !bytes.Contains(a.body, []byte(`"Answer to a shop document, version 1"`)) {
		t.Errorf("the schema of answers: %d %.100s", a.status, a.body)
	}
	if a := s.ask("GET", "/schema", nil); a.header.Get("Content-Type") != "application/schema+json" || !bytes.Contains(a.body, []byte(`"Shop document, version 1"`)) {
		t.Errorf("the schema of documents: %v %.100s", a.header, a.body)
	}
}

// A client that hangs up in the middle of its document leaves the service as it was.
func TestCutShort(t *testing.T) {
	s := start(t)
	c, err := net.Dial("tcp", strings.TrimPrefix(s.url, "http://"))
	if err != nil {
		t.Fatal(err)
	}
	fmt.Fprint(c, "POST /price HTTP/1.1\r\nHost: shop\r\nContent-Type: application/json\r\nContent-Length: 1000\r\n\r\n{\"version\"")
	if err := c.(*net.TCPConn).CloseWrite(); err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(c)
	if err != nil || !bytes.HasPrefix(text, []byte("HTTP/1.1 400 ")) || !bytes.Contains(text, []byte("quoin/cut-short")) {
		t.Errorf("%v %s", err, text)
	}
	if a := s.post("/price", shop(t)); a.status != 200 {
		t.Errorf("afterwards: %d", a.status)
	}
}

// The tag of an answer is that of its question, and who has the answer is told so.
func TestTags(t *testing.T) {
	s := start(t)
	document := shop(t)
	first := s.post("/price", document).header.Get("ETag")
	if len(first) != 34 || first[0] != '"' || first[33] != '"' {
		t.Fatalf("the tag is %s", first)
	}
	for name, a := range map[string]answered{"again": s.post("/price", document), "after it was sent": s.post("/price", document, "If-None-Match", `"other"`)} {
		if a.status != 200 || a.header.Get("ETag") != first {
			t.Errorf("%s: %d, %s", name, a.status, a.header.Get("ETag"))
		}
	}
	for name, a := range map[string]answered{"a space more": s.post("/price", append([]byte(" "), document...)), "another call": s.post("/curve", document)} {
		if got := a.header.Get("ETag"); got == first || got == "" {
			t.Errorf("%s: the tag is %q", name, got)
		}
	}
	if a := s.post("/price", document, "If-None-Match", `"other", `+first); a.status != 412 || !strings.HasSuffix(a.problem(t).Type, "/unchanged") {
		t.Errorf("%d %s", a.status, a.body)
	}
	if a := s.post("/price", []byte("{}")); a.status != 422 {
		t.Errorf("a mistake: %d", a.status)
	}
}

// A document that takes long delays no other. Where there is no place for it, its client is told to come again, and after
// the limit its process is ended.
func TestLongDocuments(t *testing.T) {
	s := start(t, "-workers", "1", "-long", "1", "-patience", "100ms", "-limit", "1500ms")
	before := s.workers()
	long := make(chan answered, 1)
	go func() { long <- s.post("/price", hurts()) }()
	s.until("a long document is priced with the time that others leave", func() bool {
		all := s.workers()
		return len(all) == 3 && policy(t, before[0])+policy(t, before[1])+policy(t, all[2]) == "500"
	})
	if a := s.post("/price", shop(t)); a.status != 200 {
		t.Errorf("beside a long one: %d %s", a.status, a.body)
	}
	if a := s.post("/price", hurts()); a.status != 503 || a.header.Get("Retry-After") != "1" || a.header.Get("ETag") != "" || !strings.HasSuffix(a.problem(t).Type, "/busy") {
		t.Errorf("a second long one: %d %v", a.status, a.header)
	}
	if a := <-long; a.status != 422 || !strings.HasSuffix(a.problem(t).Type, "/takes-too-long") {
		t.Errorf("the long one: %d %.200s", a.status, a.body)
	}
	s.until("one worker and the spare one are left", func() bool { return len(s.workers()) == 2 })
	if after := s.workers(); after[0] == before[0] {
		t.Error("the worker that took long is still there")
	}
}

// A long document is answered like any other where there is a place and time for it.
func TestLongDocumentIsAnswered(t *testing.T) {
	s := start(t, "-patience", "1ns", "-limit", "1m")
	before := s.workers()
	for range 3 {
		if a := s.post("/price", shop(t)); a.status != 200 {
			t.Fatalf("%d %s", a.status, a.body)
		}
	}
	a := s.post("/price", hurts())
	if a.status != 422 || !strings.HasSuffix(a.problem(t).Type, "/answer-too-large") {
		t.Errorf("an answer of some 50 MB: %d %.200s", a.status, a.body)
	}
	s.until("no worker is left that was made slow", func() bool {
		return !slices.ContainsFunc(s.workers(), func(w int) bool { return slices.Contains(before, w) })
	})
}

// policy is how every thread of a process is scheduled, where it is the same: 0 like others, 5 when a core is idle
// (sched(7); the 41st field of proc_pid_stat(5)).
func policy(t testing.TB, pid int) string {
	t.Helper()
	tasks, err := filepath.Glob(fmt.Sprintf("/proc/%d/task/*/stat", pid))
	if err != nil || len(tasks) == 0 {
		t.Fatalf("no threads of %d, %v", pid, err)
	}
	var out string
	for _, task := range tasks {
		text, _ := os.ReadFile(task)
		_, fields, _ := strings.Cut(string(text), ") ")
		if all := strings.Fields(fields); len(all) > 38 && out != "mixed" {
			if out != "" && out != all[38] {
				out = "mixed"
				continue
			}
			out = all[38]
		}
	}
	return out
}

// A worker that dies, for want of memory say, costs one answer.
func TestWorkerDies(t *testing.T) {
	s := start(t, "-workers", "1")
	for range 2 {
		if err := syscall.Kill(s.workers()[0], syscall.SIGKILL); err != nil { // the oldest: the others are spare
			t.Fatal(err)
		}
		if a := s.post("/price", shop(t)); a.status != 500 || !strings.HasSuffix(a.problem(t).Type, "/defect") {
			t.Errorf("%d %.200s", a.status, a.body)
		}
		if a := s.post("/price", shop(t)); a.status != 200 {
			t.Errorf("afterwards: %d %s", a.status, a.body)
		}
	}
}

// A request under way is answered before the service ends. That nothing is left is looked at by the end of every test.
func TestGracefulStop(t *testing.T) {
	s := start(t, "-patience", "100ms", "-limit", "1s")
	long := make(chan answered, 1)
	go func() { long <- s.post("/price", hurts()) }()
	s.until("a long document is priced", func() bool { return len(s.workers()) == 4 })
	if err := s.Process.Signal(syscall.SIGTERM); err != nil {
		t.Fatal(err)
	}
	s.until("it listens no more", func() bool {
		c, err := net.Dial("tcp", strings.TrimPrefix(s.url, "http://"))
		if err == nil {
			c.Close()
		}
		return err != nil
	})
	if a := <-long; a.status != 422 {
		t.Errorf("the request under way: %d %.100s", a.status, a.body)
	}
}

// Metrics are text that Prometheus reads, and count each request by path and status.
func TestMetrics(t *testing.T) {
	s := start(t)
	s.post("/price", shop(t))
	s.post("/price", shop(t))
	s.post("/price", []byte("{}"))
	p := expfmt.NewTextParser(model.UTF8Validation)
	families, err := p.TextToMetricFamilies(bytes.NewReader(s.ask("GET", "/metrics", nil).body))
	if err != nil {
		t.Fatal(err)
	}
	got := make(map[string]uint64)
	for _, m := range families["quoin_request_seconds"].GetMetric() {
		got[m.Label[0].GetValue()+" "+m.Label[1].GetValue()] = m.Histogram.GetSampleCount()
	}
	if got["/price 200"] != 2 || got["/price 422"] != 1 || len(got) != 2 {
		t.Errorf("%v", got)
	}
}

// until waits for what is sure to come, and fails where it does not.
func (r *running) until(what string, happened func() bool) {
	r.t.Helper()
	for end := time.Now().Add(time.Minute); !happened(); time.Sleep(5 * time.Millisecond) {
		if time.Now().After(end) {
			r.t.Fatalf("waited a minute until %s", what)
		}
	}
}
