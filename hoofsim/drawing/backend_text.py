"""Display lists as text: an exact dump for comparing, and a small picture in letters for reading without a screen."""

from hoofsim.drawing.camera import Camera
from hoofsim.drawing.display_list import (
    Arrow,
    Circle,
    DisplayList,
    Point,
    Polygon,
    Polyline,
    Primitive,
    Text,
    Tie,
)

LETTERS = {
    "bone": "B", "bone_beyond": "b", "horn": "H", "sole": "s", "frog": "f", "cushion": "c",
    "tendon": "T", "extensor": "E", "lamellar_zone": ":", "solar_dermis": ";", "capsule": ".", "coronet": "o",
    "skin": ",", "ground": "=", "wedge": "w", "bed": "~", "joint": "j", "ligament": "l", "white_line": "i",
}  # fmt: skip


def dump(picture: DisplayList, digits: int = 2) -> str:
    """Every primitive on a line: kind, role, part, coordinates in mm rounded to `digits`.

    The same picture gives the same text on every machine, so that it can be kept as the expected value of a test.
    """
    lines = [f"title {picture.title}", f"description {picture.description}"]
    lines.append(f"bounds {_numbers(picture.bounds, digits)}")
    lines.extend(_line(one, digits) for one in picture.primitives())
    return "\n".join(lines) + "\n"


def _number(value: float, digits: int) -> str:
    written = f"{value:.{digits}f}"
    return written.lstrip("-") if float(written) == 0.0 else written


def _numbers(values: tuple[float, ...], digits: int) -> str:
    return " ".join(_number(value, digits) for value in values)


def _points(points: tuple[Point, ...], digits: int) -> str:
    return " ".join(f"{_number(x, digits)},{_number(y, digits)}" for x, y in points)


def _line(one: Primitive, digits: int) -> str:
    head = f"{type(one).__name__.lower()} {one.role} {one.part or '-'}"
    if isinstance(one, Polygon | Polyline):
        return f"{head} {_points(one.points, digits)}"
    if isinstance(one, Circle):
        return f"{head} {_points((one.centre,), digits)} {_number(one.radius, digits)}"
    if isinstance(one, Arrow):
        return f"{head} {_points((one.start, one.end), digits)} {_number(one.head, digits)}"
    if isinstance(one, Tie):
        state = _numbers((one.stretch, one.attached, one.damage), digits)
        return f"{head} {_points((one.start, one.end), digits)} {state}"
    place = f"{_points((one.at,), digits)} {_number(one.height, digits)} {'-'.join(one.anchor)} {one.turn}"
    return f"{head} {place} {one.text}"


def characters(picture: DisplayList, columns: int = 96) -> str:
    """The areas and names of the picture in letters, `columns` wide; each tissue has its own letter (LETTERS)."""
    left, bottom, right, top = picture.bounds
    rows = max(1, round(columns * 0.5 * (top - bottom) / (right - left)))
    grid = [[" "] * columns for _ in range(rows)]
    # A character is twice as tall as it is wide.
    camera = Camera.fit((left, bottom, right, top), (columns, 2 * rows), margin=0.0)
    for one in picture.primitives():
        if isinstance(one, Polygon) and one.role in LETTERS:
            _fill(grid, camera, one)
        elif isinstance(one, Text):
            _write(grid, camera, one)
    return "\n".join("".join(row).rstrip() for row in grid) + "\n"


def _fill(grid: list[list[str]], camera: Camera, polygon: Polygon) -> None:
    columns, corners = len(grid[0]), camera.to_pixels(polygon.points).tolist()
    for row, line in enumerate(grid):
        height = 2.0 * row + 1.0
        crossings = sorted(
            ax + (height - ay) / (by - ay) * (bx - ax)
            for (ax, ay), (bx, by) in zip(corners, corners[1:] + corners[:1], strict=True)
            if (ay <= height) != (by <= height)
        )
        for start, end in zip(crossings[::2], crossings[1::2], strict=True):
            for column in range(max(0, round(start)), min(columns, round(end))):
                line[column] = LETTERS[polygon.role]


def _write(grid: list[list[str]], camera: Camera, text: Text) -> None:
    x, y = camera.to_pixels(text.at)
    row = int(y // 2)
    start = round(x - {"left": 0.0, "centre": 0.5, "right": 1.0}[text.anchor[0]] * len(text.text))
    for offset, character in enumerate(text.text):
        if 0 <= row < len(grid) and 0 <= start + offset < len(grid[0]):
            grid[row][start + offset] = character
