# SPDX-License-Identifier: Apache-2.0
"""Files that a tool makes from data are in step with it."""
import subprocess
import sys
import unittest
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


class GeneratedFiles(unittest.TestCase):
    def in_step(self, tool):
        run = subprocess.run([sys.executable, str(ROOT / "tools" / tool), "--check"], capture_output=True, text=True)
        self.assertEqual(run.returncode, 0, run.stderr)

    def test_stock_catalogue_is_what_its_tables_give(self):
        self.in_step("make_stock_catalogue.py")

    def test_page_of_rules_is_what_the_rulesets_say(self):
        self.in_step("make_rules_page.py")


if __name__ == "__main__":
    unittest.main()
