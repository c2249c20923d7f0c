"""The foot on its sheet: the display list through a camera, with handles, tools, pen and pointer over it."""

import itertools
from collections.abc import Callable, Mapping
from dataclasses import dataclass

import pygame

from hoofsim.app.foot_picture import largest_view
from hoofsim.app.picking import part_at
from hoofsim.app.screens.sandbox.handles import HANDLES, Handle, handle_at
from hoofsim.app.screens.sandbox.holding import HOLDABLE, LET_GO_KEYS, TAKE_KEYS, moved_by, place_of, why_not
from hoofsim.app.screens.sandbox.marks import draw_hand, draw_handle, draw_tag
from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect, Widget
from hoofsim.app.widgets.layout import inset, split_bottom
from hoofsim.app.widgets.painter import Painter
from hoofsim.app.widgets.wrapping import wrap_lines
from hoofsim.drawing.backend_pygame import PicturePainter
from hoofsim.drawing.camera import Camera
from hoofsim.drawing.display_list import Bounds, DisplayList, Point
from hoofsim.drawing.palette import HIGH_CONTRAST, NORMAL
from hoofsim.frames import Array
from hoofsim.model import Force

Pixel = tuple[int, int]
REACH = 0.27  # how far from a thin structure the pointer still means it, in text sizes
ZOOM_STEP = 1.15
SCALE_MM = 20.0
HANDLE_BY_KEY = {handle.key: handle for handle in HANDLES}


@dataclass
class Actions:
    """What the view asks its screen to do (places in mm): move a control by a handle, use a tool, hold a bone."""

    begin: Callable[[Handle], None]
    move: Callable[[Handle, Point], None]
    tool: Callable[[str, Point, float, bool], bool]
    end: Callable[[], None]
    grab: Callable[[Point], bool]
    pull: Callable[[Point], None]
    let_go: Callable[[], None]


