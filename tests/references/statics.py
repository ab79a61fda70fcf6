"""Force balance of an arrest end at one travel, written from the mechanics alone, for a general root finder.

Nothing here is a closed form: a hanging line is followed along its length by quadrature, and every leg's force at its
first end, its length, every contact angle, every body's place and the main line's pieces are unknowns of one system.
"""

import numpy as np
from scipy.optimize import root

from layout import GRAVITY, si, unit_vector, vector

NODES, WEIGHTS = np.polynomial.legendre.leggauss(24)


def follow(force, load, length, compliance=0.0):
    """From a line's first end along its length: how far it reaches, and the force in it there.

    force: with which the line pulls at its first end; load: on each (unstretched) metre; in balance the force in the
    line changes by -load a metre, and the line runs along it, longer by compliance x tension."""
    at = 0.5 * length * (NODES + 1)
    inside = force - np.outer(at, load)
    tension = np.linalg.norm(inside, axis=1)
    step = inside / tension[:, None] * (1 + compliance * tension)[:, None]
    return 0.5 * length * WEIGHTS @ step, force - length * load


def rotation(turned):
    """Matrix of a rotation vector (Rodrigues)."""
    angle = np.linalg.norm(turned)
    if angle == 0:
        return np.eye(3)
    x, y, z = turned / angle
    cross = np.array([[0, -z, y], [z, 0, -x], [-y, x, 0]])
    return np.eye(3) + np.sin(angle) * cross + (1 - np.cos(angle)) * cross @ cross


class Body:
    """Anything that sheaves and line ends stand on. freedoms: 3 shifts only, 6 shifts and turns, "ball": three turns
    about its own point, "hinge": one about an axis through it, 0: it stands."""

    def __init__(self, own, freedoms=0, weight=0.0, centre_of_mass=None, axis=None):
        self.own, self.freedoms, self.weight, self.axis = np.array(own), freedoms, weight, axis
        self.centre_of_mass = self.own if centre_of_mass is None else centre_of_mass
        self.unknowns = {0: 0, 3: 3, 6: 6, "ball": 3, "hinge": 1}[freedoms]

    def placed(self, x):
        """Where its points, as drawn, come to, and how its directions turn."""
        shift = x[:3] if self.freedoms in (3, 6) else np.zeros(3)
        turned = {3: lambda: np.zeros(3), 6: lambda: x[3:], "ball": lambda: x, "hinge": lambda: x[0] * self.axis}
        matrix = rotation(turned[self.freedoms]()) if self.unknowns else np.eye(3)
        return (lambda p: self.own + shift + matrix @ (p - self.own)), matrix

    def balance(self, force, moment):
        """What must vanish, of the forces on it and their moment about its own point."""
        if self.freedoms == 3:
            return list(force)
        if self.freedoms == 6:
            return [*force, *moment]
        return list(moment) if self.freedoms == "ball" else [moment @ self.axis] if self.freedoms else []


class Sheave:
    """friction: tension of the trailing side over that of the leading one, at that wrap; None: at any."""

    def __init__(self, body, centre, axle, radius, sense, friction=1.0, friction_wrap=None):
        self.body, self.centre, self.radius, self.sense = body, centre, radius, sense
        self.friction, self.friction_wrap = friction, friction_wrap
        self.axle = None if axle is None else unit_vector(axle)


class Line:
    """From its end nearer the brake trolley. closing: "unit", "length" or the body whose rest closes it."""

    def __init__(self, ends, bodies, sheaves, weight, diameter, compliance, closing, guess):
        self.ends, self.bodies, self.sheaves, self.weight, self.diameter = ends, bodies, sheaves, weight, diameter
        self.compliance, self.closing, self.guess = compliance, closing, guess


