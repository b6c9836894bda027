"""A reason for leaving something stands with its finding, or is named as standing nowhere."""

from trimwright.build import parse
from trimwright.cabin import cabin
from trimwright.checks import all_findings

CAR = "build: Larkspur estate\nunit: mm\ncar:\n  carpet:\n    loose: 15 ± 1\n"


def _says(place: str) -> dict[str, str]:
    text = f"{CAR}left as is:\n  - {{finding: {place}, because: nobody sees it}}\n"
    return {one.place: one.says for one in all_findings(cabin(parse(text).build))}


def test_the_reason_stands_with_its_finding() -> None:
    assert _says("the console")["the console"].endswith("Left as it is: nobody sees it.")


def test_a_reason_for_nothing_is_not_lost() -> None:
    assert "no finding is called so: nobody sees it" in _says("the cup holder")["the cup holder"]
