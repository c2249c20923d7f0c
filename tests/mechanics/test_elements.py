"""Every force law against complex step, limits and closed forms; and the checker shown a wrong law."""

import numpy as np
import pytest

from hoofsim.mechanics.elements.bond import (
    BondConstants,
    bond,
    damage,
    effective_strain,
    envelope,
    peak_strain,
)
from hoofsim.mechanics.elements.compression import CompressionConstants, compression
from hoofsim.mechanics.elements.contact import ContactConstants, contact
from hoofsim.mechanics.elements.line import LineConstants, chord, line, slack_length
from hoofsim.mechanics.elements.one_sided import one_sided, ramp
from hoofsim.mechanics.elements.spring import cantilever_stiffness, curved_strip, spring
from hoofsim.mechanics.elements.stop import StopConstants, stop
from tests.mechanics.complex_step import derivative, largest_error

TIGHT = 1e-12


def laminar(count: int, **changes: float) -> BondConstants:
    numbers = {"small": 0.15, "large": 7.58, "knee": 0.12, "strength": 2.2, "rupture": 0.6, "thickness": 7.0,
               "weight_n": 1.0, "weight_s": 0.7} | changes  # fmt: skip
    full = {name: np.full(count, value) for name, value in numbers.items()}
    return BondConstants(
        **full, peak=peak_strain(full["small"], full["large"], full["knee"], full["strength"])
    )


def test_one_sided_is_zero_before_smooth_between_and_a_spring_beyond() -> None:
    x = np.linspace(-0.5, 2.0, 401)
    energy, force, stiffness = one_sided(x, 0.5)
    assert largest_error(force, derivative(lambda z: one_sided(z, 0.5)[0], x)) < TIGHT
    assert largest_error(stiffness, derivative(lambda z: one_sided(z, 0.5)[1], x)) < TIGHT
    assert largest_error(ramp(x, 0.5)[2], derivative(lambda z: ramp(z, 0.5)[1], x)) < TIGHT
    assert not energy[x <= 0].any()
    assert not force[x <= 0].any()
    assert np.allclose(force[x >= 0.5], x[x >= 0.5] - 0.25)
    assert np.abs(np.diff(stiffness)).max() < 0.02, "the stiffness must not jump"


@pytest.mark.parametrize("two_sided", [True, False])
@pytest.mark.parametrize("worst", [0.0, 0.3, 0.45])
def test_bond_derivatives_by_complex_step(two_sided: bool, worst: float) -> None:
    rng = np.random.default_rng(4)
    n, s = rng.uniform(-2.0, 4.5, 600), rng.uniform(-4.5, 4.5, 600)
    c, history = laminar(600), np.full(600, worst)
    law = bond(n, s, history, c, two_sided)
    assert (
        largest_error(law.d_n, derivative(lambda z: bond(z, s + 0j, history, c, two_sided).energy, n)) < TIGHT
    )
    assert (
        largest_error(law.d_s, derivative(lambda z: bond(n + 0j, z, history, c, two_sided).energy, s)) < TIGHT
    )
    assert largest_error(law.d_nn, derivative(lambda z: bond(z, s + 0j, history, c, two_sided).d_n, n)) < 1e-9
    assert largest_error(law.d_ns, derivative(lambda z: bond(n + 0j, z, history, c, two_sided).d_n, s)) < 1e-9
    assert largest_error(law.d_ss, derivative(lambda z: bond(n + 0j, z, history, c, two_sided).d_s, s)) < 1e-9


def test_the_checker_sees_a_wrong_derivative() -> None:
    n = np.linspace(0.5, 3.0, 50)
    c, none = laminar(50), np.zeros(50)
    law = bond(n, 0 * n, none, c, False)
    true = derivative(lambda z: bond(z, 0 * z, none, c, False).energy, n)
    assert largest_error(-law.d_n, true) > 1.0
    assert largest_error(law.d_n * 1.001, true) > 1e-4


