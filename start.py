"""Sets the project up and runs it: `python3 start.py demo`, `python3 start.py test`.

Needs nothing but Python itself. Old Pythons read this file as far as the line that says which
Python is needed, so no syntax newer than 3.6 stands in it.
"""

import argparse
import hashlib
import importlib.util
import json
import os
import shutil
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

NEEDED = (3, 11)
ROOT = Path(__file__).resolve().parent
DEMO = "examples/dunlin/first-measured.yaml"
PAPER = "shop-paper"
BENCH = "demo-bench"
NEEDS = ("pyproject.toml", "constraints.txt", "hatch_build.py", "making/*.py")
PAGE = ("web/*", "web/public/*", "web/src/**/*")  # built into the package when it is installed
SEEN = ("*.py", "*.csv", "*.yaml", "*.typed")  # what a reinstall is for, below src
LACKING = ("fonts not fetched", "page not built")  # what the build hook says it did without
PROGRAMS = {  # Debian's package, and what needs it
    "pdftoppm": ("poppler-utils", "the checks of printed paper"),
    "chromium": ("chromium", "the checks of the page in a browser"),
    "ngspice": ("ngspice", "the checks of the solved network"),
}
STOPS = 1  # the exit code of a check that found something which stops the build
REFUSED = 2


def python_refusal(version: "tuple[int, ...]") -> str:
    """Return why a Python is too old for the project, or nothing.

    Examples
    --------
    >>> python_refusal((3, 9, 2))
    'Trimwright needs Python 3.11 or newer; this is Python 3.9.'
    >>> python_refusal((3, 11, 0))
    ''
    """
    if version[:2] >= NEEDED:
        return ""
    wanted, found = (".".join(str(part) for part in v[:2]) for v in (NEEDED, version))
    return f"Trimwright needs Python {wanted} or newer; this is Python {found}."


if python_refusal(sys.version_info[:3]):
    print(python_refusal(sys.version_info[:3]), file=sys.stderr)
    sys.exit(REFUSED)


class SetupError(Exception):
    """What keeps the project from being set up, in one line."""


class Environment:
    """The private environment: a folder beside this file, with a stamp of what is in it."""

    def __init__(self, root: Path) -> None:
        self.root = root
        self.folder = root / ".trimwright-env"
        self.stamp = self.folder / "stamp.json"
        self.log = self.folder / "install.log"

    def program(self, name: str) -> Path:
        """Return the path of a program in the environment."""
        if os.name == "nt":
            return self.folder / "Scripts" / f"{name}.exe"
        return self.folder / "bin" / name

    def stamped(self) -> "dict[str, str]":
        """Return what the stamp says is installed: nothing if there is no readable stamp."""
        try:
            read = json.loads(self.stamp.read_text("utf-8"))
        except (OSError, ValueError):
            return {}
        return {str(key): str(value) for key, value in read.items()}

    def make(self) -> None:
        """Make the environment anew, empty but for pip.

        Raises
        ------
        SetupError
            If this Python has no complete `venv`, or it fails.
        """
        if not (importlib.util.find_spec("venv") and importlib.util.find_spec("ensurepip")):
            raise SetupError(
                "This Python has no complete venv module. On Debian and Ubuntu run: "
                "apt install python3-venv"
            )
        say("Making a private environment in .trimwright-env")
        command = [sys.executable, "-m", "venv", "--clear", str(self.folder)]
        done = subprocess.run(
            command, env=surroundings(), capture_output=True, text=True, check=False
        )
        if done.returncode != 0:
            raise SetupError(
                f"Could not make .trimwright-env: {last_line(done.stdout + done.stderr)}"
            )

    def install(self, *arguments: str) -> bool:
        """Let pip install into the environment, its record going to the log.

        Returns whether all was there; what was not is said.

        Raises
        ------
        SetupError
            If pip fails: in one line, why.
        """
        command = [str(self.program("python")), "-m", "pip", "install", "--verbose", *arguments]
        with self.log.open("w", encoding="utf-8") as record:
            code = subprocess.run(
                command,
                cwd=self.root,
                env=surroundings(),
                stdin=subprocess.DEVNULL,
                stdout=record,
                stderr=subprocess.STDOUT,
                check=False,
            ).returncode
        said = self.log.read_text("utf-8", errors="replace")
        if code != 0:
            raise SetupError(install_refusal(said))
        lacking = [line for line in said.splitlines() if any(one in line for one in LACKING)]
        for line in lacking:
            say(line.strip())
        return not lacking


