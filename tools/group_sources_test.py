# SPDX-License-Identifier: Apache-2.0
"""What may share a group: the rules of tools/group_sources.py on sources written for the purpose."""
import tempfile
import unittest
from pathlib import Path

from group_sources import groups


class Groups(unittest.TestCase):
    def setUp(self) -> None:
        self.folder = tempfile.TemporaryDirectory()
        self.addCleanup(self.folder.cleanup)

    def source(self, name: str, text: str) -> Path:
        path = Path(self.folder.name) / name
        path.write_text(text, encoding="utf-8")
        return path

    def together(self, first: str, second: str) -> bool:
        return len(groups([self.source("a.cpp", first), self.source("b.cpp", second)], 8)) == 1

    def test_files_without_a_common_name_share_a_group(self) -> None:
        self.assertTrue(self.together("namespace {\nint one() { return 1; }\n}  // namespace\n",
                                      "namespace {\nint two() { return 2; }\n}  // namespace\n"))

    def test_the_same_function_constant_or_type_kept_by_both_parts_them(self) -> None:
        for kept in ("int one() { return 1; }", "constexpr double one = 1;", "struct one {", "using one = int;",
                     "const std::vector<int> one{1, 2};", "enum class one { a };"):
            with self.subTest(kept):
                text = f"namespace {{\n{kept}\n}}  // namespace\n"
                self.assertFalse(self.together(text, text))

    def test_a_short_name_for_the_same_type_of_a_library_parts_them_only_where_it_means_two(self) -> None:
        def short_for(kind: str) -> str:
            return f"namespace {{\nusing Json = nlohmann::{kind};\n}}  // namespace\n"

        self.assertTrue(self.together(short_for("json"), short_for("json")))
        self.assertFalse(self.together(short_for("json"), short_for("ordered_json")))

    def test_a_name_of_a_neighbours_header_parts_them(self) -> None:
        for told in ("inline constexpr int none = -1;", "[[nodiscard]] int none(double value);", "enum class none { a };"):
            with self.subTest(told):
                self.source("b.hpp", told + "\n")
                self.assertFalse(self.together("namespace {\nconstexpr int none = 0;\n}  // namespace\n",
                                               '#include "b.hpp"\nint use();\n'))

    def test_what_both_only_borrow_does_not_part_them(self) -> None:
        text = "using geometry::Point2;\nstruct Later;\n"
        self.assertTrue(self.together(text, text))

    def test_a_group_holds_no_more_than_its_share(self) -> None:
        sources = [self.source(f"s{number}.cpp", f"int f{number}() {{ return 1; }}\n") for number in range(20)]
        made = groups(sources, 8)
        self.assertEqual(sorted(path for group in made for path in group), sorted(sources))
        self.assertEqual(len(made), 3)


if __name__ == "__main__":
    unittest.main()
