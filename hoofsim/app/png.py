"""A picture as the bytes of a PNG file. The window library's own writer never lets go of the stream it wrote to."""

import struct
import zlib

import numpy as np
import pygame

SIGNATURE = b"\x89PNG\r\n\x1a\n"
COLOUR = (
    8,
    2,
    0,
    0,
    0,
)  # bits, red green blue, and the only compression, filter and order of rows of their kind


def png_bytes(surface: pygame.Surface) -> bytes:
    """The surface (w, h) px without its transparency, 8 bits a colour."""
    width, height = surface.get_size()
    rows = np.zeros((height, 1 + 3 * width), dtype=np.uint8)  # each begins with its filter: none
    rows[:, 1:] = np.frombuffer(pygame.image.tobytes(surface, "RGB"), dtype=np.uint8).reshape(height, -1)
    header = struct.pack(">2I5B", width, height, *COLOUR)
    return SIGNATURE + b"".join(
        _chunk(*part)
        for part in ((b"IHDR", header), (b"IDAT", zlib.compress(rows.tobytes())), (b"IEND", b""))
    )


def _chunk(kind: bytes, content: bytes) -> bytes:
    return (
        struct.pack(">I", len(content))
        + kind
        + content
        + struct.pack(">I", zlib.crc32(content, zlib.crc32(kind)))
    )
