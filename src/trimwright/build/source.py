"""The bytes of a build file, as text."""

from pathlib import Path

from trimwright.build.fault import Fault, InputError

MOST_BYTES = 262_144  # 256 KiB; a build of 300 lines has 10


def source_text(path: Path) -> str:
    """Return the text of a build file, line ends as they are.

    Raises
    ------
    InputError
        If there is no such file, it is a folder, too long, or not UTF-8.
    """

    def refusal(found: str, expected: str) -> InputError:
        return InputError(path.name, (Fault(1, (), found, expected),))

    try:
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise refusal("no such file", "a build file") from None
    except IsADirectoryError:
        raise refusal("a folder", "a build file in it") from None
    except PermissionError:
        raise refusal("a file that may not be read", "a file this user may read") from None
    if len(data) > MOST_BYTES:
        raise refusal(f"more than {MOST_BYTES // 1024} KiB", "a build of a few hundred lines")
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        fault = Fault(line, (), f"byte {data[error.start]:#04x}", "text saved as UTF-8")
        raise InputError(path.name, (fault,)) from None
