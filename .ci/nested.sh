# The modules below examples and internal, each with what its tests need.

# A browser, what reads what it prints, what compresses and what checks that a page is accessible; a database; a
# spreadsheet; other languages and what calls C.
step what the tests of nested modules need
[ -n "${CHROMIUM:-}" ] || need chromium chromium
need pdftotext poppler-utils
need brotli brotli
need npm nodejs npm
need python3 python3
need gcc gcc libc6-dev
need soffice libreoffice-calc
# Debian has soffice without what reads spreadsheets, too.
if command -v dpkg-query >/dev/null && ! dpkg-query -W -f '${Status}' libreoffice-calc 2>/dev/null | grep -q ' installed'; then missing+=(libreoffice-calc); fi
compgen -G '/usr/lib/postgresql/*/bin/initdb' >/dev/null || need initdb postgresql
install_missing
npm ci --no-audit --no-fund --prefix examples/workbench/browser

step the size of the workbench
most=1900000 # bytes of the engine in brotli, just over what it has
go run ./examples/workbench -out "$tmp/workbench"
brotli --quality=11 --lgwin=24 --output="$tmp/engine.br" "$tmp/workbench/engine.wasm"
size=$(wc -c <"$tmp/engine.br")
echo "the engine has $(wc -c <"$tmp/workbench/engine.wasm") bytes, $size in brotli, at most $most"
[ "$size" -le "$most" ] || fail "the engine of the workbench is larger than it was: look at what it links"

step nested modules: verified and tidy
while IFS= read -r dir <&3; do
	echo "$dir"
	go -C "$dir" mod download || fail "the modules that $dir needs cannot be had: is the module proxy reachable?"
	go -C "$dir" mod verify
	go -C "$dir" mod tidy -diff
done 3<"$tmp/nested"

tool staticcheck honnef.co/go/tools/cmd/staticcheck
while IFS= read -r dir <&3; do
	step "module $dir"
	packages=$(go -C "$dir" list ./... 2>"$tmp/why") || { cat "$tmp/why"; fail "cannot list the packages of $dir"; }
	[ -n "$packages" ] || continue
	go -C "$dir" vet ./...
	(cd "$dir" && "$tmp/bin/staticcheck" ./...)
	go -C "$dir" test -count=1 ./... # some test programs that they build, which no cache knows of
	go -C "$dir" test -run '^$' -bench . -benchtime 1x ./... >/dev/null
done 3<"$tmp/nested"

note "the same bytes twice: only the programs of the root module, since what the others need takes long to compile anew"
