"""Total potential energy of a batch of feet, its gradient and its Hessian by the eleven freedoms.

The equilibrium takes all three (`evaluate`); the moving scene takes the forces on its bodies (`pose_gradient`).
"""

from typing import NamedTuple

import numpy as np

from hoofsim.mechanics import bodies
from hoofsim.mechanics import stations as places
from hoofsim.mechanics.elements.bond import bond
from hoofsim.mechanics.elements.compression import compression
from hoofsim.mechanics.elements.contact import contact
from hoofsim.mechanics.elements.line import chord, line
from hoofsim.mechanics.elements.one_sided import one_sided
from hoofsim.mechanics.elements.spring import spring
from hoofsim.mechanics.elements.stop import stop
from hoofsim.mechanics.model import FACET_STIFFNESS, FACET_WIDTH_MM, Model
from hoofsim.mechanics.types import Array, LineLaw, Numbers, PlaneLaw
from hoofsim.mechanics.wrapping import Path, path


class Evaluation(NamedTuple):
    """energy (B,) N mm; gradient (11, B); hessian (11, 11, B)."""

    energy: Numbers
    gradient: Numbers
    hessian: Numbers


class Separations(NamedTuple):
    """Stations' separations n, s (stations, B) in mm, the turned levers, and the interfaces' relative poses."""

    n: Numbers
    s: Numbers
    lever_x: Numbers
    lever_y: Numbers
    relative: bodies.Relative


def separations(model: Model, pose: Numbers) -> Separations:
    """Separation of every station at pose coordinates (14, B)."""
    s, pivot_x, pivot_y = model.stations, model.pivot_x, model.pivot_y
    r = bodies.relative(pose, places.JOINTS, pivot_x, pivot_y)
    which = places.INTERFACE_OF
    cosine, sine = r.cosine[which], r.sine[which]
    lever_x = cosine * s.lever_x + sine * s.lever_y
    lever_y = cosine * s.lever_y - sine * s.lever_x
    move_x = lever_x - s.lever_x + (r.x - pivot_x)[which]
    move_y = lever_y - s.lever_y + (r.y - pivot_y)[which]
    n = move_x * s.normal_x + move_y * s.normal_y
    # The tangent is the normal turned a quarter clockwise: (ny, -nx).
    slide = move_x * s.normal_y - move_y * s.normal_x
    n[places.GROUND] += s.gap[places.GROUND]
    slide[places.GROUND] -= s.grip[places.GROUND]
    return Separations(n, slide, lever_x, lever_y, r)


def station_laws(model: Model, sep: Separations, worst: Array) -> PlaneLaw:
    """Energy (N mm) and derivatives by (n, s) of every station. `worst`: largest bond strains so far (bonded, B)."""
    s = model.stations
    n, slide = sep.n, sep.s
    out = PlaneLaw(*(np.zeros(n.shape, n.dtype) for _ in range(6)))
    bonded = places.TWO_SIDED.stop
    for here, constants, history, two_sided in (
        (places.TWO_SIDED, model.two_sided, worst[:bonded], True),
        (places.ONE_SIDED, model.one_sided, worst[bonded:], False),
    ):
        area = s.area[here] * s.attached[here]
        for total, part in zip(out, bond(n[here], slide[here], history, constants, two_sided), strict=True):
            total[here] = area * part
    here = places.SLICES["junction"]
    if np.any(np.abs(slide[here].real) > model.sole_stop.most):
        held = stop(slide[here], model.sole_stop)
        out.energy[here] += held.energy
        out.d_s[here] += held.force
        out.d_ss[here] += held.stiffness
    here = places.PRESSED
    pressed = compression(n[here], model.pressed)
    area = s.area[here]
    out.energy[here] += area * pressed.energy
    out.d_n[here] += area * pressed.force
    out.d_nn[here] += area * pressed.stiffness
    here = places.GROUND
    if np.any(n[here].real < 0):
        for total, part in zip(out, contact(n[here], slide[here], model.ground), strict=True):
            total[here] = part
        if np.any(n[here].real + model.bed_floor < 0):
            for total, part in zip(
                out, contact(n[here] + model.bed_floor, slide[here], model.floor), strict=True
            ):
                total[here] += part
    return out


