"""The tendon's path: derivatives by complex step, lift-off, and a brute-force shortest path as referee."""

import numpy as np
import pytest

from hoofsim.mechanics.wrapping import path
from tests.mechanics.complex_step import STEP, largest_error

ORIGIN, CENTRE, INSERTION = np.array([-60.0, 43.6]), np.array([-13.0, -18.4]), np.array([6.1, -31.8])


def poses(count: int) -> tuple[np.ndarray, ...]:
    rng = np.random.default_rng(8)
    navicular = rng.uniform(-0.5, 0.6, count)
    bone = navicular + rng.uniform(-0.2, 0.2, count)
    points = (np.tile(point, (count, 1)) for point in (ORIGIN, CENTRE, INSERTION))
    return (*points, np.full(count, 11.5), navicular, bone)


def test_first_and_second_derivatives() -> None:
    origin, centre, insertion, radius, navicular, bone = poses(200)
    here = path(origin, centre, insertion, radius, navicular, bone)
    by_nav = path(origin, centre, insertion, radius, navicular + 1j * STEP, bone + 0j)
    by_bone = path(origin, centre, insertion, radius, navicular + 0j, bone + 1j * STEP)
    assert largest_error(here.d_navicular, by_nav.length.imag / STEP) < 1e-12
    assert largest_error(here.d_p3, by_bone.length.imag / STEP) < 1e-12
    assert largest_error(here.d_nn, by_nav.d_navicular.imag / STEP) < 1e-12
    assert largest_error(here.d_np, by_bone.d_navicular.imag / STEP) < 1e-12
    assert largest_error(here.d_pp, by_bone.d_p3.imag / STEP) < 1e-12


def shortest_around(origin: np.ndarray, centre: np.ndarray, insertion: np.ndarray, radius: float) -> float:
    """Length of a string pulled tight round the circle's lower side: brute force over both points of contact."""
    angles = np.linspace(np.pi, 2 * np.pi, 3001)
    rim = centre + radius * np.stack([np.cos(angles), np.sin(angles)], axis=-1)
    up = np.linalg.norm(rim - origin, axis=-1)
    down = np.linalg.norm(rim - insertion, axis=-1)
    # A straight run is allowed only where it does not cut the circle: beyond the tangent point it would.
    outside_up = ((origin - rim) * (rim - centre)).sum(axis=-1) >= -1e-9
    outside_down = ((insertion - rim) * (rim - centre)).sum(axis=-1) >= -1e-9
    meet = np.where(outside_up, up - radius * angles, np.inf)
    leave = np.where(outside_down, down + radius * angles, np.inf)
    best_meet = np.minimum.accumulate(meet)
    return float((best_meet + leave).min())


def test_length_equals_the_string_pulled_tight() -> None:
    here = path(ORIGIN[None], CENTRE[None], INSERTION[None], np.array([11.5]), np.zeros(1), np.zeros(1))
    assert here.length[0] == pytest.approx(shortest_around(ORIGIN, CENTRE, INSERTION, 11.5), abs=1e-4)


def test_lever_is_about_that_of_the_foot() -> None:
    """29 mm to the navicular's flexor surface, 31-32 to the tendon's centre line: the sound foot's geometry (choice)."""
    zero = np.zeros(1)
    line = path(ORIGIN[None], CENTRE[None], INSERTION[None], np.array([11.5]), zero, zero)
    assert 31.0 < -(line.d_p3 + line.d_navicular)[0] < 32.5


def test_the_tendon_lifts_off_and_then_runs_straight() -> None:
    bone = np.array([0.8])
    here = path(ORIGIN[None], CENTRE[None], INSERTION[None], np.array([11.5]), np.array([-0.5]), bone)
    assert here.wrap[0] == 0.0
    cosine, sine = np.cos(bone[0]), np.sin(bone[0])
    x, y = INSERTION
    moved = np.array([cosine * x + sine * y, -sine * x + cosine * y])
    assert here.length[0] == pytest.approx(np.linalg.norm(moved - ORIGIN))
    assert here.d_navicular[0] == 0.0
