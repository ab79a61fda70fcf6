"""Reads what the recomputation needs of a layout file, in SI units and the site frame."""

import csv
import tomllib

import numpy as np

GRAVITY = 9.80665  # m/s2, ISO 80000-3
UNITS = {"m": 1, "mm": 1e-3, "kg": 1, "kg/m": 1, "N": 1, "kN": 1e3, "MN": 1e6, "m/s": 1, "/K": 1, "deg": np.pi / 180}


def si(written):
    """A number as it stands, or with a unit; temperatures in kelvin."""
    if not isinstance(written, str):
        return float(written)
    number, unit = written.split(" ")
    return float(number) + 273.15 if unit == "C" else float(number) * UNITS[unit]


def vector(written):
    return np.array([si(each) for each in written])


def unit_vector(v):
    return v / np.linalg.norm(v)


class Frame:
    """Along, across and up from the main line's supports."""

    def __init__(self, start, end):
        self.origin = start
        chord = end - start
        self.span = float(np.hypot(chord[0], chord[1]))
        self.rise = float(chord[2])
        self.along = np.array([chord[0], chord[1], 0]) / self.span
        self.up = np.array([0.0, 0.0, 1.0])
        self.across = np.cross(self.up, self.along)

    def site(self, rig):
        return rig[0] * self.along + rig[1] * self.across + rig[2] * self.up

    def place(self, along, z_over_start=0.0):
        return self.origin + along * self.along + z_over_start * self.up


PLACES = ("position", "outlet", "base", "swivel_at", "chainage_zero")


def placed(value, points):
    """The same with the coordinates of a point in place of its name."""
    if isinstance(value, list):
        return [placed(each, points) for each in value]
    if not isinstance(value, dict):
        return value
    return {key: points[held] if key in PLACES and isinstance(held, str) else placed(held, points)
            for key, held in value.items()}


def points_of(toml, folder):
    """Easting, northing and elevation by name; only what the shipped layouts use of the format is read."""
    if "points" not in toml:
        return {}
    if (toml["points"]["order"], toml["points"]["unit"]) != ("pnezd", "m"):
        raise ValueError("this reads points files in the order pnezd, in metres")
    with open(folder / toml["points"]["file"], encoding="utf-8", newline="") as file:
        rows = csv.reader(line for line in file if not line.startswith("#"))
        return {row[0]: [float(row[2]), float(row[1]), float(row[3])] for row in rows if row}


class Layout:
    def __init__(self, text, folder):
        toml = tomllib.loads(text)
        self.toml = placed(toml, points_of(toml, folder))
        self.anchors = {a["id"]: vector(a["position"]) for a in self.toml["anchor"]}
        main = self.toml["main_line"]
        self.frame = Frame(self.anchors[main["from"]], self.anchors[main["to"]])
        self.sheaves = {s["id"]: s for s in self.toml["sheave"]}
        self.blocks = {b["id"]: b for b in self.toml.get("block", [])}

    def section(self, name):
        return self.toml[name]

    def retraction(self, extension):
        """Pull at the unit's outlet: straight between its points, the outer stretches continued."""
        points = [(si(e), si(t)) for e, t in self.toml["brake_unit"]["retraction"]]
        k = max(1, min(len(points) - 1, sum(extension > e for e, _ in points)))
        (e0, t0), (e1, t1) = points[k - 1], points[k]
        return t0 + (t1 - t0) * (extension - e0) / (e1 - e0)
