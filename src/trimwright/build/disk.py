"""Files written whole or not at all."""

import os
from hashlib import sha256
from pathlib import Path


def fingerprint(data: bytes) -> str:
    """Return the SHA-256 of a file's bytes, in hexadecimal.

    References
    ----------
    fips-180-4

    Examples
    --------
    >>> fingerprint(b"abc")[:16]
    'ba7816bf8f01cfea'
    """
    return sha256(data).hexdigest()


def write_whole(path: Path, data: bytes) -> None:
    """Write a file so that at any moment it holds either what it held or all of `data`.

    A link is followed to the file it names; the file's permission bits are kept.
    """
    target = path.resolve()
    passing = target.with_name(f".{target.name}.passing")
    mode = target.stat().st_mode & 0o7777 if target.exists() else 0o644
    handle = os.open(passing, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
    with os.fdopen(handle, "wb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())
    passing.chmod(mode)
    passing.replace(target)
    _settle(target.parent)


def write_new(path: Path, data: bytes) -> None:
    """Write a file that is not there yet, whole; never over one that is.

    Raises
    ------
    FileExistsError
        If there is anything of that name, be it a link that leads nowhere.
    OSError
        If it cannot be written; then nothing of that name is left.
    """
    path.open("xb").close()  # the name is taken from here on, on every kind of disk
    try:
        write_whole(path, data)
    except OSError:
        path.unlink(missing_ok=True)
        raise


def _settle(folder: Path) -> None:
    """Make a renamed file's name lasting, where the system can do that for a folder."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def append_line(path: Path, line: str) -> None:
    """Add one line at the end of a file, lasting when this returns."""
    with path.open("ab") as file:
        file.write(line.encode("utf-8") + b"\n")
        file.flush()
        os.fsync(file.fileno())
