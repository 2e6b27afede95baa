// Command workbench is a page in a browser with the engine inside: an artist moves a price and
// sees what each way of selling keeps, which rules break, and why.
//
//	go run ./examples/workbench              builds the page and serves it on this machine
//	go run ./examples/workbench -listen ADDR serves it at another address than 127.0.0.1:8718
//	go run ./examples/workbench -out DIR     writes the same files into a folder, for any static host
//
// It needs the Go compiler, which builds the engine for the browser. The page loads nothing from
// elsewhere and sends nothing anywhere. The artist, the fees and the prices in the documents that
// it begins with are invented.
package main

import (
	"flag"
	"fmt"
	"log"
	"net"
	"net/http"
	"time"
)

func main() {
	log.SetFlags(0)
	listen := flag.String("listen", "127.0.0.1:8718", "the address to serve the page at")
	out := flag.String("out", "", "write the files into this folder, and serve nothing")
	flag.Parse()
	if err := run(*listen, *out); err != nil {
		log.Fatal("workbench: ", err)
	}
}

func run(listen, out string) error {
	files, err := build()
	if err != nil {
		return err
	}
	if out != "" {
		return files.write(out)
	}
	l, err := net.Listen("tcp", listen)
	if err != nil {
		return fmt.Errorf("%w; with -listen 127.0.0.1:0 any free port is taken", err)
	}
	fmt.Printf("The workbench is at http://%s/ until this command is stopped.\n", l.Addr())
	server := http.Server{Handler: files.served(), ReadHeaderTimeout: 10 * time.Second}
	return server.Serve(l)
}
