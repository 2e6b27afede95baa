package main

import (
	"bytes"
	"flag"
	"fmt"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"
)

var lasting = flag.Duration("load", 3*time.Second, "how long the load of TestLoad lasts")

// hurts is a document of 10 kB that takes seconds: many products in many channels, which come to an answer of 37 MB.
func hurts() []byte { return everywhere(190, 100) }

func everywhere(products, channels int) []byte {
	var b bytes.Buffer
	b.WriteString(`{"version":1,"currency":"EUR","supplies":[{"id":"p","quantity":"1 sheet","price":"1"}],"products":[`)
	for i := range products {
		fmt.Fprintf(&b, `%s{"id":"p%d","bill":[{"supply":"p","quantity":"1 sheet"}]}`, comma(i), i)
	}
	b.WriteString(`],"channels":[`)
	for i := range channels {
		fmt.Fprintf(&b, `%s{"id":"c%d"}`, comma(i), i)
	}
	b.WriteString(`],"rules":[{"id":"r","rule":"contribution","at_least":"1"}]}`)
	return b.Bytes()
}

func comma(i int) string {
	if i == 0 {
		return ""
	}
	return ","
}

// hostile are bodies that were made to hurt.
func hostile(t testing.TB) [][]byte {
	t.Helper()
	out := [][]byte{
		hurts(), everywhere(1500, 10), []byte("\xff\xfe\x00"), []byte(strings.Repeat("[", mostBytes)), bytes.Repeat([]byte(" "), mostBytes+1),
		[]byte(`{"version":1,"products":[` + strings.Repeat(`{"bill":[{"supply":"papre"}]},`, 30_000)),
	}
	files, err := filepath.Glob("../../margin/pricelist/testdata/hostile/*.json")
	if err != nil || len(files) < 10 {
		t.Fatalf("%d hostile documents, %v", len(files), err)
	}
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, data)
	}
	return out
}

// ordinary are documents of several sizes, from 1 to 40 products.
func ordinary(t testing.TB) [][]byte {
	t.Helper()
	all := documents(t)
	return [][]byte{all["../first/shop.json"], all["../pricesheet/scenario.json"], all["../shops/shops.json"], all["../pricesheet/new.json"], everywhere(10, 4)}
}

// times are how long answers took, by the kind of body, and how many had which status.
type times struct {
	sync.Mutex
	took   []time.Duration
	status map[int]int
}

func (m *times) ask(t testing.TB, url string, body []byte) {
	from := time.Now()
	a, err := http.Post(url+"/price", "application/json", bytes.NewReader(body))
	if err != nil {
		t.Error(err)
		return
	}
	_, err = io.Copy(io.Discard, a.Body)
	a.Body.Close()
	m.Lock()
	defer m.Unlock()
	if m.took = append(m.took, time.Since(from)); m.status == nil {
		m.status = make(map[int]int)
	}
	m.status[a.StatusCode]++
	if err != nil {
		t.Error(err)
	}
}

func (m *times) String() string {
	slices.Sort(m.took)
	at := func(share float64) time.Duration {
		if len(m.took) == 0 {
			return 0
		}
		return m.took[int(share*float64(len(m.took)-1))].Round(100 * time.Microsecond)
	}
	return fmt.Sprintf("%d answers, p50 %v, p95 %v, p99 %v, by status %v", len(m.took), at(0.5), at(0.95), at(0.99), m.status)
}

// steady sends bodies in turn, so many a second, whether or not the ones before were answered.
func steady(t testing.TB, url string, perSecond float64, until time.Time, bodies [][]byte) *times {
	var m times
	var wg sync.WaitGroup
	tick := time.NewTicker(time.Duration(float64(time.Second) / perSecond))
	defer tick.Stop()
	for i := 0; time.Now().Before(until); i++ {
		<-tick.C
		wg.Go(func() { m.ask(t, url, bodies[i%len(bodies)]) })
	}
	wg.Wait()
	return &m
}

// TestLoad is a load on the loopback: as many requests as are answered, by four clients; then half as many in a steady
// stream; then the same with a hostile body for each nine of them. Afterwards the service is as it was: no goroutine, no
// process, no open file more. How long it all took is said, and not tested: go test -run TestLoad -load 60s -v .
func TestLoad(t *testing.T) {
	s := start(t)
	good, bad := ordinary(t), hostile(t)
	for _, body := range good { // what is made once
		s.post("/price", body)
	}
	http.DefaultClient.CloseIdleConnections()
	before := s.measured()

	var all times
	var wg sync.WaitGroup
	from := time.Now()
	for i := range 4 {
		wg.Go(func() {
			for n := i; time.Since(from) < *lasting/3; n++ {
				all.ask(t, s.url, good[n%len(good)])
			}
		})
	}
	wg.Wait()
	rate := float64(len(all.took)) / time.Since(from).Seconds()
	t.Logf("four clients, each after its answer: %.0f requests a second; %v", rate, &all)

	calm := steady(t, s.url, rate/2, time.Now().Add(*lasting/3), good)
	t.Logf("%.0f a second: %v", rate/2, calm)

	mixed := time.Now().Add(*lasting / 3)
	var hurt *times
	wg.Go(func() { hurt = steady(t, s.url, rate/2/9, mixed, bad) })
	beside := steady(t, s.url, rate/2, mixed, good)
	wg.Wait()
	t.Logf("with a tenth hostile, ordinary ones: %v", beside)
	t.Logf("with a tenth hostile, hostile ones: %v", hurt)

	for name, m := range map[string]*times{"four clients": &all, "calm": calm, "beside hostile ones": beside} {
		if m.status[200] != len(m.took) || len(m.took) == 0 {
			t.Errorf("%s: not all were answered: %v", name, m)
		}
	}
	if hurt.status[500] > 0 || len(hurt.took) == 0 {
		t.Errorf("hostile ones: %v", hurt)
	}
	http.DefaultClient.CloseIdleConnections()
	var after map[string]int
	s.until(fmt.Sprintf("it is as it was, %v", before), func() bool {
		after = s.measured()
		http.DefaultClient.CloseIdleConnections()
		return after["goroutines"] <= before["goroutines"]+2 && after["files"] <= before["files"]+2 && after["workers"] == before["workers"]
	})
	t.Logf("before %v", before)
	t.Logf("after  %v", after)
}

// measured are the goroutines, open files and workers of the service, and the most memory that it has had, in MB, without
// and with that of the workers which it has now.
func (r *running) measured() map[string]int {
	out := map[string]int{"workers": len(r.workers())}
	for line := range strings.Lines(string(r.ask("GET", "/metrics", nil).body)) {
		for name, metric := range map[string]string{"goroutines": "go_goroutines ", "files": "process_open_fds "} {
			if n, ok := strings.CutPrefix(line, metric); ok {
				out[name], _ = strconv.Atoi(strings.TrimSpace(n))
			}
		}
	}
	for _, pid := range append(r.workers(), r.Process.Pid) {
		text, _ := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
		_, peak, _ := strings.Cut(string(text), "VmHWM:")
		var kB int
		fmt.Sscan(peak, &kB)
		out["peak MB, all"] += kB >> 10
		if pid == r.Process.Pid {
			out["peak MB, service"] = kB >> 10
		}
	}
	return out
}
