"""From a layout's words to bodies, lines and poses of the recomputation."""

import numpy as np
from scipy.optimize import root

from layout import GRAVITY, si, unit_vector, vector
from statics import Body, Line, Pose, Rig, Sheave, follow

STEEL = 12e-6  # per K, the stated default


def bare_length(chord, weight, compliance, tension, tension_at):
    """Unstretched length of a cable hung over a chord (in its plane) whose tension is known at one of its ends."""

    def misses(x):
        reach, last = follow(x[:2] * tension, np.array([0, -weight]), x[2] * span, compliance)
        measured = {"start": np.linalg.norm(x[:2]), "end": np.linalg.norm(last) / tension, "horizontal": x[0]}
        return [*((reach - chord) / span), measured[tension_at] - 1]

    span = np.linalg.norm(chord)
    x = root(misses, [*(chord / span), 1.0], options={"xtol": 1e-14}).x
    for _ in range(3):
        slopes = np.array([(np.subtract(misses(x + h), misses(x - h))) / 2e-6 for h in 1e-6 * np.eye(3)]).T
        x = x - np.linalg.solve(slopes, misses(x))
    return x[2] * span


class Rigging:
    def __init__(self, layout):
        self.layout, self.frame = layout, layout.frame
        main, unit, trolley = (layout.section(name) for name in ("main_line", "brake_unit", "brake_trolley"))
        self.measured_K = si(main["at_temperature"])
        self.main = self.cable(main, np.array([self.frame.span, self.frame.rise]))
        self.rest, self.trolley_weight = si(trolley["rest"]), GRAVITY * si(trolley["mass"])
        self.bodies = self.make_bodies()
        self.ground = Body(np.zeros(3))
        lines = [self.make_line(line) for line in layout.section("line")]
        braking = [line["to"] for line in layout.section("line")].index("brake_unit")
        self.supports = layout.toml.get("support_line", [])
        lines += [self.make_support(support) for support in self.supports]
        everything = [*self.bodies.values(), self.ground]
        self.rig = Rig(self.frame, everything, lines, braking, self.frame.site(vector(trolley["attachment"])),
                       si(unit["rest_extension"]), layout.retraction)
        self.settle()

    def cable(self, given, chord):
        """(unstretched, weight per metre, compliance) as measured."""
        weight, compliance = GRAVITY * si(given["mass"]), 1 / si(given["ea"])
        length = bare_length(chord, weight, compliance, si(given["tension"]), given.get("tension_at", "end"))
        return length, weight, compliance

    @staticmethod
    def warmed(cable, expansion, kelvin):
        length, weight, compliance = cable
        return length * (1 + expansion * kelvin), weight / (1 + expansion * kelvin), compliance

    def make_bodies(self):
        bodies = {}
        carried = {s["carries"] for s in self.layout.toml.get("support_line", [])}
        for name, block in self.layout.blocks.items():
            own = self.frame.place(si(block["rest"]), self.drawn_height(name))
            offset = vector(block.get("centre_of_mass", ["0 m"] * 3))
            bodies[name] = Body(own, 3 if name in carried else 6, GRAVITY * si(block["mass"]), own + self.frame.site(offset))
        for name, sheave in self.layout.sheaves.items():
            if sheave.get("mount", "fixed") == "fixed":
                continue
            anchor = self.layout.anchors[sheave["on"]]
            weight, axis = GRAVITY * si(sheave["mass"]), None
            if sheave["mount"] == "free":
                freedoms, own = "ball", anchor
            else:
                freedoms, own = "hinge", vector(sheave["swivel_at"]) if "swivel_at" in sheave else anchor
                axis = unit_vector(vector(sheave["swivel_axis"]))
            centre = self.mounted_centre(sheave)
            # Of a free sheave "as drawn" is the program's picture: only one at the centre is the same for everyone.
            bodies[name] = Body(own, freedoms, weight, centre + self.frame.site(vector(sheave.get("centre_of_mass", [0, 0, 0]))), axis)
        return bodies

    def drawn_height(self, block):
        """A rough one, over the start support: a sheave on the ground is as high as its block."""
        fixed = [s for s in self.layout.sheaves.values() if "position" in s]
        return vector(fixed[0]["position"])[2] - self.frame.origin[2] + 0.2

    def mounted_centre(self, sheave):
        """As drawn; of a free one a link downstream of its anchor, level, which is a rough start and no more."""
        if sheave.get("mount") == "free":
            return self.layout.anchors[sheave["on"]] + si(sheave["link"]) * self.frame.along
        return vector(sheave["position"])

    def make_sheave(self, passed):
        given = self.layout.sheaves[passed["sheave"]]
        sense = 1 if passed["turning"] == "anticlockwise" else -1
        axle, radius = vector(given["axle"]), 0.5 * si(given["pitch_diameter"])
        on = given["on"]
        if on in self.layout.blocks:
            body = self.bodies[on]
            return Sheave(body, body.own + self.frame.site(vector(given["offset"])), axle, radius, sense, *self.friction(given))
        body = self.bodies.get(passed["sheave"], self.ground)
        if given.get("mount") == "free":  # square to its link
            axle = axle - (axle @ self.frame.along) * self.frame.along
        return Sheave(body, self.mounted_centre(given), axle, radius, sense, *self.friction(given))

    @staticmethod
    def friction(given):
        return si(given.get("friction", 1)), si(given["friction_wrap"]) if "friction_wrap" in given else None

    def make_end(self, line, side):
        name, offset = line[side], vector(line.get(f"{side}_offset", [0, 0, 0]))
        if name == "brake_trolley":
            return None, None
        if name == "brake_unit":
            return vector(self.layout.section("brake_unit")["outlet"]), self.ground
        if name in self.layout.blocks:
            return self.bodies[name].own + self.frame.site(offset), self.bodies[name]
        return self.layout.anchors[name], self.ground

    def make_line(self, line):
        (first, first_body), (last, last_body) = (self.make_end(line, side) for side in ("from", "to"))
        sheaves = [self.make_sheave(passed) for passed in line.get("route", [])]
        unit = line["to"] == "brake_unit"
        closing = "unit"
        if not unit:  # the block it runs over, or ends on, stands at its rest at the rest mark
            name = next(b for b in self.layout.blocks if self.bodies[b] in [s.body for s in sheaves])
            closing = (self.bodies[name], si(self.layout.blocks[name]["rest"]))
        guess = self.layout.retraction(0) / (1 if unit else max(1, 1 + sum(s.body is not self.ground for s in sheaves)))
        return Line([first, last], [first_body, last_body], sheaves, GRAVITY * si(line["mass"]), si(line["diameter"]),
                    1 / si(line["ea"]) if "ea" in line else 0.0, closing, guess)

    def make_support(self, support):
        body = self.bodies[support["carries"]]
        wheel = Sheave(body, body.own + self.frame.site(vector(support["wheel"])), None, 0.0, 1)
        ends = [self.layout.anchors[support["from"]], self.layout.anchors[support["to"]]]
        return Line(ends, [self.ground] * 2, [wheel], GRAVITY * si(support["mass"]), si(support["diameter"]),
                    1 / si(support["ea"]), "length", si(support["tension"]))

    def lengths_at(self, temperature_K):
        """Of every line that is neither the braking line nor settled at the rest mark: the support lines."""
        lengths = [None] * len(self.layout.section("line"))
        for support in self.supports:
            chord = self.layout.anchors[support["to"]] - self.layout.anchors[support["from"]]
            cable = self.cable(support, np.array([np.hypot(*chord[:2]), chord[2]]))
            warmer = temperature_K - si(support["at_temperature"])
            lengths.append(self.warmed(cable, si(support.get("expansion", STEEL)), warmer)[0])
        return lengths

    def settle(self):
        """The lines' lengths, from the empty trolley at its mark on the lines as measured."""
        pose = Pose(self.main, [(self.rest, self.trolley_weight)], unstretched=self.lengths_at(self.measured_K),
                    at_rest_mark=True)
        self.at_rest = self.rig.solve(pose, self.rig.start(pose))
        self.settled = [hung["unstretched_m"] for hung in self.at_rest.told["lines"]]
        self.at_rest.pose = Pose(pose.cable, pose.loads, unstretched=self.settled, ratios=self.ratios("none"))
        self.moves_to_first_end = self.ways()

    def ways(self):
        """Of every sheave of every line: whether the trolley, as it leaves its mark, draws the line toward its first
        end. Friction has no part in it."""
        rolled = lambda solution: np.concatenate([hung["rolled_m"] for hung in solution.told["lines"]])
        near = self.rig.follow_to(self.at_rest, self.pose(0.01, self.measured_K, 0.0, (0, 0, 0), None))
        return rolled(near) > rolled(self.at_rest)

    def ratios(self, running):
        """As Pose has them. running: "paying out", "returning", or "none" without friction. The trailing side pulls the
        harder, by a friction that grows with the deflection at the rest mark."""
        ratios = []
        for line, hung in zip(self.rig.lines, self.at_rest.told["lines"]):
            for sheave, (_, wrap) in zip(line.sheaves, hung["turns"]):
                share = 1 if sheave.friction_wrap is None else np.sin(wrap / 2) / np.sin(sheave.friction_wrap / 2)
                ratios.append(1 + (sheave.friction - 1) * share)
        ratios = np.array(ratios)
        if running == "none":
            return np.ones_like(ratios)
        toward_first_end = self.moves_to_first_end == (running == "paying out")
        return np.where(toward_first_end, ratios, 1 / ratios)

    def pose(self, travel, temperature_K, rider_weight, wind, held, running="none"):
        main = self.layout.section("main_line")
        cable = self.warmed(self.main, si(main.get("expansion", STEEL)), temperature_K - self.measured_K)
        lengths = [own if given is None else given for own, given in zip(self.settled, self.lengths_at(temperature_K))]
        if travel < 0:
            loads = [(self.rest + travel, rider_weight), (self.rest, self.trolley_weight)]
        else:
            loads = [(self.rest + travel, self.trolley_weight + rider_weight)]
        return Pose(cable, loads, wind, lengths, (0.0, 0.0) if held is None else (1.0, held), ratios=self.ratios(running))
