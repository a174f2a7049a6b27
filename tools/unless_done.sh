# shellcheck shell=bash
# Sourced by what builds: a part is left out where nothing that it is made of has changed, so that building again takes a
# second and asks no network. What was done, and from what, is remembered in build/done.

# One hash over names and contents of files and folders.
hash_of() {
  find "$@" \( -name node_modules -o -name dist \) -prune -o -type f -print0 | LC_ALL=C sort -z | xargs -0 sha256sum | sha256sum
}

# Runs a command unless it ran to its end with this hash and left this file, which nobody has made anew since.
unless_done() { # unless_done NAME HASH FILE COMMAND...
  local stamp=build/done/$1 hash=$2 file=$3
  if [ -e "$file" ] && [ ! "$file" -nt "$stamp" ] && [ "$(cat "$stamp" 2>/dev/null)" = "$hash" ]; then return 0; fi
  mkdir -p build/done
  rm -f "$stamp"
  "${@:4}"
  [ -e "$file" ] || { echo "Building the $1 has not made $file." >&2; exit 1; }
  echo "$hash" >"$stamp"
}
