"""Names that nothing declares: of every sort, in parts and in rigs, with the nearest valid one."""

from __future__ import annotations

import pytest

from tests.builders import list_faults, make_library, make_rig, read_rig_text

MODE = "settings: {mode: {values: [fast, slow]}}"


IN_A_PART: list[tuple[str, list[str]]] = [
    ("ports: {p: {connector: 0b2}}", ["there is no connector `0b2`: did you mean `0b-2`?"]),
    ("ports: {p: {connector: 0b-2, pins: {1: minus, 3: plus}}}", ["there is no contact of `0b-2` called `3`"]),
    (
        "ports: {p: {connector: 0b-2, pins: minus-frst}}",
        ["there is no usual pin-out of `0b-2` called `minus-frst`: did you mean `minus-first`?"],
    ),
    ("ports: {p: {connector: 0b-2, rail: mian}}", ["there is no rail `mian`: did you mean `main`?"]),
    ("ports: {p: {connector: bnc, speaks: [sdi-3]}}", ["there is no protocol `sdi-3`: did you mean `sdi-3g`?"]),
    (
        "ports: {p: {connector: 0b-4, pins: {1: minus, 2: trigger}, levels: {triger: {gives: closure}}}}",
        ["there is no signal of this port called `triger`: did you mean `trigger`?"],
    ),
    ("radios: {r: {speaks: [lens-ai]}}", ["there is no protocol `lens-ai`: did you mean `lens-air`?"]),
    ("cells: {c: {volts: 12 V, rail: mian}}\nrails: {main: {}}", ["there is no rail `mian`: did you mean `main`?"]),
    ("bridges: [{from: main, to: aux, by: wire}]", ["there is no rail `aux`"]),
    ("controls: {x: {sends: rate, axis: focs}}", ["there is no axis `focs`: did you mean `focus`?"]),
    ("controls: {x: {sends: rate, axis: [pan, tlt]}}", ["there is no axis `tlt`: did you mean `tilt`?"]),
    ("moves: {x: {axis: {setting: axs}}}", ["there is no setting of this part called `axs`"]),
    ("moves: {x: {axis: zom}}", ["there is no axis `zom`: did you mean `zoom`?"]),
    ("makes: {s: {pictur: true}}", ["there is no flow `pictur`: did you mean `picture`?"]),
    (
        "makes: {s: {picture: true}}\npasses: [{from: s, to: t, carries: picture}]",
        ["there is no port, radio, control or mover of this part called `t`"],
    ),
    (
        "makes: {s: {picture: true}}\nshows: {t: {}}\npasses: [{from: s, to: t, carries: pictures}]",
        ["there is no axis or flow `pictures`: did you mean `picture`?"],
    ),
    (
        "shows: {s: {}, t: {}}\npasses: [{from: s, to: t, axes: irs}]",
        ["there is no axis `irs`: did you mean `iris`?"],
    ),
    (
        "controls: {x: {sends: rate, axis: pan, when: {mode: fst, mod: fast}}}\n" + MODE,
        ["`mode` has no value `fst`: did you mean `fast`?", "there is no setting of this part called `mod`: did you mean `mode`?"],
    ),
    ("settings: {x: {values: [on, off], default: of}}", ["`of` is not one of the values of `x`: did you mean `off`?"]),
    (
        "follow: {mode: {setting: mode}, modes: {lock: {}}, cycle: [lok]}\n" + MODE,
        ["there is no follow mode `lok`: did you mean `lock`?"],
    ),
    ("follow: {modes: {lock: {pan: {setting: follow}}}}", ["there is no setting of this part called `follow`"]),
]  # fmt: skip


@pytest.mark.parametrize(("number", "faults"), [(number, faults) for number, (_, faults) in enumerate(IN_A_PART)])
def test_in_a_part(number: int, faults: list[str]) -> None:
    bodies = [body.replace("\n", "\n  ") for body, _ in IN_A_PART]
    parts = "\n".join(f"house/x{n}:\n  kind: camera\n  {body}" for n, body in enumerate(bodies))
    catalogue = make_library(parts).catalogue

    assert catalogue.part(f"house/x{number}") is None
    assert [fault.says for fault in catalogue.faults_of(f"house/x{number}")] == faults


