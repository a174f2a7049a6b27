# shellcheck shell=bash
# The steps of ./test, in its order; tools/test_counting.sh gives the words check, check_gtest and so on.

# The release build's own tests: rooms whose numbers hang on what the optimiser does, and the command as it is run. Every
# room's tests run under the sanitizers, built by the other compiler.
release_rooms="wiring electrical base geometry light diagnosis cli"
release_tests() { printf 'test_%s ' $release_rooms; }

cpp_files() { find src tests bench -name '*.cpp' -o -name '*.hpp' | sort; }

step_format() {
  check "clang-format" bash -c 'xargs clang-format-14 --dry-run -Werror' < <(cpp_files)
}

step_layers() {
  check "includes point down" tools/check_layers.py
  check_unittest "the layer check itself" tools 'check_layers_test.py'
  check "one name, one type" tools/check_names.py
  check_unittest "the check of names itself" tools 'check_names_test.py'
}

step_counting() {
  check_unittest "counting" tools 'test_counting_test.py'
  check_unittest "what is compiled together" tools 'group_sources_test.py'
  check_unittest "what is looked at together" tools 'tidy_test.py'
}

step_lengths() { check "lengths and first lines" tools/check_lengths.py; }

step_warnings() {
  local bench=OFF
  [ -f bench/CMakeLists.txt ] && bench=ON
  check "configure release" configure release -DDUSKWIRE_BENCH=$bench
  # shellcheck disable=SC2046
  check "build release" tools/build release duskwire judge_documents solve_networks write_shapes \
    $(release_tests) $([ $bench = OFF ] || echo bench/all)
}

step_tidy() {
  check "configure release" configure release
  check "clang-tidy" tools/tidy.py build/release
}

step_tests() {
  # shellcheck disable=SC2046
  check "build the release tests" tools/build release $(release_tests)
  local rooms
  read -ra rooms <<<"$release_rooms"
  run_tests release "${rooms[@]}"
}

