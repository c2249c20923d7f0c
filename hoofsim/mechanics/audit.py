"""The free-body audit: add up every force on every body, as forces at points, and show what does not balance.

It goes a way of its own: it takes each element's force, places it at its point and sums forces and moments in the plane.
The solver's gradient takes no part in it, so a slip in the assembly would show here.
"""

from dataclasses import dataclass

import numpy as np

from hoofsim.frames import rotate
from hoofsim.mechanics import bodies
from hoofsim.mechanics import stations as places
from hoofsim.mechanics.assembly import facet, line_pulls, separations, station_laws, tendon_law, tendon_path
from hoofsim.mechanics.elements.spring import spring
from hoofsim.mechanics.elements.stop import stop
from hoofsim.mechanics.model import Model
from hoofsim.mechanics.outputs import body_poses, move
from hoofsim.mechanics.types import Array


@dataclass(frozen=True)
class Balance:
    """One sum over one free body: `what` is "force x", "force y" (N) or "moment" (N mm); `largest` its largest term."""

    body: str
    what: str
    total: float
    largest: float


class _Ledger:
    """Forces (2,) N at points (2,) mm and couples (N mm, tip down positive) on each body of one foot."""

    def __init__(self) -> None:
        self.forces: dict[str, list[tuple[Array, Array]]] = {
            name: [] for name in (*bodies.ROWS, "navicular", "limb")
        }
        self.couples: dict[str, list[float]] = {name: [] for name in self.forces}

    def push(self, body: str, at: Array, force: Array) -> None:
        self.forces[body].append((at, force))

    def between(self, body: str, other: str, at: Array, force: Array) -> None:
        """A force on `body` and its reaction on `other`, at one point."""
        self.push(body, at, force)
        self.push(other, at, -force)

    def turn(self, body: str, other: str, couple: float) -> None:
        self.couples[body].append(couple)
        self.couples[other].append(-couple)

    def balance(
        self, label: str, parts: tuple[str, ...], about: Array, what: tuple[str, ...]
    ) -> list[Balance]:
        """Sums over `parts` taken as one body, moments about a point."""
        terms: dict[str, list[float]] = {"force x": [], "force y": [], "moment": []}
        for part in parts:
            for at, force in self.forces[part]:
                arm = at - about
                terms["force x"].append(float(force[0]))
                terms["force y"].append(float(force[1]))
                # Tip down is clockwise: an upward force behind the point turns it that way.
                terms["moment"].append(float(arm[1] * force[0] - arm[0] * force[1]))
            terms["moment"] += self.couples[part]
        return [
            Balance(label, name, sum(terms[name]), max((abs(term) for term in terms[name]), default=0.0))
            for name in what
        ]


def _enter_stations(ledger: _Ledger, model: Model, freedoms: Array, worst: Array) -> None:
    sep = separations(model, bodies.poses(freedoms, model.hinge_x, model.hinge_y))
    laws = station_laws(model, sep, worst)
    s, poses = model.stations, body_poses(model, freedoms)
    for body, frame, here in places.INTERFACES:
        turn = 0.0 if frame == "ground" else float(poses[frame].turn[0])
        for i in range(here.start, here.stop):
            normal = np.array([s.normal_x[i, 0], s.normal_y[i, 0]])
            tangent = np.array([normal[1], -normal[0]])
            force = -(laws.d_n[i, 0] * normal + laws.d_s[i, 0] * tangent)
            at = move(model.station_points[i], poses[body])[0]
            ledger.between(body, frame, at, rotate(force, turn))


def _enter_lines(ledger: _Ledger, model: Model, freedoms: Array) -> None:
    joint = model.pivot["p3"][0] + freedoms[:2, 0]
    bone, navicular = float(freedoms[2, 0]), float(freedoms[3, 0])
    path = tendon_path(model, freedoms)
    tension = float(tendon_law(model, path).force[0])
    upper, lower = path.upper[0] + joint, path.lower[0] + joint
    insertion, origin = rotate(model.insertion[0], bone) + joint, model.tendon_origin[0] + joint
    down = (lower - insertion) / np.linalg.norm(lower - insertion)
    up = (origin - upper) / np.linalg.norm(origin - upper)
    ledger.push("p3", insertion, tension * down)
    ledger.push("navicular", lower, -tension * down)
    ledger.push("navicular", upper, tension * up)
    ledger.push("limb", origin, -tension * up)
    pulls = line_pulls(model, freedoms)[0].force[:, 0]
    turns = {"p3": bone, "navicular": navicular, "limb": 0.0}
    # In the order of `LINES`: what each pulls, and towards what.
    for row, (body, other) in enumerate((("p3", "limb"), ("p3", "navicular"), ("navicular", "limb"))):
        start = rotate(model.line_moving[row, 0], turns[body])
        end = rotate(model.line_fixed[row, 0], turns[other])
        direction = (end - start) / np.linalg.norm(end - start)
        ledger.between(body, other, start + joint, float(pulls[row]) * direction)


def audit(model: Model, freedoms: Array, worst: Array) -> list[Balance]:
    """Every sum of forces and moments of the first foot of `model` at freedoms (11, B): eleven, one per freedom."""
    ledger = _Ledger()
    one = freedoms[:, :1]
    _enter_stations(ledger, model, freedoms, worst)
    _enter_lines(ledger, model, freedoms)
    poses = body_poses(model, freedoms)
    joint = model.pivot["p3"][0] + one[:2, 0]
    hold = spring(freedoms[0], model.limb_hold).force[0]
    lift = spring(freedoms[1], model.limb_lift_hold).force[0]
    ledger.push("limb", joint, np.array([-hold, -lift - model.force[0]]))
    middles = {body: move(model.pivot[body][None], poses[body])[0, 0] for body in ("border", "plate", "wall")}
    ledger.push("border", middles["border"], np.array([0.0, -model.border_weight[0]]))
    ledger.push("plate", middles["plate"], np.array([0.0, -model.plate_weight[0]]))
    ledger.turn("p3", "limb", -float(stop(freedoms[2], model.joint_stop).force[0]))
    ledger.turn("p3", "navicular", -float(facet(model, freedoms).force[0] * model.facet_arm[0]))
    ledger.turn("wall", "border", -float(spring(freedoms[10] - freedoms[6], model.wall_hinge).force[0]))
    both = ("force x", "force y")
    return [
        *ledger.balance("limb, P3 and navicular", ("limb", "p3", "navicular"), joint, both),
        *ledger.balance("P3 about the coffin joint", ("p3",), joint, ("moment",)),
        *ledger.balance("navicular about the coffin joint", ("navicular",), joint, ("moment",)),
        *ledger.balance("border with wall", ("border", "wall"), middles["border"], (*both, "moment")),
        *ledger.balance("sole and frog plate", ("plate",), middles["plate"], (*both, "moment")),
        *ledger.balance("wall about its hinge", ("wall",), middles["wall"], ("moment",)),
    ]


def unbalanced(model: Model, freedoms: Array, worst: Array, share: float = 1e-6) -> list[Balance]:
    """The sums that exceed `share` of the load (of load times `ARM_MM` for moments)."""
    limit = share * max(float(model.force[0]), 50.0)
    return [
        row
        for row in audit(model, freedoms, worst)
        if abs(row.total) > limit * (bodies.ARM_MM if row.what == "moment" else 1.0)
    ]
