#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""Reads a workbook with openpyxl and prints it: a line "sheet NAME", then for each cell its place, type and value."""
import sys

import openpyxl

book = openpyxl.load_workbook(sys.argv[1])
print(f"title {book.properties.title}")
print(f"created {book.properties.created:%Y-%m-%dT%H:%M:%S}")
for sheet in book.worksheets:
    print(f"sheet {sheet.title} frozen {sheet.freeze_panes} filter {sheet.auto_filter.ref}")
    for row in sheet.iter_rows():
        for cell in row:
            if cell.value is not None:
                print(f"{cell.coordinate} {cell.data_type} {cell.value!r} {cell.number_format}")
