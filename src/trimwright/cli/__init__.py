"""Command line: the whole job by verbs, at 80 columns.

In: a build file and a verb. Out: words on the terminal, edits of the file, shop paper in a folder;
exit code 0 fine, 1 something stops, 2 wrong input. No traceback ever.
"""

import os

# one thread: matrices here are small, threads fight over them, and sums keep their order
for threads in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ.setdefault(threads, "1")
# nothing else that is installed has a say in how a build file is read, nor is looked for
os.environ["PYDANTIC_DISABLE_PLUGINS"] = "__all__"

from trimwright.cli.verb import main, program

__all__ = ["main", "program"]
