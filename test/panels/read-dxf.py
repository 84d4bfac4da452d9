"""Reads DXF texts (a JSON list on standard input) as another program does, audits them, and prints what stands in each."""
import io
import json
import sys

import ezdxf
from ezdxf.tools.text import plain_text


def entity(e):
    kind, row = e.dxftype(), {"kind": e.dxftype(), "layer": e.dxf.layer}
    if kind == "LWPOLYLINE":
        row |= {"closed": e.closed, "points": [list(p) for p in e.get_points("xyb")]}
    elif kind == "CIRCLE":
        row |= {"centre": [e.dxf.center.x, e.dxf.center.y], "radius": e.dxf.radius}
    elif kind == "LINE":
        row |= {"from": [e.dxf.start.x, e.dxf.start.y], "to": [e.dxf.end.x, e.dxf.end.y]}
    elif kind == "TEXT":
        row |= {
            "at": [e.dxf.insert.x, e.dxf.insert.y],
            "text": plain_text(e.dxf.text),
            "height": e.dxf.height,
            "turnDeg": e.dxf.rotation,
        }
    return row


def told(text):
    document = ezdxf.read(io.StringIO(text))
    auditor = document.audit()
    return {
        "errors": [str(e.message) for e in auditor.errors],
        "fixes": [str(e.message) for e in auditor.fixes],
        "insunits": document.header["$INSUNITS"],
        "entities": [entity(e) for e in document.modelspace()],
    }


print(json.dumps([told(text) for text in json.loads(sys.stdin.buffer.read().decode("utf-8"))]))
