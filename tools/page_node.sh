# shellcheck shell=bash
# Sourced by what builds or tests the page: afterwards PATH begins with a Node that is new enough (20.19). One that is
# there already is used as it is; otherwise Debian's npm fetches Node 22 into build/node, once.

node_is_new_enough() {
  command -v node >/dev/null && command -v npm >/dev/null &&
    node -e 'const [major, minor] = process.versions.node.split("."); process.exit(major > 20 || (major == 20 && minor >= 19) ? 0 : 1)'
}

# The groups of tools/packages.txt that building the page needs, a line each.
page_groups() { # page_groups ROOT
  printf '%s\n' build wasm
  node_is_new_enough || [ -x "$1/build/node/node_modules/.bin/node" ] || echo page
}

use_page_node() { # use_page_node ROOT
  node_is_new_enough && return 0
  local home=$1/build/node
  if [ ! -x "$home/node_modules/.bin/node" ]; then
    "$1/tools/ensure_packages" page || return 1
    echo "Fetching Node 22 from the npm registry into build/node."
    mkdir -p "$home"
    # npm comes along: Debian's runs under Debian's Node only.
    npm install --prefix "$home" --no-save --no-audit --no-fund --loglevel=error node@22 npm@10 || return 1
  fi
  export PATH=$home/node_modules/.bin:$PATH
  node_is_new_enough || { echo "The Node in build/node does not run: remove that folder and try again." >&2; return 1; }
}
