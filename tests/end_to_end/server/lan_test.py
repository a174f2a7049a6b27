#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""Phones on the local network, on a real socket: pairing by the code on the screen, guessing, replay, two at once, and
one that is forgotten in the middle of a request. The network here is a second loopback address of this computer."""
import ctypes
import http.client
import json
import pathlib
import re
import socket
import stat
import subprocess
import tempfile
import threading
import unittest

from local_server import PROGRAM, LocalServer, job, read_answer

DOOR = "127.0.0.2"


class Phone:
    """A browser on the network: keeps its cookie, sends Origin where browsers do."""

    def __init__(self, server):
        self.server, self.cookie, self.host = server, "", f"{DOOR}:{server.port}"

    def ask(self, method, path, body=None, fields=None):
        link = http.client.HTTPConnection(DOOR, self.server.port, timeout=20)
        sent = {"Cookie": self.cookie} if self.cookie else {}
        if method != "GET":
            sent["Origin"] = f"http://{self.host}"
        if body is not None:
            body = json.dumps(body)
            sent["Content-Type"] = "application/json"
        try:
            link.request(method, path, body, {**sent, **(fields or {})})
            answer = link.getresponse()
            content = answer.read()
        finally:
            link.close()
        if given := answer.getheader("Set-Cookie"):
            self.cookie = given.split(";")[0]
        return answer.status, json.loads(content) if content else None

    def pair(self, code, name="Phone"):
        return self.ask("POST", "/api/pairing", {"code": code, "name": name})[0]


def read_code_of(lines):
    """What a reader of QR codes, by other hands, sees in the terminal's text."""
    rows = []
    for line in lines:
        rows.append([character in "█▀" for character in line])
        rows.append([character in "█▄" for character in line])
    width, scale = max(len(row) for row in rows), 6
    picture = bytes(255 if column < len(row) and row[column] else 0
                    for row in rows for _ in range(scale) for column in range(width) for _ in range(scale))
    zbar = ctypes.CDLL("libzbar.so.0")
    for name in ("zbar_image_create", "zbar_image_scanner_create", "zbar_image_first_symbol"):
        getattr(zbar, name).restype = ctypes.c_void_p
    zbar.zbar_symbol_get_data.restype = ctypes.c_char_p
    image, scanner = ctypes.c_void_p(zbar.zbar_image_create()), ctypes.c_void_p(zbar.zbar_image_scanner_create())
    zbar.zbar_image_set_format(image, ctypes.c_ulong(int.from_bytes(b"Y800", "little")))
    zbar.zbar_image_set_size(image, width * scale, len(rows) * scale)
    zbar.zbar_image_set_data(image, picture, ctypes.c_ulong(len(picture)), None)
    zbar.zbar_scan_image(scanner, image)
    symbol = zbar.zbar_image_first_symbol(image)
    return zbar.zbar_symbol_get_data(ctypes.c_void_p(symbol)).decode() if symbol else None


