"""A picture painted beside another, as a clip is while the window goes on, has not one pixel of difference."""

import threading

import pygame

from hoofsim.drawing.backend_pygame import PicturePainter
from hoofsim.drawing.camera import Camera
from hoofsim.drawing.foot_picture import foot_picture
from hoofsim.model import Foot

SIZE = (900, 650)


def painted(loaded, times):
    picture = foot_picture(loaded)
    camera, painter = Camera.fit(picture.bounds, SIZE), PicturePainter()
    return [pygame.image.tobytes(painter.paint(picture, camera), "RGB") for _ in range(times)]


def test_two_threads_paint_what_each_alone_paints():
    feet = [Foot("sound").load("walk", 50.0), Foot("overgrown_heel").load("standing")]
    alone = [painted(foot, 1)[0] for foot in feet]
    beside = []
    other = threading.Thread(target=lambda: beside.extend(painted(feet[1], 25)))
    other.start()
    here = painted(feet[0], 25)
    other.join()
    assert set(here) == {alone[0]}
    assert set(beside) == {alone[1]}
