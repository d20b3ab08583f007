"""Lays down skeletons that check clean: a rig, a part, a library, a pack.

`answers.py` holds what was answered, `questions.py` what is asked and what stands in for an answer, `refusals.py` which
answers make no sense together. `blocks_*.py` each add one block of a rig to a `Draft` (`draft.py`); `draft_rig.py` puts
them in order, `write_rig.py` writes the draft as a rig file. `leads_*.py` make a rig from a table of leads.
`part_file.py`, `library_folder.py` and `pack_folder.py` lay down the others, from `templates/`.
"""