def test_bond_follows_its_published_numbers() -> None:
    """Moduli 0.15 and 7.58 MPa small and large strain, failure near strain 0.50 (F11); strength 1.72-3.09 MPa (F11b)."""
    c = laminar(1)
    assert envelope(np.array([0.01]), c)[1][0] / 0.01 == pytest.approx(0.15, rel=1e-9)
    steep = (envelope(np.array([0.35]), c)[1] - envelope(np.array([0.25]), c)[1]) / 0.1
    assert steep[0] == pytest.approx(7.58, rel=1e-9)
    strains = np.linspace(0, 0.7, 2801)
    traction = envelope(strains, laminar(2801))[1]
    assert 1.72 <= traction.max() <= 3.09
    half_fallen = strains[np.flatnonzero(traction > 0.5 * traction.max())[-1]]
    assert half_fallen == pytest.approx(0.50, abs=0.02)
    assert traction[-1] == 0.0


def test_work_to_tear_a_bond_is_the_area_under_its_curve() -> None:
    """Closed form: the law's own work against the area under its traction, by the trapezium rule on a fine grid."""
    strains = np.linspace(0.0, 1.0, 20001)
    area = np.trapezoid(envelope(strains, laminar(20001))[1], strains)
    assert float(envelope(np.array([1.0]), laminar(1))[0][0]) == pytest.approx(area, rel=1e-7)


def test_damage_remembers_and_never_heals() -> None:
    c = laminar(3)
    worst = np.array([0.2, 0.5, 0.7])
    lost = damage(worst, c)
    assert lost[0] == 0.0
    assert 0.0 < lost[1] < 1.0
    assert lost[2] == pytest.approx(1.0)
    pulled = np.full(3, 1.4)
    again = bond(pulled, 0 * pulled, worst, c, False).d_n
    fresh = bond(pulled, 0 * pulled, np.zeros(3), c, False).d_n
    assert again[0] == pytest.approx(fresh[0])
    assert again[1] == pytest.approx((1 - lost[1]) * fresh[1])
    assert again[2] == pytest.approx(0.0, abs=1e-12)


def test_a_reloaded_bond_meets_its_envelope_where_it_left_it() -> None:
    c, worst = laminar(2), np.full(2, 0.5)
    at = 7.0 * (0.5 + np.array([-1e-7, 1e-7])) + 0.05
    reloaded = bond(at, 0 * at, worst, c, False).d_n
    assert reloaded[0] == pytest.approx(reloaded[1], rel=1e-4)


def test_pressed_bonds_carry_nothing_and_two_sided_bonds_do() -> None:
    pressed = np.array([-1.0])
    assert bond(pressed, 0 * pressed, np.zeros(1), laminar(1), False).d_n[0] == 0.0
    assert bond(pressed, 0 * pressed, np.zeros(1), laminar(1), True).d_n[0] < 0.0
    assert effective_strain(pressed, np.array([2.0]), laminar(1), False)[0] == pytest.approx(
        2.0 * 0.7**0.5 / 7.0
    )


def test_compression_stiffens_locks_and_never_pulls() -> None:
    n = np.linspace(-7.0, 1.0, 300)
    c = CompressionConstants(*(np.full(300, x) for x in (0.3, 5.0, 0.12, 60.0, 0.55, 10.0)))
    law = compression(n, c)
    assert largest_error(law.force, derivative(lambda z: compression(z, c).energy, n)) < TIGHT
    assert largest_error(law.stiffness, derivative(lambda z: compression(z, c).force, n)) < TIGHT
    assert not law.force[n >= 0].any()
    assert (np.diff(law.force) >= 0).all()
    assert law.stiffness[0] > 5 * law.stiffness[150] > law.stiffness[290]


