"""What is unpowered without a lead, worked out for all leads together: as one study for each lead has it."""

from __future__ import annotations

from pathlib import Path

import pytest

from rigmint.graph.pins import take_out_lead
from rigmint.library.build_rig import read_rig
from rigmint.library.library_file import load_library
from rigmint.rig.house import House
from rigmint.study.lead_cuts import LeadCuts
from rigmint.study.powering import study_powering
from rigmint.study.studies import Studies

EXAMPLES = Path(__file__).parents[2] / "examples"
LIBRARY = load_library(EXAMPLES / "rigmint.yaml")
RIGS = [*sorted((EXAMPLES / "rigs").glob("*.rig.yaml")), *sorted((EXAMPLES / "faults").glob("*.rig.yaml"))[::4]]


@pytest.mark.parametrize("path", RIGS, ids=lambda path: path.name.partition(".")[0])
def test_each_lead_as_a_study_of_its_own_has_it(path: Path) -> None:
    rig = read_rig(path, LIBRARY).rig
    assert rig is not None
    studies = Studies(rig, House())
    for setup in rig.setups.values():
        network = studies.network(setup)
        cuts = LeadCuts(rig, setup, network)
        whole = study_powering(rig, setup, network).list_unpowered_keys()
        alone = {
            label: study_powering(rig, setup, take_out_lead(network, label)).list_unpowered_keys()
            for label in setup.leads
        }

        assert {label: cuts.list_unpowered(label) for label in setup.leads} == alone
        assert any(unpowered != whole for unpowered in alone.values())
