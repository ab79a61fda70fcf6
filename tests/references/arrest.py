"""Follows every corner of a layout's arrest anew with SciPy and holds the program's results to it.

usage: arrest.py PROGRAM LAYOUT   (77: skipped, SciPy is not there)

Taken from the program: the poses of its sweeps (recompute.py solves those anew), the riders, the unit's law, the speeds
of arrival, and which corner is which. Anew: the track as SciPy's cubic splines, the equations of motion, here from the
velocities of trolleys and rider in plane coordinates (d'Alembert's principle) instead of the program's closed forms, the
unit's tension by a root finder, the impulse of contact by conserved momenta, and the integration by an explicit method
of order 8 (DOP853, Hairer, Norsett and Wanner). While nothing lets the trolleys part and the lanyard is taut: a corner
of another kind is named and makes the test fail, so that none goes unseen.

Allowed: half the last of the ten digits the program prints; of places, speeds and leans what its stepper's promise adds
up to over all of its steps; of a peak besides what a parabola through instants 5 ms apart can miss of it, from its third
derivative here.
"""

import json
import subprocess
import sys

try:
    import numpy as np
    from scipy.integrate import solve_ivp
    from scipy.interpolate import CubicSpline
    from scipy.optimize import brentq
except ImportError as missing:
    print(f"skipped: {missing}")
    sys.exit(77)

GRAVITY = 9.80665  # m/s2, ISO 80000-3
PROMISED = 1e-7  # of metres, radians and their rates, a step
MOST_STEPS = 400  # of an arrest: a step is no longer than a quarter of a metre at its speed of arrival, 10 ms or more
SAMPLED_S = 5e-3
LOOKED_S = 1e-3  # between the instants looked at here
KNOT_M = 0.25


def cubic(x, y):
    """With the slopes at its ends of the cubic through the four knots there."""
    # The factor of the first power.
    ends = [np.polyfit(x[k] - x[at], y[k], 3)[2] for k, at in ((slice(0, 4), 0), (slice(-4, None), -1))]
    return CubicSpline(x, y, bc_type=((1, ends[0]), (1, ends[1])))


def sampled(sweep, along, at):
    """What a sweep says of hold, tension, extension, height and lift at even travels from the mark on."""
    poses = sweep["poses"]
    x = np.array(poses["travel_m"])[sweep["rest_pose"]:]
    of = {key: np.array(poses[key])[sweep["rest_pose"]:] for key in poses}
    tau = of["tau_rad"]
    normal = np.cos(tau)[:, None] * np.array([0, 0, 1.0]) - np.sin(tau)[:, None] * along
    told = {"hold": of["hold_N"] @ along, "tension": of["outlet_tension_N"], "extension": of["extension_m"],
            "height": of["trolley_m"][:, 2], "lift": np.sum(of["pull_on_trolley_N"] * normal, axis=1)}
    return {key: cubic(x, values)(at) for key, values in told.items()}


def moving_lines_kg(reeving, sweep):
    """Mass of lines and blocks as felt along the travel at the mark: by how fast each leg and block moves there."""
    rest, total, leg_index = sweep["rest_pose"], 0.0, 0
    first = slice(rest, rest + 4)
    at = np.array(sweep["poses"]["travel_m"])[first]

    def per_m(values):
        """Rate at the mark, of the cubic through the first poses."""
        return np.polyfit(at, np.array(values)[first], 3)[2]

    for number, line in enumerate(reeving["lines"]):
        drawn = number == reeving["pulling"]
        passed = 1.0 if drawn else 0.0
        tension = sweep["lines"][number]["tension_N"][rest]
        for k in range(line["sheaves"] + 1):
            leg = sweep["legs"][leg_index]
            leg_index += 1
            length = leg["length_m"][rest]
            longer = per_m(leg["length_m"])

            def still(sheave):
                return reeving["sheaves"][sheave]["moves_with"] == "ground"

            from_still = still(line["first_sheave"] + k - 1) if k else line["from"]["moves_with"] == "ground"
            to_still = still(line["first_sheave"] + k) if k < line["sheaves"] else line["to"]["moves_with"] == "ground"
            after = longer if drawn and k == 0 else passed + longer
            speed = passed if from_still else after if to_still else (passed + after) / 2
            unstretched = length / (1 + line["compliance_per_N"] * tension)
            total += line["weight_N_per_m"] * unstretched / GRAVITY * speed**2
            passed = after
    for block, seen in zip(reeving["blocks"], sweep["blocks"]):
        total += block["weight_N"] / GRAVITY * np.sum(per_m(seen["centre_of_mass_m"]) ** 2)
    return total