def tendon_path(model: Model, freedoms: Numbers) -> Path:
    """The deep flexor tendon's path at freedoms (11, B)."""
    return path(
        model.tendon_origin, model.arc_centre, model.insertion, model.arc_radius, freedoms[3], freedoms[2]
    )


def _add_stations(
    model: Model, sep: Separations, laws: PlaneLaw, gradient: Numbers, hessian: Numbers | None
) -> None:
    s = model.stations
    nx, ny = s.normal_x, s.normal_y
    px, py = sep.lever_x, sep.lever_y
    fx = laws.d_n * nx + laws.d_s * ny
    fy = laws.d_n * ny - laws.d_s * nx
    wrench = bodies.Wrench(
        *(np.add.reduceat(part, places.STARTS, axis=0) for part in (fx, fy, fx * py - fy * px))
    )
    bodies.add_gradient(gradient, places.JOINTS, sep.relative, wrench)
    if hessian is None:
        return
    cross = laws.d_ns * nx * ny
    kxx = laws.d_nn * nx * nx + 2.0 * cross + laws.d_ss * ny * ny
    kyy = laws.d_nn * ny * ny - 2.0 * cross + laws.d_ss * nx * nx
    kxy = (laws.d_nn - laws.d_ss) * nx * ny + laws.d_ns * (ny * ny - nx * nx)
    kxt = kxx * py - kxy * px
    kyt = kxy * py - kyy * px
    ktt = kxt * py - kyt * px - fx * px - fy * py
    parts = (kxx, kxy, kyy, kxt, kyt, ktt)
    stiffness = bodies.Stiffness(*(np.add.reduceat(part, places.STARTS, axis=0) for part in parts))
    bodies.add_hessian(hessian, places.JOINTS, sep.relative, wrench, stiffness)


def tendon_law(model: Model, along: Path) -> LineLaw:
    """Tension and stiffness of the deep flexor tendon on its path."""
    return line(along.length, model.tendon)


def _add_tendon(model: Model, freedoms: Numbers, gradient: Numbers, hessian: Numbers | None) -> Numbers:
    along = tendon_path(model, freedoms)
    law = tendon_law(model, along)
    gradient[2] += law.force * along.d_p3
    gradient[3] += law.force * along.d_navicular
    if hessian is not None:
        cross = law.stiffness * along.d_navicular * along.d_p3 + law.force * along.d_np
        hessian[2, 2] += law.stiffness * along.d_p3**2 + law.force * along.d_pp
        hessian[3, 3] += law.stiffness * along.d_navicular**2 + law.force * along.d_nn
        hessian[2, 3] += cross
    return law.energy


# The turn that stretches each of the short lines, as signs on (distal phalanx, navicular).
_LINE_TURNS = ((1.0, 0.0), (1.0, -1.0), (0.0, 1.0))


def line_pulls(model: Model, freedoms: Numbers) -> tuple[LineLaw, Numbers, Numbers]:
    """The short lines `LINES`: law, first and second derivative (lines, B) of length by the turn that stretches each."""
    bone, navicular = freedoms[2], freedoms[3]
    turn = np.stack([bone, bone - navicular, navicular])
    length, first, second = chord(model.line_moving, model.line_fixed, turn)
    return line(length, model.lines), first, second


def facet(model: Model, freedoms: Numbers) -> LineLaw:
    """Joint facet between distal phalanx and navicular: pushes when the bone flexes onto it. By millimetres of approach."""
    energy, force, stiffness = one_sided(model.facet_arm * (freedoms[2] - freedoms[3]), FACET_WIDTH_MM)
    return LineLaw(FACET_STIFFNESS * energy, FACET_STIFFNESS * force, FACET_STIFFNESS * stiffness)


def _add_turns(
    gradient: Numbers,
    hessian: Numbers | None,
    signs: tuple[float, float],
    moment: Numbers,
    stiffness: Numbers,
) -> None:
    """Add a term of one relative turn of bone and navicular, with the given signs."""
    for i, a in enumerate(signs):
        if a:
            gradient[2 + i] += a * moment
            if hessian is not None:
                for j, b in enumerate(signs):
                    if b and i <= j:
                        hessian[2 + i, 2 + j] += a * b * stiffness