IN_A_LEAD: list[tuple[str, str, str]] = [
    ("ends: {a: {connector: 0b-2}, b: {connector: 0b-2}}, conductors: [{from: a.1, to: c.1}]", "file:unknown-name", "there is no end of this lead called `c`"),
    ("ends: {a: {connector: 0b-2}, b: {connector: 0b-2}}, conductors: [{from: a.3, to: b.1}]", "file:unknown-name", "there is no contact of `0b-2` called `3`"),
    ("ends: {a: {connector: 0b-2}, b: {connector: 0b2}}", "file:unknown-name", "there is no connector `0b2`: did you mean `0b-2`?"),
    ("ends: {a: {connector: 0b-2}, b: {connector: 0b-2}}, carries: [len-bus]", "file:unknown-name", "there is no protocol `len-bus`: did you mean `lens-bus`?"),
    ("ends: {a: {connector: 0b-2}, b: {connector: 0b-2}}, carries: {lens-bus: [a, z]}", "file:unknown-name", "there is no end of this lead called `z`"),
    ("conductors: straight", "file:missing-key", "a lead is described by its `ends` and `conductors`"),
    ("ends: {a: {connector: 0b-2}, b: {connector: d-tap}}, conductors: straight", "file:bad-value", "`straight` joins equal connectors; these ends differ: list the conductors"),
    ("ends: {a: {connector: 0b-4}, b: {connector: 0b-4}}, conductors: [{from: a.3, to: b.4, regulator: {out: 5 V}}]", "file:missing-key", "a regulator in a lead needs `ground`, the contact of its minus"),
]  # fmt: skip


@pytest.mark.parametrize(("number", "code", "says"), [(n, *row[1:]) for n, row in enumerate(IN_A_LEAD)])
def test_in_a_lead(number: int, code: str, says: str) -> None:
    parts = "\n".join(f"house/x{n}: {{kind: lead, {body}}}" for n, (body, _, _) in enumerate(IN_A_LEAD))
    catalogue = make_library(parts).catalogue

    assert catalogue.part(f"house/x{number}") is None
    assert [(fault.code, fault.says) for fault in catalogue.faults_of(f"house/x{number}")] == [(code, says)]


def test_a_lead_of_one_end_is_refused() -> None:
    catalogue = make_library("house/x: {kind: lead, ends: {a: {connector: 0b-2}}, conductors: straight}").catalogue

    assert catalogue.part("house/x") is None
    assert [fault.says for fault in catalogue.faults_of("house/x")] == ["a lead has two ends or more"]


def test_ports_radios_controls_moves_makes_and_shows_share_one_name_space() -> None:
    catalogue = make_library(
        "house/x: {kind: camera, ports: {a: {connector: bnc}}, shows: {a: {}}, moves: {b: {axis: pan}}}"
    ).catalogue

    assert catalogue.part("house/x") is None

    found = [fault.says.partition(": ")[0] for fault in catalogue.faults_of("house/x")]

    assert found == ["`a` is the name of 2 things of this part"] * 2


PARTS = """
house/box:
  kind: camera
  ports: {dc_in: {connector: 0b-2, sex: socket}, run: {connector: 0b-4, sex: socket}}
  settings: {mode: {values: [fast, slow]}, free: {}}
  radios: {radio: {speaks: [lens-air]}}
house/lens: {kind: lens, rings: {focus: {}}}
house/cord: {kind: lead, ends: {a: {connector: 0b-2}, b: {connector: 0b-2}}, conductors: straight}
"""
KIT = "kit: {box: house/box, lens: house/lens, two: house/box}\n"


