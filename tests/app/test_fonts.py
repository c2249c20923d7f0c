"""Every sign that the program ships can be set: the faces carried with it hold it, where `runs` sends it."""

from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from hoofsim.app.fonts import FACES, runs
from hoofsim.resources import assets_folder

ROOTS = ("hoofsim", "assets", "scenarios")
TOP = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def signs():
    """For each face, the code points it holds."""
    return {face: set(TTFont(assets_folder() / "fonts" / name).getBestCmap()) for face, name in FACES.items()}


@pytest.mark.parametrize("face", FACES)
def test_no_sign_in_what_is_shipped_is_missing_from_its_face(face, signs):
    missing = set()
    for root in ROOTS:
        for path in (TOP / root).rglob("*"):
            if path.suffix not in (".py", ".md", ".yaml", ".txt", ".csv"):
                continue
            text = "".join(sign for sign in set(path.read_text(encoding="utf-8")) if sign.isprintable())
            for run, run_face in runs(text, face):
                missing |= {(sign, path.name) for sign in run if ord(sign) not in signs[run_face]}
    assert missing == set()


def test_a_sign_that_no_face_holds_would_be_found(signs):
    assert all(ord("蹄") not in held for held in signs.values())
