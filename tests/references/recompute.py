"""Solves a layout anew with SciPy and holds the program's results to it.

usage: recompute.py PROGRAM LAYOUT [VARIANT]   (77: skipped, SciPy or tomllib is not there)

Compared at the poses of all load cases on the reeving, and at the first, middle and last pose of every sweep: places
of trolley and bodies, extension, tensions at both ends of every leg, the trolley's and the unit's pull, what holds the
trolley, sheaves' forces, both supports, and the loads on all anchors.

Allowed: half the last of the ten digits the program prints, and what the program's own promise leaves open: forces
met to 1e-11 of the greatest and lengths to 1e-11 m, times the sensitivity of every unknown to every equation (the
inverse of the slopes at the solution, absolute values summed). A force is a sum of up to four unknowns' errors.
"""

import json
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

try:
    import numpy as np
    import scipy  # noqa: F401
    import tomllib  # noqa: F401
except ImportError as missing:
    print(f"skipped: {missing}")
    sys.exit(77)

from layout import GRAVITY, Layout, si
from rigging import Rigging
from variants import changed

PROMISED = 1e-11
SUMMED = 4


def half_digit(value):
    """Of the tenth significant digit."""
    return 0.5 * 10 ** (np.floor(np.log10(np.maximum(np.abs(value), 1e-300))) - 9)


class Comparison:
    def __init__(self):
        self.worst = {}  # quantity: (share of what is allowed, error, allowed, where)
        self.count = 0

    def hold(self, quantity, ours, theirs, open_, where):
        ours, theirs = np.atleast_1d(ours), np.atleast_1d(theirs)
        allowed = half_digit(theirs) + open_
        error = np.abs(ours - theirs)
        share = error / allowed
        k = int(np.argmax(np.where(np.isnan(share), np.inf, share)))
        self.count += len(ours)
        if not share[k] <= self.worst.get(quantity, (-1,))[0]:
            self.worst[quantity] = (share[k], error[k], allowed[k], where)

    def good(self):
        return self.count > 0 and all(share <= 1 for share, *_ in self.worst.values())


def reeved_cases(results):
    """Load cases that are one pose of a sweep and nothing else."""
    actions = ("at rest", "wind", "peak line tension", "returning")
    return [case for case in results["loads"]["cases"] if case["action"] in actions]