class Pose:
    """What is asked. cable: the main line's (unstretched length, weight per metre, compliance); loads: (along, weight)
    of the wheels on it, the trolley's last; unstretched: of every line that is closed by it; held: share of a given
    tension in the unit's pull, and that tension, the rest being its retraction; ratios: of every sheave of every line
    in turn, the tension on the side of the line's first end over that on the other, both brought to its centre."""

    def __init__(self, cable, loads, wind=(0, 0, 0), unstretched=None, held=(0.0, 0.0), at_rest_mark=False, ratios=None):
        self.cable, self.loads, self.wind = np.array(cable), np.array(loads), np.array(wind, float)
        self.unstretched, self.held, self.at_rest_mark = unstretched, held, at_rest_mark
        self.ratios = ratios

    def toward(self, other, share):
        """Between this pose and another with as many loads."""
        mix = lambda a, b: (1 - share) * np.asarray(a, float) + share * np.asarray(b, float)
        tension = other.held[1] or self.held[1]
        return Pose(mix(self.cable, other.cable), mix(self.loads, other.loads), mix(self.wind, other.wind),
                    mix(self.unstretched, other.unstretched), ((1 - share) * self.held[0] + share * other.held[0], tension),
                    ratios=mix(self.ratios, other.ratios))


class Solution:
    """error: what Newton's last step still moved; inverse: of the slopes of the equations."""

    def __init__(self, pose, x, told, error, inverse):
        self.pose, self.x, self.told, self.error, self.inverse = pose, x, told, error, inverse


