"""Display lists as self-contained SVG text: no outside style sheet, font or script, and every word escaped."""

from collections.abc import Iterator
from xml.sax.saxutils import escape, quoteattr

from hoofsim.drawing.camera import Camera
from hoofsim.drawing.display_list import DisplayList, Point
from hoofsim.drawing.lowering import AreaMark, DiscMark, LineMark, Mark, TextMark, lower
from hoofsim.drawing.palette import NORMAL, Palette
from hoofsim.drawing.typeface import FAMILY

FONT_FAMILY = f"'{FAMILY}', 'DejaVu Sans', Arial, sans-serif"
ANCHORS = {"left": "start", "centre": "middle", "right": "end"}
BASELINE = {
    "bottom": -0.22,
    "middle": 0.36,
    "top": 0.95,
}  # of the type size, down from the anchor to the baseline


def svg(
    picture: DisplayList, *, width: int = 1200, height: int | None = None, palette: Palette = NORMAL
) -> str:
    """The picture as one SVG document of `width` px; its height follows the picture's shape unless given."""
    left, bottom, right, top = picture.bounds
    tall = height if height is not None else max(1, round(width * (top - bottom) / (right - left)))
    camera = Camera.fit(picture.bounds, (width, tall))
    return "\n".join(_lines(picture, camera, palette)) + "\n"


def _lines(picture: DisplayList, camera: Camera, palette: Palette) -> Iterator[str]:
    width, height = camera.size
    title, description = escape(picture.title), escape(picture.description)
    yield (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" width="{width}" height="{height}" '
        'role="img" aria-labelledby="picture-title picture-description">'
    )
    yield f'<title id="picture-title">{title}</title>'
    yield f'<desc id="picture-description">{description}</desc>'
    yield f'<rect width="{width}" height="{height}" fill={quoteattr(palette.style("paper").fill or "#ffffff")}/>'
    part: str | None = None
    for primitive, made in lower(picture.primitives(), palette):
        if primitive.part != part:
            if part is not None:
                yield "</g>"
            part = primitive.part
            if part is not None:
                yield f"<g data-part={quoteattr(part)}>"
        yield from _elements(made, camera)
    if part is not None:
        yield "</g>"
    yield "</svg>"


def _elements(made: tuple[Mark, ...], camera: Camera) -> Iterator[str]:
    """One element a mark; lines of one look that follow each other share one path."""
    path: list[str] = []
    look: tuple[str, float] | None = None
    for mark in made:
        if isinstance(mark, LineMark):
            if look is not None and look != (mark.colour, mark.width):
                yield _path(path, look, camera)
                path = []
            look = (mark.colour, mark.width)
            path.append(_track(mark.points, camera) + ("Z" if mark.closed else ""))
            continue
        if look is not None:
            yield _path(path, look, camera)
            path, look = [], None
        yield _element(mark, camera)
    if look is not None:
        yield _path(path, look, camera)


def _element(mark: AreaMark | DiscMark | TextMark, camera: Camera) -> str:
    if isinstance(mark, AreaMark):
        return f'<path d="{_track(mark.points, camera)}Z" {_paint("fill", mark.colour)} stroke="none"/>'
    if isinstance(mark, DiscMark):
        x, y = camera.to_pixels(mark.centre)
        rim = f' stroke="{mark.rim}" stroke-width="{mark.width * camera.scale:.2f}"' if mark.rim else ""
        return (
            f'<circle cx="{x:.2f}" cy="{y:.2f}" r="{mark.radius * camera.scale:.2f}" '
            f"{_paint('fill', mark.colour)}{rim}/>"
        )
    return _text(mark, camera)


def _text(mark: TextMark, camera: Camera) -> str:
    text, size = mark.text, mark.text.height * camera.scale
    x, y = camera.to_pixels(text.at)
    down = BASELINE[text.anchor[1]] * size
    place = f'x="{x:.2f}" y="{y + down:.2f}"'
    if text.turn == 90:  # turned about the anchor; its horizontal anchor then runs up the page
        sideways = {"left": 0.95, "centre": 0.36, "right": -0.22}[text.anchor[0]] * size
        place = f'transform="translate({x + sideways:.2f} {y:.2f}) rotate(-90)"'
    upright = {"bottom": "start", "middle": "middle", "top": "end"}[text.anchor[1]]
    along = upright if text.turn == 90 else ANCHORS[text.anchor[0]]
    halo = (
        f' stroke="{mark.halo}" stroke-width="{0.22 * size:.2f}" stroke-linejoin="round" paint-order="stroke"'
        if mark.halo
        else ""
    )
    weight = ' font-weight="bold"' if mark.bold else ""
    return (
        f'<text {place} font-family="{FONT_FAMILY}" font-size="{size:.2f}" text-anchor="{along}" '
        f'fill="{mark.colour}"{weight}{halo}>{escape(text.text)}</text>'
    )


def _path(pieces: list[str], look: tuple[str, float], camera: Camera) -> str:
    colour, width = look
    return (
        f'<path d="{"".join(pieces)}" fill="none" stroke="{colour}" stroke-width="{width * camera.scale:.2f}" '
        'stroke-linejoin="round" stroke-linecap="round"/>'
    )


def _track(points: tuple[Point, ...], camera: Camera) -> str:
    return "M" + "L".join(f"{x:.2f} {y:.2f}" for x, y in camera.to_pixels(points))


def _paint(what: str, colour: str) -> str:
    if len(colour) == 9:
        return f'{what}="{colour[:7]}" {what}-opacity="{int(colour[7:], 16) / 255:.2f}"'
    return f'{what}="{colour}"'