def say(line: str) -> None:
    """Print a line of progress at once, in order with what other programs print."""
    print(line, flush=True)


def last_line(text: str) -> str:
    r"""Return the last line of a text that is not empty, without its margins.

    Examples
    --------
    >>> last_line("one\n  two\n\n")
    'two'
    """
    return next((line.strip() for line in reversed(text.splitlines()) if line.strip()), "no reason")


def install_refusal(record: str) -> str:
    r"""Return one line on why pip failed, from its record.

    Examples
    --------
    >>> install_refusal("Retrying after connection broken by '...'\nERROR: No matching distribution")
    'Could not install: the package index cannot be reached. Is there a network?'
    >>> install_refusal("Collecting numpy\nERROR: No space left on device\n")
    'Could not install: No space left on device (all of it: .trimwright-env/install.log)'
    """
    errors = [line.strip() for line in record.splitlines() if line.strip().startswith("ERROR: ")]
    broken, unmatched = "connection broken by" in record, "No matching distribution" in record
    if (broken and unmatched) or any("ConnectionPool" in line for line in errors):
        return "Could not install: the package index cannot be reached. Is there a network?"
    reason = errors[-1][len("ERROR: ") :] if errors else last_line(record)
    return f"Could not install: {reason} (all of it: .trimwright-env/install.log)"


def surroundings() -> "dict[str, str]":
    """Return the environment variables for the programs started here: ours, not the caller's."""
    kept = {key: value for key, value in os.environ.items() if not key.startswith("PYTHON")}
    return {**kept, "PYTHONUTF8": "1", "PIP_USER": "0", "PIP_DISABLE_PIP_VERSION_CHECK": "1"}


def digest(root: Path, *, source: bool) -> str:
    """Return a hash of the files that say what is to be installed; of the source too if asked."""
    files = [path for kind in (*NEEDS, *PAGE) for path in root.glob(kind) if path.is_file()]
    if source:
        files += [path for kind in SEEN for path in (root / "src").rglob(kind)]
    total = hashlib.sha256()
    for file in sorted(files):
        content = file.read_bytes()
        total.update(f"{file.relative_to(root).as_posix()} {len(content)}\n".encode())
        total.update(content)
    return total.hexdigest()


def set_up(environment: Environment, *, testing: bool) -> None:
    """Bring the environment up to date, if it is not.

    What `test` installs (the source in place, with all that checks it) serves `demo` as well.

    Raises
    ------
    SetupError
        If that cannot be done.
    """
    old = environment.stamped()
    base = f"{sys.version.split()[0]} {sys.base_prefix}"
    usable = old.get("python") == base and environment.program("python").exists()
    in_place = testing or (usable and old.get("kind") == "test")
    new = {
        "python": base,
        "kind": "test" if in_place else "demo",
        "digest": digest(environment.root, source=not in_place),
    }
    if usable and old == new:
        return
    if not usable:
        environment.make()
    environment.stamp.unlink(missing_ok=True)
    say("Installing what is needed: a minute or two the first time")
    if in_place:
        whole = environment.install("-c", "constraints.txt", "-e", ".[test]")
    else:
        whole = environment.install("--upgrade", "--upgrade-strategy", "only-if-needed", ".")
    if not whole:
        new["digest"] = "something was lacking: to be installed again"
    environment.stamp.write_text(json.dumps(new, indent=1) + "\n", "utf-8")


def get_programs(environment: Environment) -> None:
    """See to it that the programs are there which the checks use and Python packages lack.

    Raises
    ------
    SetupError
        If one is missing and cannot be installed here.
    """
    missing = [name for name in PROGRAMS if not shutil.which(name)]
    if not missing:
        return
    wanted = "; ".join(
        f"{name} (package {PROGRAMS[name][0]}) for {PROGRAMS[name][1]}" for name in missing
    )
    apt = shutil.which("apt-get")
    if apt is None or not hasattr(os, "geteuid") or os.geteuid() != 0:
        raise SetupError(f"Missing here: {wanted}")
    say(f"Installing {wanted}")
    packages = [PROGRAMS[name][0] for name in missing]
    variables = {**surroundings(), "DEBIAN_FRONTEND": "noninteractive"}
    install = ["install", "--yes", "--no-install-recommends", *packages]
    with environment.log.open("a", encoding="utf-8") as record:
        for arguments in (["update"], install):
            subprocess.run(
                [apt, *arguments], env=variables, stdout=record, stderr=record, check=False
            )
    still = [name for name in missing if not shutil.which(name)]
    if still:
        raise SetupError(f"apt-get could not install {', '.join(still)}: {wanted}")


