"""The picture of a loaded foot: complete, in bounds, labelled without overlap, and changed by what changed."""

from collections import Counter
from pathlib import Path

import numpy as np
import pytest

import hoofsim
from hoofsim.drawing.backend_text import dump
from hoofsim.drawing.bounds import bounds_of
from hoofsim.drawing.display_list import Arrow, DisplayList, Polygon, Text, Tie
from hoofsim.drawing.foot_changes import ghost, laid_upon
from hoofsim.drawing.foot_forces import newtons_per_mm
from hoofsim.drawing.foot_measures import DRAWABLE
from hoofsim.drawing.foot_picture import bare_foot, foot_picture
from hoofsim.drawing.foot_shown import Options, Unloaded
from hoofsim.drawing.labels import colliding
from hoofsim.errors import BadInput
from hoofsim.model import LoadedFoot

PICKABLE = {
    "p1", "p2", "p3", "navicular", "flexor_tendon", "extensor_tendon", "laminae", "lamellar_zone", "solar_dermis",
    "solar_bonds", "digital_cushion", "dorsal_wall", "sole", "frog", "capsule", "coronary_corium", "white_line", "skin",
    "tip", "frog_point", "cor", "breakover", "ground", "load", "ground_force",
}  # fmt: skip


def texts(picture: DisplayList) -> list[Text]:
    return [item for item in picture.primitives() if isinstance(item, Text)]


def words(picture: DisplayList) -> str:
    return " ".join(text.text for text in texts(picture)).replace("\N{NO-BREAK SPACE}", " ")


def arrows(picture: DisplayList, role: str) -> dict[str | None, Arrow]:
    return {item.part: item for item in picture.primitives() if isinstance(item, Arrow) and item.role == role}


def test_everything_can_be_pointed_at(one: LoadedFoot) -> None:
    assert set(foot_picture(one).parts()) >= PICKABLE


def test_nothing_is_cut_off(one: LoadedFoot) -> None:
    picture = foot_picture(one, baseline=one.baseline, show=Options(measures=DRAWABLE))
    left, bottom, right, top = bounds_of(picture.primitives())
    assert left >= picture.bounds[0]
    assert bottom >= picture.bounds[1]
    assert right <= picture.bounds[2]
    assert top <= picture.bounds[3]


@pytest.mark.parametrize("options", [Options(), Options(measures=DRAWABLE), Options(text_mm=7.0), Options(text_mm=2.0)],
                         ids=["plain", "dimensions", "large type", "small type"])  # fmt: skip
def test_no_words_overlap(one: LoadedFoot, options: Options) -> None:
    assert colliding(texts(foot_picture(one, baseline=one.baseline, show=options))) == []


def test_hidden_parts_are_gone(loaded: dict[str, LoadedFoot]) -> None:
    hidden = frozenset({"skin", "capsule", "frog", "laminae", "load", "tip", "flexor_tendon"})
    parts = set(foot_picture(loaded["sound"], show=Options(hide=hidden)).parts())
    assert parts.isdisjoint(hidden)


def test_laminae_break_when_they_have_let_go(loaded: dict[str, LoadedFoot]) -> None:
    holding = {
        name: [item.attached * (1 - item.damage) for item in foot_picture(loaded[name]).primitives()
               if isinstance(item, Tie) and item.part == "laminae"]
        for name in ("sound", "failed_laminae")
    }  # fmt: skip
    assert len(holding["sound"]) >= 16
    assert min(holding["sound"]) > 0.9
    assert max(holding["failed_laminae"]) < 0.5


def test_ties_stretch_with_the_tissue(loaded: dict[str, LoadedFoot]) -> None:
    stretch = [item.stretch for item in foot_picture(loaded["sound"]).primitives()
               if isinstance(item, Tie) and item.part == "laminae"]  # fmt: skip
    assert 0.0 < max(stretch) < 0.5


def test_arrows_are_as_long_as_their_force(one: LoadedFoot) -> None:
    options = Options()
    scale = newtons_per_mm(one, options)
    drawn = arrows(foot_picture(one, show=options), "force")
    for part, name in (("load", "load"), ("ground_force", "ground"), ("tendon_force", "tendon")):
        force = np.asarray(one.forces[name].force)
        if part in drawn:
            reach = np.array(drawn[part].end) - np.array(drawn[part].start)
            assert reach * scale == pytest.approx(force, abs=1e-6)
    assert f"10 mm on the scale is {10 * scale:.0f} N" in words(foot_picture(one, show=options))


