"""Lays down a rig from answers."""

from __future__ import annotations

from rigmint.library.library_file import Library
from rigmint.start.answers import Answers
from rigmint.start.draft_rig import draft_rig
from rigmint.start.spares import count_spares
from rigmint.start.write_rig import write_rig


def write_started_rig(answers: Answers, title: str, library: Library) -> str:
    """The text of the rig file, with the packs that the day takes. Raises Refusal for answers that make no sense."""
    draft = draft_rig(answers, library.catalogue)
    draft.spares += count_spares(write_rig(draft, title), library)
    return write_rig(draft, title)
