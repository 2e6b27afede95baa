// Command embed builds quoin for other languages, and has a program of each price a document.
//
//	go run .                     builds in a temporary folder
//	go run . -out DIR            leaves the module, the library and its header in DIR
//	go run . shop.json           prices this document instead of the one beside this file
//
// It needs the Go compiler, a C compiler, Node.js and Python.
package main

import (
	"context"
	_ "embed"
	"errors"
	"flag"
	"fmt"
	"io"
	"log"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
)

//go:embed shop.json
var shop []byte

func main() {
	log.SetFlags(0)
	out := flag.String("out", "", "folder for what is built; a temporary one where it is not given")
	flag.Parse()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	if err := run(ctx, os.Stdout, *out, flag.Arg(0)); err != nil {
		stop()
		log.Fatal(err)
	}
}

func run(ctx context.Context, w io.Writer, out, document string) (err error) {
	if out == "" {
		if out, err = os.MkdirTemp("", "embed"); err != nil {
			return err
		}
		defer func() { err = errors.Join(err, os.RemoveAll(out)) }()
	}
	built, err := Build(ctx, out)
	if err != nil {
		return err
	}
	if document == "" {
		document = filepath.Join(out, "shop.json")
		if err := os.WriteFile(document, shop, 0o644); err != nil {
			return err
		}
	}
	for _, file := range []string{built.Module, built.Library} {
		if f, err := os.Stat(file); err == nil {
			fmt.Fprintf(w, "%s has %d bytes\n", filepath.Base(file), f.Size())
		}
	}
	for _, h := range built.Hosts() {
		fmt.Fprintf(w, "\n%s:\n", h.Name)
		text, err := h.Run(ctx, "--list", document)
		if err != nil {
			return err
		}
		fmt.Fprintf(w, "%s", text)
	}
	return nil
}

// Built is where the module and the library are.
type Built struct{ Module, Library string }

// Build compiles quoin for WASI and for C.
func Build(ctx context.Context, dir string) (b Built, err error) {
	if dir, err = filepath.Abs(dir); err != nil {
		return b, err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return b, err
	}
	b = Built{Module: filepath.Join(dir, "quoin.wasm"), Library: filepath.Join(dir, "libquoin.so")}
	return b, errors.Join(
		compile(ctx, "./wasi", b.Module, "GOOS=wasip1", "GOARCH=wasm"),
		compile(ctx, "./clib", b.Library, "CGO_ENABLED=1"),
	)
}

func compile(ctx context.Context, program, file string, env ...string) error {
	c := exec.CommandContext(ctx, "go", "build", "-buildmode=c-shared", "-trimpath", "-ldflags=-s -w", "-o", file, program)
	c.Env = append(os.Environ(), env...)
	if text, err := c.CombinedOutput(); err != nil {
		return fmt.Errorf("building %s: %w\n%s", filepath.Base(file), err, text)
	}
	return nil
}

// Host is a program in another language.
type Host struct {
	Name    string
	command []string
}

// Hosts are the programs that call what was built.
func (b Built) Hosts() []Host {
	return []Host{
		{"Node, through WASI", []string{"node", "--no-warnings", "price.mjs", b.Module}},
		{"Python, through the C library", []string{"python3", "price.py", b.Library}},
	}
}

// Run runs the program, and returns what it printed.
func (h Host) Run(ctx context.Context, args ...string) ([]byte, error) {
	all := append(h.command[1:len(h.command):len(h.command)], args...)
	text, err := exec.CommandContext(ctx, h.command[0], all...).Output()
	var failed *exec.ExitError
	if errors.As(err, &failed) {
		return nil, fmt.Errorf("%s: %w\n%s", h.Name, err, failed.Stderr)
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %w", h.Name, err)
	}
	return text, nil
}
