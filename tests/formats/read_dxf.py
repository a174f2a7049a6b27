#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""Reads a drawing with ezdxf, audits it and prints what it holds: units, layers, and each entity with its layer."""
import sys

import ezdxf
from ezdxf.lldxf.encoding import decode_dxf_unicode

drawing = ezdxf.readfile(sys.argv[1])
audit = drawing.audit()
print(f"version {drawing.dxfversion} units {drawing.header.get('$INSUNITS')} errors {len(audit.errors)} fixes {len(audit.fixes)}")
for layer in drawing.layers:
    print(f"layer {layer.dxf.name} colour {layer.dxf.color} line {layer.dxf.linetype}")
for entity in drawing.modelspace():
    kind, layer = entity.dxftype(), entity.dxf.layer
    if layer not in drawing.layers:
        print(f"no layer {layer}")
    if kind == "LINE":
        print(f"LINE {layer} {entity.dxf.start.x:.3f} {entity.dxf.start.y:.3f} {entity.dxf.end.x:.3f} {entity.dxf.end.y:.3f}")
    elif kind == "POLYLINE":
        points = " ".join(f"{v.dxf.location.x:.3f},{v.dxf.location.y:.3f}" for v in entity.vertices)
        print(f"POLYLINE {layer} {'closed' if entity.is_closed else 'open'} {points}")
    elif kind == "CIRCLE":
        print(f"CIRCLE {layer} {entity.dxf.center.x:.3f} {entity.dxf.center.y:.3f} {entity.dxf.radius:.3f}")
    elif kind == "TEXT":
        print(f"TEXT {layer} {entity.dxf.insert.x:.3f} {entity.dxf.insert.y:.3f} {decode_dxf_unicode(entity.dxf.text)}")
    elif kind == "INSERT":
        known = entity.dxf.name in drawing.blocks
        print(f"INSERT {layer} {entity.dxf.name} {'known' if known else 'UNKNOWN'} {entity.dxf.insert.x:.3f} {entity.dxf.insert.y:.3f}")
    else:
        print(f"OTHER {kind} {layer}")
