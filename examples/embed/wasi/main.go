//go:build wasip1

// Command wasi is quoin as a WASI module, for any host that runs WebAssembly.
//
//	GOOS=wasip1 GOARCH=wasm go build -buildmode=c-shared -o quoin.wasm ./wasi
//
// A host calls _initialize once, then for each document
//
//	quoin_alloc(size)          → where the host writes the document
//	quoin_price(where, size)   → where the reply is × 2³² + its size
//	quoin_free(where)          for both, when it has read the reply
//
// An instance answers one call at a time; a host with threads makes more instances.
package main

import (
	"unsafe"

	"example.com/quoin/margin/pricelist/embedded"
)

// lent are the bytes that the host has the addresses of; the map keeps them from being collected.
var lent = make(map[uint32][]byte)

func lend(b []byte) uint32 {
	if cap(b) == 0 {
		b = make([]byte, 0, 1) // so that even nothing has an address
	}
	where := uint32(uintptr(unsafe.Pointer(unsafe.SliceData(b))))
	lent[where] = b
	return where
}

//go:wasmexport quoin_version
func version() uint32 { return embedded.Version }

//go:wasmexport quoin_alloc
func alloc(size uint32) uint32 { return lend(make([]byte, size)) }

// An address that was not lent is priced as an empty document, and one that is shorter than said
// as far as it goes: a mistake of the host reads no memory that is not its own.
//
//go:wasmexport quoin_price
func price(where, size uint32) uint64 {
	document := lent[where]
	reply := embedded.Price(document[:min(int(size), len(document))])
	return uint64(lend(reply))<<32 | uint64(len(reply))
}

//go:wasmexport quoin_free
func free(where uint32) { delete(lent, where) }

func main() {}