class Track:
    """Splines of what the rig does to the trolleys, linear in the unit's tension."""

    def __init__(self, results, path):
        reeving, along = results["reeving"]["inputs"], np.array(results["frame"]["along"])
        sweeps = [s for s in results["reeving"]["sweeps"] if s["path"] == path and not np.any(s["wind_Pa"])]
        rest = next(s for s in sweeps if s["running"] == "at rest" and s["friction"] != "returning")
        peak = next(s for s in sweeps if s["running"] == "paying out")
        self.travel_m = reeving["travel_m"]
        at = np.linspace(0, self.travel_m, max(4, int(np.ceil(self.travel_m / KNOT_M))) + 1)
        low, high = sampled(rest, along, at), sampled(peak, along, at)
        more = high["tension"] - low["tension"]
        pull = (high["hold"] - low["hold"]) / more
        give = (high["extension"] - low["extension"]) / more
        pay_out = cubic(at, low["extension"])(at, 1)
        moving = results["approach"]["inputs"]["moving_mass_kg"]
        functions = {"pull": pull, "drive": -low["hold"] + low["tension"] * pull, "give": give,
                     "extension": low["extension"] - low["tension"] * give, "lift": high["lift"] / high["tension"],
                     "height": low["height"], "inertia": moving_lines_kg(reeving, rest) + moving * pay_out**2}
        self.names = {name: i for i, name in enumerate(functions)}
        self.splines = cubic(at, np.column_stack(list(functions.values())))
        # Heights are printed with ten digits, and a spline's slope and bend carry what that leaves open.
        self.height_open = half_digit(np.max(np.abs(low["height"])))
        self.slope_open, self.bend_open = 6 * self.height_open / KNOT_M, 12 * self.height_open / KNOT_M**2

    def at(self, x):
        """Values, slopes and bends of all functions, by name."""
        values, slopes, bends = self.splines(x), self.splines(x, 1), self.splines(x, 2)
        return {name: (values[i], slopes[i], bends[i]) for name, i in self.names.items()}