def test_a_scale_of_ones_own_is_kept(loaded: dict[str, LoadedFoot]) -> None:
    picture = foot_picture(loaded["sound"], show=Options(newtons_per_mm=100.0))
    arrow = arrows(picture, "force")["load"]
    assert float(np.hypot(*(np.array(arrow.end) - arrow.start))) == pytest.approx(14.2, abs=0.1)


def test_the_cut_tendon_is_in_two_pieces_and_says_so(loaded: dict[str, LoadedFoot]) -> None:
    count = {name: Counter(item.role for item in foot_picture(loaded[name]).primitives())["tendon"]
             for name in ("sound", "cut")}  # fmt: skip
    assert count == {"sound": 1, "cut": 2}
    assert "(DDFT), cut" in words(foot_picture(loaded["cut"]))
    assert "cut" in foot_picture(loaded["cut"]).description


def test_ground_bed_and_wedge(loaded: dict[str, LoadedFoot]) -> None:
    parts = {name: set(foot_picture(loaded[name]).parts()) for name in ("sound", "wedge", "bed")}
    assert {"wedge", "bed"}.isdisjoint(parts["sound"])
    assert "wedge" in parts["wedge"]
    assert "bed" in parts["bed"]
    wedge = next(item for item in foot_picture(loaded["wedge"]).primitives()
                 if isinstance(item, Polygon) and item.part == "wedge")  # fmt: skip
    highest = max(wedge.points, key=lambda point: point[1])
    assert highest[0] < -60, "a wedge of 6 deg is thick under the heels"


def test_lost_bone_is_drawn_dashed(loaded: dict[str, LoadedFoot]) -> None:
    roles = Counter(item.role for item in foot_picture(loaded["bed"]).primitives())
    assert roles["lost_bone"] == 1
    assert Counter(item.role for item in foot_picture(loaded["sound"]).primitives())["lost_bone"] == 0


def test_no_ghost_where_nothing_changed(loaded: dict[str, LoadedFoot]) -> None:
    sound = loaded["sound"]
    assert "ghost" not in foot_picture(sound, baseline=sound.baseline).parts()


def test_the_ghost_shows_what_moved_and_on_what_it_is_laid() -> None:
    tall = hoofsim.Foot("sound", heel_change_mm=15).load("standing")
    for body in ("ground", "capsule", "bone"):
        picture = foot_picture(tall, baseline=tall.baseline, show=Options(ghost=body))
        assert f"laid on the same {body}" in words(picture)
        assert "ghost" in picture.parts()
    assert "ghost" not in foot_picture(tall, baseline=tall.baseline, show=Options(ghost="none")).parts()
    with pytest.raises(BadInput, match="cannot be laid upon 'capsul'; did you mean 'capsule'"):
        foot_picture(tall, baseline=tall.baseline, show=Options(ghost="capsul"))


def test_a_rival_account_is_drawn_as_outlines_only(loaded: dict[str, LoadedFoot]) -> None:
    sound = loaded["sound"]
    drawn = ghost(sound.points, sound.rest_points, ("p3", "frog"), "rival")
    assert [(type(item).__name__, item.role) for item in drawn] == [("Polyline", "rival")] * 2


def test_laid_on_the_bone_the_bone_has_not_moved() -> None:
    tall = hoofsim.Foot("sound", heel_change_mm=15).load("standing")
    laid = laid_upon(tall.baseline.points, tall.points, "bone")
    for name in ("tip", "extensor_process", "palmar_process"):
        assert laid[name] == pytest.approx(tall.points[name], abs=1e-6)
    assert np.hypot(*(laid["heel_ground"] - tall.points["heel_ground"])) > 10


@pytest.mark.parametrize("name", DRAWABLE)
def test_each_dimension_is_drawn_with_the_foots_own_number(name: str, loaded: dict[str, LoadedFoot]) -> None:
    picture = foot_picture(loaded["sound"], show=Options(measures=(name,)))
    value = loaded["sound"].measures()[name]
    assert value is not None
    assert f"{value:.1f}" in words(picture)
    assert any(item.role == "dimension" for item in picture.primitives())


SPANS = ("sole_depth_tip", "tip_to_frog", "founder_distance", "wall_to_bone_distal", "lucent_zone_middle",
         "ground_depth_tip", "toe_to_cor", "breakover_to_tip", "sole_depth_palmar",
         "wall_to_bone_proximal")  # fmt: skip