class Lan(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.workspace = pathlib.Path(folder.name) / "gardens.duskwire"
        self.server = self.start()

    def start(self, *more):
        server = LocalServer(self.workspace, "--lan", "--address", DOOR, *more)
        self.addCleanup(server.stop)
        self.fingerprint, self.code_lines = None, []
        while line := server.process.stdout.readline():
            if "fingerprint" in line:
                self.fingerprint = line.split(":")[1].strip()
            elif re.match(r"^[█▀▄ ]{20,}$", line):
                self.code_lines.append(line.rstrip("\n"))
            elif found := re.search(r"The code  (\d{4} \d{4})  is good", line):
                self.code = found[1]
                break
        return server

    def new_code(self):
        self.code = self.server.next_line(r"The code  (\d{4} \d{4})  is good")[1]
        return self.code

    def devices(self, *more):
        return subprocess.run([PROGRAM, "devices", self.workspace, *more], capture_output=True, text=True, timeout=20)

    def test_a_phone_is_paired_works_is_listed_and_is_forgotten_while_the_server_runs(self):
        phone = Phone(self.server)
        self.assertEqual(phone.ask("GET", "/api/jobs")[0], 401)
        self.assertEqual(phone.ask("GET", "/api/pairing")[1], {
            "server": "duskwire", "open": True, "fingerprint": self.fingerprint.replace(" ", "")})
        self.assertEqual(phone.pair(self.code, "Phone of the crew"), 201)
        self.assertEqual(phone.ask("POST", "/api/jobs", {"save_id": "s", "document": job("garden")})[0], 201)
        listed = self.devices()
        self.assertEqual(listed.returncode, 0)
        name = re.search(r"(phone-[0-9a-f]{8})  +Phone of the crew", listed.stdout)[1]
        secret = phone.cookie.split(".", 1)[1]
        beside = self.workspace.with_name("gardens.duskwire-devices")
        self.assertEqual(stat.S_IMODE(beside.stat().st_mode), 0o600)
        for path in filter(pathlib.Path.is_file, self.workspace.parent.iterdir()):
            self.assertNotIn(secret.encode(), path.read_bytes(), "secrets are kept hashed")
        self.assertEqual(self.devices("--forget", "phone-none").returncode, 1)
        self.assertEqual(self.devices("--forget", name).returncode, 0)
        self.assertEqual(phone.ask("GET", "/api/jobs")[0], 401)
        self.assertIn("No phone is paired", self.devices().stdout)

    def test_the_code_in_squares_holds_the_address_and_the_fingerprint(self):
        read = read_code_of(self.code_lines)
        self.assertEqual(read, f"http://{DOOR}:{self.server.port}/#server={self.fingerprint.replace(' ', '')}")

    def test_a_paired_phone_is_known_at_the_next_start_and_the_door_is_not(self):
        phone = Phone(self.server)
        phone.pair(self.code)
        self.server.stop()
        with LocalServerOnce(self.workspace) as shut:
            with self.assertRaises(OSError):
                Phone(shut).ask("GET", "/api/pairing")
        self.server = self.start("--port", str(self.server.port))
        again = Phone(self.server)
        again.cookie = phone.cookie
        self.assertEqual(again.ask("GET", "/api/jobs")[0], 200)

    def test_a_code_that_was_used_is_used_up(self):
        first, second = Phone(self.server), Phone(self.server)
        code = self.code
        self.assertEqual(first.pair(code), 201)
        self.assertEqual(second.pair(code), 401)
        self.assertEqual(second.ask("GET", "/api/jobs")[0], 401)
        self.assertEqual(second.pair(self.new_code()), 201)
        self.assertNotEqual(first.cookie, second.cookie)

    def test_of_two_phones_at_once_one_gets_in(self):
        for _ in range(3):
            code, phones, statuses = self.code, [Phone(self.server) for _ in range(5)], []
            start = threading.Barrier(len(phones))

            def pair(phone):
                start.wait()
                statuses.append(phone.pair(code))

            threads = [threading.Thread(target=pair, args=(phone,)) for phone in phones]
            for thread in threads:
                thread.start()
            for thread in threads:
                thread.join()
            self.assertEqual(sorted(statuses), [201] + [401] * 4)
            self.new_code()

    def test_five_wrong_tries_make_a_new_code_and_twenty_end_pairing(self):
        paired, guesser, seen = Phone(self.server), Phone(self.server), [self.code]
        self.assertEqual(paired.pair(self.code), 201)
        seen.append(self.new_code())
        for number in range(19):
            wrong = "00000000" if seen[-1] != "0000 0000" else "11111111"
            self.assertEqual(guesser.pair(wrong), 401, number)
            if number % 5 == 4:
                seen.append(self.new_code())
                self.assertNotIn(seen[-1], seen[:-1])
        self.assertEqual(guesser.pair(seen[-2]), 403, "the twentieth")
        self.assertEqual(guesser.pair(seen[-1]), 403, "the right one comes too late")
        self.server.next_line("TOO MANY WRONG CODES")
        self.assertEqual(paired.ask("GET", "/api/jobs")[0], 200)

    def test_a_phone_forgotten_in_the_middle_of_a_request_stores_nothing(self):
        phone = Phone(self.server)
        phone.pair(self.code)
        body = json.dumps({"save_id": "s", "document": job("late")}).encode()
        head = (f"POST /api/jobs HTTP/1.1\r\nHost: {phone.host}\r\nOrigin: http://{phone.host}\r\nCookie: {phone.cookie}\r\n"
                f"Content-Type: application/json\r\nContent-Length: {len(body)}\r\nExpect: 100-continue\r\n\r\n").encode()
        with socket.create_connection((DOOR, self.server.port), 20) as link:
            link.sendall(head)
            self.assertTrue(link.recv(100).startswith(b"HTTP/1.1 100 "), "it was let in until here")
            link.sendall(body[:20])
            self.assertEqual(self.devices("--forget", phone.cookie.split("=")[1].split(".")[0]).returncode, 0)
            link.sendall(body[20:])
            self.assertIn(b"HTTP/1.1 401 ", read_answer(link))
        self.assertEqual(self.server.ask("GET", "/api/jobs")[2]["jobs"], [])

    def test_the_door_to_the_network_takes_no_secret_of_the_desk_and_no_other_page(self):
        phone = Phone(self.server)
        self.assertEqual(phone.ask("GET", "/api/jobs", fields={"Authorization": f"Bearer {self.server.token}"})[0], 401)
        self.assertEqual(phone.ask("POST", "/api/session", {"token": self.server.token})[0], 403)
        self.assertEqual(phone.ask("GET", "/api/pairing", fields={"Host": f"127.0.0.1:{self.server.port}"})[0], 421)
        phone.pair(self.code)
        for fields in ({"Origin": "http://evil.test"}, {"Origin": "null"}, {"Origin": f"http://{DOOR}:1"},
                       {"Sec-Fetch-Site": "cross-site"}):
            self.assertEqual(phone.ask("POST", "/api/jobs", {"save_id": "s", "document": job("x")}, fields)[0], 403)
        self.assertEqual(self.server.ask("GET", "/api/jobs", fields={"Authorization": "", "Cookie": phone.cookie})[0], 401,
                         "a phone's key is for the network alone")

    def test_what_cannot_be_opened_is_said(self):
        for more, said in ((["--lan", "--address", "8.8.8.8"], "private IPv4 address"),
                           (["--lan", "--address", "10.255.255.1"], "this computer has no such address"),
                           (["--address", DOOR], "needs --lan")):
            ended = subprocess.run([PROGRAM, "serve", "--port", "0", "--workspace", self.workspace.with_name("other"), *more],
                                   capture_output=True, text=True, timeout=20)
            self.assertEqual(ended.returncode, 2)
            self.assertIn(said, ended.stderr)


class LocalServerOnce(LocalServer):
    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.stop()


if __name__ == "__main__":
    unittest.main()
