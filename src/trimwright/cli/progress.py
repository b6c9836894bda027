"""What is being done, said only where it takes more than a second."""

import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager

PATIENCE_S = 1.0


@contextmanager
def progress(doing: str) -> Iterator[None]:
    """Say on the error stream what is being done once a second has passed."""
    timer = threading.Timer(PATIENCE_S, lambda: sys.stderr.write(f"... {doing}\n"))
    timer.daemon = True
    timer.start()
    try:
        yield
    finally:
        timer.cancel()
