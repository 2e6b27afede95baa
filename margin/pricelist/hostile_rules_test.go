package pricelist_test

import (
	"fmt"
	"slices"
	"strings"
)

// ruled writes a document of one channel in which products cost 2.00 to make.
func ruled(products, rules, beside string) string {
	return `{"version": 1, "currency": "EUR", "supplies": [{"id": "s", "quantity": "3 sheet", "price": "6.00"}], ` +
		`"channels": [{"id": "c"}], "products": [` + products + `], "rules": [` + rules + `]` + beside + `}`
}

// bare writes n products of which nothing is known but the id.
func bare(n int) string {
	return repeated(n, func(i int) string { return fmt.Sprintf(`{"id": "p%d"}`, i) })
}

func bareIDs(n int) string {
	return repeated(n, func(i int) string { return fmt.Sprintf(`"p%d"`, i) })
}

// designed writes n designs of some sizes each.
func designed(n, sizes int) string {
	return repeated(n*sizes, func(i int) string {
		return fmt.Sprintf(`{"id": "p%d", "design": "d%d", "sheet": "%dx9 cm"}`, i, i/sizes, 1+sizes-i%sizes)
	})
}

// stepped writes a step.
func stepped(id, bounds string, products ...string) string {
	of := ""
	if len(products) > 0 {
		of = `, "products": [` + strings.Join(products, ", ") + `]`
	}
	return fmt.Sprintf(`{"id": %q, "rule": "size_ratio"%s, %s}`, id, of, bounds)
}

// ringOfTwo is two sizes of which each is to cost so many times the other.
func ringOfTwo(there, back, beside string) string {
	return ruled(bare(2), stepped("there", `"at_least": "`+there+`"`, `"p0"`, `"p1"`)+", "+stepped("back", `"at_least": "`+back+`"`, `"p1"`, `"p0"`), beside)
}

const vast = `, "price_limit": "999999999999.99"`

// hostileRules are documents that hurt by their rules.
func hostileRules() []hostile {
	return slices.Concat(hostileRings(), hostileLadders(), hostileMarkets(), hostileEndings(), hostilePreferences(), hostileSelling())
}

// limited writes a price limit that grows with the size.
func limited(n int, of int64) string { return fmt.Sprintf(`, "price_limit": "%d.00"`, of*int64(n)) }