class Corner:
    """Riders, unit and track of one corner, and how they move."""

    def __init__(self, results, corner, track):
        given = results["approach"]["inputs"]

        def end(span, high):
            return span[1 if high and span[0] < span[1] else 0]

        self.track, self.corner, self.unit = track, corner, results["reeving"]["inputs"]["unit"]
        self.rider = end(given["rider_kg"], corner["heaviest"])
        self.rider_trolley, self.brake_trolley = given["rider_trolley_kg"], given["brake_trolley_kg"]
        self.hanging = given["hanging_m"]
        self.crr = end(given["rolling"], corner["high_rolling"])
        self.share = end(given["brake_share"], corner["strong_brake"])
        state = results["main_line"]["paths"][corner["path"]]["state"]
        self.drag = given["air_kg_per_m3"][state] / 2 * given["drag_area_m2"]
        self.wind = {"head wind": -1, "head": -1, "tail wind": 1, "tail": 1}.get(corner["wind"], 0) * given["wind_m_per_s"]
        self.spring = given["lanyard_N_per_m"]
        self.slack = self.hanging - self.rider * GRAVITY / self.spring if self.spring else None
        self.damper = 2 * given["lanyard_damping"] * np.sqrt(self.spring * self.rider) if self.spring else 0
        approach = results["approach"]["corners"][results["arrest"]["corners"].index(corner)]["computed"]
        known = approach and not approach["unsolved"] and approach["stalled_at_m"] is None
        self.deceleration_before = approach["acceleration_m_per_s2"] if known else 0.0

    def law(self, extension, speed):
        table = self.unit["retraction"]
        retraction = np.interp(extension, table["extension_m"], table["tension_N"])
        eddy = self.unit["eddy"]
        peak, critical = eddy["peak_N"], eddy["critical_speed_m_per_s"]
        return retraction + self.share * 2 * peak * speed * critical / (speed**2 + critical**2)

    def unit_pull(self, at, v):
        """Tension at the unit, its extension and line speed: each answers the others."""
        def of(tension):
            return at["extension"][0] + at["give"][0] * tension, v * (at["extension"][1] + at["give"][1] * tension)
        if not at["give"][0] and not at["give"][1]:
            return (self.law(*of(0)), *of(0))
        tension = brentq(lambda T: self.law(*of(T)) - T, -1.0, 1e5, xtol=1e-9, rtol=1e-14)
        return (tension, *of(tension))

    @staticmethod
    def velocities(slope, lean, length):
        """Of trolley and rider per metre of travel, radian of lean and metre of lanyard; along and up."""
        s, c = np.sin(lean), np.cos(lean)
        trolley = np.array([[1, slope], [0, 0], [0, 0]])
        return trolley, trolley + np.array([[0, 0], [length * c, length * s], [s, -c]])

    def motion(self, y, sense=1):
        """Accelerations of (travel, lean, lanyard), the lanyard's pull, the unit's answer and the line's force."""
        x, lean, length, v, rate, lengthening = y[:6]
        at, m = self.track.at(x), self.rider
        trolleys = self.rider_trolley + self.brake_trolley
        _, slope, curvature = at["height"]
        inertia, inertia_slope, _ = at["inertia"]
        s, c = np.sin(lean), np.cos(lean)
        of_trolley, of_rider = self.velocities(slope, lean, length)
        turning_trolley = np.array([0, curvature * v * v])
        turning_rider = turning_trolley + rate * np.array(
            [2 * lengthening * c - length * rate * s, 2 * lengthening * s + length * rate * c])
        velocity = v * of_rider[0] + rate * of_rider[1] + lengthening * of_rider[2]
        air = velocity[0] - self.wind
        drag = np.array([-self.drag * abs(air) * air, 0])
        tension, extension, speed = self.unit_pull(at, v)
        line = at["pull"][0] * tension
        dofs = 3 if self.spring else 2
        mass = trolleys * of_trolley @ of_trolley.T + m * of_rider @ of_rider.T
        mass[0, 0] += inertia
        # Gravity along x is in the track's drive, for rider and trolleys; by lean and length it is the rider's own.
        force = (np.array([at["drive"][0] - line - inertia_slope * v * v / 2,
                           -m * GRAVITY * length * s, m * GRAVITY * c])
                 + of_rider @ drag - m * of_rider @ turning_rider - trolleys * of_trolley @ turning_trolley)
        pressed = self.crr * np.sqrt(1 + slope**2) * sense
        leaning = (c + slope * s) / np.sqrt(1 + slope**2)
        wheels = trolleys * (GRAVITY + curvature * v * v) / np.sqrt(1 + slope**2) - at["lift"][0] * tension
        out = np.array([s, -c])  # along the lanyard
        if self.spring:
            pull = max(0.0, self.spring * (length - self.slack) + self.damper * lengthening)
            force[2] -= pull
            force[0] -= pressed * (wheels + pull * leaning)
        else:
            # pull = free - m out . (acceleration by travel and lean), the second of which is square to the lanyard
            free = m * GRAVITY * c + out @ drag - m * out @ turning_rider
            force[0] -= pressed * (wheels + free * leaning)
            mass[0, 0] -= pressed * m * (out @ of_rider[0]) * leaning
        acceleration = np.zeros(3)
        if sense:
            acceleration[:dofs] = np.linalg.solve(mass[:dofs, :dofs], force[:dofs])
        else:
            acceleration[1:dofs] = np.linalg.solve(mass[1:dofs, 1:dofs], force[1:dofs])
        if not self.spring:
            pull = free - m * out @ (acceleration @ of_rider)
        return acceleration, pull, (tension, extension, speed), line

    def after_contact(self):
        """State right after contact, and the energy lost by it."""
        at = self.track.at(0.0)
        _, slope, curvature = at["height"]
        along_path = self.corner["arrival_speed_m_per_s"]
        air, a = along_path - self.wind, self.deceleration_before
        lean = np.arctan2(-self.drag * abs(air) * air / self.rider - a,
                          GRAVITY + slope * a + curvature * along_path**2)
        length = self.slack + self.rider * GRAVITY * np.cos(lean) / self.spring if self.spring else self.hanging
        v = along_path / np.sqrt(1 + slope**2)
        of_trolley, of_rider = self.velocities(slope, lean, length)
        brake = self.brake_trolley * (1 + slope**2) + at["inertia"][0]
        before = self.rider_trolley * of_trolley @ of_trolley.T + self.rider * of_rider @ of_rider.T
        after = before.copy()
        after[0, 0] += brake
        if self.spring:
            # A lanyard that gives passes no impulse on: the rider's own velocity stays.
            own = self.rider_trolley * (1 + slope**2)
            v1 = own * v / (own + brake)
            rates = np.linalg.solve(of_rider[1:].T, v * of_rider[0] - v1 * of_rider[0])
            speeds = np.array([v1, *rates])
        else:
            speeds = np.zeros(3)
            speeds[:2] = np.linalg.solve(after[:2, :2], before[:2, :2] @ [v, 0])
        lost = (before[0, 0] * v * v - speeds @ after @ speeds) / 2
        return lean, np.array([0.0, lean, length, *speeds, 0.0]), lost

    def rates(self, sense):
        def of(_, y):
            acceleration, _, _, line = self.motion(y, sense)
            v = y[3] if sense else 0.0
            return [v, y[4], y[5] if self.spring else 0.0, *acceleration, line * v]
        return of

    def follow(self, end_s):
        """Up to the end of the program's record, a swing after a standstill: stretches of motion and rest, each
        (sense, solution)."""
        lean, y, lost = self.after_contact()
        told = {"lean_rad": lean, "lost_at_contact_J": lost, "speed_after_contact_m_per_s": y[3],
                "swing_rate_after_contact_rad_per_s": y[4]}
        stretches, t, sense = [], 0.0, 1
        while len(stretches) < 40:
            def event(_, state, moving=sense):
                return state[3] if moving else self.motion(state, 1)[0][0]
            event.terminal, event.direction = True, -1 if sense else 1
            solution = solve_ivp(self.rates(sense), (t, end_s), y, method="DOP853", rtol=1e-10,
                                 atol=1e-10, events=event, dense_output=True)
            if not solution.success:
                raise ArithmeticError(solution.message)
            stretches.append((sense, solution))
            t, y = solution.t[-1], solution.y[:, -1].copy()
            if solution.status != 1:
                return told, stretches
            if sense:
                y[3] = 0.0
                sense = 1 if self.motion(y, 1)[0][0] > 0 else 0
            else:
                sense = 1
        raise ArithmeticError("stops and goes on without end")


