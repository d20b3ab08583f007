"""From answers to a draft: the blocks in order."""

from __future__ import annotations

from rigmint.library.catalogue import Catalogue
from rigmint.start.answers import Answers
from rigmint.start.blocks_camera import add_camera, add_head
from rigmint.start.blocks_desk import add_desk
from rigmint.start.blocks_lens import add_lens_control
from rigmint.start.blocks_picture import add_picture
from rigmint.start.blocks_power import add_power
from rigmint.start.blocks_record import add_record
from rigmint.start.draft import Draft
from rigmint.start.people import find_roles
from rigmint.start.refusals import refuse_nonsense


def draft_rig(answers: Answers, catalogue: Catalogue) -> Draft:
    """The whole rig. Raises Refusal for answers that make no sense together."""
    refuse_nonsense(answers)
    draft = Draft(answers, catalogue)
    for role in find_roles(answers):
        draft.crew[role] = []
    for add_block in (add_camera, add_head, add_lens_control, add_picture, add_desk, add_record, add_power):
        add_block(draft)
    return draft
