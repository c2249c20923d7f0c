"""What a raised heel does: to joints, tendon, navicular and laminae."""

import numpy as np
from numpy.typing import NDArray

from hoofsim.foot.parameters import BY_NAME
from hoofsim.measures.angles import phalangeal_rotation
from hoofsim.measures.compute import measure_all
from hoofsim.mechanics import stations as places
from hoofsim.mechanics.assembly import separations, station_laws
from hoofsim.mechanics.bodies import poses
from hoofsim.model import Foot, LoadedFoot, sweep
from hoofsim.verify.quantities.stance import peak, stance
from hoofsim.verify.quantities.standing import joint_force, reading, standing

WEDGE_DEG = 6.0
# Small enough that the tendon of the standing foot is taut throughout.
SMALL_WEDGE_DEG = 4.0
ALL_WEDGES = np.linspace(BY_NAME["wedge_deg"].low, BY_NAME["wedge_deg"].high, 24)
WEDGES = np.linspace(-6.0, 4.0, 11)
PALMAR_ANGLES_DEG = (0.0, 15.0)


def coffin_flexion_per_degree() -> float:
    """Flexion of the coffin joint per degree of wedge: straight line through raised toes and heels, one foot bearing."""
    turned = sweep("sound", {"wedge_deg": ALL_WEDGES}, "other_lifted")["phalangeal_rotation"]
    return float(np.polyfit(ALL_WEDGES, turned, 1)[0])


def navicular_peak_change() -> float:
    """Change of the peak navicular force over the trot's stance by a 6 deg wedge, %."""
    return 100.0 * (
        peak("trot", "navicular_load", wedge_deg=WEDGE_DEG) / peak("trot", "navicular_load") - 1.0
    )


def _trot_flexion(**changes: float) -> NDArray[np.float64]:
    """Flexion of the coffin joint over the trot's stance (moments,), deg."""
    return phalangeal_rotation(stance("trot", **changes).points)


def trot_flexion_change() -> float:
    """Change of the largest coffin-joint flexion over the trot's stance by a 6 deg wedge, deg."""
    return float(_trot_flexion(wedge_deg=WEDGE_DEG).max() - _trot_flexion().max())


def trot_extension_change() -> float:
    """Change of the largest coffin-joint extension over the trot's stance by a 6 deg wedge, deg."""
    return float(_trot_flexion().min() - _trot_flexion(wedge_deg=WEDGE_DEG).min())


def tendon_change() -> float:
    """Change of the standing tendon tension by a 4 deg wedge, %."""
    return 100.0 * (reading("tendon_tension", wedge_deg=SMALL_WEDGE_DEG) / reading("tendon_tension") - 1.0)


def joint_force_change() -> float:
    """Change of the coffin joint's bone-to-bone force by a 4 deg wedge, standing, %."""
    return 100.0 * (joint_force(standing(wedge_deg=SMALL_WEDGE_DEG)) / joint_force(standing()) - 1.0)


def navicular_against_bone_angle() -> float:
    """Correlation of navicular force with the coffin bone's angle to the ground over wedges at the trot's middle."""
    table = sweep("sound", {"wedge_deg": WEDGES}, "trot", 50.0)
    return float(np.corrcoef(table["navicular_load"], table["palmar_angle"])[0, 1])


def navicular_follows_bone() -> float:
    """Correlation of the navicular's turn with the coffin bone's, both on the middle phalanx, over wedges."""
    turns = []
    for wedge in WEDGES:
        moved = Foot("sound", wedge_deg=float(wedge)).load("standing").poses
        turns.append([moved[body].turn - moved["p2"].turn for body in ("navicular", "p3")])
    return float(np.corrcoef(np.array(turns).T)[0, 1])


def proximal_laminar_energy(loaded: LoadedFoot) -> float:
    """Energy stored in the top third of the dorsal laminae, N mm."""
    model, found = loaded.model, loaded.equilibrium
    gaps = separations(model, poses(found.freedoms, model.hinge_x, model.hinge_y))
    energy = station_laws(model, gaps, found.worst).energy[places.SLICES["laminae"], 0]
    return float(energy[: energy.size // 3].sum())


def laminar_energy_ratio() -> float:
    """Energy near the upper laminar border at 15 deg of palmar angle over that at 0 deg, standing, by a wedge."""
    rest = Foot("sound").load("standing")
    at_rest = measure_all(rest.rest_points)["palmar_angle"]
    assert at_rest is not None
    low, high = (
        proximal_laminar_energy(Foot("sound", wedge_deg=angle - float(at_rest)).load("standing"))
        for angle in PALMAR_ANGLES_DEG
    )
    return high / low