@pytest.mark.parametrize(
    ("text", "faults"),
    [
        ("docks: [box.dcin > two.run]", [(4, 9, "`box.dcin`: did you mean `box.dc_in`?")]),
        ("docks: [{from: box.run, to: tow.run}]", [(4, 9, "`tow.run`: there is no item `tow`: did you mean `two`?")]),
        ("leads: {P1: box.dc_in > lens.mount}", [(4, 9, "`lens.mount`: `house/lens` has no such port; it has none")]),
        ("leads: {P1: {from: box.dc_in, to: two.zz}}", [(4, 31, "`two.zz`: `house/box` has no such port; it has `dc_in`, `run`")]),
        ("leads: {P1: {part: house/crod, from: box.dc_in, to: loose}}", [(4, 14, "there is no part `house/crod`: did you mean `house/cord`?")]),
        ("leads: {P1: {part: house/box, from: box.dc_in, to: loose}}", [(4, 14, "`house/box` is a camera, not a lead")]),
        ("leads: {P1: {from: loose, to: loose}}", [(4, 9, "a lead with both ends loose needs `part` or `lead`")]),
        ("leads: {P1: {part: house/cord, ends: {a: box.dc_in, q: two.dc_in}}}", [(4, 53, "this lead has no end `q`; it has `a`, `b`: name them under `ends`")]),
        ("leads: {P1: {ends: {a: box.dc_in, c: two.dc_in}}}", [(4, 9, "a lead with `ends` needs `part` or `lead`, which names them")]),
        ("links: {air: {between: [box.radio, two.rdio]}}", [(4, 36, "`two.rdio`: did you mean `two.radio`?")]),
        ("links: {air: {between: [box.radio, lens.radio]}}", [(4, 36, "`lens.radio`: `house/lens` has no such radio; it has none")]),
        ("fitted: {mot: lens.focus}", [(4, 10, "`mot`: there is no item `mot`")]),
        ("fitted: {box: lens.iris}", [(4, 10, "`lens.iris`: `house/lens` has no ring `iris`")]),
        ("settings: {box.mod: fast}", [(4, 12, "`box.mod`: `house/box` has no setting `mod`: did you mean `mode`?")]),
        ("settings: {box.mode: fst}", [(4, 12, "`box.mode` has no value `fst`: did you mean `fast`?")]),
        ("settings: {lens.mode: fast}", [(4, 12, "`lens.mode`: `house/lens` has no setting `mode`; it has none")]),
        ("settings: {bx.mode: fast}", [(4, 12, "`bx.mode`: there is no item `bx`: did you mean `box`?")]),
        ("setups: {solo: {set: {box.mode: quick}}}", [(4, 23, "`box.mode` has no value `quick`; it has `fast`, `slow`")]),
        ("setups: {solo: {out: [bx]}}", [(4, 17, "there is no item, lead or link `bx`: did you mean `box`?")]),
        ("setups: {solo: {off: [bx]}}", [(4, 17, "there is no item `bx`: did you mean `box`?")]),
        ("setups: {solo: {unplugged: [P9]}}", [(4, 17, "there is no lead `P9`")]),
        ("setups: {solo: {distance: {air: 4 m}}}", [(4, 28, "there is no link `air`")]),
        ("setups: {solo: {who: {focus: somebody}}}", [(4, 23, "there is no person in the crew called `somebody`")]),
        ("crew: {op: [two]}\nsetups: {solo: {who: {pan: op}}}", [(5, 23, "nothing in this rig has an axis `pan`")]),
        ("setups: {solo: {who: {box.pan: nobody}}}", [(4, 23, "`box.pan`: `house/box` has no such axis")]),
        ("setups: {solo: {who: {bx.pan: nobody}}}", [(4, 23, "`bx.pan`: there is no item `bx`: did you mean `box`?")]),
        ("setups: {solo: {needs: {stays_up: [bx]}}}", [(4, 25, "there is no item `bx`: did you mean `box`?")]),
        ("needs: {pictur: [box]}", [(4, 9, "there is no need or flow called `pictur`: did you mean `picture`?")]),
        ("needs: {picture: [bx]}", [(4, 9, "there is no item `bx`: did you mean `box`?")]),
        ("crew: {op: [bx]}", [(4, 8, "there is no item `bx`: did you mean `box`?")]),
        ("also: [{part: house/bx}]", [(4, 9, "there is no part `house/bx`: did you mean `house/box`?")]),
        ("metered: {P1: {}}", [(4, 11, "there is no lead `P1`")]),
        ("marked: {box.dcin: red, Q: blue}", [(4, 10, "`box.dcin`: did you mean `box.dc_in`?"), (4, 25, "there is no lead `Q`")]),
        ("tied: [box.dcin, 'P1:a']", [(4, 8, "`box.dcin`: did you mean `box.dc_in`?"), (4, 18, "there is no lead `P1`")]),
        ("leads: {P1: box.dc_in > two.dc_in}\nmarked: {'P1:z': red, 'P1:a': red}\ntied: ['P1:b', 'P1:y']", [
            (5, 10, "`P1:z`: this lead has no end `z`; it has `a`, `b`"),
            (6, 16, "`P1:y`: this lead has no end `y`; it has `a`, `b`"),
        ]),
    ],
)  # fmt: skip
def test_in_a_rig(text: str, faults: list[tuple[int, int, str]]) -> None:
    found = list_faults(read_rig_text(KIT + text, PARTS))

    assert [(line, column, says) for _, line, column, says in found] == faults


