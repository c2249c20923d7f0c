"""The lumped laminae against a finite-element strip of the same tissue.

Problem: a strip as long as the bone's dorsal face and as thick as the lucent zone joins two rigid faces; one is moved square
to the strip, along it, or turned a little. Referee: plane linear elasticity on quadratic quadrilaterals (scikit-fem), with
the same modulus across the strip and the same shear modulus, no sideways coupling. Solutions: normal stiffness E A / t
exactly; shear stiffness tends to G A / t from below, the shortfall being the unloaded ends, of order t / length; turning
about the strip's middle E A L^2 / (12 t), plus what the ends' shear adds.

The product lumps 18 stations, so its sums must match: square to 1e-9; along to half a thickness of strip (the free ends, 7 %
here), from above; turning to 18 points instead of a line (1 / 18^2 = 0.3 %) and the strip's own shear, which is bounded by
G L t / 3, from below: 5 % here. What lumping leaves out is stated too: tissue that cannot shrink sideways is stiffer.
"""

import numpy as np
import pytest
from skfem import Basis, BilinearForm, ElementQuad2, ElementVector, MeshQuad, condense, solve

from hoofsim.mechanics import stations as places
from hoofsim.mechanics.elements.bond import bond
from hoofsim.model import Foot

LAMINAE = places.SLICES["laminae"]


def product():
    """Area (18,), thickness, moduli and the tangent stiffness per station of the sound foot's laminae when stretched."""
    model = Foot("sound").load("standing").model
    rows = slice(0, places.COUNTS["laminae"])
    constants = type(model.one_sided)(
        **{name: np.asarray(part)[rows, :1] for name, part in vars(model.one_sided).items()}
    )
    area = model.stations.area[LAMINAE, :1]
    taut = 0.24 * constants.thickness
    still, none = 0.0 * area, np.zeros_like(area)
    pulled = bond(taut, still, none, constants, two_sided=False)
    # Sheared to the same effective strain.
    slid = bond(still, taut / np.sqrt(constants.weight_s), none, constants, two_sided=False)
    return area[:, 0], constants, (area * pulled.d_nn)[:, 0], (area * slid.d_ss)[:, 0]


def strip_stiffness(length, thickness, width, modulus, shear, move, across=60, deep=12, coupling=0.0):
    """Work-conjugate stiffness of the strip for one rigid move of its upper face, given as a function of (x, y)."""
    mesh = MeshQuad.init_tensor(
        np.linspace(-length / 2, length / 2, across + 1), np.linspace(0, thickness, deep + 1)
    )
    basis = Basis(mesh, ElementVector(ElementQuad2()), intorder=5)
    stiff = modulus / (1.0 - coupling**2)

    @BilinearForm
    def elastic(u, v, _):
        du, dv = u.grad, v.grad
        shear_u, shear_v = du[0, 1] + du[1, 0], dv[0, 1] + dv[1, 0]
        mixed = coupling * (du[0, 0] * dv[1, 1] + du[1, 1] * dv[0, 0])
        return stiff * (du[0, 0] * dv[0, 0] + du[1, 1] * dv[1, 1] + mixed) + shear * shear_u * shear_v

    matrix = elastic.assemble(basis)
    bottom = basis.get_dofs(lambda x: np.isclose(x[1], 0.0))
    top = basis.get_dofs(lambda x: np.isclose(x[1], thickness))
    values = basis.zeros()
    prescribed = basis.project(lambda x: np.stack(move(x[0], x[1])))
    values[top.all()] = prescribed[top.all()]
    fixed = np.concatenate([bottom.all(), top.all()])
    found = solve(*condense(matrix, x=values, D=fixed))
    return width * float(found @ (matrix @ found))


def stretch(x, y):
    return 0.0 * x, 1.0 + 0.0 * x


def slide(x, y):
    return 1.0 + 0.0 * x, 0.0 * x


def turn(x, y):
    return 0.0 * x, x


@pytest.fixture(scope="module")
def strip():
    area, constants, normal, shear = product()
    thickness = float(constants.thickness[:, 0].mean())
    width = 80.0
    modulus = float(constants.large[0, 0])
    return {
        "length": area.sum() / width, "thickness": thickness, "width": width, "modulus": modulus,
        "shear": modulus * float(constants.weight_s[0, 0]),
    }, normal, shear  # fmt: skip


def check_normal(sizes, stations):
    assert stations.sum() == pytest.approx(strip_stiffness(**sizes, move=stretch), rel=1e-9)


def check_shear(sizes, stations):
    found = strip_stiffness(**sizes, move=slide)
    assert found < stations.sum()
    lost = 1.0 - found / stations.sum()
    assert lost < 0.5 * sizes["thickness"] / sizes["length"]


def check_turning(sizes, stations):
    at = sizes["length"] * ((np.arange(stations.size) + 0.5) / stations.size - 0.5)
    lumped, found = (stations * at**2).sum(), strip_stiffness(**sizes, move=turn)
    own_shear = sizes["width"] * sizes["shear"] * sizes["length"] * sizes["thickness"] / 3.0
    assert 0.997 * lumped < found < 1.004 * lumped + own_shear
    assert lumped == pytest.approx(found, rel=0.05)


def test_stretched_strip(strip):
    sizes, normal, _ = strip
    check_normal(sizes, normal)


def test_sheared_strip(strip):
    sizes, _, shear = strip
    check_shear(sizes, shear)


def test_turned_strip(strip):
    sizes, normal, _ = strip
    check_turning(sizes, normal)


def test_the_shear_shortfall_is_an_end_effect_of_first_order_in_thickness_over_length(strip):
    """Rate: with the strip twice as long, the share of stiffness that the free ends lose halves."""
    sizes, _, _ = strip
    lost = []
    for factor in (1, 2, 4):
        longer = sizes | {"length": factor * sizes["length"]}
        full = longer["shear"] * longer["length"] * longer["width"] / longer["thickness"]
        lost.append(1.0 - strip_stiffness(**longer, move=slide, across=60 * factor) / full)
    rates = np.log2(np.array(lost[:-1]) / np.array(lost[1:]))
    np.testing.assert_allclose(rates, 1.0, atol=0.1)


def test_tissue_that_cannot_shrink_sideways_is_stiffer_than_the_lumped_strip(strip):
    """What the model leaves out: with a coupling of 0.45 the strip gains about a quarter in this plane."""
    sizes, normal, _ = strip
    held = strip_stiffness(**sizes, move=stretch, coupling=0.45)
    assert 1.05 < held / normal.sum() < 1.0 / (1.0 - 0.45**2)


@pytest.mark.parametrize(
    ("check", "which", "wrong"),
    [
        (check_normal, 0, lambda k, sizes: 1.01 * k),
        (check_normal, 0, lambda k, sizes: k * (np.arange(k.size) > 0)),
        (check_shear, 1, lambda k, sizes: k * sizes["modulus"] / sizes["shear"]),
        (check_shear, 1, lambda k, sizes: -k),
        (check_turning, 0, lambda k, sizes: np.where(np.arange(k.size) < k.size / 2, k, 0.0)),
    ],
)
def test_the_checks_see_a_wrong_strip(strip, check, which, wrong):
    sizes, normal, shear = strip
    with pytest.raises(AssertionError):
        check(sizes, wrong((normal, shear)[which], sizes))
