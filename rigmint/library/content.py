"""A short name for what a rig file and its parts say: the same for the same content, however it is laid out."""

from __future__ import annotations

import hashlib
import json

from rigmint.library.build_rig import ReadRig
from rigmint.library.catalogue import Catalogue

_LETTERS = 12


def hash_content(read: ReadRig, catalogue: Catalogue) -> str:
    """Twelve letters of a SHA-256 over the rig's tree, with what it starts from, and the trees of its parts."""
    rig, document = read.rig, read.document
    if rig is None or document is None:
        return ""
    parts = {item.part.id for item in rig.items.values()} | {spare.part.id for spare in rig.spares}
    parts |= {lead.part.id for lead in rig.leads.values() if lead.part is not None}
    whole = {"rig": document.tree, "parts": {part: catalogue.tree_of(part) for part in sorted(parts)}}
    return hashlib.sha256(json.dumps(whole, sort_keys=True).encode()).hexdigest()[:_LETTERS]
