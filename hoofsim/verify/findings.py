"""The paragraphs on rows that fall outside: why, and what would have to change. Read from `assets/outside_the_spread.md`."""

from functools import lru_cache

from hoofsim.resources import assets_folder

FILE = "outside_the_spread.md"


@lru_cache(maxsize=1)
def findings() -> dict[str, str]:
    """Row id -> its paragraph, in one line."""
    text = (assets_folder() / FILE).read_text(encoding="utf-8")
    parts = text.split("\n## ")[1:]
    found = {}
    for part in parts:
        name, _, body = part.partition("\n")
        found[name.strip()] = " ".join(body.replace("*", "").split())
    return found
