"""App: the bench in a browser, served from the builder's own machine.

In: build files in a folder. Out: a local server that tells what each build says and what follows
from it, takes edits against a version, and sends the page. All geometry, rules and drawings come
from the rooms below; the page shows and edits.
"""

from trimwright.app.bench import Bench
from trimwright.app.door import Door
from trimwright.app.server import PAGE, Serving, app
from trimwright.app.share import Share
from trimwright.app.shelf import shelf

__all__ = ["PAGE", "Bench", "Door", "Serving", "Share", "app", "shelf"]
