"""hoofsim: an interactive teaching simulator of the sagittal equine foot.

`hoofsim.Foot("sound", heel_change_mm=10).load("standing").measures()` answers in plain values. The three names below
are fetched on first use, so that `import hoofsim` stays light.
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from hoofsim.model import Foot, LoadedFoot, sweep

__version__ = "0.1.0"

__all__ = ["Foot", "LoadedFoot", "__version__", "sweep"]


def __getattr__(name: str) -> object:
    """Fetch a public name from the facade when it is first asked for."""
    if name in __all__:
        return getattr(import_module("hoofsim.model"), name)
    raise AttributeError(f"module 'hoofsim' has no attribute '{name}'")


def __dir__() -> list[str]:
    """The public names, also before they are fetched."""
    return sorted({*globals(), *__all__})
