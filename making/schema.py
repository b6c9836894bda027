"""Writes what the page knows of the server's messages: `python -m making.schema`.

`web/openapi.json` is the server's own schema; `web/src/api.d.ts` are the types made from it.
"""

import json
from pathlib import Path

from making.page import run_tool
from trimwright.app import app

ROOT = Path(__file__).resolve().parent.parent
SCHEMA, TYPES = "openapi.json", "src/api.d.ts"


def write_schema(root: Path, into: Path) -> None:
    """Write the server's schema and the types made from it below a folder such as `web/`.

    Raises
    ------
    RuntimeError
        If the types cannot be made.
    """
    schema, types = into / SCHEMA, into / TYPES
    types.parent.mkdir(exist_ok=True)
    schema.write_text(json.dumps(app({}).openapi(), indent=1), "utf-8")
    arguments = (str(schema), "--output", str(types), "--immutable")
    code, said = run_tool(root, "openapi-typescript", *arguments)
    if code != 0:
        raise RuntimeError(said)


if __name__ == "__main__":
    write_schema(ROOT, ROOT / "web")
