# What the parts of the gate share. Sourced by .ci/run.

# Settings of the machine must not decide what is tested: no workspace around the checkout, no flags
# from outside, no need for version control.
export GOWORK=off GOFLAGS=-buildvcs=false
fuzztime=${FUZZTIME:-1s}

tmp=$(mktemp -d)
log=$tmp/steps # a line for each step: seconds, part, name
notes=$tmp/notes
: >"$log"
: >"$notes"
part=start current=start of=start since=0

# step NAME ends the step before and begins another.
step() {
	ended
	current=$* of=$part since=$SECONDS
	printf '\n== %s: %s [%ss]\n' "$part" "$current" "$SECONDS"
}
ended() {
	if [ "$current" != start ]; then printf '%5ss  %-7s %s\n' "$((SECONDS - since))" "$of" "$current" >>"$log"; fi
	current=start
}
# note TEXT says in the summary what was not checked, and why.
note() { printf '%s\n' "$*" | tee -a "$notes"; }
fail() {
	printf 'gate: %s\n' "$*" >&2
	exit 1
}

# The last screen: what was checked, how long, what was not and why.
summary() {
	local status=$?
	local failed=$current
	if [ "$status" = 0 ]; then ended; fi
	printf '\n%s\n' '---------------------------------------------------------------'
	cat "$log"
	if [ -s "$notes" ]; then printf 'Not checked:\n' && sed 's/^/  /' "$notes"; fi
	if [ "$status" = 0 ]; then
		printf 'gate passed: %s, in %s minutes\n' "$parts" "$(((SECONDS + 59) / 60))"
	else
		printf 'gate failed in %s, step: %s\n' "$part" "$failed" >&2
	fi
	rm -rf "$tmp"
}
trap summary EXIT
trap 'exit 130' INT TERM

# files NAME... lists the files of these names, never what git ignores.
files() {
	if [ -e .git ] && git ls-files -z --cached --others --exclude-standard -- "$@" >"$tmp/tracked" 2>/dev/null; then
		tr '\0' '\n' <"$tmp/tracked" | while IFS= read -r f; do
			if [ -f "$f" ]; then printf '%s\n' "$f"; fi
		done
		return
	fi
	local pattern
	for pattern in "$@"; do
		find . -name .git -prune -o -type f -name "${pattern##*/}" -print
	done | sed 's|^\./||'
}

# tool NAME PATH builds a tool of internal/tools, once, and is its place.
tool() {
	[ -x "$tmp/bin/$1" ] || go -C internal/tools build -o "$tmp/bin/$1" "$2"
}

# install installs what Debian has, where it is missing.
missing=()
need() { command -v "$1" >/dev/null || missing+=("${@:2}"); }
install_missing() {
	if [ ${#missing[@]} = 0 ]; then return; fi
	[ "$(id -u)" = 0 ] || fail "install these: ${missing[*]}"
	apt-get update -q >"$tmp/apt" && DEBIAN_FRONTEND=noninteractive apt-get install -yq --no-install-recommends "${missing[@]}" >>"$tmp/apt" 2>&1 ||
		{ cat "$tmp/apt"; fail "these cannot be installed: ${missing[*]}"; }
	missing=()
}

# same PACKAGE MODULE builds a program twice, in two places: the bytes are to be the same.
same() {
	local n
	for n in 1 2; do
		GOCACHE=$tmp/same-cache-$n go -C "$2" build -trimpath -o "$tmp/same-$n" "$1"
	done
	cmp "$tmp/same-1" "$tmp/same-2" || fail "$1 is not the same program when it is built twice"
	echo "$1: $(sha256sum <"$tmp/same-1" | cut -c1-16)"
	rm -f "$tmp/same-1" "$tmp/same-2"
}

files go.mod '*/go.mod' | sed -n '/testdata\//d; s|/go.mod$||p' | sort -u >"$tmp/nested"
grep -qxF internal/tools "$tmp/nested" || fail "internal/tools/go.mod is missing"
