"""Pictures in a row as a moving picture: GIF, or MP4 where the extra for clips is installed."""

import io
import tempfile
from collections.abc import Callable, Mapping, Sequence
from importlib.util import find_spec
from pathlib import Path

from hoofsim.errors import BadInput

# What has to be there for each kind of clip, as Python imports it.
NEEDS: Mapping[str, str] = {".gif": "PIL", ".mp4": "imageio_ffmpeg"}
HOW_TO_INSTALL = "pip install 'hoofsim[clips]'"


def missing_clips() -> list[str]:
    """The endings of the clips that cannot be written, because the extra for them is not installed."""
    return [ending for ending, module in NEEDS.items() if find_spec(module) is None]


def clip_bytes(frames: Sequence[bytes], size: tuple[int, int], per_second: int, ending: str) -> bytes:
    """The content of a clip that runs round and round; `frames` are rows of RGB bytes of `size` pixels (even numbers).

    BadInput where the extra is missing, or its program fails.
    """
    if ending in missing_clips():
        raise BadInput(f"a {ending} clip needs an extra: {HOW_TO_INSTALL}")
    return WRITERS[ending](frames, size, per_second)


def _gif(frames: Sequence[bytes], size: tuple[int, int], per_second: int) -> bytes:
    from PIL import Image

    pictures = [Image.frombytes("RGB", size, frame).quantize(128) for frame in frames]
    stream = io.BytesIO()
    pictures[0].save(
        stream, "GIF", save_all=True, append_images=pictures[1:], duration=round(1000 / per_second), loop=0
    )
    return stream.getvalue()


def _mp4(frames: Sequence[bytes], size: tuple[int, int], per_second: int) -> bytes:
    import imageio_ffmpeg

    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "clip.mp4"
        try:
            writer = imageio_ffmpeg.write_frames(str(path), size, fps=per_second, macro_block_size=2)
            writer.send(None)
            for frame in frames:
                writer.send(frame)
            writer.close()
            return path.read_bytes()
        except (OSError, RuntimeError) as problem:
            raise BadInput(f"the clip could not be made: {str(problem).strip().splitlines()[-1]}") from None


WRITERS: Mapping[str, Callable[[Sequence[bytes], tuple[int, int], int], bytes]] = {
    ".gif": _gif,
    ".mp4": _mp4,
}