func hostileRings() []hostile {
	return []hostile{
		{"a ring just above 1", func(n int) string { return ringOfTwo("1.0001", "1", limited(n, 25_000)) }},
		{"a ring nearer to 1", func(n int) string { return ringOfTwo("1.00000001", "1", limited(n, 25_000)) }},
		{"a ring above 1, a vast limit", func(n int) string { return ringOfTwo("1.0000000000000001", "1", limited(n, 249_999_999_999)) }},
		{"a ring below 1, a vast limit", func(n int) string {
			return ringOfTwo("1.0000000000000003", "0.9999999999999996", limited(n, 249_999_999_999))
		}},
		{"a ring of odd ratios just below 1", func(n int) string { return ringOfTwo("1.37000001", "0.72992699", limited(n, 249_999_999_999)) }},
		{"a ring of long ratios", func(n int) string {
			return ringOfTwo("123456789.0123456789012345", "0.0000000081000001", limited(n, 249_999_999_999))
		}},
		{"a ring between endings", func(n int) string {
			return ruled(bare(2), stepped("there", `"at_least": "1.00000001"`, `"p0"`, `"p1"`)+", "+stepped("back", `"at_least": "0.99999998"`, `"p1"`, `"p0"`)+
				`, {"id": "e", "rule": "ending", "ends_in": ["0.05", "0.50", "0.99"]}`, limited(n, 249_999_999_999))
		}},
		{"a ring of narrow steps", func(n int) string {
			return ruled(bare(2), stepped("there", `"at_least": "1.0001", "at_most": "1.00011"`, `"p0"`, `"p1"`)+", "+stepped("back", `"at_least": "1", "at_most": "1.00001"`, `"p1"`, `"p0"`), limited(n, 249_999_999_999))
		}},
		{"a step that leads back upon itself", func(n int) string {
			return ruled(bare(2), stepped("there", `"at_least": "1.3001", "at_most": "1.3"`, `"p0"`, `"p1"`), limited(n, 249_999_999_999))
		}},
		{"many rings, each by itself", func(n int) string {
			return ruled(designed(2_200*n, 2), stepped("there", `"at_least": "1.00000001"`)+", "+stepped("back", `"at_least": "0.99999999", "order": "listed"`), "")
		}},
		{"many rings above 1", func(n int) string {
			return ruled(designed(2_200*n, 2), stepped("there", `"at_least": "1.0001"`)+", "+stepped("back", `"at_least": "1", "order": "listed"`), "")
		}},
		{"many rings of rules of their own", func(n int) string {
			return ruled(bare(2*550*n), repeated(550*n, func(i int) string {
				a, b := fmt.Sprintf(`"p%d"`, 2*i), fmt.Sprintf(`"p%d"`, 2*i+1)
				return stepped(fmt.Sprintf("there%d", i), fmt.Sprintf(`"at_least": "1.3%07d"`, i), a, b) + ", " + stepped(fmt.Sprintf("back%d", i), fmt.Sprintf(`"at_least": "0.7%07d"`, 6923077-i), b, a)
			}), "")
		}},
		{"a long ring", func(n int) string {
			m := 9_000 * n
			return ruled(bare(m), stepped("there", `"at_least": "1"`, bareIDs(m))+", "+stepped("back", `"at_least": "1.00000001"`, fmt.Sprintf(`"p%d"`, m-1), `"p0"`), "")
		}},
		{"a long ring against the order", func(n int) string {
			m := 9_000 * n
			return ruled(bare(m), stepped("there", `"at_most": "1"`, bareIDs(m))+", "+stepped("back", `"at_most": "0.99999999"`, fmt.Sprintf(`"p%d"`, m-1), `"p0"`), "")
		}},
		{"rings that give way", func(n int) string {
			m := 900 * n
			return ruled(bare(m), repeated(m, func(i int) string {
				return fmt.Sprintf(`{"id": "r%d", "rule": "size_ratio", "strength": "prefer", "at_least": "1.0001", "products": ["p%d", "p%d"]}`, i, i, (i*7+3)%m)
			})+", "+stepped("all", `"at_least": "1"`, bareIDs(m)), "")
		}},
	}
}