def half_digit(value):
    return 0.5 * 10 ** (np.floor(np.log10(max(abs(value), 1e-300))) - 9)


def looked_at(follower, stretches):
    """Instants of all stretches with what can peak, a column each: (times, values, which move)."""
    seen = []
    for sense, solution in stretches:
        t = np.linspace(solution.t[0], solution.t[-1], max(100, int((solution.t[-1] - solution.t[0]) / LOOKED_S)))
        rows = []
        for y in solution.sol(t).T:
            _, pull, (tension, extension, speed), line = follower.motion(y, sense)
            rows.append([extension, speed, tension, line, y[3], y[1], pull / (follower.rider * GRAVITY)])
        seen.append((t, np.array(rows), sense))
    return seen


def peak_of(seen, column):
    """Greatest of a column, and what a parabola through instants of the program's may miss of it."""
    most, missed = -np.inf, 0.0
    for t, rows, _ in seen:
        values = rows[:, column]
        i = int(np.argmax(values))
        best = values[i]
        if 0 < i < len(t) - 1:
            before, here, after = values[i - 1:i + 2]
            bend = before - 2 * here + after
            best = here - (before - after) ** 2 / (8 * bend) if bend < 0 else here
        if best <= most:
            continue
        near = values[np.abs(t - t[i]) <= 2 * SAMPLED_S]
        third = np.max(np.abs(np.diff(near, 3)), initial=0.0) / (t[1] - t[0]) ** 3
        most, missed = best, SAMPLED_S**3 * third / (9 * np.sqrt(3))
    return most, missed


