package prose_test

import (
	"fmt"

	"example.com/quoin/internal/prose"
)

func ExampleNear() {
	birds := []string{"bittern", "reed-warbler", "snipe", "teal"}
	fmt.Printf("%q %q\n", prose.Near("bitern", birds), prose.Near("pelican", birds))
	// Output: "bittern" ""
}
