# SPDX-License-Identifier: Apache-2.0
"""The check of names must catch two types of one full name, and nothing else: each test plants its own small files."""
import unittest

from check_names import repeated

EFFECT = "namespace duskwire::study {\nstruct Effect {\n  int rank = 0;\n};\n}  // namespace duskwire::study\n"


class NameCheck(unittest.TestCase):
    def test_two_headers_with_one_name(self):
        found = repeated({"src/study/a.hpp": EFFECT, "src/study/b.hpp": EFFECT})
        self.assertEqual(found, {"duskwire::study::Effect": ["src/study/a.hpp", "src/study/b.hpp"]})

    def test_other_namespaces_are_other_names(self):
        self.assertEqual(repeated({"a.hpp": EFFECT, "b.hpp": EFFECT.replace("study", "light")}), {})

    def test_unnamed_namespaces_are_private(self):
        private = "namespace duskwire::study {\nnamespace {\nstruct Effect {\n};\n}  // namespace\n}  // namespace\n"
        self.assertEqual(repeated({"a.cpp": private, "b.cpp": private}), {})

    def test_nested_types_belong_to_their_class(self):
        outer = "namespace duskwire {{\nclass {} {{\n  struct Impl {{\n  }};\n}};\n}}\n"
        self.assertEqual(repeated({"a.hpp": outer.format("A"), "b.hpp": outer.format("B")}), {})

    def test_a_declaration_defines_nothing(self):
        self.assertEqual(repeated({"a.hpp": EFFECT, "b.hpp": "namespace duskwire::study {\nstruct Effect;\n}\n"}), {})

    def test_braces_in_text_do_not_count(self):
        text = 'namespace duskwire::study {\nconst char* brace = "{";  // {\nstruct Effect {\n};\n}\n'
        self.assertIn("duskwire::study::Effect", repeated({"a.hpp": text, "b.hpp": EFFECT}))


if __name__ == "__main__":
    unittest.main()
