"""The wheel: it builds, carries scenarios and assets, and does its main job when installed outside the checkout.

Nothing is fetched: the build uses this environment, and the second environment borrows its packages through a path
file (which, unlike a site folder of its own, does not bring the editable install along).
"""

import json
import os
import subprocess
import sys
import sysconfig
import tarfile
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent


def run(*words: str | Path, cwd: Path, env: dict[str, str] | None = None) -> subprocess.CompletedProcess[str]:
    """Run a program, and show what it said when it fails."""
    done = subprocess.run(
        [str(word) for word in words], cwd=cwd, env=env, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done


@pytest.fixture(scope="module")
def dist(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder with the source archive of this checkout, and the wheel built from that archive."""
    out = tmp_path_factory.mktemp("dist")
    run(sys.executable, "-m", "build", "--no-isolation", "--outdir", out, ROOT, cwd=out)
    return out


@pytest.fixture(scope="module")
def wheel(dist: Path) -> Path:
    """The wheel."""
    (built,) = dist.glob("*.whl")
    return built


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The script folder of a fresh environment that holds the wheel."""
    place = tmp_path_factory.mktemp("installed")
    run(sys.executable, "-m", "venv", "--without-pip", place, cwd=place)
    scripts = place / ("Scripts" if os.name == "nt" else "bin")
    python = scripts / "python"
    run(
        sys.executable,
        "-m",
        "pip",
        "--python",
        python,
        "install",
        "--no-deps",
        "--no-index",
        "-q",
        wheel,
        cwd=place,
    )
    asked = run(python, "-c", "import sysconfig; print(sysconfig.get_path('purelib'))", cwd=place)
    Path(asked.stdout.strip(), "borrowed.pth").write_text(sysconfig.get_path("purelib"), encoding="utf-8")
    return scripts


def test_the_wheel_carries_scenarios_assets_and_licence(wheel: Path) -> None:
    names = zipfile.ZipFile(wheel).namelist()
    assert "hoofsim/_data/scenarios/heel_raised.yaml" in names
    assert "hoofsim/_data/assets/README.md" in names
    assert "hoofsim/py.typed" in names
    assert any(name.endswith("licenses/LICENSE") for name in names)
    assert not [name for name in names if name.startswith("tests/") or "__pycache__" in name]


def test_the_source_archive_carries_everything_to_work_on_it(dist: Path) -> None:
    (archive,) = dist.glob("*.tar.gz")
    with tarfile.open(archive) as opened:
        names = {name.partition("/")[2] for name in opened.getnames()}
    assert names >= {"README.md", "DEVELOPERS.md", "CHANGELOG.md", "LICENSE", "pyproject.toml", ".ci/run"}
    assert names >= {
        "tests/test_wheel.py",
        "hoofsim/model.py",
        "scenarios/heel_raised.yaml",
        "assets/glossary.yaml",
    }
    assert not [name for name in names if name.startswith((".venv", "hoofsim-out")) or "__pycache__" in name]


def test_the_installed_wheel_does_its_main_job_in_an_empty_folder(installed: Path, tmp_path: Path) -> None:
    env = {
        key: value
        for key, value in os.environ.items()
        if key not in ("DISPLAY", "WAYLAND_DISPLAY", "PYTHONPATH")
    }
    where = run(installed / "python", "-c", "import hoofsim; print(hoofsim.__file__)", cwd=tmp_path, env=env)
    assert str(ROOT) not in where.stdout
    done = run(installed / "hoofsim", cwd=tmp_path, env=env)
    assert "No display" in done.stdout
    written = {file.name for file in (tmp_path / "hoofsim-out").iterdir()}
    assert {"heel_raised.csv", "heel_raised.svg", "heel_raised.png"} <= written


def test_the_installed_wheel_compares_itself_with_the_world(installed: Path, tmp_path: Path) -> None:
    done = run(installed / "hoofsim", "verify", "--json", "--html", tmp_path / "page.html", cwd=tmp_path)
    told = json.loads(done.stdout)
    assert len(told["rows"]) > 40
    assert all(one["agrees"] for one in told["referees"])
    assert "Outside, and why" in (tmp_path / "page.html").read_text(encoding="utf-8")


def test_the_wheel_carries_what_the_comparison_reads(wheel: Path) -> None:
    names = zipfile.ZipFile(wheel).namelist()
    for file in ("published_values.csv", "outside_the_spread.md", "bands.json", "model.md"):
        assert f"hoofsim/_data/assets/{file}" in names
