#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""Compares two files word by word: words that are numbers must agree within 1e-9 of the larger, others be the same.

Usage: tools/compare_numbers.py A B. Exit status 1 where they differ."""
import sys
from pathlib import Path

RELATIVE = 1e-9
# Volts this small are the rounding of zero: a conductor that only a leak of a microsiemens holds is known to no less.
ABSOLUTE_V = 1e-9


def number(word: str) -> float | None:
    try:
        return float(word)
    except ValueError:
        return None


def distance(a: float, b: float) -> float:
    """Relative difference, 0 where both are zero up to rounding; infinite where either is not finite."""
    gap = abs(a - b)
    if gap <= ABSOLUTE_V:
        return 0.0
    return gap / max(abs(a), abs(b)) if gap < float("inf") else float("inf")


def main() -> int:
    lines_a, lines_b = (Path(name).read_text(encoding="utf-8").splitlines() for name in sys.argv[1:3])
    if len(lines_a) != len(lines_b) or not lines_a:
        print(f"{len(lines_a)} lines against {len(lines_b)}")
        return 1
    worst, count, broken = 0.0, 0, 0
    for at, (line_a, line_b) in enumerate(zip(lines_a, lines_b), 1):
        words_a, words_b = line_a.split(), line_b.split()
        if len(words_a) != len(words_b):
            print(f"line {at}: {len(words_a)} words against {len(words_b)}")
            broken += 1
            continue
        for word_a, word_b in zip(words_a, words_b):
            a, b = number(word_a), number(word_b)
            if a is None or b is None:
                far = word_a != word_b
            else:
                gap = distance(a, b)
                count, worst, far = count + 1, max(worst, gap), not gap <= RELATIVE
            if far:
                print(f"line {at} ({' '.join(words_a[:2])}): {word_a} against {word_b}")
                broken += 1
    print(f"{len(lines_a)} lines, {count} numbers, worst relative difference {worst:.2g}, {broken} beyond {RELATIVE:g}")
    return 1 if broken else 0


if __name__ == "__main__":
    sys.exit(main())
