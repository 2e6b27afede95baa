# The root module, as those who import it get it.

step format
tool gofumpt mvdan.cc/gofumpt
files '*.go' >"$tmp/sources"
[ -s "$tmp/sources" ] || fail "no Go files found"
tr '\n' '\0' <"$tmp/sources" | xargs -0 "$tmp/bin/gofumpt" -l >"$tmp/unformatted"
if [ -s "$tmp/unformatted" ]; then
	cat "$tmp/unformatted"
	fail "these files are not as gofumpt writes them: go -C internal/tools tool gofumpt -w \$PWD"
fi

step vet
go vet ./...

step staticcheck
tool staticcheck honnef.co/go/tools/cmd/staticcheck
"$tmp/bin/staticcheck" ./...

step modules: verified and tidy
for dir in . internal/tools; do
	echo "$dir"
	go -C "$dir" mod download || fail "the modules that $dir needs cannot be had: is the module proxy reachable?"
	go -C "$dir" mod verify
	go -C "$dir" mod tidy -diff
done

# Importers get these and no others; what only tests need stays with the tests.
step what importers get
# What estimates from data links a library of statistics; nothing else does.
linked() { go list -deps -f '{{with .Module}}{{.Path}}{{end}}' "$@" | sort -u | sed '/^$/d' >"$tmp/linked"; }
printf '%s\n' example.com/quoin github.com/bojanz/currency github.com/cockroachdb/apd/v3 github.com/go-json-experiment/json >"$tmp/expected"
go list ./... | grep -vE '/(margin/(market|trial|pricelist/annual)|internal/estimate|examples/review)$' >"$tmp/light"
linked $(cat "$tmp/light")
diff -u "$tmp/expected" "$tmp/linked" || fail "non-test code needs other modules than it should"
echo gonum.org/v1/gonum >>"$tmp/expected"
linked ./...
diff -u "$tmp/expected" "$tmp/linked" || fail "estimates need other modules than they should"

step licences of what is linked or tested with
tool cyclonedx-gomod github.com/CycloneDX/cyclonedx-gomod/cmd/cyclonedx-gomod
"$tmp/bin/cyclonedx-gomod" mod -licenses -json -test -output "$tmp/sbom.json" . 2>"$tmp/why" || { cat "$tmp/why"; fail "the list of modules cannot be written"; }
go -C internal/tools run ./licences "$tmp/sbom.json" "$root/internal/tools/licences.txt"

step vulnerabilities
tool govulncheck golang.org/x/vuln/cmd/govulncheck
if "$tmp/bin/govulncheck" ./... >"$tmp/vulnerable" 2>&1; then
	tail -1 "$tmp/vulnerable"
elif grep -q 'fetching vulnerabilities: ' "$tmp/vulnerable"; then
	note "known vulnerabilities: their database cannot be reached from here"
else
	cat "$tmp/vulnerable"
	fail "a known vulnerability is reached"
fi

step the exported interface
go -C internal/tools run ./exported
last=$(git describe --tags --abbrev=0 --match 'v[0-9]*' 2>/dev/null || true)
if [ -z "$last" ]; then
	note "changes of the interface since the last tag: there is no tag yet; internal/api/exported.txt was compared"
else
	tool apidiff golang.org/x/exp/cmd/apidiff
	git worktree add -q --detach "$tmp/last" "$last"
	(cd "$tmp/last" && "$tmp/bin/apidiff" -m -w "$tmp/last.api" example.com/quoin)
	git worktree remove --force "$tmp/last"
	"$tmp/bin/apidiff" -m "$tmp/last.api" example.com/quoin | tee "$tmp/changes"
	case $last in
	v0.*) ;; # before version 1 names may change; the changelog says which
	*) if grep -q '^Incompatible changes' "$tmp/changes"; then fail "the interface breaks programs that use $last"; fi ;;
	esac
fi

step what README.md promises
awk '/^```/ { if (inside) exit; inside = ($0 == "```sh"); next } inside' README.md >"$tmp/promised"
for command in 'go run ./examples/first' 'go test ./...'; do
	grep -qxF "$command" "$tmp/promised" || fail "the first commands of README.md lack: $command"
