# SPDX-License-Identifier: Apache-2.0
"""What tools/tidy.py looks at together: one part of each room, every part once, and with the flags of all."""
import tempfile
import unittest
from pathlib import Path

import tidy


class Bundles(unittest.TestCase):
    def setUp(self) -> None:
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = Path(folder.name)

    def source(self, name: str, size: int = 10) -> Path:
        path = self.folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("/" * size, encoding="utf-8")
        return path

    def group(self, name: str, *sources: Path) -> Path:
        path = self.source(f"groups/{name}")
        path.write_text("".join(f'#include "{source}"\n' for source in sources), encoding="utf-8")
        return path

    def test_a_bundle_holds_one_part_of_a_room_at_most_and_no_part_is_left_out(self) -> None:
        parts = [self.source(f"{room}/{n}.cpp") for room, count in (("a", 3), ("b", 2), ("c", 1)) for n in range(count)]
        bundles = tidy.bundled(parts)
        self.assertEqual(sorted(part for bundle in bundles for part in bundle), sorted(parts))
        self.assertEqual(len(bundles), 3)
        for bundle in bundles:
            self.assertEqual(len({part.parent for part in bundle}), len(bundle))

    def test_the_large_parts_of_two_rooms_lie_apart(self) -> None:
        large = [self.source("a/0.cpp", 1000), self.source("b/0.cpp", 1000)]
        small = [self.source("a/1.cpp"), self.source("b/1.cpp")]
        self.assertNotIn(sorted(large), tidy.bundled(large + small))

    def test_a_source_that_stands_in_a_group_too_is_looked_at_once(self) -> None:
        one, other = self.source("a/one.cpp"), self.source("a/other.cpp")
        group = self.group("a/0.cpp", one)
        self.assertEqual(tidy.without_twins([group, one, other]), [group, other])

    def test_flags_are_those_of_all_commands_each_once(self) -> None:
        first = "c++ -DNAME=\\\"a\\\" -I/src -O2 -isystem /usr/include/x -std=c++20 -o a.o -c a.cpp"
        second = "c++ -I/src -isystem /usr/include/y -std=c++20 -o b.o -c b.cpp"
        self.assertEqual(tidy.flags_of([first, second]),
                         ['-DNAME="a"', "-I/src", "-isystem/usr/include/x", "-std=c++20", "-isystem/usr/include/y"])


if __name__ == "__main__":
    unittest.main()
