"""The process that checks files against a house's schemas: reads requests from standard input, one a line.

A process of its own, since a pattern that backtracks without end, or a schema that refers to itself, is stopped only by
ending the process. It fetches nothing and imports nothing of the repository.
"""

from __future__ import annotations

import json
import signal
import sys
from typing import Any

from rigmint.library.explain import find_refusals
from rigmint.library.vet_schema import read_schema

READY = "ready"
_LONGEST = 60
"""s for one request, after which the process ends even where nobody is left to end it, as after a kill of rigmint:
the alarm's default reaches a pattern that backtracks, which holds the interpreter."""


def main() -> None:
    """Answer `{"schema": TEXT}` with the schema's faults, and `{"tree": TREE}` with what it refuses, or why it cannot
    say."""
    import jsonschema  # noqa: F401 - imported before the clock of the first request runs

    print(json.dumps(READY), flush=True)
    schema: dict[str, Any] = {}
    for line in sys.stdin:
        _set_alarm(_LONGEST)
        request = json.loads(line)
        if "schema" in request:
            found, faults = read_schema(request["schema"])
            schema = found or {}
            answer: Any = [fault.as_json() for fault in faults]
        else:
            answer = _check(request["tree"], schema)
        _set_alarm(0)
        print(json.dumps(answer), flush=True)


def _set_alarm(seconds: int) -> None:
    if hasattr(signal, "alarm"):  # there is none on Windows
        signal.alarm(seconds)


def _check(tree: Any, schema: dict[str, Any]) -> dict[str, Any]:
    try:
        refusals = list(find_refusals(tree, schema, adds_description=True))
    except RecursionError:
        return {"failed": "it refers to itself without end", "refusals": []}
    except Exception as error:
        return {"failed": f"{type(error).__name__}: {error}", "refusals": []}
    return {"failed": None, "refusals": [[list(one.path), one.code, one.says] for one in refusals]}


if __name__ == "__main__":
    main()