@pytest.mark.parametrize("name", SPANS)
def test_a_dimension_line_is_as_long_as_its_number(name: str, loaded: dict[str, LoadedFoot]) -> None:
    """What is drawn is computed apart from the number, so this also guards the definition."""
    shown = loaded["failed_laminae"]
    picture = foot_picture(shown, show=Options(measures=(name,), forces=False))
    ends = [
        np.array(item.end)
        for item in picture.primitives()
        if isinstance(item, Arrow) and item.role == "dimension"
    ]
    value = shown.measures()[name]
    assert value is not None
    assert float(np.hypot(*(ends[1] - ends[0]))) == pytest.approx(abs(value), abs=0.02)


def test_a_measure_that_cannot_be_drawn_is_refused(loaded: dict[str, LoadedFoot]) -> None:
    with pytest.raises(BadInput, match="measure 'tendon_tension' cannot be drawn on the foot"):
        foot_picture(loaded["sound"], show=Options(measures=("tendon_tension",)))


def test_inches_on_request(loaded: dict[str, LoadedFoot]) -> None:
    picture = foot_picture(loaded["sound"], show=Options(measures=("sole_depth_tip",), length_unit="in"))
    assert "0.46 in" in words(picture)


def test_a_foot_without_rest_is_drawn_unloaded_with_a_warning(loaded: dict[str, LoadedFoot]) -> None:
    sound = loaded["sound"]
    failed = Unloaded(sound.foot, "torn through", sound.rest_points)
    picture = foot_picture(failed, baseline=sound)
    assert "found no rest (torn through)" in words(picture)
    assert not arrows(picture, "force")
    assert "laminae" not in picture.parts()


def test_a_chosen_part_has_a_bright_rim(loaded: dict[str, LoadedFoot]) -> None:
    picture = foot_picture(loaded["sound"], show=Options(highlight="navicular"))
    assert [item.part for item in picture.primitives() if item.role == "highlight"] == ["navicular"]


EXPECTED = Path(__file__).parent / "expected"


@pytest.mark.parametrize("name", ["sound", "failed_laminae", "wedge"])
def test_the_picture_is_as_it_was(
    name: str, loaded: dict[str, LoadedFoot], request: pytest.FixtureRequest
) -> None:
    """Compared with the text kept in `expected/`: words exactly, numbers to 0.3 mm.

    After a change that is meant, renew the texts with `pytest tests/drawing --renew-expected`, look at what differs
    (`git diff tests/drawing/expected`) and at the picture itself, and keep both in one commit.
    """
    written = dump(
        foot_picture(loaded[name], show=Options(measures=("sole_depth_tip", "tip_to_frog"))), digits=1
    )
    file = EXPECTED / f"{name}.txt"
    if request.config.getoption("--renew-expected", default=False):
        file.write_text(written, encoding="utf-8")
    kept = file.read_text(encoding="utf-8")
    assert [line.split()[:3] for line in written.splitlines()] == [
        line.split()[:3] for line in kept.splitlines()
    ]
    for now, before in zip(written.splitlines(), kept.splitlines(), strict=True):
        assert apart(now, before) <= 0.3, f"was: {before[:150]}\nnow: {now[:150]}"


def apart(one: str, other: str) -> float:
    """Largest difference between the numbers of two lines; infinite where a word differs."""
    largest = 0.0
    ones, others = (line.replace(",", " ").split() for line in (one, other))
    if len(ones) != len(others):
        return float("inf")
    for word, before in zip(ones, others, strict=True):
        try:
            largest = max(largest, abs(float(word) - float(before)))
        except ValueError:
            if word != before:
                return float("inf")
    return largest


def test_the_comparison_sees_moves_and_other_words() -> None:
    assert apart("circle tip 1.0,2.0", "circle tip 1.0,2.5") == pytest.approx(0.5)
    assert apart("text sole", "text frog") == float("inf")


def test_the_bare_foot_is_the_picture_without_its_words(one: LoadedFoot) -> None:
    options = Options(labels=(), force_words=False, scale_bar=False, note=False, title="")
    whole = foot_picture(one, baseline=one.baseline, show=options)
    bare, notes = bare_foot(one, baseline=one.baseline, show=options)
    assert list(bare.primitives()) == [item for item in whole.primitives() if not isinstance(item, Text)]
    assert bare.bounds == bounds_of(bare.primitives())
    words = " ".join(item.text for item in whole.primitives() if isinstance(item, Text))
    assert words == " ".join(notes)
    assert "Force arrows" in words
