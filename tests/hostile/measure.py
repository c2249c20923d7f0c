"""The long form: every hostile file in a process of its own, with its time and its peak of memory.

`python -m tests.hostile.measure --count 1000 --seed 1`. A file is allowed a second of the processor's time, start of
the program included, and 200 MB. Files that turn out to be well written are not run.
"""

import argparse
import os
import subprocess
import sys
import tempfile
from collections import Counter
from pathlib import Path

from tests.hostile.grammar import ROOT, cases
from tests.hostile.refusing import amiss, command, everything_under
from tests.hostile.test_hostile_files import is_well_written

SECONDS, MEGABYTES = 1.0, 200.0


# The peak is read by the program itself at its end: what the system reports to a parent includes the parent's own.
PLAY = """\
import sys
from pathlib import Path
from hoofsim.cli.main import main
code = main(sys.argv[2:])
lines = Path("/proc/self/status").read_text().splitlines()
Path(sys.argv[1]).write_text(next(line.split()[1] for line in lines if line.startswith("VmHWM")))
sys.exit(code)
"""


def measured(words: list[str], folder: Path, peak: Path) -> tuple[int, str, float, float]:
    """Exit code, what was complained, processor seconds and peak megabytes of one run (Linux)."""
    with subprocess.Popen(
        [sys.executable, "-c", PLAY, str(peak), *words],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(ROOT), "HOOFSIM_HOME": str(folder / "home")},
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
    ) as process:
        complained = process.stderr.read() if process.stderr else b""
        _, status, usage = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
    seconds = usage.ru_utime + usage.ru_stime
    return process.returncode, complained.decode("utf-8", "replace"), seconds, int(peak.read_text()) / 1024


def main() -> int:
    """Measure, print the worst, and say how many were amiss."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--count", type=int, default=1000)
    parser.add_argument("--seed", type=int, default=1)
    arguments = parser.parse_args()
    wrong, taken, all_seconds, all_megabytes, codes = 0, 0, [], [], Counter[int]()
    with tempfile.TemporaryDirectory() as name, tempfile.TemporaryDirectory() as beside:
        folder, peak = Path(name), Path(beside) / "peak"
        os.chdir(folder)
        for number, case in enumerate(cases(arguments.count, arguments.seed)):
            file = Path(f"bad{case.ending}")
            file.write_bytes(case.content)
            if is_well_written(case, file):
                taken += 1
                continue
            before = set(everything_under(folder))
            code, complained, seconds, megabytes = measured(command(case), folder, peak)
            said = amiss(case, code, complained, set(everything_under(folder)) - before)
            if seconds > SECONDS or megabytes > MEGABYTES:
                said += f" {seconds:.2f} s, {megabytes:.0f} MB"
            if said:
                wrong += 1
                print(f"{number} {case.kind} {case.strokes}: {said}", flush=True)
            all_seconds.append(seconds)
            all_megabytes.append(megabytes)
            codes[code] += 1
    all_seconds.sort()
    print(
        f"{len(all_seconds)} run, exit codes {dict(codes)}, {taken} well written, {wrong} amiss; processor time: median "
        f"{all_seconds[len(all_seconds) // 2]:.2f} s, longest {all_seconds[-1]:.2f} s, most {max(all_megabytes):.0f} MB"
    )
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
