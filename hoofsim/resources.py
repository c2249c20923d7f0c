"""Where the carried files are: beside the package in a checkout, inside it in an installed wheel."""

from pathlib import Path

from hoofsim.errors import BadInput

PACKAGE = Path(__file__).resolve().parent


def carried_folder(name: str) -> Path:
    """The folder `name` (such as "scenarios") of this installation; BadInput when the installation lacks it."""
    in_wheel = PACKAGE / "_data" / name
    in_checkout = PACKAGE.parent / name
    if in_wheel.is_dir():
        return in_wheel
    if in_checkout.is_dir() and (PACKAGE.parent / "pyproject.toml").is_file():
        return in_checkout
    raise BadInput(
        f"this installation of hoofsim carries no '{name}' folder: expected {in_wheel} or {in_checkout}; "
        "install it again"
    )


def scenarios_folder() -> Path:
    """Folder of the scenarios that come with the program."""
    return carried_folder("scenarios")


def assets_folder() -> Path:
    """Folder of typefaces and other carried files."""
    return carried_folder("assets")


def scenario_files() -> list[Path]:
    """The carried scenarios (the folder's own *.yaml files), in the order of their names."""
    return sorted(scenarios_folder().glob("*.yaml"))


def model_page() -> str:
    """The page about the model (Markdown): assumptions, equations, what agrees with the world, what it cannot say."""
    return (assets_folder() / "model.md").read_text(encoding="utf-8")
