"""House checks: rules in Python that a library names by path, run like those of a pack, only when the run says so."""

from __future__ import annotations

import hashlib
import sys
from collections.abc import Iterable
from dataclasses import dataclass
from types import ModuleType

from rigmint.library.faults import Fault, FaultList
from rigmint.library.foreign import describe_error, keep_off_output
from rigmint.library.house_files import HouseFile
from rigmint.library.library_file import Library
from rigmint.library.yaml import read_text
from rigmint.lint.packs import (
    PACK_API,
    Pack,
    PackRefused,
    PackSet,
    check_rules,
    gather_rules,
    leave_out,
    refuse_shared_codes,
)
from rigmint.lint.rule import Rule

MODULE_PREFIX = "rigmint_house_checks_"
_HASH_DIGITS = 12


@dataclass(frozen=True, slots=True)
class HouseChecks:
    """A library's checks as packs, one a file, and what is wrong with others."""

    packs: tuple[Pack, ...] = ()
    faults: tuple[Fault, ...] = ()

    def join(self, installed: PackSet) -> PackSet:
        """The installed packs and these."""
        return PackSet((*installed.packs, *self.packs), installed.faults)


def load_house_checks(library: Library, installed: PackSet) -> HouseChecks:
    """Run the files of a library's checks and take their rules. A file that fails is named, and the others are taken.

    A code that an installed pack has stays the pack's: a repository does not replace a rule by naming one alike.
    """
    packs: list[Pack] = []
    faults: list[Fault] = []
    taken = {rule.code: pack for pack, rule in installed.rules}
    for file in library.house_paths.checks:
        pack = _load_file(file, faults)
        if pack is not None:
            packs.append(_refuse_taken(pack, taken, faults))
    return HouseChecks(refuse_shared_codes(packs, faults), tuple(faults))


def say_unsaid(library: Library, rigs: int) -> Fault:
    """The fault of a run that does not say whether a library's checks are to be run."""
    listed = ", ".join(library.house.files.checks)
    position = library.position("house", "checks")
    not_checked = f"{rigs} rig {'file' if rigs == 1 else 'files'} of this library not checked"
    says = (
        f"the library lists checks in Python ({listed}), which run as a program on this computer: say `--house-checks`"
        f" to run them, if you trust those who wrote them, or `--no-house-checks` to do without them; {not_checked}"
    )
    return Fault(library.house.file or "", position.line, position.column, "library:unsaid", says)


def _load_file(file: HouseFile, faults: list[Fault]) -> Pack | None:
    unread = FaultList()
    text = read_text(file.path, file.shown, unread)
    if text is None:
        faults += unread.in_order()
        return None
    version = hashlib.sha256(text.encode()).hexdigest()[:_HASH_DIGITS]
    try:
        rules = _gather(file.shown, _run_file(file, text))
    except PackRefused as error:
        faults.append(Fault(file.shown, 1, 1, error.code, f"house checks {file.shown} {error}"))
        return None
    return Pack(file.shown, version, (file.shown,), rules)


def _run_file(file: HouseFile, text: str) -> ModuleType:
    """The module of a file. Its folder is not searched for further modules, and nothing is written beside it."""
    name = MODULE_PREFIX + hashlib.sha256(str(file.path).encode()).hexdigest()[:_HASH_DIGITS]
    module = ModuleType(name)
    module.__file__ = str(file.path)
    sys.modules[name] = module  # dataclasses look their module up
    try:
        with keep_off_output():
            exec(compile(text, str(file.path), "exec", dont_inherit=True), module.__dict__)
    except KeyboardInterrupt:
        raise
    except BaseException as error:
        raise PackRefused("pack:broken", f"cannot be run: {_describe(error, file)}") from error
    return module


def _describe(error: BaseException, file: HouseFile) -> str:
    said = describe_error(error)
    missing = error.name if isinstance(error, ModuleNotFoundError) else None
    if missing and (file.path.parent / f"{missing}.py").is_file():
        return f"{said}; a file of house checks stands alone: what is spread over several files is packaged as a pack"
    return said


def _gather(shown: str, module: ModuleType) -> tuple[Rule, ...]:
    """The rules of `RULES`, or of the hook that packs have."""
    stated = vars(module).get("RULES")
    if "rigmint_rules" in vars(module):
        if stated is not None:
            raise PackRefused("pack:broken", "state both `RULES` and `rigmint_rules`: one of them is enough")
        return gather_rules(shown, module)
    if stated is None:
        raise PackRefused("pack:broken", "state no rules: `RULES = (Rule(...),)`, or `rigmint_rules` as in a pack")
    api = vars(module).get("PACK_API", PACK_API)
    if api != PACK_API:
        says = f"were written for version {api} of the pack contract; this rigmint has version {PACK_API}"
        raise PackRefused("pack:refused", says)
    try:
        return check_rules(stated)
    except Exception as error:
        raise PackRefused("pack:broken", f"cannot be used: {describe_error(error)}") from error


def _refuse_taken(pack: Pack, taken: dict[str, Pack], faults: list[Fault]) -> Pack:
    shared = [rule.code for rule in pack.rules if rule.code in taken]
    for code in shared:
        owner = taken[code]
        says = (
            f"house checks {pack.name} declare `{code}`, which is a rule of the pack {owner.name} {owner.version}: the"
            f" pack's is run, the house's is not"
        )
        faults.append(Fault(pack.name, 1, 1, "pack:refused", says))
    return leave_out(pack, shared)


def count_rules(sets: Iterable[PackSet]) -> int:
    """How many different rules several sets hold."""
    return len({(pack.name, rule.code) for one in sets for pack, rule in one.rules})
