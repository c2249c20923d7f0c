"""A few loaded feet, solved once for all tests of this room."""

import os

import pytest

import hoofsim
from hoofsim.model import LoadedFoot

os.environ.setdefault("SDL_VIDEODRIVER", "dummy")

FEET = {
    "sound": hoofsim.Foot("sound"),
    "long_toe": hoofsim.Foot("long_toe_low_heel"),
    "tall_heel": hoofsim.Foot("overgrown_heel"),
    "pony": hoofsim.Foot("pony"),
    "failed_laminae": hoofsim.Foot("failed_laminae"),
    "cut": hoofsim.Foot("sound", tendon_cut=1),
    "wedge": hoofsim.Foot("sound", wedge_deg=6),
    "bed": hoofsim.Foot("sound", bed_depth_mm=12, tip_lost_mm=4),
}


@pytest.fixture(scope="session")
def loaded() -> dict[str, LoadedFoot]:
    return {name: foot.load("standing") for name, foot in FEET.items()}


@pytest.fixture(params=sorted(FEET))
def one(request: pytest.FixtureRequest, loaded: dict[str, LoadedFoot]) -> LoadedFoot:
    return loaded[request.param]


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--renew-expected", action="store_true", help="write the expected display lists anew")
