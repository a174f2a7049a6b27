#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""Tests of tools/test_counting.sh: what passes, fails, crashes, or runs nothing at all must be counted as just that."""
import pathlib
import stat
import subprocess
import tempfile
import unittest

TOOLS = pathlib.Path(__file__).resolve().parent

GOOD = "echo '[       OK ] Sum.Adds (0 ms)'"
BAD = "echo '[  FAILED  ] Sum.Adds (0 ms)'; exit 1"
CRASH = GOOD + "; kill -SEGV $$"
SILENT = "true"


class Counting(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.addCleanup(self.folder.cleanup)

    def program(self, name, body):
        path = pathlib.Path(self.folder.name) / name
        path.write_text(f"#!/bin/bash\n{body}\n")
        path.chmod(path.stat().st_mode | stat.S_IXUSR)
        return path

    def count(self, bodies):
        """Runs check_gtests over programs with these bodies: (passed, failed, exit status of the summary)."""
        lines = "".join(f"{name} {self.program(name, body)}\n" for name, body in bodies.items())
        script = f"""set -uo pipefail
. {TOOLS}/test_counting.sh
logs={self.folder.name}
check_gtests <<'END'
{lines}END
summary >/dev/null; status=$?
echo "COUNTS $passed $failed $status"
"""
        output = subprocess.run(["bash", "-c", script], capture_output=True, text=True, check=True).stdout
        counts = [line for line in output.splitlines() if line.startswith("COUNTS")]
        return tuple(int(word) for word in counts[0].split()[1:])

    def output_of(self, lines):
        """What check_gtests prints of these lines, and its counts."""
        script = f""". {TOOLS}/test_counting.sh
logs={self.folder.name}
check_gtests <<'END'
{lines}END
echo "COUNTS $passed $failed"
"""
        return subprocess.run(["bash", "-c", script], capture_output=True, text=True, check=True).stdout

    def test_cases_that_pass_are_counted(self):
        self.assertEqual(self.count({"a": GOOD, "b": GOOD}), (2, 0, 0))

    def test_a_failing_case_fails_the_run(self):
        self.assertEqual(self.count({"a": GOOD, "b": BAD}), (1, 1, 1))

    def test_a_crash_is_a_failure(self):
        self.assertEqual(self.count({"a": CRASH}), (1, 1, 1))

    def test_a_program_without_cases_is_a_failure(self):
        self.assertEqual(self.count({"a": GOOD, "b": SILENT}), (1, 1, 1))

    def test_a_missing_program_is_a_failure(self):
        lines = f"a {self.program('a', GOOD)}\nb {self.folder.name}/none\n"
        self.assertIn("COUNTS 1 1", self.output_of(lines))

    def test_of_a_failing_program_the_failing_case_is_told_and_not_the_end_of_its_log(self):
        many = "for k in $(seq 100); do echo '[ RUN      ] Sum.Fine'; echo '[       OK ] Sum.Fine (0 ms)'; done"
        bad = f"echo '[ RUN      ] Sum.Adds'; echo 'got 3'; echo '[  FAILED  ] Sum.Adds (0 ms)'; {many}; exit 1"
        output = self.output_of(f"a {self.program('a', bad)}\n")
        self.assertIn("got 3", output)
        self.assertNotIn("Sum.Fine", output)

    def test_of_a_crash_the_end_of_the_log_is_told(self):
        output = self.output_of(f"a {self.program('a', 'echo falling; exit 139')}\n")
        self.assertIn("falling", output)

    def test_of_a_tap_log_the_failing_case_is_told_with_what_it_noted(self):
        log = pathlib.Path(self.folder.name) / "log"
        log.write_text("# Subtest: bad\nnot ok 1 - bad\n  ---\n  error: 'no'\n  ...\n# noted\n# Subtest: good\nok 2 - good\n1..2\n")
        script = f". {TOOLS}/test_counting.sh; what_failed {log}"
        output = subprocess.run(["bash", "-c", script], capture_output=True, text=True, check=True).stdout
        self.assertEqual(output, "not ok 1 - bad\n  ---\n  error: 'no'\n  ...\n# noted\n")

    def test_the_programs_survive(self):
        self.count({"a": GOOD})
        self.assertIn("Sum.Adds", (pathlib.Path(self.folder.name) / "a").read_text())

    def test_a_run_of_nothing_is_no_success(self):
        script = f". {TOOLS}/test_counting.sh; summary >/dev/null; echo $?"
        output = subprocess.run(["bash", "-c", script], capture_output=True, text=True, check=True).stdout
        self.assertEqual(output.strip(), "1")


FAILS = r"""# Subtest: sum adds
not ok 1 - sum adds
  ---
  location: '/page/sum.test.mjs:3:1'
  error: 'got 3'
  ...
# Subtest: sum is kept
ok 2 - sum is kept
# pass 1
# fail 1
"""
PASSES = "# Subtest: sum adds\nok 1 - sum adds\n# Subtest: sum is kept\nok 2 - sum is kept\n# pass 2\n# fail 0\n"


class CountingBrowser(unittest.TestCase):
    """check_browser over a stand-in for node that prints one answer after the other."""

    def run_with(self, *answers):
        """What check_browser and the summary print, and how often node ran."""
        with tempfile.TemporaryDirectory() as folder:
            for number, answer in enumerate(answers, 1):
                (pathlib.Path(folder) / f"answer-{number}").write_text(answer)
            stand_in = pathlib.Path(folder) / "node"
            stand_in.write_text(f"""#!/bin/bash
echo "$*" >> {folder}/calls
answer={folder}/answer-$(wc -l < {folder}/calls)
cat $answer
! grep -q '^not ok' $answer
""")
            stand_in.chmod(stand_in.stat().st_mode | stat.S_IXUSR)
            script = f""". {TOOLS}/test_counting.sh
logs={folder}
PATH={folder}:$PATH
check_browser page sum.test.mjs other.test.mjs
summary; echo "STATUS $?"
"""
            output = subprocess.run(["bash", "-c", script], capture_output=True, text=True, check=True).stdout
            return output, (pathlib.Path(folder) / "calls").read_text().splitlines()

    def test_what_passes_runs_once(self):
        output, calls = self.run_with(PASSES)
        self.assertIn("2 passed, 0 failed\nSTATUS 0", output)
        self.assertEqual(len(calls), 1)

    def test_what_fails_twice_has_failed(self):
        output, calls = self.run_with(FAILS, FAILS)
        self.assertIn("1 passed, 1 failed\nSTATUS 1", output)
        self.assertEqual(len(calls), 2)

    def test_what_passes_by_itself_is_counted_and_named_with_what_it_said(self):
        output, calls = self.run_with(FAILS, PASSES)
        self.assertIn("2 passed, 0 failed\nSTATUS 0", output)
        self.assertIn("Failed at first and passed by themselves:\n  sum adds\n", output)
        self.assertIn("got 3", output)
        self.assertTrue(calls[1].endswith(" /page/sum.test.mjs"), calls[1])

    def test_a_run_that_breaks_off_has_failed(self):
        output, calls = self.run_with("not ok: out of memory")
        self.assertIn("0 passed, 1 failed\nSTATUS 1", output)
        self.assertEqual(len(calls), 1)


class CountingVitest(unittest.TestCase):
    """check_vitest over a stand-in for vitest that prints its last lines."""

    def count(self, body):
        with tempfile.TemporaryDirectory() as folder:
            stand_in = pathlib.Path(folder) / "npx"
            stand_in.write_text(f"#!/bin/bash\n{body}\n")
            stand_in.chmod(stand_in.stat().st_mode | stat.S_IXUSR)
            script = f""". {TOOLS}/test_counting.sh
logs={folder}
PATH={folder}:$PATH
check_vitest page {folder} >/dev/null
echo "COUNTS $passed $failed"
"""
            output = subprocess.run(["bash", "-c", script], capture_output=True, text=True, check=True).stdout
        return tuple(int(word) for word in output.split()[1:])

    def test_cases_that_pass_are_counted(self):
        self.assertEqual(self.count("echo '      Tests  192 passed (192)'"), (192, 0))

    def test_failing_cases_are_counted(self):
        self.assertEqual(self.count("echo '      Tests  2 failed | 190 passed (192)'; exit 1"), (190, 2))

    def test_a_file_that_does_not_load_is_a_failure(self):
        self.assertEqual(self.count("echo '      Tests  190 passed (190)'; exit 1"), (190, 1))

    def test_no_cases_at_all_are_a_failure(self):
        self.assertEqual(self.count("true"), (0, 1))


if __name__ == "__main__":
    unittest.main()
