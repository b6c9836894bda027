"""Command line: the whole job by verbs, at 80 columns.

In: a build file and a verb. Out: words on the terminal, edits of the file, shop paper in a folder;
exit code 0 fine, 1 something stops, 2 wrong input. No traceback ever.
"""

from trimwright.cli.verb import main

__all__ = ["main"]
