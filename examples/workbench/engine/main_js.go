//go:build js && wasm

package main

import (
	"runtime/debug"
	"syscall/js"
)

// main gives the page one function, quoin(call, text...), and then waits to be called.
func main() {
	debug.SetGCPercent(400) // a page has one thread: what is collected more rarely is waited for less
	b := &bench{}
	js.Global().Set("quoin", js.FuncOf(func(_ js.Value, args []js.Value) any {
		if len(args) == 0 {
			return b.call("")
		}
		texts := make([]string, len(args))
		for i, a := range args {
			texts[i] = a.String()
		}
		return b.call(texts[0], texts[1:]...)
	}))
	if ready := js.Global().Get("quoinReady"); ready.Type() == js.TypeFunction {
		ready.Invoke()
	}
	select {}
}
