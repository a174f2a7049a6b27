# SPDX-License-Identifier: Apache-2.0
"""What `cmake --install` makes: a folder that can be moved, with a program that finds its page and documents whose links
hold. The page is taken where it has been built; otherwise a stand-in is put where it belongs."""
import http.client
import re
import subprocess
import tempfile
import unittest
from pathlib import Path

PROJECT = Path(__file__).resolve().parents[2]
BUILD = PROJECT / "build" / "release"
LINK = re.compile(r"\]\(([^)#]+)")


class Installed(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.holder = tempfile.TemporaryDirectory()
        first = Path(cls.holder.name) / "first"
        whole = (PROJECT / "web" / "dist" / "index.html").exists()
        done = subprocess.run(["cmake", "--install", BUILD, "--prefix", first, *([] if whole else ["--component", "program"])],
                              capture_output=True, text=True, check=False)
        if done.returncode != 0:
            raise AssertionError(done.stderr)
        cls.folder = first.rename(Path(cls.holder.name) / "moved")
        cls.page = cls.folder / "share" / "duskwire" / "page" / "index.html"
        if not whole:
            cls.page.parent.mkdir()
            cls.page.write_text("<!doctype html><title>a page</title>", encoding="utf-8")

    @classmethod
    def tearDownClass(cls):
        cls.holder.cleanup()

    def test_the_program_serves_the_page_beside_it(self):
        workspace = Path(self.holder.name) / "gardens.duskwire"
        server = subprocess.Popen([self.folder / "bin" / "duskwire", "serve", "--port", "0", "--workspace", workspace],
                                  cwd=self.holder.name, stdout=subprocess.PIPE, text=True)
        try:
            port = int(re.search(r"127\.0\.0\.1:(\d+)", server.stdout.readline()).group(1))
            connection = http.client.HTTPConnection("127.0.0.1", port, timeout=20)
            connection.request("GET", "/")
            self.assertEqual(connection.getresponse().read(), self.page.read_bytes())
            connection.close()
        finally:
            server.terminate()
            server.wait()
            server.stdout.close()

    def test_links_between_the_documents_hold(self):
        documents = self.folder / "share" / "doc" / "duskwire"
        self.hold(documents, [documents / "README.md", *(documents / "docs").glob("*.md")])
        # Those on how things are reckoned lead to sources and tests as well, which are in the project alone.
        self.hold(PROJECT, (PROJECT / "docs").rglob("*.md"))

    def hold(self, root, pages):
        seen = 0
        for page in pages:
            for target in LINK.findall(page.read_text(encoding="utf-8")):
                if "://" not in target:
                    seen += 1
                    with self.subTest(page=page.relative_to(root), link=target):
                        self.assertTrue((page.parent / target).exists())
        self.assertGreater(seen, 30)

    def test_data_and_licence_come_along(self):
        for name in ("share/duskwire/catalogue", "share/duskwire/rulesets", "share/doc/duskwire/LICENSE"):
            self.assertTrue((self.folder / name).exists(), name)


if __name__ == "__main__":
    unittest.main()