func hostileLadders() []hostile {
	ladder := func(m int, rules, beside string) string { return ruled(bare(m), rules, beside) }
	return []hostile{
		{"a ladder", func(n int) string {
			m := 9_000 * n
			return ladder(m, stepped("up", `"at_least": "1"`, bareIDs(m)), "")
		}},
		{"a ladder too steep", func(n int) string {
			m := 9_000 * n
			return ladder(m, stepped("up", `"at_least": "1.3"`, bareIDs(m)), "")
		}},
		{"a ladder between bounds", func(n int) string {
			m := 9_000 * n
			return ladder(m, stepped("up", `"at_least": "1", "at_most": "1.5"`, bareIDs(m))+`, {"id": "m", "rule": "price", "at_least": "5.00", "at_most": "900.00"}`, "")
		}},
		{"a ladder of nearest prices", func(n int) string {
			m := 6_000 * n
			return ruled(repeated(m, func(i int) string { return fmt.Sprintf(`{"id": "p%d", "price": "%d.00"}`, i, 1+(i*7919)%1000) }), stepped("up", `"at_least": "1.0001"`, bareIDs(m)), `, "choose": "nearest"`)
		}},
		{"ladders upon one another", func(n int) string {
			m := 200 * n
			return ladder(m, repeated(150, func(i int) string {
				return stepped(fmt.Sprintf("up%d", i), fmt.Sprintf(`"at_least": "1.000%d"`, i), bareIDs(m))
			}), "")
		}},
		{"ladders that cross", func(n int) string {
			m := 2_000 * n
			return ladder(m, stepped("up", `"at_least": "1"`, bareIDs(m))+", "+repeated(1_300*n, func(i int) string {
				return stepped(fmt.Sprintf("x%d", i), `"at_least": "1.01", "at_most": "2.5"`, fmt.Sprintf(`"p%d"`, i), fmt.Sprintf(`"p%d"`, m-1-i%7))
			}), "")
		}},
		{"a ladder in conflict with its ends", func(n int) string {
			m := 9_000 * n
			return ladder(m, `{"id": "top", "rule": "price", "at_most": "10.00", "products": ["p`+fmt.Sprint(m-1)+`"]}, {"id": "bottom", "rule": "price", "at_least": "11.00", "products": ["p0"]}, `+stepped("up", `"at_least": "1"`, bareIDs(m)), "")
		}},
		{"rungs that are rules of their own, in conflict", func(n int) string {
			m := 2_000 * n
			return ladder(m, `{"id": "top", "rule": "price", "at_most": "10.00", "products": ["p`+fmt.Sprint(m-1)+`"]}, {"id": "bottom", "rule": "price", "at_least": "11.00", "products": ["p0"]}, `+repeated(m-1, func(i int) string {
				return stepped(fmt.Sprintf("r%d", i), `"at_least": "1"`, fmt.Sprintf(`"p%d"`, i), fmt.Sprintf(`"p%d"`, i+1))
			}), "")
		}},
		{"a ladder between endings", func(n int) string {
			m := 9_000 * n
			return ladder(m, stepped("up", `"at_least": "1.0001", "at_most": "1.01"`, bareIDs(m))+`, {"id": "e", "rule": "ending", "ends_in": ["0.99", "0.49"]}`, "")
		}},
		{"a ladder of even steps", func(n int) string {
			m := 9_000 * n
			return ladder(m, stepped("up", `"at_least": "1", "at_most": "1"`, bareIDs(m)), "")
		}},
		{"designs in ladders", func(n int) string {
			return ruled(designed(1_000*n, 4), stepped("up", `"at_least": "1.25", "at_most": "1.9"`)+`, {"id": "m", "rule": "contribution", "at_least": "4.00"}`, "")
		}},
	}
}

// comparablesOf writes comparables of a product, each of a size of its own.
func comparablesOf(n int, product string) string {
	return repeated(n, func(i int) string {
		return fmt.Sprintf(`{"product": %q, "venue": "v%d", "price": "%d.50", "sold": 2, "size": "%dx%d mm"}`, product, i%97, 10+i%89, 100+i%977, 101+i%499)
	})
}

func marketRules(n int) string {
	return repeated(n, func(i int) string {
		return fmt.Sprintf(`{"id": "m%d", "rule": "market", "from_quantile": "%d%%", "to_quantile": "%d%%", "basis": {"exponent": "0.%03d"}}`, i, 1+i%40, 60+i%40, 501+i%499)
	})
}

func hostileMarkets() []hostile {
	of := func(rules, comparables int) string {
		return ruled(`{"id": "p0", "sheet": "A4"}, {"id": "p1", "sheet": "A3"}`, marketRules(rules), `, "comparables": [`+comparablesOf(comparables, "p0")+`]`)
	}
	return []hostile{
		{"market rules with an exponent", func(n int) string { return of(4*n, 100*n) }},
		{"many market rules of many comparables", func(n int) string { return of(50*n, 2_000*n) }},
		{"market rules of every product", func(n int) string {
			m := 100 * n
			return ruled(repeated(m, func(i int) string { return fmt.Sprintf(`{"id": "p%d", "sheet": "%dx30 cm"}`, i, 20+i%50) }), marketRules(100),
				`, "comparables": [`+repeated(16*m, func(i int) string {
					return fmt.Sprintf(`{"product": "p%d", "venue": "v%d", "price": "%d.50", "sold": 2, "size": "%dx%d mm"}`, i%m, i%3, 10+i%89, 100+i%977, 101+i%499)
				})+`]`)
		}},
	}
}

