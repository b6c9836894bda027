"""How soon a builder sees the console drawn: `python -m bench.first_drawing`.

A server is begun anew for each turn, on this machine, and the demo is opened in a browser that runs
already. Timed is what a builder waits: from going to the address until the console's outline stands
in the side view.
"""

import shutil
import statistics
import sys
import tempfile
from pathlib import Path
from time import perf_counter

from playwright.sync_api import Browser, sync_playwright

from tests.browser.conftest import CHROMIUM, EXAMPLE, QUIET, served

TURNS = 5
WIDE, HIGH = 1280, 800
OUTLINE = "svg.view .lit"


def first_drawing(browser: Browser, build: Path) -> float:
    """Return how long the first drawing takes with a server just begun [s]."""
    with served(build) as address:
        page = browser.new_page(viewport={"width": WIDE, "height": HIGH})
        begun = perf_counter()
        page.goto(address, wait_until="commit")
        page.wait_for_selector(OUTLINE, state="attached")
        took = perf_counter() - begun
        page.close()
        return took


def main() -> None:
    """Print the median of some turns, and every turn."""
    turns = int(sys.argv[1]) if len(sys.argv) > 1 else TURNS
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        build = Path(shutil.copy(EXAMPLE, folder))
        browser = playwright.chromium.launch(executable_path=shutil.which(CHROMIUM), args=[*QUIET])
        took = [first_drawing(browser, build) for _ in range(turns)]
        browser.close()
    print(f"first drawing: {statistics.median(took):.2f} s, the median of", end=" ")
    print(", ".join(f"{one:.2f}" for one in took))


if __name__ == "__main__":
    main()
