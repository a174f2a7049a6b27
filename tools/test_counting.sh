# shellcheck shell=bash
# Counting and announcing for ./test. A step is a function step_<name> that calls the checks below; each check adds what
# it ran to the counts and shows its output only where something failed.

passed=0 failed=0 skipped=0
failures=() unsteady=()
logs=build/test-logs
started=$SECONDS

# A heading; what a check prints is kept in build/test-logs.
run_step() {
  local step=$1 begin=$SECONDS passed_before=$passed failed_before=$failed
  mkdir -p "$logs"
  printf '%s: %s\n' "$step" "$(awk -v step="$step" '$1 == step {$1 = $2 = ""; sub(/^ +/, ""); print}' <<<"$all_steps")"
  "step_$step"
  printf '%s: %d passed, %d failed (%d s)\n\n' "$step" $((passed - passed_before)) $((failed - failed_before)) \
    $((SECONDS - begin))
}

count() { # count NAME PASSED FAILED LOG
  passed=$((passed + $2))
  failed=$((failed + $3))
  if [ "$3" -eq 0 ]; then
    printf '  %-44s %d passed\n' "$1" "$2"
  else
    failures+=("$1")
    printf '  %-44s %d passed, %d FAILED\n' "$1" "$2" "$3"
    what_failed "$4" | head -n 200 | sed 's/^/    /'
    printf '    (all of it: %s)\n' "$4"
  fi
}

