"""How long all shop paper of the demo takes, in a process that has read nothing yet."""

from tempfile import TemporaryDirectory

from bench.command import DEMO, trimwright
from bench.measure import Bench


def ours() -> None:
    """Write every sheet into a folder that is thrown away."""
    with TemporaryDirectory() as folder:
        trimwright("print", DEMO, "--into", folder, "--on", "a4")


BENCH = Bench(
    name="all paper",
    ours=ours,
    peer=lambda: trimwright("check", DEMO),
    peer_says="a cold check of the same build",
)
