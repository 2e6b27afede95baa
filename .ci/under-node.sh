#!/usr/bin/env bash
# under-node.sh TARGET PROGRAM ARG... runs a program built for js/wasm or wasip1/wasm under Node.
set -euo pipefail
target=$1
shift
case $target in
js) exec "$(go env GOROOT)/lib/wasm/go_js_wasm_exec" "$@" ;;
wasip1) exec node --stack-size=4000 --no-warnings "$(dirname "${BASH_SOURCE[0]}")/wasip1.mjs" "$@" ;;
*) printf 'under-node.sh: no target %s\n' "$target" >&2 && exit 2 ;;
esac
