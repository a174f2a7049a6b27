# SPDX-License-Identifier: Apache-2.0
"""Grey pictures as rows of bytes, with nothing but Python's own library: PGM as poppler writes it, PNG as it is kept and
looked at, and how far two pictures are apart."""
import struct
import zlib
from dataclasses import dataclass
from pathlib import Path

LEVELS = 16  # of grey that a kept picture has: four bits
PAPER = 255


@dataclass
class Grey:
    width: int
    height: int
    rows: list[bytearray]

    @staticmethod
    def blank(width: int, height: int) -> "Grey":
        return Grey(width, height, [bytearray([PAPER]) * width for _ in range(height)])

    def paste(self, other: "Grey", x: int, y: int) -> None:
        for i, row in enumerate(other.rows):
            self.rows[y + i][x:x + other.width] = row


def read_pgm(path: Path) -> Grey:
    kind, size, most, pixels = path.read_bytes().split(b"\n", 3)
    if kind != b"P5" or most != b"255":
        raise ValueError(f"{path}: a grey PGM of 8 bits was expected")
    width, height = (int(part) for part in size.split())
    return Grey(width, height, [bytearray(pixels[y * width:(y + 1) * width]) for y in range(height)])


def _chunk(kind: bytes, body: bytes) -> bytes:
    return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))


def _png(width: int, height: int, bits: int, colour: int, rows: list[bytes]) -> bytes:
    head = struct.pack(">IIBBBBB", width, height, bits, colour, 0, 0, 0)
    body = zlib.compress(b"".join(b"\0" + row for row in rows), 9)
    return b"\x89PNG\r\n\x1a\n" + _chunk(b"IHDR", head) + _chunk(b"IDAT", body) + _chunk(b"IEND", b"")


def write_png(path: Path, picture: Grey) -> None:
    """Four bits an element; no wider picture than an even number of them is asked for."""
    rows = [bytes((row[x] // LEVELS) << 4 | row[x + 1] // LEVELS for x in range(0, picture.width, 2))
            for row in picture.rows]
    path.write_bytes(_png(picture.width, picture.height, 4, 0, rows))


def read_png(path: Path) -> Grey:
    """Only what write_png has written."""
    data = path.read_bytes()
    width, height, bits, colour = struct.unpack(">IIBB", data[16:26])
    if (bits, colour) != (4, 0):
        raise ValueError(f"{path}: grey of four bits was expected")
    body, at = b"", 8
    while at < len(data):
        length, kind = struct.unpack(">I4s", data[at:at + 8])
        body += data[at + 8:at + 8 + length] if kind == b"IDAT" else b""
        at += 12 + length
    raw, stride = zlib.decompress(body), 1 + width // 2
    whole = PAPER // (LEVELS - 1)
    rows = [bytearray(level * whole for byte in raw[y * stride + 1:(y + 1) * stride] for level in (byte >> 4, byte & 15))
            for y in range(height)]
    return Grey(width, height, rows)


def cells_apart(one: Grey, other: Grey, cell: int, tolerance: float) -> list[tuple[int, int]]:
    """The squares of `cell` elements whose mean grey differs by more than `tolerance` of 255: their top left corners."""
    apart = []
    for y in range(0, one.height, cell):
        for x in range(0, one.width, cell):
            difference = count = 0
            for a, b in zip(one.rows[y:y + cell], other.rows[y:y + cell]):
                difference += sum(a[x:x + cell]) - sum(b[x:x + cell])
                count += len(a[x:x + cell])
            if abs(difference) > tolerance * count:
                apart.append((x, y))
    return apart


def write_difference(path: Path, kept: Grey, made: Grey, apart: list[tuple[int, int]], cell: int) -> None:
    """What is gone is blue, what is new is red, and each square that is apart has a yellow ground."""
    rows = []
    marked = {(x // cell, y // cell) for x, y in apart}
    for y in range(max(kept.height, made.height)):
        row = bytearray()
        for x in range(max(kept.width, made.width)):
            old = kept.rows[y][x] if y < kept.height and x < kept.width else PAPER
            new = made.rows[y][x] if y < made.height and x < made.width else PAPER
            blue = min(new, 120) if (x // cell, y // cell) in marked else new
            row += bytes((old, min(old, new), blue))
        rows.append(bytes(row))
    path.write_bytes(_png(len(rows[0]) // 3, len(rows), 8, 2, rows))
