# SPDX-License-Identifier: Apache-2.0
"""Brings the loopback device up in a network of its own, where the machine has no tool for that."""
import fcntl
import socket
import struct

SET_FLAGS, IS_UP = 0x8914, 1  # SIOCSIFFLAGS and IFF_UP of linux/sockios.h and linux/if.h

with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as device:
    fcntl.ioctl(device, SET_FLAGS, struct.pack("16sh14x", b"lo", IS_UP))
