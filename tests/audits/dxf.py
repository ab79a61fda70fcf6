"""Holds the DXF of a layout's set to what ezdxf finds in it, and to the same sheets as SVG.

usage: dxf.py PROGRAM LAYOUT   (77: skipped, ezdxf is not there)

The audit finds no error and has nothing to repair; the unit is the millimetre; every sheet's file, drawn by the program
a second time in another format, has as many lines and areas, the same texts in the same places, and ends where the
other's lines end.
"""

import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ElementTree
from pathlib import Path

try:
    import ezdxf
    from ezdxf import recover
except ImportError as missing:
    print(f"skipped: {missing}")
    sys.exit(77)

SVG = "{http://www.w3.org/2000/svg}"
HALF_DIGITS = 0.5e-4 + 0.5e-6  # mm, of the two formats
faults = []


def expect(good, what):
    if not good:
        faults.append(what)


def svg_of(path):
    """Points of the outlined paths, and (text, x, y) of the texts, y upward."""
    root = ElementTree.parse(path).getroot()
    height = float(root.get("viewBox").split()[3])
    outlined, filled, texts = [], 0, []
    for element in root.iter():
        if element.tag == SVG + "path":
            points = [(float(x), height - float(y)) for x, y in re.findall(r"([-0-9.]+),([-0-9.]+)", element.get("d"))]
            filled += element.get("fill") != "none"
            if element.get("stroke") != "none":
                outlined.append(points)
        if element.tag == SVG + "text":
            texts.append((element.text, float(element.get("x")), height - float(element.get("y"))))
    return outlined, filled, texts


def near(a, b):
    return all(abs(p - q) <= HALF_DIGITS for p, q in zip(a, b))


def hold(path):
    # This reader alone turns \U+XXXX into characters; the strict one has the whole set below.
    document, auditor = recover.readfile(path)
    expect(not auditor.errors and not auditor.fixes, f"{path.name}: {auditor.errors + auditor.fixes}")
    expect(document.dxfversion == "AC1015" and document.units == ezdxf.units.MM, f"{path.name}: release or unit")
    model = document.modelspace()
    outlined, filled, texts = svg_of(path.with_suffix(".svg"))
    lines = [list(line.get_points("xy")) for line in model.query("LWPOLYLINE")]
    expect(len(lines) == len(outlined), f"{path.name}: {len(lines)} lines, {len(outlined)} in SVG")
    for ours, theirs in zip(lines, outlined):
        expect(len(ours) == len(theirs) and all(map(near, ours, theirs)), f"{path.name}: {ours} is {theirs} in SVG")
    hatches = model.query("HATCH")
    expect(len(hatches) == filled, f"{path.name}: {len(hatches)} areas, {filled} in SVG")
    found = [(text.dxf.text, text.dxf.insert.x, text.dxf.insert.y) for text in model.query("TEXT")]
    expect(len(found) == len(texts), f"{path.name}: {len(found)} texts, {len(texts)} in SVG")
    for ours, theirs in zip(found, texts):
        expect(ours[0] == theirs[0] and near(ours[1:], theirs[1:]), f"{path.name}: {ours} is {theirs} in SVG")
    layers = {layer.dxf.name for layer in document.layers}
    expect(all(entity.dxf.layer in layers for entity in model), f"{path.name}: a layer that is in no table")
    return len(model)


with tempfile.TemporaryDirectory() as folder:
    program, layout = sys.argv[1:]
    judged = subprocess.run([program, "draw", layout, "-o", f"{folder}/set/"], capture_output=True, text=True)
    expect(judged.returncode in (0, 1), judged.stderr)
    sheets = sorted(Path(folder, "set").glob("*.dxf"))
    expect(sheets, "no sheet was drawn")
    entities = sum(map(hold, sheets))
    whole = Path(folder, "whole.dxf")
    subprocess.run([program, "draw", layout, "-o", whole], capture_output=True, check=False)
    document = ezdxf.readfile(whole)
    audit = document.audit()
    expect(not audit.errors and not audit.fixes, f"the whole set: {audit.errors + audit.fixes}")
    expect(len(document.modelspace()) == entities, "the whole set is not its sheets")
    print(f"{len(sheets)} sheets, {entities} entities")

print("\n".join(faults[:20]))
sys.exit(1 if faults else 0)
