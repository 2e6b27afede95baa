package form_test

import (
	"fmt"

	"example.com/quoin/internal/form"
)

func ExampleWord() {
	type Finish string
	f, err := form.Word("varnised", Finish("plain"), Finish("varnished"))
	fmt.Printf("%q\n%v\n", f, err)
	// Output:
	// ""
	// found "varnised", wanted one of plain, varnished; did you mean varnished? [unknown_word]
}
