//go:build cgo

// Command clib is quoin as a C shared library, for any language that can call C.
//
//	go build -buildmode=c-shared -o libquoin.so ./clib
//
// The build writes the header libquoin.h beside it:
//
//	char *quoin_price(const char *document, size_t size, size_t *reply_size);
//	void quoin_free(char *reply);
//	unsigned int quoin_version(void);
//
// The reply belongs to the caller until quoin_free. Any number of threads may call.
package main

/*
#include <stdlib.h>
typedef const char cchar;
*/
import "C"

import (
	"unsafe"

	"example.com/quoin/margin/pricelist/embedded"
)

//export quoin_version
func quoin_version() C.uint { return embedded.Version }

//export quoin_price
func quoin_price(document *C.cchar, size C.size_t, replySize *C.size_t) *C.char {
	reply := embedded.Price(unsafe.Slice((*byte)(unsafe.Pointer(document)), int(size)))
	*replySize = C.size_t(len(reply))
	return (*C.char)(C.CBytes(reply))
}

//export quoin_free
func quoin_free(reply *C.char) { C.free(unsafe.Pointer(reply)) }

func main() {}
