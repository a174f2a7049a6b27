# shellcheck shell=bash
# What the last steps of ./test compile is begun while the steps before them run, at the lowest priority: it takes the
# time in which a browser, a server or a linker leaves a core idle. Nothing is judged here: each of those steps runs its
# own checks when its turn comes and finds most of its work done.

ahead_process=

# Two compilers more at a time need about this much memory (seen: 1.3 GB for the largest group).
ahead_needs_kb=8000000

begin_ahead() { # begin_ahead STEP...
  local free_kb
  free_kb=$(awk '$1 == "MemAvailable:" {print $2}' /proc/meminfo)
  [ "${free_kb:-0}" -ge "$ahead_needs_kb" ] || return 0
  # A group of processes of its own, so that all of it ends with ./test.
  set -m
  CMAKE_BUILD_PARALLEL_LEVEL=2 nice -n 19 bash -c '
    for step in "$@"; do
      case $step in
        tidy) tools/tidy.py build/release ;;
        threads) tools/build threads store_writers ;;
        sanitize) tools/build sanitize ;;
      esac
    done' ahead "$@" >"$logs/ahead.log" 2>&1 </dev/null &
  ahead_process=$!
  set +m
  trap 'kill -- "-$ahead_process" 2>/dev/null' EXIT
}

await_ahead() {
  [ -n "$ahead_process" ] || return 0
  wait "$ahead_process"
  ahead_process=
  trap - EXIT
}