step_sanitize() {
  export ASAN_OPTIONS=detect_leaks=1:strict_string_checks=1 UBSAN_OPTIONS=print_stacktrace=1
  # What the drawing libraries keep until the program ends is theirs.
  export LSAN_OPTIONS=suppressions=$PWD/tests/leaks_of_others.txt:print_suppressions=0
  check "build sanitize" tools/build sanitize
  # What takes longest first, or the other core waits for it at the end.
  local folder rooms=(store server)
  for folder in tests/*/; do
    [[ $folder == tests/store/ || $folder == tests/server/ ]] && continue
    compgen -G "$folder*_test.cpp" >/dev/null && rooms+=("$(basename "$folder")")
  done
  # The examples of each help page and the table of faults are the command once more, line by line: the release build's
  # alone.
  GTEST_FILTER=-HelpExamples.*:FaultTable.* run_tests sanitize "${rooms[@]}"
  unset ASAN_OPTIONS UBSAN_OPTIONS LSAN_OPTIONS
}

step_threads() {
  check "build the writers" tools/build threads store_writers
  TSAN_OPTIONS=halt_on_error=1 check_gtest "writers under the thread sanitizer" build/threads/tests/store_writers
}

step_wasm() {
  check "build wasm" tools/build wasm
  local room
  for room in base geometry electrical light; do
    check_gtest "$room under Node" node "build/wasm/tests/test_$room.js"
  done
  compare_native_with_wasm 1000
  compgen -G 'tests/wasm/*.test.mjs' >/dev/null && check_node "the engine's face" tests/wasm/*.test.mjs
}

step_schema() {
  check "build release judge_documents" tools/build release judge_documents
  # Other packagings of Node bring npm along; Debian's does not.
  command -v npm >/dev/null || tools/ensure_packages npm
  check "packages of tests/schema" npm ci --prefix tests/schema --no-audit --no-fund --ignore-scripts
  check_node "schemas, documents and reader agree" tests/schema/*.test.mjs
}

# Numbers of the page against the command's, so both are built.
step_page() {
  check "build release duskwire" tools/build release duskwire
  check "build the page" tools/build_page.sh
  . tools/page_node.sh
  use_page_node "$PWD" || return
  check "types" npm --prefix web run --silent check
  check "lint" npm --prefix web run --silent lint
  DUSKWIRE_PROGRAM=build/release/duskwire check_vitest "the page's own tests" web
  check "first load under 1700 kB" node web/tools/first-load.mjs --limit-kb 1700
  check "the size check refuses too much" refused node web/tools/first-load.mjs --limit-kb 1
  DUSKWIRE_PROGRAM=build/release/duskwire check_browser "end to end in Chromium" web/tests/e2e/*.test.mjs
}

step_examples() {
  check "build release duskwire" tools/build release duskwire
  check_unittest "README and --help" tests/end_to_end '*_test.py'
}

step_server() {
  check "build release duskwire" tools/build release duskwire
  check_unittest "rules of the local server" tests/end_to_end/server 'rules_test.py'
  check_unittest "what is sent to harm it" tests/end_to_end/server 'hostile_test.py'
  check_unittest "phones on the local network" tests/end_to_end/server 'lan_test.py'
  check_unittest "networks of its own" tests/end_to_end/server 'network_test.py'
  check_unittest "backups while clients write" tests/end_to_end/server 'backup_test.py'
  check_unittest "300 kills under a writing client" tests/end_to_end/server 'kill_test.py'
}

step_fuzz() {
  local fuzzer seconds=${FUZZ_SECONDS:-60} fuzzers
  mapfile -t fuzzers < <(compgen -G 'tests/fuzz/*_fuzz.cpp' | xargs -n 1 basename -s .cpp)
  # The sanitizers' build holds them: one compilation serves both steps.
  check "build the fuzz targets" tools/build sanitize "${fuzzers[@]}"
  # Three at a time: each has two thirds of a core where there are two. New inputs go to build/; the kept corpus is only
  # read.
  printf '%s\n' "${fuzzers[@]}" | xargs -P 3 -I NAME tools/fuzz_one NAME "$seconds" "$logs"
  for fuzzer in "${fuzzers[@]}"; do check "$fuzzer, $seconds s" tools/fuzz_one --result "$fuzzer" "$logs"; done
}

step_bench() {
  [ -f bench/CMakeLists.txt ] || return
  check "configure release" configure release -DDUSKWIRE_BENCH=ON
  check "build the benchmarks" tools/build release bench/all
  check "duskwire_bench" build/release/bench/duskwire_bench --benchmark_min_time=0.01
  check "duskwire_light_bench" build/release/bench/duskwire_light_bench 200 150 6
  check "duskwire_planner_bench" build/release/bench/duskwire_planner_bench --sizes 10 --seeds 1 --seconds 0.5
  check "duskwire_planner_bench --optimum" build/release/bench/duskwire_planner_bench --optimum --sizes 4 --seeds 1
  check "duskwire_crew_bench" build/release/bench/duskwire_crew_bench 40 1
}

# The same seeded networks by both builds, every node voltage.
compare_native_with_wasm() { # compare_native_with_wasm NETWORKS
  check "build release solve_networks" tools/build release solve_networks
  check "solve $1 networks natively" solve_into "$logs/native.txt" build/release/tests/wasm/solve_networks "$1"
  check "solve $1 networks under Node" solve_into "$logs/node.txt" node build/wasm/tests/wasm/solve_networks.js "$1"
  check "native against wasm" tools/compare_numbers.py "$logs/native.txt" "$logs/node.txt"
}

solve_into() {
  local file=$1
  shift
  "$@" >"$file"
}

# Configures again, where a configured folder may have been made without an option that this step needs.
configure() { # configure PRESET [OPTION...]
  mkdir -p "build/$1"
  flock "build/$1/.lock" cmake --preset "$@" -DDUSKWIRE_GROUPED=ON
}

# Runs the test programs of these rooms; one that was not built is a failure. The command's take longest, so they go in
# two halves, first.
run_tests() { # run_tests PRESET ROOM...
  local preset=$1 room half
  shift
  check_gtests < <(
    for half in 0 1; do
      echo "$preset-test_cli-$half env GTEST_TOTAL_SHARDS=2 GTEST_SHARD_INDEX=$half build/$preset/tests/test_cli"
    done
    for room in "$@"; do
      [ "$room" = cli ] || echo "$preset-test_$room build/$preset/tests/test_$room"
    done
  )
}

# A check that must be able to fail: passes where the command does not.
refused() { ! "$@"; }
