# What takes long: many draws, inputs nobody thought of, other machines.

step thorough tests
# Properties draw as many as rapid does by itself, and documents that were made to hurt are at their limits.
RAPID_CHECKS=100 go test -shuffle=on -timeout 30m ./...

step "fuzz targets, $fuzztime each"
go test -list '^Fuzz' ./... >"$tmp/listed"
awk '/^Fuzz/ { names[++n] = $1 } /^ok/ { for (i = 1; i <= n; i++) print $2, names[i]; n = 0 }' "$tmp/listed" >"$tmp/targets"
[ "$(grep -c '^Fuzz' "$tmp/listed")" = "$(grep -c . "$tmp/targets")" ] || fail "fuzz targets got lost on the way"
# Up to Go 1.26 a target may fail when its time is up, with no input to blame
# (golang/go#75804): only then try again.
fuzz() {
	local try
	for try in 1 2 3; do
		if go test -run '^$' -fuzz "^$2\$" -fuzztime "$fuzztime" -fuzzminimizetime 1x "$1" >"$tmp/fuzz" 2>&1; then
			sed -n '/^fuzz: elapsed/h; ${g;p;}' "$tmp/fuzz"
			return
		fi
		grep -q '^ *context deadline exceeded$' "$tmp/fuzz" || break
		if grep -q 'Failing input' "$tmp/fuzz"; then break; fi
	done
	cat "$tmp/fuzz"
	fail "$2 of $1 failed in try $try"
}
while read -r package name <&3; do
	echo "$package $name"
	fuzz "$package" "$name"
done 3<"$tmp/targets"

step each benchmark once
go test -run '^$' -bench . -benchtime 1x ./...

step vet for other machines
for arch in 386 arm64 s390x; do # 32 bits, 64 bits, big-endian
	echo "$arch"
	GOARCH=$arch go vet ./...
done

step 32 bits
if GOARCH=386 go run ./examples/first >/dev/null 2>&1; then
	go list ./... | grep -vE '/(margin/pricelist|examples|internal/release)' >"$tmp/most"
	GOARCH=386 xargs go test <"$tmp/most"
	GOARCH=386 go test -run '^(TestPublished|TestOracleAgreesWithCases|Example)' ./margin/pricelist
	note "on 32 bits: random documents of margin/pricelist, which take long there; its cases and examples ran"
else
	note "tests on 32 bits: this machine does not run programs of 386"
fi

step WebAssembly, under Node
need npm nodejs npm
install_missing
# What shows that whole shops come out the same, where all tests would take too long.
whole='^(Test(Published|Oracle|Agrees|Explanations|Statements|Units)|Example)'
for package in . ./margin/pricelist; do
	GOOS=js GOARCH=wasm go test -run "$whole" -exec "$root/.ci/under-node.sh js" "$package"
	GOOS=wasip1 GOARCH=wasm go test -run '^Example' -exec "$root/.ci/under-node.sh wasip1" "$package"
done
note "on wasip1: all but the examples, since random documents end Node 20's own WASI with a fault of memory; they run on js"

step the same bytes twice
for example in $(go list -f '{{if eq .Name "main"}}{{.ImportPath}}{{end}}' ./examples/...); do
	same "$example" .
done
