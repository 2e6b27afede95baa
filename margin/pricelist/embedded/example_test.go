package embedded_test

import (
	"fmt"

	"example.com/quoin/margin/pricelist/embedded"
)

func ExamplePrice() {
	fmt.Printf("%s\n", embedded.Price([]byte(`{"version": 1, "currency": "EUR", "products": [], "channels": [], "rule": []}`)))
	// Output:
	// {"version":1,"engine":"quoin 0.1.0","problems":[{"code":"unknown_field","severity":"fault","path":"rule","found":"the field \"rule\"","wanted":"a field of version 1","near":"rules","line":1,"column":75},{"code":"empty_list","severity":"fault","path":"products","found":"no products","wanted":"at least one","line":1,"column":47},{"code":"empty_list","severity":"fault","path":"channels","found":"no channels","wanted":"at least one","line":1,"column":63}]}
}
