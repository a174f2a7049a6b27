# SPDX-License-Identifier: Apache-2.0
"""The layer check must catch what it is there for: each test plants one breach in a small tree of its own."""
import tempfile
import unittest
from pathlib import Path

import check_layers


class LayerCheck(unittest.TestCase):
    def breaches(self, files: dict[str, str]) -> list[str]:
        with tempfile.TemporaryDirectory() as folder:
            for name, text in files.items():
                path = Path(folder) / name
                path.parent.mkdir(parents=True, exist_ok=True)
                path.write_text(text, encoding="utf-8")
            return check_layers.check(Path(folder))

    def assert_one(self, name: str, text: str, *words: str) -> None:
        found = self.breaches({name: text})
        self.assertEqual(len(found), 1, found)
        self.assertTrue(found[0].startswith(name), found[0])
        for word in words:
            self.assertIn(word, found[0])

    def test_a_sound_tree_passes(self):
        self.assertEqual(self.breaches({
            "src/base/text.hpp": "#include <string>\n#include <fmt/core.h>\n",
            "src/electrical/solver.cpp": '#include "electrical/solver.hpp"\n#include "base/text.hpp"\n#include <Eigen/Sparse>\n',
            "src/formats/job_reader.cpp": '#include <nlohmann/json.hpp>\n#include "study/check.hpp"\n',
            "src/cli/main.cpp": '#include <CLI/CLI.hpp>\n#include <unistd.h>\n#include <iostream>\nint main() { std::cout << 1; }\n',
            "CMakeLists.txt": "duskwire_room(study base geometry job electrical estimate)\n",
        }), [])

    def test_upward_include(self):
        self.assert_one("src/electrical/a.cpp", '#include <vector>\n#include "study/check.hpp"\n', "a.cpp:2", "study (floor 4)")

    def test_sideways_include(self):
        self.assert_one("src/electrical/a.hpp", '#include "job/job.hpp"\n', "job (floor 2)")

    def test_sideways_include_at_the_top(self):
        self.assert_one("src/server/a.hpp", '#include "wasm/verbs.hpp"\n', "wasm (floor 6)")

    def test_include_without_room(self):
        self.assert_one("src/job/a.cpp", '#include "catalogue.hpp"\n', "room/file.hpp")

    def test_include_of_unknown_room(self):
        self.assert_one("src/job/a.cpp", '#include "helpers/a.hpp"\n', "known room")

    def test_include_with_spaces_is_seen(self):
        self.assert_one("src/job/a.cpp", '  #  include  "study/check.hpp"\n', "study")

    def test_folder_that_is_no_room(self):
        self.assert_one("src/helpers/a.cpp", "int a;\n", "known room")

    def test_file_beside_the_rooms(self):
        self.assert_one("src/a.cpp", "int a;\n", "known room")

    def test_libraries_outside_their_rooms(self):
        for room, header in [("study", "nlohmann/json.hpp"), ("formats", "CLI/CLI.hpp"), ("server", "sqlite3.h"),
                             ("cli", "cairo/cairo.h"), ("cli", "pango/pango.h"), ("store", "boost/beast.hpp"),
                             ("study", "Eigen/Sparse"), ("cli", "emscripten.h"), ("study", "unistd.h"),
                             ("formats", "poll.h"), ("cli", "curl/curl.h")]:
            with self.subTest(room=room, header=header):
                self.assert_one(f"src/{room}/a.cpp", f"#include <{header}>\n", header)

    def test_silent_rooms(self):
        for code in ["std::cout << 1;", "std::cerr << 1;", 'std::printf("x");', 'printf("x");', 'fprintf(f, "x");',
                     "exit(1);", "std::abort();", 'std::getenv("HOME");', "std::chrono::system_clock::now();",
                     "std::chrono::steady_clock::now();", "std::random_device seed;", "rand();", 'fmt::print("x");',
                     "std::time(nullptr);", 'fopen("x", "r");', 'std::system("ls");']:
            for room in ["base", "geometry", "job", "light", "wiring", "study"]:
                with self.subTest(room=room, code=code):
                    self.assert_one(f"src/{room}/a.cpp", f"void f() {{ {code} }}\n", "silent")

    def test_headers_of_silent_rooms(self):
        for header in ["iostream", "fstream", "cstdio", "random", "filesystem"]:
            with self.subTest(header=header):
                self.assert_one("src/job/a.cpp", f"#include <{header}>\n", "silent")

    def test_comments_and_strings_are_not_code(self):
        self.assertEqual(self.breaches({"src/job/a.cpp": '// printf("x") and exit(1)\n/* std::cout\n std::cin */\n'
                                                         'auto a = "rand() std::cout"; auto b = R"(exit(1))";\n'}), [])

    def test_words_that_only_look_alike_pass(self):
        self.assertEqual(self.breaches({"src/job/a.cpp": "int n = snprintf_length(); operand(2); on_exit_time(); brand(1);\n"
                                                         "double time = 1; auto t = lead.time();\n"}), [])

    def test_code_after_a_digit_separator_is_still_seen(self):
        self.assert_one("src/job/a.cpp", "int a = 1'000'000; void f() { exit(1); }  // it's\n", "silent")

    def test_build_that_links_upwards(self):
        self.assert_one("CMakeLists.txt", "duskwire_room(base)\nduskwire_room(job base study)\n", "CMakeLists.txt:2", "study")


if __name__ == "__main__":
    unittest.main()