done
cat "$tmp/promised"
grep -vxF 'go test ./...' "$tmp/promised" >"$tmp/examples" # which the next steps run, with the race detector
bash -euo pipefail "$tmp/examples"

step go test -race -shuffle=on
mkdir "$tmp/probe"
printf 'package main\n\nfunc main() {}\n' >"$tmp/probe/main.go"
if go build -race -o "$tmp/probe/main" "$tmp/probe/main.go" 2>"$tmp/probe/why" && "$tmp/probe/main"; then
	go test -race -shuffle=on -timeout 30m ./...
	step tests that the race detector would slow or mislead
	files '*_test.go' | xargs grep -lE '^//go:build .*!race' | xargs dirname | sort -u | sed 's|^|./|' >"$tmp/unraced"
	xargs go test <"$tmp/unraced"
else
	# The race detector may need a C compiler, and a machine may have only Go.
	note "races: $(tr '\n' ' ' <"$tmp/probe/why")"
	go test -shuffle=on ./...
fi

step examples against their golden output
golden() {
	echo "$1"
	go run "$1" >"$tmp/printed"
	diff -u "$2" "$tmp/printed" || fail "$1 prints other output than $2"
}
golden ./examples/pricesheet examples/pricesheet/testdata/sheet.txt
golden ./examples/script examples/script/testdata/output.txt
golden ./examples/designs examples/designs/testdata/output.txt
golden ./examples/review examples/review/testdata/review.txt

step the picture of README.md
go run ./examples/pricesheet -picture heron-a4 examples/first/shop.json >"$tmp/printed"
diff -u examples/first/keeps.svg "$tmp/printed" || fail "the picture is another one: go run ./examples/pricesheet -picture heron-a4 examples/first/shop.json"

step exit statuses of pricesheet
cases=margin/pricelist/testdata/cases
go build -o "$tmp/pricesheet" ./examples/pricesheet
exits() {
	local want=$1 got=0
	shift
	"$tmp/pricesheet" "$@" >"$tmp/out" 2>"$tmp/err" || got=$?
	echo "$got: pricesheet $*"
	if [ "$got" != "$want" ]; then
		cat "$tmp/out" "$tmp/err"
		fail "wanted exit status $want"
	fi
}
exits 0
[ ! -s "$tmp/err" ] || fail "a decided price list, yet something on standard error"
exits 0 "$cases/01-cost-multiple.json"
exits 1 "$cases/04-nothing-fits.json"
[ -s "$tmp/out" ] || fail "a conflict, and nothing on standard output"
printf '{"version": 2}' >"$tmp/faulty.json"
exits 2 - <"$tmp/faulty.json"
[ ! -s "$tmp/out" ] || fail "a faulty document, yet something on standard output"
[ -s "$tmp/err" ] || fail "a faulty document, and nothing on standard error"

step a module that imports the library
mkdir "$tmp/importer"
go list -f '{{if ne .Name "main"}}{{.ImportPath}}{{end}}' ./... | sed '/^$/d; /\/internal\//d' >"$tmp/public"
{
	printf 'package main\n\nimport (\n'
	sed 's/.*/\t_ "&"/' "$tmp/public"
	printf ')\n'
} >"$tmp/importer/all.go"
cat >"$tmp/importer/main.go" <<'END'
package main

import (
	"fmt"
	"os"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/sheet"
)

func main() {
	data, err := os.ReadFile(os.Args[1])
	if err != nil {
		panic(err)
	}
	answer, err := pricelist.Price(data)
	if err != nil {
		panic(err)
	}
	fmt.Println("half of 5.00 is", quoin.MustAmount("5.00").Part(quoin.MustRate("50%")))
	fmt.Print(sheet.Text(answer, 80))
}
END
cat "$tmp/public"
(
	cd "$tmp/importer"
	go mod init example.com/importer
	go mod edit -go 1.26 -require example.com/quoin@v0.0.0 -replace "example.com/quoin=$root"
	go mod tidy
	go vet ./...
	go build -o importer .
	./importer "$root/$cases/01-cost-multiple.json" >printed
	cat printed
	grep -qx 'half of 5.00 is 2.50*' printed
	grep -q '17\.50 USD' printed
)

