"""A library made ready for its rigs: the packs that judge them, the house's own checks, the house's schemas."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from rigmint.library.catalogue import Parse
from rigmint.library.faults import Fault
from rigmint.library.house_schemas import HouseSchemas
from rigmint.library.library_file import Library, load_library
from rigmint.library.yaml import parse_yaml
from rigmint.lint.core_codes import CORE_CODES
from rigmint.lint.house_checks import HouseChecks, load_house_checks
from rigmint.lint.packs import PackSet


@dataclass(frozen=True, slots=True)
class OpenLibrary:
    """A library, what judges its rigs, and what it leaves out."""

    library: Library
    packs: PackSet
    """The installed packs and the house's checks, where they are run."""
    checks: HouseChecks
    schemas: HouseSchemas
    is_unsaid: bool
    """It has house checks, and the run does not say whether to run them: its rigs are not checked."""
    left_out: tuple[str, ...]
    """Files of house checks that the run was told not to run."""
    codes: tuple[str, ...]
    """What is looked for on its rigs: the codes of rules that it does not turn off, and the core's own."""

    @property
    def faults(self) -> tuple[Fault, ...]:
        """Faults of the library, of the house's checks and schemas, and of its own parts by the house's schema."""
        schemas = self.schemas
        return (
            *self.library.faults,
            *self.checks.faults,
            *schemas.find_faults(),
            *schemas.check_parts(self.library.catalogue),
        )


def open_library(
    path: Path | None, installed: PackSet, *, house_checks: bool | None, parse: Parse = parse_yaml
) -> OpenLibrary:
    """Load a library. `house_checks`: whether to run its checks in Python; None where nobody said; `parse`: of the
    catalogue's files, text to document."""
    library = load_library(path, parse)
    named = library.house.files.checks
    checks = load_house_checks(library, installed) if house_checks and named else HouseChecks()
    packs = checks.join(installed)
    return OpenLibrary(
        library=library,
        packs=packs,
        checks=checks,
        schemas=HouseSchemas(library.house_paths),
        is_unsaid=bool(named) and house_checks is None,
        left_out=named if house_checks is False else (),
        codes=_list_codes(library, packs),
    )


def _list_codes(library: Library, packs: PackSet) -> tuple[str, ...]:
    off = {code for code, override in library.house.rules.items() if override.is_off}
    own = [core.code for core in CORE_CODES if core.grade is not None and not core.is_of_parts]
    return tuple(sorted({*own, *(rule.code for _, rule in packs.rules)} - off))
