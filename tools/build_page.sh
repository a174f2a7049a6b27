#!/usr/bin/env bash
# Builds the page: the engine as WebAssembly (build/wasm) and the static files in web/dist. Installs what it needs for
# that. Each part is left out where nothing that it is made of has changed, so that a second call takes a second and
# asks no network.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
. tools/page_node.sh
. tools/unless_done.sh
mkdir -p build
exec 9>build/page.lock
flock 9

engine() {
  echo "Page: the engine."
  unless_done engine "$(hash_of src data cmake CMakeLists.txt CMakePresets.json tests/CMakeLists.txt tests/wasm/CMakeLists.txt)" \
    build/wasm/duskwire.wasm tools/build_wasm.sh
}

packages() {
  use_page_node "$PWD"
  unless_done packages "$(hash_of web/package.json web/package-lock.json) $(node --version)" \
    web/node_modules/.package-lock.json npm ci --prefix web --no-audit --no-fund --loglevel=error
}

site_of() { npm --prefix web run --silent build -- --logLevel warn; }

mapfile -t groups < <(page_groups "$PWD")
tools/ensure_packages "${groups[@]}"
# What npm fetches comes over the network while the engine is compiled.
packages >build/page-packages.log 2>&1 &
fetching=$!
trap 'kill "$fetching" 2>/dev/null || true' EXIT
engine
wait "$fetching" || { cat build/page-packages.log >&2; exit 1; }
use_page_node "$PWD"
echo "Page: the files."
unless_done files "$(hash_of web examples build/wasm/duskwire.mjs build/wasm/duskwire.wasm)" web/dist/index.html site_of