# The cases of a log that failed, each with what it said (GoogleTest, TAP); of any other log its end. Often it is all
# that is left of a run on another machine.
what_failed() { # what_failed LOG
  local cases
  cases=$(awk '
    /^ *# Subtest: / {tap = 0}
    /^ *not ok / {tap = 1}
    /^ *ok / {tap = 0}
    /^\[ RUN      \]/ {gtest = 1; said = ""}
    gtest {said = said $0 "\n"}
    /^\[       OK \]/ {gtest = 0}
    /^\[  FAILED  \] .* \([0-9]+ ms\)$/ {printf "%s", said; gtest = 0}
    tap' "$1")
  if [ -n "$cases" ]; then printf '%s\n' "$cases"; else tail -n 60 "$1"; fi
}

log_of() { printf '%s/%s.log' "$logs" "$(tr -c 'A-Za-z0-9_\n' '-' <<<"$1")"; }

# One command, one check.
check() { # check NAME COMMAND...
  local name=$1 log
  shift
  log=$(log_of "$name")
  if "$@" >"$log" 2>&1; then count "$name" 1 0 "$log"; else count "$name" 0 1 "$log"; fi
}

# A GoogleTest program: each of its cases counts. A crash, or a program without cases, counts as one failure.
check_gtest() { # check_gtest NAME COMMAND...
  local name=$1 log
  shift
  log=$(log_of "$name")
  "$@" >"$log" 2>&1
  count_gtest "$name" $? "$log"
}

count_gtest() { # count_gtest NAME STATUS LOG
  local name=$1 status=$2 log=$3 good bad left_out
  good=$(grep -c '^\[       OK \]' "$log")
  bad=$(grep -cE '^\[  FAILED  \] .* \([0-9]+ ms\)$' "$log")
  left_out=$(grep -cE '^\[  SKIPPED \] .* \([0-9]+ ms\)$' "$log")
  if [ "$bad" -eq 0 ] && { [ "$status" -ne 0 ] || [ "$good" -eq 0 ]; }; then bad=1; fi
  skipped=$((skipped + left_out))
  [ "$left_out" -eq 0 ] || printf '  %-44s %d skipped\n' "$name" "$left_out"
  count "$name" "$good" "$bad" "$log"
}

# Several GoogleTest programs, two at a time. Takes lines "NAME COMMAND..." (words without spaces) on standard input,
# which must not be a pipe: a pipe would count in a shell of its own, and the counts would be lost.
check_gtests() {
  local name command list
  list=$(cat)
  while read -r name command; do printf '%s\0%s\0' "$command" "$(log_of "$name")"; done <<<"$list" |
    xargs -0 -n 2 -P 2 bash -c '$1 >"$2" 2>&1; echo $? >"$2.status"' run
  while read -r name command; do
    count_gtest "$name" "$(cat "$(log_of "$name").status")" "$(log_of "$name")"
  done <<<"$list"
}

# Python's unittest: each of its cases counts.
check_unittest() { # check_unittest NAME FOLDER PATTERN
  local name=$1 log status total bad
  log=$(log_of "$name")
  python3 -m unittest discover -s "$2" -p "$3" >"$log" 2>&1
  status=$?
  total=$(sed -nE 's/^Ran ([0-9]+) tests?.*/\1/p' "$log")
  bad=$(sed -nE 's/^FAILED \((.*)\)$/\1/p' "$log" | tr ',' '\n' | sed -nE 's/.*(failures|errors)=([0-9]+)/\2/p' |
    awk '{sum += $1} END {print sum + 0}')
  if { [ "$status" -ne 0 ] && [ "$bad" -eq 0 ]; } || [ "${total:-0}" -eq 0 ]; then bad=1 total=${total:-1}; fi
  [ "$bad" -le "$total" ] || bad=$total
  count "$name" $((total - bad)) "$bad" "$log"
}

# Node's own test runner: each of its cases counts.
check_node() { # check_node NAME FILE...
  local name=$1 log good bad
  shift
  log=$(log_of "$name")
  run_node "$log" "$@"
  count "$name" "$good" "$bad" "$log"
}

# The same for tests in a browser, which wait for hundreds of things on a machine that does something else beside: the
# files of those that failed are run once more, by themselves. What passes then counts as passed, is shown with what it
# said at first, and is named at the end: it is to be looked into all the same.
check_browser() { # check_browser NAME FILE...
  local name=$1 log good bad cases files again
  shift
  log=$(log_of "$name")
  run_node "$log" --test-concurrency=2 "$@"
  mapfile -t files < <(what_failed "$log" | sed -nE "s/^ *location: '(.*):[0-9]+:[0-9]+'$/\1/p" | sort -u)
  if [ "$bad" -gt 0 ] && [ ${#files[@]} -gt 0 ]; then
    cases=$((good + bad)) again=$(log_of "$name once more")
    run_node "$again" --test-concurrency=1 "${files[@]}"
    if [ "$bad" -eq 0 ]; then
      mapfile -t -O ${#unsteady[@]} unsteady < <(sed -nE 's/^ *not ok [0-9]+ - /  /p' "$log")
      what_failed "$log" | head -n 200 | sed 's/^/    /'
    fi
    good=$((cases - bad)) log=$again
  fi
  count "$name" "$good" "$bad" "$log"
}

run_node() { # run_node LOG ARGUMENT...: sets good and bad
  local log=$1 status
  shift
  node --test --test-reporter=tap "$@" >"$log" 2>&1
  status=$?
  good=$(sed -nE 's/^# pass ([0-9]+)$/\1/p' "$log")
  bad=$(sed -nE 's/^# fail ([0-9]+)$/\1/p' "$log")
  good=${good:-0} bad=${bad:-0}
  if [ "$bad" -eq 0 ] && { [ "$status" -ne 0 ] || [ "$good" -eq 0 ]; }; then bad=1; fi
}

# Vitest: each of its cases counts. A file that cannot be loaded is a failure without cases.
check_vitest() { # check_vitest NAME FOLDER
  local name=$1 log status good bad
  log=$(log_of "$name")
  (cd "$2" && npx --no-install vitest run --reporter=default --no-color) >"$log" 2>&1
  status=$?
  good=$(sed -nE 's/^ +Tests .* ([0-9]+) passed.*/\1/p' "$log")
  bad=$(sed -nE 's/^ +Tests +([0-9]+) failed.*/\1/p' "$log")
  if [ "$status" -ne 0 ] && [ "${bad:-0}" -eq 0 ]; then bad=1; fi
  if [ "${good:-0}" -eq 0 ] && [ "${bad:-0}" -eq 0 ]; then bad=1; fi
  count "$name" "${good:-0}" "${bad:-0}" "$log"
}

summary() {
  printf 'Time: %d s\n' $((SECONDS - started))
  [ "$skipped" -eq 0 ] || printf 'Skipped: %d\n' "$skipped"
  [ ${#unsteady[@]} -eq 0 ] || { printf 'Failed at first and passed by themselves:\n'; printf '%s\n' "${unsteady[@]}"; }
  [ "$failed" -eq 0 ] || { printf 'Failed:\n'; printf '  %s\n' "${failures[@]}"; }
  printf '%d passed, %d failed\n' "$passed" "$failed"
  [ "$failed" -eq 0 ] && [ "$passed" -gt 0 ]
}
