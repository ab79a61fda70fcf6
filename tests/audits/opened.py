"""Has a free CAD program, LibreCAD, open the DXF of a layout's sheets and print them.

usage: opened.py PROGRAM LAYOUT   (77: skipped, LibreCAD or poppler's pdftoppm is not there)

Every sheet comes out as a page with ink on it whose trimming marks are as far apart across and upward as the sheet is
wide and high, and with about as much ink as the program's own PDF of it.
"""

import os
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

for needed in ("librecad", "pdftoppm"):
    if not shutil.which(needed):
        print(f"skipped: no {needed}")
        sys.exit(77)

faults = []


def expect(good, what):
    if not good:
        faults.append(what)


def pages_of(pdf, resolution):
    """Each page's rows of pixels, dark ones true."""
    data = subprocess.run(["pdftoppm", "-gray", "-r", str(resolution), pdf], capture_output=True, check=True).stdout
    pages = []
    while data:
        head = re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", data)
        width, height = int(head[1]), int(head[2])
        pixels = data[head.end() : head.end() + width * height]
        data = data[head.end() + width * height :]
        pages.append([[grey < 128 for grey in pixels[y * width : (y + 1) * width]] for y in range(height)])
    return pages


def extent(page):
    """Width and height of what is dark, and how much of that is."""
    rows = [y for y, row in enumerate(page) if any(row)]
    columns = [x for x in range(len(page[0])) if any(row[x] for row in page)]
    if not rows:
        return 0, 0, 0
    width, height = columns[-1] - columns[0] + 1, rows[-1] - rows[0] + 1
    return width, height, sum(map(sum, page)) / (width * height)


with tempfile.TemporaryDirectory() as folder:
    program, layout = sys.argv[1:]
    drawn = Path(folder, "set")
    judged = subprocess.run([program, "draw", layout, "-o", f"{drawn}/"], capture_output=True, text=True)
    expect(judged.returncode in (0, 1), judged.stderr)
    sheets = sorted(drawn.glob("*.dxf"))
    own = pages_of(drawn / "set.pdf", 50)
    expect(len(sheets) == len(own) > 0, f"{len(sheets)} DXF, {len(own)} pages")
    # It reads and writes settings in the home folder, and needs no screen.
    apart = dict(os.environ, HOME=folder, XDG_RUNTIME_DIR=folder, QT_QPA_PLATFORM="offscreen")
    try:
        command = ["librecad", "dxf2pdf", "-a", "-m", *map(str, sheets)]
        subprocess.run(command, capture_output=True, env=apart, timeout=600, check=False)
    except subprocess.TimeoutExpired:
        faults.append("it does not come to an end")
    for sheet, page in zip(sheets, own):
        pdf = sheet.with_suffix(".pdf")
        if not pdf.exists():
            faults.append(f"{sheet.name}: not opened")
            continue
        printed = pages_of(pdf, 50)
        expect(len(printed) == 1, f"{sheet.name}: {len(printed)} pages")
        width, height, ink = extent(printed[0])
        wide, high, own_ink = extent(page)
        # A pixel either way.
        aspect, least, most = wide / high, (width - 2) / (height + 2), (width + 2) / max(1, height - 2)
        expect(least < aspect < most, f"{sheet.name}: {width} x {height} of a sheet of {wide} x {high}")
        # Its letters and pens are others.
        expect(ink > own_ink / 3, f"{sheet.name}: {ink:.4f} of it is ink, of our page {own_ink:.4f}")

for fault in faults:
    print(fault)
sys.exit(bool(faults))
