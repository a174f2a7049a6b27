# SPDX-License-Identifier: Apache-2.0
"""Waits until the page is served on a port of this computer, its engine with it. Run as a script it does so from inside
a machine without a network: served.py PORT SECONDS."""
import re
import socket
import sys
import time
import urllib.error
import urllib.request


class NotServed(Exception):
    pass


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def fetched(port: int, path: str) -> bytes:
    # No proxy: the address is this computer's own.
    with urllib.request.build_opener(urllib.request.ProxyHandler({})).open(f"http://127.0.0.1:{port}/{path}", timeout=5) as answer:
        return answer.read()


def engine_of(port: int, page: str) -> int:
    """Bytes of the engine, found the way a browser finds it: by what the page's scripts name."""
    known, ahead = set(), re.findall(r'(?:src|href)="\./([^"]+\.js)"', page)
    while ahead:
        script = ahead.pop()
        known.add(script)
        text = fetched(port, script).decode()
        engine = re.search(r"duskwire-[\w-]+\.wasm", text)
        if engine:
            return len(fetched(port, "assets/" + engine.group(0)))
        ahead += [f"assets/{name}" for name in re.findall(r"[\w.-]+-[\w-]{8}\.js", text) if f"assets/{name}" not in known]
    raise NotServed("no script of the page names the engine")


def until_served(port: int, process, seconds: float) -> str:
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        if process is not None and process.poll() is not None:
            raise NotServed(f"it ended with {process.returncode} before the page was served")
        try:
            page = fetched(port, "").decode()
            return f"the page is served, its engine of {engine_of(port, page) / 1e6:.1f} MB with it"
        except (urllib.error.URLError, ConnectionError, TimeoutError):
            time.sleep(0.5)
    raise NotServed(f"no page on port {port} within {seconds:.0f} s")


if __name__ == "__main__":
    print(until_served(int(sys.argv[1]), None, float(sys.argv[2])))