class Rig:
    """trolley_offset: from the wheel to the line's end on the trolley. The bodies of lines on the trolley are None."""

    def __init__(self, frame, bodies, lines, braking, trolley_offset, rest_extension, retraction):
        self.frame, self.bodies, self.lines, self.braking = frame, bodies, lines, braking
        self.trolley_offset, self.rest_extension, self.retraction = trolley_offset, rest_extension, retraction

    # The unknowns in one row: forces counted in `scale` newtons, all else in metres and radians.
    scale = 1000.0

    def with_rider(self, known, pose):
        """Of a solution with the trolley alone on the main line and at its mark: a first guess for a weightless rider
        upstream of it, and that pose."""
        force, length, along = known.x[:2] * self.scale, known.x[2], pose.loads[0][0]
        before = length * along / known.pose.loads[0][0]
        reach, passed = follow(force, np.array([0, -known.pose.cable[1]]), before, known.pose.cable[2])
        bare = Pose(known.pose.cable, [(along, 0.0), known.pose.loads[0]], known.pose.wind, known.pose.unstretched,
                    known.pose.held, ratios=known.pose.ratios)
        rest = known.x[3:]
        return bare, np.array([*known.x[:2], before, *(passed / self.scale), length - before, *rest[:3], reach[1], *rest[3:]])

    def start(self, pose):
        """A rough guess: straight legs, the wheels 1.5 m below the chord of the main line."""
        x, z = [], lambda along: self.frame.rise * along / self.frame.span - 1.5
        along = [0.0] + [a for a, _ in pose.loads] + [self.frame.span]
        heights = [0.0] + [z(a) for a, _ in pose.loads] + [self.frame.rise]
        for k in range(len(along) - 1):
            chord = np.array([along[k + 1] - along[k], heights[k + 1] - heights[k]])
            x += [*(18e3 / self.scale * chord / np.linalg.norm(chord)), np.linalg.norm(chord)]
        x += heights[1:-1]
        for body in self.bodies:
            x += [0.0] * body.unknowns
        trolley = self.frame.place(pose.loads[-1][0], heights[-2]) + self.trolley_offset
        for line in self.lines:
            points = [trolley if line.bodies[0] is None else line.ends[0], *(s.centre for s in line.sheaves), line.ends[1]]
            contacts = []
            for before, sheave, after in zip(points, line.sheaves, points[2:]):
                for way in (sheave.centre - before, after - sheave.centre):
                    if sheave.radius:
                        side = sheave.sense * np.cross(way, sheave.axle)
                        a, b = across(sheave.axle)
                        contacts.append(np.arctan2(side @ b, side @ a))
            for before, after in zip(points, points[1:]):
                chord = after - before
                x += [*(line.guess / self.scale * unit_vector(chord)), np.linalg.norm(chord)]
            x += contacts
        return np.array(x)

    def kinds(self, pose):
        """What each unknown is: "force", "place" or "angle"."""
        wheels = len(pose.loads)
        kinds = ["force", "force", "place"] * (wheels + 1) + ["place"] * wheels
        for body in self.bodies:
            kinds += ["place"] * (3 if body.freedoms in (3, 6) else 0)
            kinds += ["angle"] * (body.unknowns - (3 if body.freedoms in (3, 6) else 0))
        for line in self.lines:
            kinds += ["force", "force", "force", "place"] * (len(line.sheaves) + 1)
            kinds += ["angle", "angle"] * sum(sheave.radius > 0 for sheave in line.sheaves)
        return np.array(kinds)

    def residuals(self, x, pose, told=None):
        """What must vanish: metres, and newtons over `scale`. `told` collects what is compared."""
        told = {} if told is None else told
        x = iter(x)
        take = lambda n: np.array([next(x) for _ in range(n)])
        left = []
        # Main line, in the plane of its supports.
        pieces = [(take(2) * self.scale, take(1)[0]) for _ in range(len(pose.loads) + 1)]
        heights = take(len(pose.loads))
        length, weight, compliance = pose.cable
        ends = [np.zeros(2)] + [np.array([a, z]) for (a, _), z in zip(pose.loads, heights)]
        ends.append(np.array([self.frame.span, self.frame.rise]))
        arriving = []
        for (force, piece), begin, end in zip(pieces, ends, ends[1:]):
            reach, last = follow(force, np.array([0, -weight]), piece, compliance)
            left += list(begin + reach - end)
            arriving.append(last)
        left.append(sum(piece for _, piece in pieces) - length)
        in_plane = lambda v: v[0] * self.frame.along + v[1] * self.frame.up
        told["start_support_N"], told["end_support_N"] = in_plane(pieces[0][0]), in_plane(-arriving[-1])
        for k in range(len(pose.loads)):
            left.append((np.linalg.norm(arriving[k]) - np.linalg.norm(pieces[k + 1][0])) / self.scale)
        # Bodies, the brake trolley among them as None, and what pulls at each.
        placed = {None: ((lambda p: p), np.eye(3))}
        for body in self.bodies:
            placed[body] = body.placed(take(body.unknowns))
        told["bodies"] = [placed[body][0](body.own) for body in self.bodies]
        told["centres_of_mass"] = [placed[body][0](body.centre_of_mass) for body in self.bodies]
        told["trolley_m"] = self.frame.place(*ends[-2])
        attachment = told["trolley_m"] + self.trolley_offset
        pulls = {body: [(body.weight * np.array([0, 0, -1.0]), placed[body][0](body.centre_of_mass))] for body in self.bodies}
        pulls[None] = []
        ratios = iter(np.ones(sum(len(line.sheaves) for line in self.lines)) if pose.ratios is None else pose.ratios)
        told["lines"] = [self.line(line, take, placed, attachment, pose, ratios, pulls, left) for line in self.lines]
        told["runs_right"] = all(hung["runs_right"] for hung in told["lines"])
        self.close(pose, told, left)
        # Balance of trolley and bodies.
        pull = sum(force for force, _ in pulls[None])
        told["pull_on_trolley_N"] = pull
        for k, (_, carried) in enumerate(pose.loads):
            lift = pull[2] if k == len(pose.loads) - 1 else 0.0
            left.append((pieces[k + 1][0][1] - arriving[k][1] + lift - carried) / self.scale)
        told["hold_N"] = -pull - in_plane((pieces[-1][0] - arriving[-2]) * np.array([1, 0]))
        for body, own in zip(self.bodies, told["bodies"]):
            force = sum(f for f, _ in pulls[body])
            moment = sum(np.cross(at - own, f) for f, at in pulls[body])
            left += [each / self.scale for each in body.balance(force, moment)]
            told.setdefault("on_bodies", []).append((force, moment))
        return np.array(left)

    def line(self, line, take, placed, attachment, pose, ratios, pulls, left):
        """One line's own equations; its pulls go to its bodies. "rolled_m", of every sheave: line between the first end
        and a mark on what carries the sheave, but for a constant."""
        load = np.array([0, 0, -line.weight]) + line.diameter * pose.wind
        legs = [(take(3) * self.scale, take(1)[0]) for _ in range(len(line.sheaves) + 1)]
        sheaves, contacts = [], []
        for sheave in line.sheaves:
            where, matrix = placed[sheave.body]
            centre = where(sheave.centre)
            if not sheave.radius:
                sheaves.append((sheave, centre, np.zeros((2, 3))))
                contacts.append((0.0, 0.0))
                continue
            # The directions the angles are counted from turn with the body.
            sheaves.append((sheave, centre, (matrix @ np.array(across(sheave.axle)).T).T))
            contacts.append(tuple(take(2)))
        at = lambda k, angle: (e := np.cos(angle) * sheaves[k][2][0] + np.sin(angle) * sheaves[k][2][1],
                               sheaves[k][1] + line.sheaves[k].radius * e)
        first = attachment if line.bodies[0] is None else placed[line.bodies[0]][0](line.ends[0])
        last = placed[line.bodies[1]][0](line.ends[1])
        begins = [first] + [at(k, off)[1] for k, (_, off) in enumerate(contacts)]
        finishes = [at(k, on)[1] for k, (on, _) in enumerate(contacts)] + [last]
        told = {"begins": begins, "finishes": finishes, "leaving_N": [], "arriving_N": [], "turns": [], "rolled_m": [],
                "runs_right": True}
        hanging = unstretched = 0.0
        leg_lengths = [length for _, length in legs]
        for (force, length), begin, end in zip(legs, begins, finishes):
            reach, arriving = follow(force, load, length)
            left += list(begin + reach - end)
            told["leaving_N"].append(force)
            told["arriving_N"].append(arriving)
            told["runs_right"] &= bool(force @ (end - begin) > 0 and length > 0)
            mean = 0.5 * (np.linalg.norm(force) + np.linalg.norm(arriving))
            hanging += length
            unstretched += length * (1 - mean * line.compliance)
        pulls[line.bodies[0]].append((told["leaving_N"][0], first))
        pulls[line.bodies[1]].append((-told["arriving_N"][-1], last))
        rolled = 0.0
        for k, (sheave, centre, _) in enumerate(sheaves):
            (e_on, on), (e_off, off) = (at(k, angle) for angle in contacts[k])
            arriving, leaving = told["arriving_N"][k], told["leaving_N"][k + 1]
            tension_on, tension_off = np.linalg.norm(arriving), np.linalg.norm(leaving)
            # What a side pulls with, brought to the sheave's centre: along a line at rest T + load . place stays the same.
            centre_on, centre_off = tension_on + load @ (on - centre), tension_off + load @ (off - centre)
            left.append((next(ratios) * centre_off - centre_on) / self.scale)
            told["rolled_m"].append(sum(leg_lengths[:k + 1]) + rolled - sheave.radius * sheave.sense * contacts[k][0])
            if not sheave.radius:
                pulls[sheave.body] += [(-arriving, on), (leaving, off)]
                told["turns"].append((leaving - arriving, 0.0))
                continue
            left += [e_on @ arriving / self.scale, e_off @ leaving / self.scale]
            wrap = (sheave.sense * (contacts[k][1] - contacts[k][0])) % (2 * np.pi)
            axle = np.cross(*sheaves[k][2])
            for e, way in ((e_on, arriving), (e_off, leaving)):
                told["runs_right"] &= bool(sheave.sense * np.cross(axle, e) @ way > 0)
            half = 0.5 * wrap
            middle = contacts[k][0] + sheave.sense * half
            on_wrap = sheave.radius * wrap * load
            centroid = centre + sheave.radius * np.sin(half) / half * at(k, middle)[0]
            pulls[sheave.body] += [(-arriving, on), (leaving, off), (on_wrap, centroid)]
            told["turns"].append((leaving - arriving + on_wrap, wrap))
            hanging += sheave.radius * wrap
            unstretched += sheave.radius * wrap * (1 - 0.5 * (centre_on + centre_off) * line.compliance)
            rolled += sheave.radius * wrap
        told["hanging_m"], told["unstretched_m"] = hanging, unstretched
        return told

    def close(self, pose, told, left):
        """One equation a line: its length, the unit's pull, or where a body stands at the rest mark."""
        for index, (line, hung) in enumerate(zip(self.lines, told["lines"])):
            if index == self.braking:
                out = 0.0 if pose.at_rest_mark else hung["unstretched_m"] - pose.unstretched[index]
                told["pull_on_unit_N"] = -hung["arriving_N"][-1]
                told["extension_m"] = self.rest_extension + out
                share, tension = pose.held
                pull = (1 - share) * self.retraction(told["extension_m"]) + share * tension
                left.append((np.linalg.norm(hung["arriving_N"][-1]) - pull) / self.scale)
            elif pose.at_rest_mark and isinstance(line.closing, tuple):
                body, along = line.closing
                where = told["bodies"][self.bodies.index(body)]
                left.append((where - self.frame.origin) @ self.frame.along - along)
            else:
                left.append(hung["unstretched_m"] - pose.unstretched[index])

    def solve(self, pose, start):
        """From a start: SciPy's search, then Newton's iteration on its slopes there. What is not found raises."""
        found = root(self.residuals, start, args=(pose,), method="hybr", options={"xtol": 1e-10})
        x, inverse = found.x, np.linalg.inv(self.slopes(found.x, pose))
        for _ in range(12):
            step = inverse @ self.residuals(x, pose)
            x = x - step
            if np.max(np.abs(step)) < 1e-12:
                break
            if not np.max(np.abs(step)) < 1e-6:
                inverse = np.linalg.inv(self.slopes(x, pose))
        if not np.max(np.abs(step)) < 1e-9:
            raise ArithmeticError(f"no balance found: {found.message}")
        told = {}
        self.residuals(x, pose, told)
        if not told["runs_right"]:
            raise ArithmeticError("a line runs backward over a sheave, or pushes")
        return Solution(pose, x, told, float(np.max(np.abs(step))), inverse)

    def follow_to(self, known, pose):
        """From a solved pose to another with as many loads, by strides as short as it takes."""
        from_pose, done, stride = known.pose, 0.0, 1.0
        while done < 1:
            to = min(1.0, done + stride)
            try:
                found = self.solve(pose if to == 1 else from_pose.toward(pose, to), known.x)
                turned = np.max(np.abs(found.x - known.x)[self.kinds(pose) == "angle"], initial=0.0)
                if not turned < 0.3:
                    raise ArithmeticError("strides over to another balance")
                known, done, stride = found, to, 2 * stride
            except (ArithmeticError, np.linalg.LinAlgError):
                stride /= 2
                if stride < 1e-4:
                    raise
        return known

    def slopes(self, x, pose):
        """By central differences; only Newton's polish and the error estimate stand on them."""
        columns = []
        for k in range(len(x)):
            h = 1e-6 * max(1.0, abs(x[k]))
            up, down = x.copy(), x.copy()
            up[k] += h
            down[k] -= h
            columns.append((self.residuals(up, pose) - self.residuals(down, pose)) / (2 * h))
        return np.array(columns).T


def across(axle):
    """Two unit vectors square to the axle and each other, right-handed with it."""
    least = np.eye(3)[np.argmin(np.abs(axle))]
    a = unit_vector(np.cross(least, axle))
    return a, np.cross(axle, a)
