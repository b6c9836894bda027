import pytest

from tests.unit.checks.small_build import text
from trimwright.build import parse
from trimwright.cabin import Cabin, cabin


def built(**other: str | int) -> Cabin:
    """Return the cabin of a small build."""
    return cabin(parse(text(**other)).build)  # type: ignore[arg-type]  # words and heights


def test_an_equal_build_is_not_computed_again() -> None:
    one, other = built(name="Stages"), built(name="Stages")
    assert one.build is not other.build
    assert one.model is other.model
    assert one.tunnel is other.tunnel
    assert one.ledger is other.ledger


def test_an_edit_computes_what_it_touches_and_keeps_the_rest() -> None:
    one = built(name="Stages")
    taller = built(name="Stages", console=one_taller())
    assert taller.tunnel is one.tunnel
    assert taller.model is not one.model
    assert taller.nominal[0] == pytest.approx(one.nominal[0] - 5, abs=0.3)


def one_taller() -> str:
    """Return the console 5 mm higher."""
    return "console:\n  deck height: 195\n  width: 236\n  from: 70 ahead\n  to: 690 behind\n"


def test_without_a_console_nothing_is_computed_and_it_is_said() -> None:
    bare = built(name="No console", console="")
    assert (bare.carcass, bare.model, bare.outcome, bare.bare, bare.plan) == (None,) * 5
    assert (bare.singles, bare.again, bare.nominal, bare.unbuildable) == ((), (), (), ())
    (gone,) = bare.unknown
    assert gone.keys == ("console",)


def test_a_console_that_cannot_be_made_has_no_gaps() -> None:
    sheet = "console:\n  sheet: birch plywood 60\n  deck height: 190\n  width: 70\n"
    odd = built(name="Too thick", console=sheet + "  from: 70 ahead\n  to: 690 behind\n")
    assert odd.unbuildable
    assert odd.model is None
    assert odd.outcome is None


def test_a_note_computes_nothing_anew() -> None:
    one = built(name="Stages")
    noted = cabin(parse(f"{text(name='Stages')}notes:\n  - says: the seam stands proud\n").build)
    assert noted.model is one.model
    assert noted.ledger is one.ledger