def test_contact_pushes_only_when_touching_and_slides_at_coulombs_limit() -> None:
    rng = np.random.default_rng(5)
    n, s = rng.uniform(-2.0, 0.5, 400), rng.uniform(-3.0, 3.0, 400)
    c = ContactConstants(np.full(400, 600.0), np.full(400, 0.6))
    law = contact(n, s, c)
    assert largest_error(law.d_n, derivative(lambda z: contact(z, s + 0j, c).energy, n)) < TIGHT
    assert largest_error(law.d_s, derivative(lambda z: contact(n + 0j, z, c).energy, s)) < TIGHT
    assert largest_error(law.d_nn, derivative(lambda z: contact(z, s + 0j, c).d_n, n)) < TIGHT
    assert largest_error(law.d_ns, derivative(lambda z: contact(n + 0j, z, c).d_n, s)) < TIGHT
    assert largest_error(law.d_ss, derivative(lambda z: contact(n + 0j, z, c).d_s, s)) < TIGHT
    assert not law.d_n[n >= 0].any()
    one = ContactConstants(np.array([600.0]), np.array([0.6]))
    far = contact(np.array([-1.0]), np.array([30.0]), one)
    frictionless = contact(np.array([-1.0]), np.array([0.0]), one)
    assert far.d_s[0] == pytest.approx(-0.6 * frictionless.d_n[0], rel=1e-3)


def test_line_carries_its_tension_at_its_reference_length_and_none_when_slack() -> None:
    slack = slack_length(np.array([100.0]), np.array([700.0]), np.array([247.0]))
    c = LineConstants(np.array([247.0]), slack, np.array([0.0]))
    assert line(np.array([100.0]), c).force[0] == pytest.approx(700.0)
    assert line(np.array([90.0]), c).force[0] == 0.0
    toned = LineConstants(np.array([247.0]), slack, np.array([150.0]))
    assert line(np.array([90.0]), toned).force[0] == 150.0


def test_chord_derivatives() -> None:
    turn = np.linspace(-0.6, 0.6, 61)
    a, b = np.tile([24.3, 1.2], (61, 1)), np.tile([-8.0, 55.6], (61, 1))
    _, first, second = chord(a, b, turn)
    assert largest_error(first, derivative(lambda z: chord(a, b, z)[0], turn)) < TIGHT
    assert largest_error(second, derivative(lambda z: chord(a, b, z)[1], turn)) < TIGHT


def test_stop_and_spring() -> None:
    x = np.linspace(-2.0, 2.0, 201)
    c = StopConstants(np.array(-0.5), np.array(0.8), 3e6, 0.05)
    law = stop(x, c)
    assert largest_error(law.force, derivative(lambda z: stop(z, c).energy, x)) < TIGHT
    assert not law.force[(x > -0.5) & (x < 0.8)].any()
    assert law.force[0] < 0 < law.force[-1]
    assert spring(np.array([2.0]), np.array([5.0])).force[0] == 10.0


def test_the_wall_bends_as_a_cantilever() -> None:
    """End deflection P L^3 / (3 E I) (any text on beams) against hinge turn times arm; the flat strip has w t^3 / 12."""
    flat = curved_strip(np.array([64.0]), np.array([8.5]), np.array([0.0]))
    assert flat[0] == pytest.approx(64 * 8.5**3 / 12)
    bent = curved_strip(np.array([64.0]), np.array([8.5]), np.array([12.0]))
    stiffness = cantilever_stiffness(np.array([762.0]), bent, np.array([70.0]))
    force = 100.0
    assert force * 70.0 / stiffness[0] * 70.0 == pytest.approx(force * 70.0**3 / (3 * 762.0 * bent[0]))
    # A parabola's second moment about its own mean, by quadrature.
    across = np.linspace(-0.5, 0.5, 4001)
    height = 12.0 * (1 - 4 * across**2)
    extra = 64 * 8.5 * float(np.mean((height - height.mean()) ** 2))
    assert bent[0] - flat[0] == pytest.approx(extra, rel=1e-3)
