// Command service puts quoin behind HTTP.
//
//	go run .                          listens on 127.0.0.1:8080
//	go run . -addr :80 -workers 8     more of both
//
// POST /price, /check and /curve take a shop document as JSON; GET /schema, /openapi.json and /metrics say what there is. It
// keeps nothing between requests. It needs a Unix, since it ends processes and sets their priority; on Linux it does so best.
package main

import (
	"context"
	"flag"
	"log/slog"
	"net"
	"net/http"
	"os"
	"os/signal"
	"runtime"
	"syscall"
	"time"
)

func main() {
	addr := flag.String("addr", "127.0.0.1:8080", "where to listen")
	quick := flag.Int("workers", runtime.GOMAXPROCS(0), "documents that are priced at once")
	long := flag.Int("long", 4, "documents that may take longer at once")
	patience := flag.Duration("patience", 50*time.Millisecond, "CPU that a document may take before it gives way to others")
	limit := flag.Duration("limit", 10*time.Second, "how long any document may take")
	worker := flag.Bool("worker", false, "answer jobs on standard input: what the service starts itself as")
	flag.Parse()
	slog.SetDefault(slog.New(slog.NewJSONHandler(os.Stderr, nil)))
	run := func() error {
		if *worker {
			return work(os.Stdin, os.Stdout, max(*patience, time.Microsecond))
		}
		self, err := os.Executable()
		if err != nil {
			return err
		}
		p, err := newPool(self, max(*quick, 1), max(*long, 1), *patience, *limit)
		if err != nil {
			return err
		}
		defer p.close()
		s, err := newService(p)
		if err != nil {
			return err
		}
		return listen(*addr, s)
	}
	if err := run(); err != nil {
		slog.Error("stopped", "error", err)
		os.Exit(1)
	}
}

// listen serves until a signal comes, and then until the requests under way are answered.
func listen(addr string, h http.Handler) error {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	l, err := net.Listen("tcp", addr)
	if err != nil {
		return err
	}
	s := &http.Server{
		Handler: h, ReadHeaderTimeout: 5 * time.Second, ReadTimeout: 15 * time.Second, WriteTimeout: time.Minute, IdleTimeout: 2 * time.Minute,
		MaxHeaderBytes: 16 << 10, ErrorLog: slog.NewLogLogger(slog.Default().Handler(), slog.LevelWarn),
	}
	ended := make(chan error, 1)
	go func() { ended <- s.Serve(l) }()
	slog.Info("listening", "url", "http://"+l.Addr().String())
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	slog.Info("stopping")
	patience, cancel := context.WithTimeout(context.Background(), 30*time.Second)
	defer cancel()
	return s.Shutdown(patience)
}
