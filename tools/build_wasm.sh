#!/usr/bin/env bash
# Builds the engine for the page: build/wasm/duskwire.mjs and duskwire.wasm. Installs what it needs for that.
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
"$here/ensure_packages" build wasm
exec "$here/build" wasm duskwire