def _add_limb(model: Model, freedoms: Numbers, gradient: Numbers, hessian: Numbers | None) -> Numbers:
    """Ligaments, facet, joint stops, wall hinge, limb hold, the capsule's weight and the load itself."""
    energy: Numbers = (
        model.force * freedoms[1] + model.border_weight * freedoms[5] + model.plate_weight * freedoms[8]
    )
    gradient[1] += model.force
    gradient[5] += model.border_weight
    gradient[8] += model.plate_weight
    law, first, second = line_pulls(model, freedoms)
    moments, stiffnesses = law.force * first, law.stiffness * first**2 + law.force * second
    for row, signs in enumerate(_LINE_TURNS):
        energy = energy + law.energy[row]
        _add_turns(gradient, hessian, signs, moments[row], stiffnesses[row])
    push = facet(model, freedoms)
    energy = energy + push.energy
    arm = model.facet_arm
    _add_turns(gradient, hessian, (1.0, -1.0), push.force * arm, push.stiffness * arm * arm)

    stopped = stop(freedoms[2], model.joint_stop)
    energy = energy + stopped.energy
    _add_turns(gradient, hessian, (1.0, 0.0), stopped.force, stopped.stiffness)

    hinge = spring(freedoms[10] - freedoms[6], model.wall_hinge)
    energy = energy + hinge.energy
    gradient[10] += hinge.force
    gradient[6] -= hinge.force
    hold, lift = spring(freedoms[0], model.limb_hold), spring(freedoms[1], model.limb_lift_hold)
    energy = energy + hold.energy + lift.energy
    gradient[0] += hold.force
    gradient[1] += lift.force
    if hessian is not None:
        for i, j, sign in ((10, 10, 1.0), (6, 6, 1.0), (6, 10, -1.0)):
            hessian[i, j] += sign * hinge.stiffness
        hessian[0, 0] += hold.stiffness
        hessian[1, 1] += lift.stiffness
    return energy


def _accumulate(
    model: Model, freedoms: Numbers, pose: Numbers, worst: Array, gradient: Numbers, hessian: Numbers | None
) -> Numbers:
    """Add every element to gradient and Hessian by pose coordinates; the energy (B,)."""
    sep = separations(model, pose)
    laws = station_laws(model, sep, worst)
    _add_stations(model, sep, laws, gradient, hessian)
    energy: Numbers = laws.energy.sum(axis=0)
    energy = energy + _add_tendon(model, freedoms, gradient, hessian)
    return energy + _add_limb(model, freedoms, gradient, hessian)


def pose_gradient(model: Model, freedoms: Numbers, worst: Array) -> tuple[Numbers, Numbers]:
    """Energy (B,) and its gradient (14, B) by pose coordinates: minus the force on each body."""
    pose = bodies.poses(freedoms, model.hinge_x, model.hinge_y)
    gradient = np.zeros((bodies.POSES, freedoms.shape[1]), dtype=freedoms.dtype)
    return _accumulate(model, freedoms, pose, worst, gradient, None), gradient


def slope(model: Model, freedoms: Numbers, worst: Array) -> tuple[Numbers, Numbers]:
    """Energy (B,) and its gradient (11, B) by the freedoms, without the cost of the Hessian."""
    energy, gradient = pose_gradient(model, freedoms, worst)
    return energy, bodies.reduce_gradient(gradient, freedoms, model.hinge_x, model.hinge_y)


def evaluate(model: Model, freedoms: Numbers, worst: Array) -> Evaluation:
    """Energy, gradient and Hessian at freedoms (11, B) with bond history `worst` (bonded, B)."""
    pose = bodies.poses(freedoms, model.hinge_x, model.hinge_y)
    gradient = np.zeros((bodies.POSES, freedoms.shape[1]), dtype=freedoms.dtype)
    hessian = np.zeros((bodies.POSES, bodies.POSES, freedoms.shape[1]), dtype=freedoms.dtype)
    energy = _accumulate(model, freedoms, pose, worst, gradient, hessian)
    bodies.mirror(hessian)
    return Evaluation(
        energy,
        bodies.reduce_gradient(gradient, freedoms, model.hinge_x, model.hinge_y),
        bodies.reduce_hessian(hessian, gradient, freedoms, model.hinge_x, model.hinge_y),
    )


def no_history(model: Model) -> Array:
    """Bond history (bonded, B) of a foot that has never been loaded."""
    return np.zeros((places.BONDED.stop, model.batch))
