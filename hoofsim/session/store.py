"""Where a person's own files are, and writing that leaves either the old file or the whole new one."""

import os
import sys
from pathlib import Path
from typing import Any

import yaml

from hoofsim.errors import BadInput

HOME_VARIABLE = "HOOFSIM_HOME"


def user_folder() -> Path:
    """The folder of settings, progress and recovery: $HOOFSIM_HOME, or the platform's place for such files."""
    chosen = os.environ.get(HOME_VARIABLE)
    try:
        return Path(chosen).expanduser() if chosen else _usual_folder()
    except RuntimeError:  # no home folder, or none of that person
        where = f"{HOME_VARIABLE}={chosen}" if chosen else "this account"
        raise BadInput(
            f"{where} has no home folder; set {HOME_VARIABLE} to a folder for your files"
        ) from None


def _usual_folder() -> Path:
    """The platform's place for a person's own files of this program."""
    if sys.platform == "win32":
        base = os.environ.get("APPDATA")
        return (Path(base) if base else Path.home() / "AppData" / "Roaming") / "hoofsim"
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Application Support" / "hoofsim"
    base = os.environ.get("XDG_DATA_HOME")
    return (Path(base) if base else Path.home() / ".local" / "share") / "hoofsim"


_Quick: Any = getattr(yaml, "CSafeDumper", yaml.SafeDumper)  # the library's quick half is not everywhere


class _Dumper(_Quick):  # type: ignore[misc]
    """Plain YAML without aliases, with numbers in the decimal form that the strict reader takes."""

    def ignore_aliases(self, data: Any) -> bool:
        """Write repeated values out."""
        return True


def _number(dumper: yaml.SafeDumper, value: float) -> yaml.ScalarNode:
    digits = repr(float(value))
    if "e" in digits and "." not in digits:
        digits = digits.replace("e", ".0e")  # without the point the writer would mark it with a tag
    return dumper.represent_scalar("tag:yaml.org,2002:float", digits)


_Dumper.add_representer(float, _number)


def plain_yaml(data: Any) -> str:
    """Plain values as YAML that the strict reader gives back to the last bit."""
    return str(yaml.dump(data, Dumper=_Dumper, sort_keys=False, allow_unicode=True, width=110))


def put_aside(path: Path, why: str) -> Path:
    """Move a file beside itself under a free name that says why, such as `foot.damaged-1.yaml`; OSError when it cannot."""
    number = 1
    while (aside := path.with_name(f"{path.stem}.{why}-{number}{path.suffix}")).exists():
        number += 1
    os.replace(path, aside)
    return aside
