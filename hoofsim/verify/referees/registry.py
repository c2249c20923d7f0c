"""All the referees, in the order in which they are shown."""

from collections.abc import Callable, Sequence

from hoofsim.verify.referees import lamellar_strip, minimiser, settled_foot, wrapped_tendon
from hoofsim.verify.referees.referee import Referee, Verdict

ENGINE = ("MuJoCo, a multibody engine", "mujoco", "mujoco")
REFEREES = (
    Referee("tendon length and levers, 300 random poses", *ENGINE, "mm", 1e-4, wrapped_tendon.largest_difference),
    Referee("settled foot, positions", *ENGINE, "mm", 0.05, lambda: settled_foot.settled_differences()[0]),
    Referee("settled foot, turns", *ENGINE, "deg", 0.05, lambda: settled_foot.settled_differences()[1]),
    Referee("settled foot, tendon tension", *ENGINE, "%", 0.5, lambda: settled_foot.settled_differences()[2]),
    Referee("a lower valley of the energy, 35 random starts", "SciPy's trust region", "scipy", "scipy", "N·mm", 1e-3,
            minimiser.deepest_valley),
    Referee("laminar strip, stretched", "scikit-fem, finite elements", "skfem", "scikit-fem", "%", 0.01,
            lamellar_strip.normal_difference),
    Referee("laminar strip, sheared (free ends)", "scikit-fem, finite elements", "skfem", "scikit-fem", "%", 8.0,
            lamellar_strip.shear_difference),
)  # fmt: skip


def ask_all(
    referees: Sequence[Referee] = REFEREES, progress: Callable[[int], object] | None = None
) -> tuple[Verdict, ...]:
    """Ask every referee whose package is installed; the others are named as left out."""
    outcomes = []
    for done, one in enumerate(referees, start=1):
        outcomes.append(Verdict(one, one.largest() if one.at_hand else None))
        if progress is not None:
            progress(done)
    return tuple(outcomes)
