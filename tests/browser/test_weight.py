"""What a phone fetches before it shows anything is light."""

import gzip
import re
from pathlib import Path

MOST_BYTES = 150_000  # over a garage's network: words, styles, scripts and letters


def test_the_page_is_light_before_anything_is_fetched_later(root: Path) -> None:
    page = root / "src/trimwright/app/page"
    index = (page / "index.html").read_text("utf-8")
    asked = re.findall(r'(?:src|href)="/([^"]+)"', index)
    styles = [(page / one).read_text("utf-8") for one in asked if one.endswith(".css")]
    letters = {one for style in styles for one in re.findall(r"url\(/([^)]+\.woff2)\)", style)}
    scripts = [one for one in asked if one.endswith(".js")]
    assert scripts
    assert len(letters) == 3  # the three cuts that the page is set in
    words = sum(len(gzip.compress((page / one).read_bytes())) for one in ["index.html", *asked])
    weight = words + sum((page / one).stat().st_size for one in letters)
    assert weight <= MOST_BYTES
