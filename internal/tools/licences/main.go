// Command licences holds the licences of what the library is linked or tested with to a record.
//
//	go -C internal/tools run ./licences SBOM RECORD
//
// SBOM is a CycloneDX file that says the licences of its components. Each line of the record is a
// module, "linked" or "tests", and its licence.
package main

import (
	"encoding/json"
	"fmt"
	"os"
	"slices"
	"strings"
)

// linkable are the licences that programs may be linked with which are sold without their source.
var linkable = []string{"Apache-2.0", "BSD-2-Clause", "BSD-3-Clause", "ISC", "MIT"}

type inventory struct {
	Components []struct {
		Name, Scope string
		Licenses    []choice
		Evidence    struct{ Licenses []choice }
	}
}

type choice struct {
	License struct{ ID string }
}

func main() {
	if len(os.Args) != 3 {
		fmt.Fprintln(os.Stderr, "licences: wanted an SBOM and a record")
		os.Exit(2)
	}
	sbom, err := os.ReadFile(os.Args[1])
	if err == nil {
		var record []byte
		if record, err = os.ReadFile(os.Args[2]); err == nil {
			err = check(sbom, string(record))
		}
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "licences:", err)
		os.Exit(1)
	}
}

// check compares the licences found with those recorded.
func check(sbom []byte, record string) error {
	var all inventory
	if err := json.Unmarshal(sbom, &all); err != nil {
		return err
	}
	var found []string
	for _, c := range all.Components {
		use := "linked"
		if c.Scope == "optional" {
			use = "tests"
		}
		var ids []string
		for _, l := range append(c.Licenses, c.Evidence.Licenses...) {
			ids = append(ids, l.License.ID)
			if use == "linked" && !slices.Contains(linkable, l.License.ID) {
				return fmt.Errorf("%s has the licence %q, wanted one of %s", c.Name, l.License.ID, strings.Join(linkable, ", "))
			}
		}
		if len(ids) == 0 {
			return fmt.Errorf("no licence of %s was found", c.Name)
		}
		found = append(found, c.Name+" "+use+" "+strings.Join(ids, " "))
	}
	slices.Sort(found)
	text := strings.Join(found, "\n") + "\n"
	fmt.Print(text)
	if text != record {
		return fmt.Errorf("the record says otherwise:\n%s", record)
	}
	return nil
}