def hold_corner(results, corner, tracks, worst):
    motion = corner["motion"]
    name = corner["name"]
    if motion["unsolved"] or motion["outcome"] != "stops" or motion["separations"]:
        raise ValueError(f"{name}: not of the kind that is followed here")
    follower = Corner(results, corner, tracks[corner["path"]])
    told, stretches = follower.follow(motion["end_s"])
    weight = follower.rider * GRAVITY

    def hold(quantity, ours, theirs, scale, more=0.0):
        allowed = half_digit(theirs) + MOST_STEPS * PROMISED * scale + more
        share = abs(ours - theirs) / allowed
        if not share <= worst.get(quantity, (-1,))[0]:
            worst[quantity] = (share, ours, theirs, allowed, name)

    track, speed = follower.track, corner["arrival_speed_m_per_s"]
    lean_open = track.bend_open * speed**2 / GRAVITY + track.slope_open
    hold("lean_rad", told["lean_rad"], motion["lean_rad"], 0, lean_open)
    hold("speed_after_contact_m_per_s", told["speed_after_contact_m_per_s"], motion["speed_after_contact_m_per_s"], 0,
         speed * lean_open)
    hold("swing_rate_after_contact_rad_per_s", told["swing_rate_after_contact_rad_per_s"],
         motion["swing_rate_after_contact_rad_per_s"], 0, speed * lean_open / follower.hanging)
    hold("lost_at_contact_J", told["lost_at_contact_J"], motion["lost_at_contact_J"], 0,
         follower.rider * speed**2 * lean_open)
    end = stretches[-1][1].y[:, -1]
    hold("stop_travel_m", end[0], motion["stop_travel_m"], 1)
    hold("brake_work_J", end[6], motion["brake_work_J"], speed * follower.rider)
    seen = looked_at(follower, stretches)
    moved = [each for each in seen if each[2]]
    # A newton of tension is reached by so much of a metre a second: the steepest the law is.
    steep = follower.share * 2 * follower.unit["eddy"]["peak_N"] / follower.unit["eddy"]["critical_speed_m_per_s"]
    stiff = max(1.0, follower.spring / weight)
    for column, (quantity, scale) in enumerate((
            ("extension_m", 1), ("line_speed_m_per_s", 1), ("unit_tension_N", steep), ("line_force_N", steep),
            ("trolley_speed_m_per_s", 1), ("swing_forward_rad", 1), ("load_raw", stiff))):
        ours, missed = peak_of(moved if column < 5 else seen, column)
        hold(quantity, ours, motion[quantity]["value"], scale, missed)


def main():
    program, layout = sys.argv[1:3]
    ran = subprocess.run([program, "check", layout, "--format", "json"], capture_output=True, text=True, check=False)
    results = json.loads(ran.stdout)
    corners = results["arrest"]["corners"]
    tracks = {p: Track(results, p) for p in sorted({c["path"] for c in corners})}
    worst = {}
    governing = sorted({i for i in results["arrest"]["governing"].values() if i >= 0})
    for index in governing:
        hold_corner(results, corners[index], tracks, worst)
    for quantity, (share, ours, theirs, allowed, name) in sorted(worst.items()):
        print(f"{quantity}: {share:.3g} of what is allowed ({ours:.9g} here, {theirs:.9g} there, {allowed:.2g}); {name}")
    good = bool(worst) and all(share <= 1 for share, *_ in worst.values())
    print(f"{len(governing)} governing corners of {len(corners)} followed anew: {'as' if good else 'NOT as'} the program has them")
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())
