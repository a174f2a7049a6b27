#!/usr/bin/env bash
# Builds the page: the engine as WebAssembly (build/wasm) and the static files in web/dist. Installs what it needs for
# that. Each part is left out where nothing that it is made of has changed, so that a second call takes a second.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
. tools/page_node.sh
stamps=build/page
mkdir -p "$stamps"
exec 9>"$stamps/.lock"
flock 9

# One hash over names and contents of files and folders.
hash_of() {
  find "$@" \( -name node_modules -o -name dist \) -prune -o -type f -print0 | LC_ALL=C sort -z | xargs -0 sha256sum | sha256sum
}

# Runs a command unless it ran to its end with this hash and left these files.
unless_done() { # unless_done NAME HASH FILE COMMAND...
  local stamp=$stamps/$1 hash=$2 file=$3
  if [ -e "$file" ] && [ "$(cat "$stamp" 2>/dev/null)" = "$hash" ]; then return 0; fi
  rm -f "$stamp"
  echo "Page: building $1."
  "${@:4}"
  [ -e "$file" ] || { echo "Building $1 has not made $file." >&2; exit 1; }
  echo "$hash" >"$stamp"
}

site_of() { npm --prefix web run --silent build -- --logLevel warn; }

unless_done engine "$(hash_of src data cmake CMakeLists.txt CMakePresets.json tests/CMakeLists.txt tests/wasm/CMakeLists.txt)" \
  build/wasm/duskwire.wasm tools/build_wasm.sh
use_page_node "$PWD"
unless_done packages "$(hash_of web/package.json web/package-lock.json) $(node --version)" \
  web/node_modules/.package-lock.json npm ci --prefix web --no-audit --no-fund --loglevel=error
unless_done files "$(hash_of web examples build/wasm/duskwire.mjs build/wasm/duskwire.wasm)" web/dist/index.html site_of