def run(environment: Environment, program: str, *arguments: str) -> int:
    """Run a program of the environment in the project's folder and return its exit code."""
    command = [str(environment.program(program)), *arguments]
    return subprocess.run(command, cwd=environment.root, env=surroundings(), check=False).returncode


def run_aside(environment: Environment, program: str, *arguments: str) -> "tuple[int, str]":
    """Run a program as `run` does, and return its exit code and what it said."""
    command = [str(environment.program(program)), *arguments]
    done = subprocess.run(
        command,
        cwd=environment.root,
        env=surroundings(),
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        encoding="utf-8",
        errors="replace",
        check=False,
    )
    return done.returncode, done.stdout


def demo(environment: Environment) -> int:
    """Check the example build, print its findings and its shop paper, say what to open."""
    set_up(environment, testing=False)
    say(f"\n$ trimwright check {DEMO}")
    checked = run(environment, "trimwright", "check", DEMO)
    if checked not in (0, STOPS):  # that something stops is what the example is there to show
        return checked
    say(f"\n$ trimwright print {DEMO} --into {PAPER}")
    printed = run(environment, "trimwright", "print", DEMO, "--into", PAPER)
    if printed not in (0, STOPS):
        return printed
    papers = sorted(path for path in (environment.root / PAPER).iterdir() if path.is_file())
    say("\nOpen these:")
    for paper in papers:
        say(f"  {shown(paper)}")
    trimwright = shown(environment.program("trimwright"))
    say(f"\nThe command for a build of your own:\n  {trimwright}")
    say(
        f"\nTo put it right in a browser, on a copy of it:\n  {trimwright} open {bench(environment)}"
    )
    return 0


def bench(environment: Environment) -> str:
    """Return the folder in which a copy of the example build can be worked on, made if need be."""
    copy = environment.root / BENCH / Path(DEMO).name
    if not copy.exists():
        copy.parent.mkdir(exist_ok=True)
        shutil.copyfile(environment.root / DEMO, copy)
    return shown(copy.parent)


def shown(path: Path) -> str:
    """Return a path as it can be typed from where the reader is."""
    try:
        return str(path.relative_to(Path.cwd()))
    except ValueError:
        return str(path)


def test(environment: Environment) -> int:
    """Run every check to its end; pytest last, so that its count closes the run.

    The types take as long as all else before pytest: they are checked beside it, and told after.
    """
    set_up(environment, testing=True)
    get_programs(environment)
    steps = {
        "ruff check": ("ruff", "check", "."),
        "ruff format --check": ("ruff", "format", "--check", "."),
        "import-linter": ("lint-imports",),
        "tsc --noEmit": ("python", "-m", "making", "tsc", "--noEmit"),
        "vitest": ("python", "-m", "making", "vitest", "run"),
    }
    with ThreadPoolExecutor(1) as beside:
        types = beside.submit(run_aside, environment, "mypy")
        codes = {name: told(environment, name, *command) for name, command in steps.items()}
        codes["mypy --strict"], said = types.result()
    say(f"\n== mypy --strict\n{said.rstrip()}")
    # neighbours stay on one thread, so that what they share is made once
    codes["pytest"] = told(environment, "pytest", "pytest", "-q", "-n", "2", "--dist", "worksteal")
    failed = [name for name, code in codes.items() if code != 0]
    if failed:
        say(f"\nFailed: {', '.join(failed)}")
    return 1 if failed else 0


def told(environment: Environment, name: str, program: str, *arguments: str) -> int:
    """Run a program under a heading and return its exit code."""
    say(f"\n== {name}")
    return run(environment, program, *arguments)


def main() -> int:
    """Read the command line, do what it asks, and return the exit code."""
    parser = argparse.ArgumentParser(
        prog="start.py", description="Sets the project up and runs it."
    )
    verbs = parser.add_subparsers(dest="verb", required=True, metavar="demo|test")
    verbs.add_parser("demo", help="check the example build and print its shop paper")
    verbs.add_parser("test", help="run every check of the project")
    verb = {"demo": demo, "test": test}[parser.parse_args().verb]
    try:
        return verb(Environment(ROOT))
    except SetupError as refusal:
        print(refusal, file=sys.stderr)
    except OSError as error:
        print(f"Could not write or start something: {error}", file=sys.stderr)
    except KeyboardInterrupt:
        print("Stopped.", file=sys.stderr)
    return REFUSED


if __name__ == "__main__":
    sys.exit(main())
