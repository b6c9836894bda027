"""Making: what a wheel carries that this repository does not keep.

In: npm packages, the page's source in `web/`. Out: the fonts of the papers and the built page,
below `src/trimwright/`. Used by the build hook, and by the checks that run the page's own tools.
"""

from making.fonts import FOLDER as FONTS
from making.fonts import make_fonts
from making.npm import CannotMakeError
from making.page import FOLDER as PAGE
from making.page import make_page

__all__ = ["FONTS", "PAGE", "CannotMakeError", "make_fonts", "make_page"]
