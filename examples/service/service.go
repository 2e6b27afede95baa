package main

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"mime"
	"net/http"
	"os"
	"strconv"
	"strings"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/collectors"
	"github.com/prometheus/client_golang/prometheus/promauto"
	"github.com/prometheus/client_golang/prometheus/promhttp"
)

const (
	mostBytes = 1 << 20          // of a document
	mostWait  = 20 * time.Second // of a request, for a worker and its answer
)

type service struct {
	pool    *pool
	build   [sha256.Size]byte // another build may give another answer
	seconds *prometheus.HistogramVec
}

func newService(p *pool) (http.Handler, error) {
	self, err := os.ReadFile(p.program)
	if err != nil {
		return nil, err
	}
	r := prometheus.NewRegistry()
	r.MustRegister(collectors.NewGoCollector(), collectors.NewProcessCollector(collectors.ProcessCollectorOpts{}))
	s := &service{p, sha256.Sum256(self), promauto.With(r).NewHistogramVec(prometheus.HistogramOpts{
		Name: "quoin_request_seconds", Help: "Time to answer a request.", Buckets: prometheus.ExponentialBuckets(0.001, 2, 15),
	}, []string{"path", "status"})}
	mux := http.NewServeMux()
	for _, path := range []string{"/price", "/check", "/curve"} {
		mux.Handle("POST "+path, s.watched(path, s.document))
	}
	mux.Handle("GET /schema", s.watched("/schema", schema))
	mux.Handle("GET /openapi.json", s.watched("/openapi.json", description))
	mux.Handle("GET /metrics", promhttp.HandlerFor(r, promhttp.HandlerOpts{}))
	return mux, nil
}

// watched sends what a handler replies, and notes it.
func (s *service) watched(path string, h func(http.ResponseWriter, *http.Request) reply) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		from := time.Now()
		a := h(w, r)
		if a.Type != "" {
			w.Header().Set("Content-Type", a.Type)
		}
		w.WriteHeader(a.Status)
		_, err := w.Write(a.body)
		took := time.Since(from)
		s.seconds.WithLabelValues(path, strconv.Itoa(a.Status)).Observe(took.Seconds())
		slog.Info("answered", "path", path, "status", a.Status, "in", r.ContentLength, "out", len(a.body), "took", took, "error", err)
	})
}

// document answers a request with a shop document as its body.
func (s *service) document(w http.ResponseWriter, r *http.Request) reply {
	found := r.Header.Get("Content-Type")
	if kind, _, _ := mime.ParseMediaType(found); kind != "application/json" {
		w.Header().Set("Accept", "application/json")
		return refusal(http.StatusUnsupportedMediaType, "media-type", "The body is not JSON.", fmt.Sprintf("found Content-Type %q, wanted application/json", found))
	}
	document, err := io.ReadAll(http.MaxBytesReader(w, r.Body, mostBytes))
	if tooLarge := (*http.MaxBytesError)(nil); errors.As(err, &tooLarge) {
		return refusal(http.StatusRequestEntityTooLarge, "too-large", "The document is too large.", fmt.Sprintf("wanted at most %d bytes", mostBytes))
	} else if err != nil {
		return refusal(http.StatusBadRequest, "cut-short", "The body could not be read.", err.Error())
	}
	h := sha256.New()
	fmt.Fprintf(h, "%x %s %s", s.build, r.URL.Path, document)
	tag := fmt.Sprintf(`"%x"`, h.Sum(nil)[:16])
	if strings.Contains(r.Header.Get("If-None-Match"), tag) { // RFC 9110, 13.1.2: 304 is for GET and HEAD alone
		return refusal(http.StatusPreconditionFailed, "unchanged", "The answer is the one that you have.", "The same build answered the same document.")
	}
	ctx, cancel := context.WithTimeout(r.Context(), mostWait)
	defer cancel()
	a, err := s.pool.do(ctx, job{r.URL.Path, document})
	switch {
	case errors.Is(err, errBusy):
		w.Header().Set("Retry-After", "1")
		return refusal(http.StatusServiceUnavailable, "busy", "The service is busy.", "Other documents take long. Send this one again in a second.")
	case errors.Is(err, errLong):
		return refusal(http.StatusUnprocessableEntity, "takes-too-long", "The document takes too long.", fmt.Sprintf("It was not answered within %v. Send fewer products at once.", s.pool.limit))
	case err != nil:
		return refusal(http.StatusInternalServerError, "defect", "The service is at fault.", err.Error())
	}
	w.Header().Set("ETag", tag)
	return a
}
