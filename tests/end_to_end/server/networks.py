# SPDX-License-Identifier: Apache-2.0
"""Networks of our own, apart from the machine's: for servers that other computers reach, or that reach nobody."""
import ctypes
import os
import pathlib
import subprocess
import threading

CLONE_NEWNET = 0x40000000
LIBC = ctypes.CDLL(None, use_errno=True)


class Network:
    """A network without routes; its loopback is up. Ends with stop()."""

    def __init__(self):
        self.holder = subprocess.Popen(["unshare", "-n", "sh", "-c", "echo ready; exec sleep 600"], stdout=subprocess.PIPE)
        self.holder.stdout.readline()
        self.within = ("nsenter", "-t", str(self.holder.pid), "-n")
        self.run("ip", "link", "set", "lo", "up")

    def run(self, *command):
        return subprocess.run([*self.within, *command], check=True, capture_output=True, text=True).stdout

    def call(self, work):
        """What `work` returns, done in this network. Sockets that it opens stay in it."""
        outcome = {}

        def inside():
            handle = os.open(f"/proc/{self.holder.pid}/ns/net", os.O_RDONLY)
            try:
                if LIBC.setns(handle, CLONE_NEWNET) != 0:
                    raise OSError(ctypes.get_errno(), "setns")
                outcome["value"] = work()
            except BaseException as fault:  # the caller's thread raises it
                outcome["fault"] = fault
            finally:
                os.close(handle)

        thread = threading.Thread(target=inside)
        thread.start()
        thread.join()
        if "fault" in outcome:
            raise outcome["fault"]
        return outcome["value"]

    def unroutable(self):
        """How many packets had nowhere to go: what a program tried to send out (RFC 4293, ipSystemStatsOutNoRoutes)."""
        def read():
            names, values = [line.split()[1:] for line in pathlib.Path("/proc/thread-self/net/snmp").read_text().splitlines()
                             if line.startswith("Ip:")]
            return int(dict(zip(names, values))["OutNoRoutes"])
        return self.call(read)

    def stop(self):
        self.holder.kill()
        self.holder.wait()
        self.holder.stdout.close()


def joined(first, second):
    """Two networks with a wire between them: 10.77.0.1 and 10.77.0.2."""
    subprocess.run([*first.within, "ip", "link", "add", "wire", "type", "veth", "peer", "name", "wire", "netns",
                    str(second.holder.pid)], check=True)
    for network, address in ((first, "10.77.0.1/24"), (second, "10.77.0.2/24")):
        network.run("ip", "addr", "add", address, "dev", "wire")
        network.run("ip", "link", "set", "wire", "up")
