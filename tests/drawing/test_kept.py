"""What is kept for reuse: made once while it is used, and within its bound however much is asked for."""

import pygame

from hoofsim.drawing.kept import Kept, raster_bytes


def test_a_thing_is_made_once_and_the_longest_unused_goes_first() -> None:
    made: list[str] = []

    def thing(key: str) -> str:
        return kept.get(key, lambda: made.append(key) or key * 10)

    kept: Kept[str, str] = Kept(30, len)
    assert [thing(key) for key in "abca"] == ["a" * 10, "b" * 10, "c" * 10, "a" * 10]
    assert made == ["a", "b", "c"]
    thing("d")  # no room: b has not been used for longest
    assert (len(kept), kept.weight) == (3, 30)
    for key in "acd":
        thing(key)
    assert made == ["a", "b", "c", "d"]
    thing("b")
    assert made == ["a", "b", "c", "d", "b"]


def test_what_is_heavier_than_the_bound_takes_the_place_of_all_else() -> None:
    kept: Kept[int, str] = Kept(30, len)
    for key in range(5):
        kept.get(key, lambda: "x")
    assert kept.get(9, lambda: "x" * 100) == kept.get(9, lambda: "another") == "x" * 100
    assert (len(kept), kept.weight) == (1, 100)
    kept.get(10, lambda: "x")
    assert (len(kept), kept.weight) == (1, 1)


def test_a_picture_weighs_what_its_points_take() -> None:
    assert raster_bytes(pygame.Surface((30, 20), pygame.SRCALPHA)) == 30 * 20 * 4