def poses_to_solve(results):
    """(sweep, pose): sorted, so that each starts from its neighbour's solution."""
    wanted = {(c["sweep"], c["pose"]) for c in reeved_cases(results)}
    for index, sweep in enumerate(results["reeving"]["sweeps"]):
        last, rest = len(sweep["poses"]["travel_m"]) - 1, sweep["rest_pose"]
        wanted |= {(index, p) for p in (0, rest, (rest + last) // 2, last)}
    return sorted(wanted)


def solve(rigging, results, sweep, pose, known):
    """From the last solution with as many wheels on the main line; where that leads astray, from the rest mark."""
    layout = rigging.layout
    name = sweep["name"]
    riders = layout.section("riders")
    carried = None if name.startswith("empty") else 0 if name.startswith("lightest") else 1
    rider = 0.0 if carried is None else GRAVITY * (si(riders["mass"][carried]) + si(riders["trolley_mass"]))
    temperature = si(layout.section("site")["coldest" if "cold" in name else "warmest"])
    held = results["reeving"]["peak_tension_N"] if sweep["running"] == "paying out" else None
    asked = rigging.pose(sweep["poses"]["travel_m"][pose], temperature, rider, sweep["wind_Pa"], held, sweep["friction"])
    if len(asked.loads) not in known:
        known[2] = rigging.rig.solve(*rigging.rig.with_rider(rigging.at_rest, asked))
    try:
        return rigging.rig.follow_to(known[len(asked.loads)], asked)
    except (ArithmeticError, np.linalg.LinAlgError):
        if len(asked.loads) > 1:
            raise
    return rigging.rig.follow_to(rigging.at_rest, asked)


def left_open(rig, solution):
    """How far the program's promise, and the error of the search here, let a place and a force be off, in m and N."""
    told = solution.told
    greatest = max(np.linalg.norm(told["start_support_N"]), np.linalg.norm(told["end_support_N"]))
    promised = np.full(len(solution.x), PROMISED * max(1.0, greatest / rig.scale))
    off = np.abs(solution.inverse) @ promised + solution.error
    forces = rig.kinds(solution.pose) == "force"
    return SUMMED * np.max(off[~forces]), SUMMED * rig.scale * np.max(off[forces])


def anchor_loads(rigging, told):
    """Force of the rig on each anchor: by what the layout says stands on it."""
    layout = rigging.layout
    loads = {name: np.zeros(3) for name in layout.anchors}
    main, unit = layout.section("main_line"), layout.section("brake_unit")
    loads[main["from"]] += told["start_support_N"]
    loads[main["to"]] += told["end_support_N"]
    loads[unit["on"]] += [0, 0, -GRAVITY * si(unit["mass"])]
    for line, hung in zip(layout.section("line"), told["lines"]):
        if line["to"] == "brake_unit":
            loads[unit["on"]] -= hung["arriving_N"][-1]
        elif line["to"] in loads:
            loads[line["to"]] -= hung["arriving_N"][-1]
        for passed, (force, _) in zip(line.get("route", []), hung["turns"]):
            sheave = layout.sheaves[passed["sheave"]]
            if sheave["on"] in loads:
                loads[sheave["on"]] += force
                if sheave.get("mount", "fixed") != "fixed":
                    loads[sheave["on"]] += [0, 0, -GRAVITY * si(sheave["mass"])]
    for support, hung in zip(rigging.supports, told["lines"][len(layout.section("line")):]):
        loads[support["from"]] += hung["leaving_N"][0]
        loads[support["to"]] -= hung["arriving_N"][-1]
        # What turns a block that must not turn, two wheels pass to the line, and the line as a pair of forces to its ends.
        _, moment = told["on_bodies"][rigging.rig.bodies.index(rigging.bodies[support["carries"]])]
        chord = layout.anchors[support["to"]] - layout.anchors[support["from"]]
        pair = np.cross(moment, chord) / (chord @ chord)
        loads[support["to"]] += pair
        loads[support["from"]] -= pair
    return loads


def compare(comparison, sweep, pose, told, open_m, open_N, where):
    theirs = {key: values[pose] for key, values in sweep["poses"].items()}
    comparison.hold("trolley", told["trolley_m"], theirs["trolley_m"], open_m, where)
    comparison.hold("extension", told["extension_m"], theirs["extension_m"], open_m, where)
    for body, at in zip(sweep["blocks"], told["centres_of_mass"]):
        comparison.hold("centre of mass", at, body["centre_of_mass_m"][pose], open_m, where)
    for key in ("pull_on_trolley_N", "start_support_N", "end_support_N", "hold_N"):
        # Upward the hold vanishes: ten digits of nothing say nothing.
        components = slice(0, 2) if key == "hold_N" else slice(0, 3)
        comparison.hold(key, told[key][components], theirs[key][components], open_N, where)
    comparison.hold("pull_on_unit_N", told["pull_on_unit_N"], theirs["pull_on_unit_N"], open_N, where)
    legs, turns = iter(sweep["legs"]), iter(sweep["turns"])
    for hung in told["lines"]:
        for leaving, arriving in zip(hung["leaving_N"], hung["arriving_N"]):
            leg = next(legs)
            comparison.hold("leg, first end", np.linalg.norm(leaving), leg["from_tension_N"][pose], open_N, where)
            comparison.hold("leg, second end", np.linalg.norm(arriving), leg["to_tension_N"][pose], open_N, where)
        for force, wrap in hung["turns"]:
            turn = next(turns)
            comparison.hold("sheave", force, turn["force_N"][pose], open_N, where)
            comparison.hold("wrap", wrap, turn["wrap_rad"][pose], open_m, where)


def judged(program, text, home):
    """What the program says of the layout, whose points file is at home."""
    with tempfile.TemporaryDirectory() as folder:
        for points in home.glob("*_points.csv"):
            shutil.copy(points, folder)
        path = Path(folder) / "layout.toml"
        path.write_text(text, encoding="utf-8")
        run = subprocess.run([program, "check", path, "--format", "json"], capture_output=True, text=True)
    if not run.stdout:
        sys.exit(run.stderr)
    return json.loads(run.stdout)


def main(program, path, variant=None):
    text = Path(path).read_text(encoding="utf-8")
    if variant is not None:
        text = changed(text, variant)
    home = Path(path).parent
    results = judged(program, text, home)
    if results["reeving"]["unsolved"] is not None:
        print(f"the program has not solved it: {results['reeving']['unsolved']}")
        return 1
    rigging, comparison = Rigging(Layout(text, home)), Comparison()
    known = {1: rigging.at_rest}
    for index, line in enumerate(rigging.at_rest.told["lines"]):
        comparison.hold("finished length", line["hanging_m"], results["reeving"]["finished_length_m"][index],
                        SUMMED * PROMISED, "at the rest mark")
    for index, pose in poses_to_solve(results):
        sweep = results["reeving"]["sweeps"][index]
        where = f"{sweep['name']}, travel {sweep['poses']['travel_m'][pose]} m"
        solution = solve(rigging, results, sweep, pose, known)
        known[len(solution.pose.loads)], told = solution, solution.told
        open_m, open_N = left_open(rigging.rig, solution)
        if sweep["tension_ratio"]:
            comparison.hold("tension ratio", solution.pose.ratios, sweep["tension_ratio"], SUMMED * PROMISED, where)
        compare(comparison, sweep, pose, told, open_m, open_N, where)
        loads = anchor_loads(rigging, told)
        for case in reeved_cases(results):
            if (case["sweep"], case["pose"]) == (index, pose):
                for anchor, theirs in zip(results["loads"]["inputs"]["anchors"], case["on_anchor_N"]):
                    comparison.hold("anchors", loads[anchor["id"]], theirs, open_N, f"{case['name']}, {anchor['id']}")
    told = rigging.rig.follow_to(rigging.at_rest, rigging.pose(travel := si(rigging.layout.section("brake_trolley")["travel"]),
                                 si(rigging.layout.section("site")["coldest"]), 0.0, (0, 0, 0), None)).told
    print(f"empty, cold, travel {travel} m: trolley at {told['trolley_m'][2]:.7f}, {told['extension_m']:.7f} m out, "
          f"{np.linalg.norm(told['pull_on_trolley_N']):.6f} N at the trolley; finished lengths "
          f"{[round(float(hung['hanging_m']), 8) for hung in rigging.at_rest.told['lines']]}")
    print(f"{comparison.count} numbers compared; worst of each, against what is allowed:")
    for quantity, (share, error, allowed, where) in comparison.worst.items():
        print(f"  {quantity:18} off by {error:.1e} of {allowed:.1e} {'' if share <= 1 else 'TOO MUCH '}({where})")
    return 0 if comparison.good() else 1


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
