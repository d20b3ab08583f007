"""Templates of the skeletons, rendered by jinja2, which is imported only then."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from jinja2 import Environment

TEMPLATES = Path(__file__).parent / "templates"


def render_template(name: str, /, **values: Any) -> str:
    """The text of a template; a value that it names and is not given raises, so that nothing is left out silently."""
    return _find_environment().get_template(name).render(**values)


@lru_cache(maxsize=1)
def _find_environment() -> Environment:
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    return Environment(
        loader=FileSystemLoader(TEMPLATES),
        undefined=StrictUndefined,
        autoescape=False,  # the skeletons are YAML, TOML and Python; what a user wrote is quoted for each of them
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
