"""The lumped laminae against a finite-element strip of the same tissue.

Problem: a strip as long as the bone's dorsal face and as thick as the lucent zone joins two rigid faces; one is moved square
to the strip, along it, or turned a little. Referee: plane linear elasticity on quadratic quadrilaterals (scikit-fem), with
the same modulus across the strip and the same shear modulus, no sideways coupling. Solutions: normal stiffness E A / t
exactly; shear stiffness tends to G A / t from below, the shortfall being the unloaded ends, of order t / length.
"""

from collections.abc import Callable
from typing import Any, NamedTuple

import numpy as np

from hoofsim.frames import Array
from hoofsim.mechanics import stations as places
from hoofsim.mechanics.elements.bond import bond
from hoofsim.model import Foot

Move = Callable[[Array, Array], tuple[Array, Array]]

# Past the knee and short of the peak, where the tissue is at its main stiffness.
TAUT_STRAIN = 0.24


class Strip(NamedTuple):
    """Sizes in mm, moduli in MPa."""

    length: float
    thickness: float
    width: float
    modulus: float
    shear: float


def by_program() -> tuple[Strip, Array, Array]:
    """The strip that the sound foot's laminae are, and its stations' tangent stiffness (18,) N/mm, square and along."""
    model = Foot("sound").load("standing").model
    rows = slice(0, places.COUNTS["laminae"])
    c = type(model.one_sided)(
        **{name: np.asarray(part)[rows, :1] for name, part in vars(model.one_sided).items()}
    )
    area = model.stations.area[places.SLICES["laminae"], :1]
    taut, none = TAUT_STRAIN * c.thickness, np.zeros_like(area)
    pulled = bond(taut, none, none, c, two_sided=False)
    # Slid to the same effective strain.
    slid = bond(none, taut / np.sqrt(c.weight_s), none, c, two_sided=False)
    width, modulus = float(model.values["laminar_width_mm"][0]), float(c.large[0, 0])
    strip = Strip(
        float(area.sum()) / width,
        float(c.thickness.mean()),
        width,
        modulus,
        modulus * float(c.weight_s[0, 0]),
    )
    return strip, (area * pulled.d_nn)[:, 0], (area * slid.d_ss)[:, 0]


def stretch(x: Array, _y: Array) -> tuple[Array, Array]:
    """The upper face moves square to the strip."""
    return 0.0 * x, 1.0 + 0.0 * x


def slide(x: Array, _y: Array) -> tuple[Array, Array]:
    """It moves along it."""
    return 1.0 + 0.0 * x, 0.0 * x


def turn(x: Array, _y: Array) -> tuple[Array, Array]:
    """It turns about its middle."""
    return 0.0 * x, x


def by_finite_elements(
    strip: Strip, move: Move, across: int = 60, deep: int = 12, coupling: float = 0.0
) -> float:
    """Stiffness (N/mm, or N mm for `turn`) of the strip against one rigid move of its upper face."""
    from skfem import Basis, BilinearForm, ElementQuad2, ElementVector, MeshQuad, condense, solve

    along = np.linspace(-strip.length / 2, strip.length / 2, across + 1)
    mesh = MeshQuad.init_tensor(along, np.linspace(0, strip.thickness, deep + 1))
    basis = Basis(mesh, ElementVector(ElementQuad2()), intorder=5)
    stiff = strip.modulus / (1.0 - coupling**2)

    def work(u: Any, v: Any, _: Any) -> Any:
        du, dv = u.grad, v.grad
        shear_u, shear_v = du[0, 1] + du[1, 0], dv[0, 1] + dv[1, 0]
        mixed = coupling * (du[0, 0] * dv[1, 1] + du[1, 1] * dv[0, 0])
        return stiff * (du[0, 0] * dv[0, 0] + du[1, 1] * dv[1, 1] + mixed) + strip.shear * shear_u * shear_v

    matrix = BilinearForm(work).assemble(basis)
    bottom = basis.get_dofs(lambda x: np.isclose(x[1], 0.0)).all()
    top = basis.get_dofs(lambda x: np.isclose(x[1], strip.thickness)).all()
    values = basis.zeros()
    values[top] = basis.project(lambda x: np.stack(move(x[0], x[1])))[top]
    found = solve(*condense(matrix, x=values, D=np.concatenate([bottom, top])))
    return strip.width * float(found @ (matrix @ found))


def normal_difference() -> float:
    """Difference of the stretched strip's stiffness, %."""
    strip, square, _ = by_program()
    return 100.0 * abs(float(square.sum()) / by_finite_elements(strip, stretch) - 1.0)


def shear_difference() -> float:
    """Difference of the sheared strip's stiffness, %: the free ends, which lumped stations do not have."""
    strip, _, along = by_program()
    return 100.0 * abs(float(along.sum()) / by_finite_elements(strip, slide) - 1.0)