// primes are moduli of which no two have a divisor in common.
func primes(n int) []int {
	var out []int
next:
	for p := 2_003; len(out) < n; p++ {
		for d := 2; d*d <= p; d++ {
			if p%d == 0 {
				continue next
			}
		}
		out = append(out, p)
	}
	return out
}

// endings writes a rule with a thousand remainders, or as many as there are.
func endings(id string, modulus, of, from int, beside string) string {
	return fmt.Sprintf(`{"id": %q, "rule": "ending", "every": "%d.%02d", "ends_in": [%s]%s}`, id, modulus/100, modulus%100, repeated(of, func(i int) string {
		e := (from + i) % modulus
		return fmt.Sprintf(`"%d.%02d"`, e/100, e%100)
	}), beside)
}

func hostileEndings() []hostile {
	return []hostile{
		{"endings that hardly ever meet", func(n int) string {
			of := primes(8 * n)
			return ruled(bare(20), repeated(8*n, func(i int) string { return endings(fmt.Sprintf("e%d", i), of[i], 1_000, i, "") }), "")
		}},
		{"endings that meet in a few", func(n int) string {
			of := primes(8 * n)
			return ruled(bare(20), repeated(8*n, func(i int) string { return endings(fmt.Sprintf("e%d", i), of[i], 30, 17*i, "") }), vast)
		}},
		{"endings that give way", func(n int) string {
			of := primes(8 * n)
			return ruled(bare(200), repeated(8*n, func(i int) string { return endings(fmt.Sprintf("e%d", i), of[i], 900, 97*i, `, "strength": "prefer"`) }), "")
		}},
		{"endings in conflict", func(n int) string {
			return ruled(bare(500*n), repeated(85*n, func(i int) string { return endings(fmt.Sprintf("e%d", i), 85*n, 85*n-1, i+1, "") }), "")
		}},
		{"few endings in conflict", func(n int) string {
			return ruled(bare(500*n), repeated(50*n, func(i int) string { return endings(fmt.Sprintf("e%d", i), 2*(i+2), i+2, 0, "") })+", "+endings("odd", 4, 1, 3, ""), "")
		}},
		{"price points", func(n int) string {
			return ruled(bare(1_000), repeated(7*n, func(i int) string {
				return endings(fmt.Sprintf("e%d", i), 100_000, 1_000, 100*i, `, "strength": "prefer"`)
			}), "")
		}},
		{"moves and endings", func(n int) string {
			m := 3_000 * n
			return ruled(repeated(m, func(i int) string { return fmt.Sprintf(`{"id": "p%d", "price": "%d.37"}`, i, 10+i%300) }),
				repeated(50*n, func(i int) string {
					return fmt.Sprintf(`{"id": "m%d", "rule": "max_change", "at_most": "%d%%"}`, i, 99-i%50)
				})+", "+endings("e", 100, 2, 49, ""), "")
		}},
		{"many rules of many products", func(n int) string {
			m := 1_250 * n
			return ruled(repeated(m, func(i int) string {
				return fmt.Sprintf(`{"id": "p%d", "bill": [{"supply": "s", "quantity": "%d.%02d sheet"}]}`, i, 1+i%7, i%100)
			}), repeated(50*n, func(i int) string {
				return fmt.Sprintf(`{"id": "m%d", "rule": "contribution", "at_least": "%d.%02d"}`, i, 1+i%13, i%100)
			}), "")
		}},
		{"rules that refuse alike", func(n int) string {
			m := 4_000 * n
			return ruled(bare(m), repeated(400*n, func(i int) string { return fmt.Sprintf(`{"id": "m%d", "rule": "price", "at_least": "20.00"}`, i) }), "")
		}},
		{"rules in conflict without an end", func(n int) string {
			return ruled(bare(500*n), repeated(1_500*n, func(i int) string {
				return fmt.Sprintf(`{"id": "m%d", "rule": "price", "at_least": "%d.00", "products": ["p%d"]}`, i, 1+i%1_000, i%(500*n))
			})+`, `+endings("e", 3, 2, 0, "")+`, `+endings("f", 3, 2, 1, "")+`, `+endings("g", 3, 2, 2, ""), "")
		}},
	}
}