@pytest.mark.parametrize(
    ("text", "line", "column", "says"),
    [
        ("kit: {a: {part: house/box, set: {mode: fst}}}", 3, 34, "`a.mode` has no value `fst`: did you mean `fast`?"),
        ("kit: {a: {part: house/box, in: [solo]}}", 3, 28, "there is no setup `solo`"),
        ("kit: {a: house/cord}", 3, 7, "`house/cord` is a lead: it stands under `leads`"),
        ("kit: {a: house/box, b: house/box}\nsetups: {s: {who: {record: nobody}}}", 4, 20, "`record` is on several items: write `a.record` or `b.record`"),
    ],
)  # fmt: skip
def test_in_the_kit(text: str, line: int, column: int, says: str) -> None:
    assert [found[1:] for found in list_faults(read_rig_text(text, PARTS))] == [(line, column, says)]


@pytest.mark.parametrize("label", ["p1", "BOX", "Lens"])
def test_labels_differ_from_each_other_and_from_items_in_any_case(label: str) -> None:
    text = f"{KIT}leads: {{P1: box.dc_in > loose, {label}: box.dc_in > two.dc_in}}".replace(
        "box.dc_in > loose", "box.run > two.run"
    )
    found = list_faults(read_rig_text(text, PARTS))

    assert [(code, says) for code, _, _, says in found] == [
        (
            "file:bad-value",
            f"`{label}` is the name of another lead or an item, in upper or lower case: labels must differ",
        )
    ]


def test_what_hangs_on_a_broken_item_is_not_held_against_the_file_again() -> None:
    text = "kit: {a: house/bx, b: house/box}\nleads: {P1: a.dc_in > b.dc_in}\nsettings: {a.mode: fast}\nmarked: {a.dc_in: red}"
    found = list_faults(read_rig_text(text, PARTS))

    assert [says for _, _, _, says in found] == ["there is no part `house/bx`: did you mean `house/box`?"]


def test_more_than_2000_items_are_refused_by_number() -> None:
    kit = "\n".join(f"  i{n}: house/box" for n in range(2001))
    found = list_faults(read_rig_text(f"kit:\n{kit}", PARTS))

    assert found == [("file:too-many", 3, 1, "more than 2000 items, the most that is read")]


def test_2000_items_are_read() -> None:
    kit = "\n".join(f"  i{n}: house/box" for n in range(2000))

    assert len(make_rig(f"kit:\n{kit}", PARTS).items) == 2000