class FootView(Widget):
    """Shows `picture`; the wheel zooms, dragging the sheet moves it, handles and tools act on the foot.

    With the keyboard: Left and Right step through the structures, so that each can be read without a pointer; Enter
    takes hold of a bone, arrows pull it, Enter or Escape lets go.
    """

    focusable = True

    def __init__(self, name: str, actions: Actions | None = None) -> None:
        super().__init__(name)
        self.actions = actions
        self.picture: DisplayList | None = None
        self.points: Mapping[str, Array] = {}
        self.camera: Camera | None = None
        self.sheet = Rect(0, 0, 0, 0)
        self._strip = Rect(0, 0, 0, 0)
        self.note_lines = 0
        self._reach = 4
        self.scale_words = f"{SCALE_MM:g} mm"
        self.moved_view = False  # by hand; then a resize keeps the place
        self.tool = "hand"
        self.pointed_part: str | None = None
        self.pointed_handle: str | None = None
        self.handles_shown = actions is not None
        self.hand: Force | None = None  # the pull on what is held, for drawing
        self.spot = False  # a ring round the pointer, to be seen from the back of a room
        self.holds_anywhere = False  # a press anywhere counts, not only one on a bone
        self.keys_hold = False  # Enter takes hold of the bone pointed at
        self.pen = False
        self.strokes: list[list[Point]] = []
        self.handle_words: Callable[[Handle], str] = lambda handle: handle.words
        self.say: Callable[[str], None] = lambda sentence: None
        self.notes: list[str] = []  # set under the sheet, beside the scale
        self.hasty = False  # while things move: the faster of the two ways of drawing
        self.paints_later = False  # whoever draws the view asks for painting when there is time
        self._painters: dict[bool, PicturePainter] = {}
        self._surface: pygame.Surface | None = None
        self._drawn: tuple[object, ...] = ()
        self._held: Handle | None = None
        self._start: Point = (0.0, 0.0)  # where a handle was taken, or a bone
        self._hand_at: Point = (0.0, 0.0)
        self._last: Pixel | None = None
        self._mode = ""
        self._pointer: Pixel | None = None

    # -- camera --------------------------------------------------------------------------------------------------

    def place(self, rect: Rect, theme: Theme) -> None:
        """Keep a strip for the scale and the notes; the sheet keeps its middle when its size changes."""
        super().place(rect, theme)
        self._reach = theme.px(REACH)
        self.sheet, self._strip = split_bottom(rect, self._strip_height(theme))
        size = (max(8, self.sheet.w), max(8, self.sheet.h))
        if self.camera is None:
            self.camera = Camera.fit((-100.0, -20.0, 110.0, 130.0), size)
        elif self.camera.size != size:
            self.camera = self.camera.resized(size)

    def _strip_height(self, theme: Theme) -> int:
        return theme.line_height("small") * self.note_lines + theme.px(0.6) if self.note_lines else 0

    def show_all(self, text_pixels: float, build: Callable[[float], Bounds]) -> None:
        """Show the whole picture as large as can be; `build` as in `largest_view`."""
        self.moved_view = False
        self.camera = largest_view((max(8, self.sheet.w), max(8, self.sheet.h)), text_pixels, build)

    def zoom(self, steps: float, about: Pixel | None = None) -> None:
        """Nearer (positive) or farther."""
        if self.camera is not None:
            inside = (about[0] - self.sheet.x, about[1] - self.sheet.y) if about else None
            self.camera = self.camera.zoomed(ZOOM_STEP**steps, inside)
            self.moved_view = True

    def pan(self, right: float, down: float) -> None:
        """Move the sheet by so many pixels."""
        if self.camera is not None:
            self.camera = self.camera.panned(right, down)
            self.moved_view = True

    def to_mm(self, pixel: Pixel) -> Point:
        """Place on the sheet under a window position."""
        assert self.camera is not None
        x, y = self.camera.to_mm((pixel[0] - self.sheet.x, pixel[1] - self.sheet.y))
        return float(x), float(y)

    def to_window(self, point: Point) -> tuple[float, float]:
        """Window position of a place on the sheet."""
        assert self.camera is not None
        x, y = self.camera.to_pixels(point)
        return float(x) + self.sheet.x, float(y) + self.sheet.y

    def text_mm(self, pixels: float) -> float:
        """Type size in mm that appears so many pixels high."""
        return pixels / self.camera.scale if self.camera is not None else 4.0

    # -- drawing -------------------------------------------------------------------------------------------------

    def painted(self, theme: Theme) -> bool:
        """Whether the picture stands painted as it is now to be seen."""
        return self._surface is not None and self._drawn == self._look(theme)

    def _look(self, theme: Theme) -> tuple[object, ...]:
        return id(self.picture), self.camera, theme.contrast, self.hasty

    def paint(self, theme: Theme) -> None:
        """Paint the picture, unless it is painted."""
        if self.picture is None or self.camera is None or self.painted(theme):
            return
        palette = HIGH_CONTRAST if theme.contrast else NORMAL
        if not self._painters or self._painters[True].palette is not palette:
            self._painters = {fine: PicturePainter(palette, fine) for fine in (True, False)}
        self._surface = self._painters[not self.hasty].paint(self.picture, self.camera)
        self._drawn = self._look(theme)

    def draw(self, painter: Painter) -> None:
        """The picture, kept until it or the camera changes; over it handles and pen."""
        if self._surface is None or not self.paints_later:
            self.paint(painter.theme)
        if self.picture is None or self._surface is None:
            return
        painter.surface.blit(self._surface, self.sheet)
        if self.note_lines:
            self._draw_notes(painter)
        with painter.clipped(self.sheet):
            if self.handles_shown and self.tool == "hand":
                self._draw_handles(painter)
            self._draw_pen(painter)
            if self.spot and self._pointer is not None and self.hovered:
                ring = max(2, painter.theme.px(0.22))
                pygame.draw.aacircle(
                    painter.surface, painter.theme.colour("focus"), self._pointer, painter.theme.px(1.5), ring
                )
            if self.hand is not None and self.holding:
                held_at = (float(self.hand.at[0]), float(self.hand.at[1]))
                ends = self.to_window(held_at), self.to_window(self._hand_at)
                draw_hand(painter, self.hand, *ends, self.sheet)
            if self.tool in ("brush_away", "brush_back") and self.hovered:
                self._draw_brush(painter)

    def snapshot(self) -> pygame.Surface | None:
        """The sheet as last drawn, without handles."""
        return self._surface

    def handle_places(self) -> dict[str, tuple[float, float]]:
        """Window positions of all handles."""
        if not self.handles_shown or self.tool != "hand" or self.camera is None:
            return {}
        return {h.key: self.to_window(h.place(self.points)) for h in HANDLES if h.landmark in self.points}

    def _draw_notes(self, painter: Painter) -> None:
        """The scale at the right, the notes at the left; notes that find no room are left out, the last first."""
        theme, strip = painter.theme, inset(self._strip, painter.theme.px(0.8), 0)
        painter.box(self._strip, painter.colour("card"), None, 0)
        assert self.camera is not None
        long = SCALE_MM * self.camera.scale
        y = strip.y + theme.line_height("small") // 2
        painter.line((strip.right - long, y), (strip.right, y), "ink", theme.px(0.12))
        for x in (strip.right - long, strip.right):
            painter.line((x, y - theme.px(0.2)), (x, y + theme.px(0.2)), "ink", theme.px(0.12))
        words = self.scale_words
        width = theme.text_width(words, "small")
        left = round(strip.right - long) - theme.px(0.5) - width
        line = theme.line_height("small")
        painter.text(words, Rect(left, strip.y, width, line), "small", "quiet")
        room = left - strip.x - theme.px(1)
        notes = list(self.notes)
        while notes and len(self._wrapped(" ".join(notes), room, theme)) > self.note_lines:
            notes.pop()
        if notes:
            whole = Rect(strip.x, strip.y, room, line * self.note_lines)
            painter.text(" ".join(notes), whole, "small", "quiet", valign="top", wrap=True)

    @staticmethod
    def _wrapped(words: str, room: int, theme: Theme) -> list[str]:
        return wrap_lines(words, lambda part: theme.text_width(part, "small"), room)

    def _draw_handles(self, painter: Painter) -> None:
        for key, place in self.handle_places().items():
            handle = HANDLE_BY_KEY[key]
            live = key == self.pointed_handle or (self._held is not None and self._held.key == key)
            draw_handle(painter, handle, place, live)
            if live:
                draw_tag(painter, self.handle_words(handle), place, self.sheet)

    def _draw_pen(self, painter: Painter) -> None:
        for stroke in self.strokes:
            placed = [self.to_window(point) for point in stroke]
            for start, end in itertools.pairwise(placed):
                pygame.draw.aaline(
                    painter.surface, painter.theme.colour("focus"), start, end, painter.theme.px(0.25)
                )

    def _draw_brush(self, painter: Painter) -> None:
        if self._pointer is not None:
            width = max(1, painter.theme.px(0.12))
            pygame.draw.aacircle(
                painter.surface, painter.theme.colour("bonds"), self._pointer, self.brush_pixels(), width
            )

    def brush_pixels(self) -> float:
        """Radius of the brush in pixels: 7 mm of foot."""
        return 7.0 * self.camera.scale if self.camera is not None else 20.0

    # -- pointer -------------------------------------------------------------------------------------------------

    def hover(self, position: Pixel, theme: Theme) -> None:
        """Remember what lies under the pointer."""
        self._pointer = position
        self.pointed_handle = handle_at(self.handle_places(), position, theme.px(1.0))
        self.pointed_part = self._part(position) if self.pointed_handle is None else None

    def _part(self, position: Pixel) -> str | None:
        if self.picture is None or self.camera is None:
            return None
        return part_at(self.picture.primitives(), self.to_mm(position), self._reach / self.camera.scale)

    def press(self, position: Pixel, theme: Theme, double: bool = False) -> bool:
        """Take a handle, use the tool, write with the pen, or take hold of the sheet."""
        self.let_go()
        self._pointer = self._last = position
        if self.pen:
            self._mode = "pen"
            self.strokes.append([self.to_mm(position)])
            return True
        key = handle_at(self.handle_places(), position, theme.px(1.0))
        if key is not None and self.actions is not None:
            self._held, self._start, self._mode = HANDLE_BY_KEY[key], self.to_mm(position), "handle"
            self.actions.begin(self._held)
            return True
        holdable = self.holds_anywhere or self._part(position) in HOLDABLE
        if not (self.tool == "hand" and holdable and self._grab(self.to_mm(position))):
            self._mode = "tool" if self._use_tool(position, first=True) else "sheet"
        return True

    def _grab(self, place: Point) -> bool:
        """Take hold of the foot at a place (mm)."""
        if self.actions is None or not self.actions.grab(place):
            return False
        self._mode, self._start, self._hand_at = "grab", place, place
        return True

    @property
    def holding(self) -> bool:
        """Whether a part of the foot is in the hand."""
        return self._mode == "grab"

    def let_go(self) -> None:
        """Let go of a part held, whether by pointer or by keys."""
        if self.holding and self.actions is not None:
            self._mode = ""
            self.actions.let_go()

    def _use_tool(self, position: Pixel, first: bool) -> bool:
        if self.actions is None or self.tool == "hand" or self.camera is None:
            return False
        radius = self.brush_pixels() / self.camera.scale
        return self.actions.tool(self.tool, self.to_mm(position), radius, first)

    def drag(self, position: Pixel, theme: Theme) -> None:
        """Go on with what the press began."""
        last, self._last = self._last or position, position
        self._pointer = position
        if self._mode == "pen":
            self.strokes[-1].append(self.to_mm(position))
        elif self._mode == "handle" and self._held is not None and self.actions is not None:
            x, y = self.to_mm(position)
            self.actions.move(self._held, (x - self._start[0], y - self._start[1]))
        elif self._mode == "grab" and self.actions is not None:
            self._pull(self.to_mm(position))
        elif self._mode == "tool":
            self._use_tool(position, first=False)
        elif self._mode == "sheet":
            self.pan(position[0] - last[0], position[1] - last[1])

    def release(self, position: Pixel, theme: Theme) -> None:
        """Let go."""
        if self._mode in ("handle", "tool") and self.actions is not None:
            self.actions.end()
        self.let_go()
        self._held, self._mode = None, ""

    @property
    def dragging(self) -> bool:
        """True while a handle or a tool is in use, or a part in the hand."""
        return self._mode in ("handle", "tool", "grab")

    def wheel(self, steps: float, theme: Theme) -> bool:
        """Zoom about the pointer."""
        self.zoom(steps, self._pointer)
        return True

    def key(self, event: pygame.event.Event, theme: Theme) -> bool:
        """Left and Right point at one structure after another; Enter takes hold, and then arrows pull."""
        if self.holding:
            return self._held_key(event)
        if self.keys_hold and event.key in TAKE_KEYS:
            self._take()
            return True
        if event.key not in (pygame.K_LEFT, pygame.K_RIGHT) or self.picture is None:
            return False
        parts = list(self.picture.parts())
        if not parts:
            return False
        step = 1 if event.key == pygame.K_RIGHT else -1
        here = parts.index(self.pointed_part) if self.pointed_part in parts else (-1 if step > 0 else 0)
        self.pointed_part = parts[(here + step) % len(parts)]
        return True

    def _take(self) -> None:
        """Take hold of the part pointed at, or say why not."""
        part = self.pointed_part
        place = place_of(self.picture, part) if self.picture is not None and part in HOLDABLE else None
        if place is None:
            self.say(why_not(part))
        elif not self._grab(place):
            self.say("This foot finds no state of rest, so nothing of it can be taken hold of.")

    def _held_key(self, event: pygame.event.Event) -> bool:
        if event.key in LET_GO_KEYS:
            self.let_go()
            return True
        to = moved_by(event, self._hand_at, self._start)
        if to is not None:
            self._pull(to)
        return to is not None

    def _pull(self, to: Point) -> None:
        self._hand_at = to
        if self.actions is not None:
            self.actions.pull(to)