func hostilePreferences() []hostile {
	return []hostile{
		{"preferences that give way", func(n int) string {
			m := 1_000 * n
			return ruled(bare(m), repeated(2_000*n, func(i int) string {
				return fmt.Sprintf(`{"id": "r%d", "rule": "price", "strength": "prefer", "at_least": "%d.00"}`, i, 1_000_000-i)
			}), "")
		}},
		{"preferences on a ladder that give way", func(n int) string {
			m := 1_000 * n
			return ruled(bare(m), stepped("up", `"at_least": "1.01"`, bareIDs(m))+", "+repeated(1_800*n, func(i int) string {
				return fmt.Sprintf(`{"id": "r%d", "rule": "price", "strength": "prefer", "at_least": "%d.00", "products": ["p%d"]}`, i, 5+i, i%m)
			}), vast)
		}},
		{"preferences for all on a ladder", func(n int) string {
			m := 1_000 * n
			return ruled(bare(m), stepped("up", `"at_least": "1.001"`, bareIDs(m))+", "+repeated(2_000*n, func(i int) string {
				return fmt.Sprintf(`{"id": "r%d", "rule": "price", "strength": "prefer", "at_least": "%d.00"}`, i, 5+i)
			}), "")
		}},
		{"a conflict over ladders", func(n int) string {
			return ruled(designed(1_000*n, 4), stepped("up", `"at_least": "3"`)+", "+repeated(1_000*n, func(i int) string {
				return fmt.Sprintf(`{"id": "d%d", "rule": "price", "at_most": "0.%02d", "designs": ["d%d"]}`, i, 10+i%80, i)
			}), "")
		}},
		{"rules for a list of products", func(n int) string {
			m := 500 * n
			return ruled(bare(m), repeated(55, func(i int) string {
				return fmt.Sprintf(`{"id": "r%d", "rule": "cost_multiple", "at_least": "%d", "products": [%s]}`, i, 1+i, bareIDs(m))
			}), "")
		}},
	}
}

func hostileSelling() []hostile {
	fees := func(n int) string {
		return repeated(n, func(i int) string {
			return fmt.Sprintf(`{"name": "f%d", "rate": "0.%d%%", "at_least": "0.%02d"}`, i, 1+i%9, 1+i%90)
		})
	}
	kinds := func(n int) string {
		return repeated(n, func(i int) string {
			return fmt.Sprintf(`{"id": "k%d", "share": "%d%%", "items": %d, "shipping": "%d.20", "free_from": "%d.00"}`, i, 100/n, 1+i, 3+i%5, 50+i)
		})
	}
	margins := `{"id": "g", "rule": "gross_margin", "at_least": "20%"}, {"id": "w", "rule": "contribution", "at_least": "1.00", "asked_of": "worst"}`
	of := func(products, channels, orders, levies int) string {
		return strings.Replace(ruled(bare(products), margins, ""), `"channels": [{"id": "c"}]`, `"channels": [`+repeated(channels, func(i int) string {
			return fmt.Sprintf(`{"id": "c%d", "orders": [%s], "fees": [%s]}`, i, kinds(orders), fees(levies))
		})+`]`, 1)
	}
	return []hostile{
		{"kinds of order and bounds of fees", func(n int) string { return of(1, 1, 25*n, 12*n) }},
		{"kinds, fees and products", func(n int) string { return of(50*n, 1, 20, 25*n) }},
		{"rules, products and channels", func(n int) string { return of(500*n, 5*n, 1, 2) }},
		{"channels with kinds and fees", func(n int) string { return of(2, 4*n, 25, 24) }},
	}
}
