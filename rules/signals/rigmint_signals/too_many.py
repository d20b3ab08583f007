"""`radio:too-many`: more radios on a hub than it holds."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, LeaveLink, Link, Measured, PortRef, Rule, say_list
from rigmint_signals.hops import list_live_others


def check(case: Case) -> Iterator[Finding]:
    """One finding for each hub, at the link that brings one too many."""
    links: dict[PortRef, list[Link]] = defaultdict(list)
    for name in sorted(case.setup.links):
        links[case.rig.links[name].radios[0]].append(case.rig.links[name])
    for hub, held in links.items():
        peers = case.rig.items[hub.item].part.radios[hub.port].peers
        if peers is None:
            continue
        paired: list[PortRef] = []
        for link in held:
            others = list_live_others(case, link)
            paired += others
            if len(paired) > peers and others:
                yield _report(hub, link, paired, peers)
                break


def _report(hub: PortRef, link: Link, paired: list[PortRef], peers: int) -> Finding:
    names = [ref.item for ref in paired]
    return Finding(
        code="radio:too-many",
        grade=Grade.DEAD,
        says=f"{hub.place} holds {peers} at a time, and {say_list(names)} are paired with it.",
        at=link.place,
        cause=link.place,
        also=tuple(ref.place for ref in paired[peers:]),
        measured=Measured(float(len(paired)), float(peers), "radios"),
        fixes=(_find_fix(link, paired, peers),),
    )


def _find_fix(link: Link, paired: list[PortRef], peers: int) -> Fix:
    """The last ones out, where they came by this link."""
    last = paired[peers:]
    says = f"Leave {say_list([ref.item for ref in last])} out of {link.place}, or use a hub that holds {len(paired)}."
    is_own = all(ref in link.radios for ref in last)
    return Fix(says, tuple(LeaveLink(link.name, ref.place) for ref in last) if is_own else ())


RULE = Rule(
    code="radio:too-many",
    grades=(Grade.DEAD,),
    title="More radios than the hub holds",
    looks_for="A hub with more radios paired and switched on than its part states under `peers`.",
    why="The last one to be switched on gets nothing, or throws another one out.",
    put_right="Leave one out, take its picture by a lead from another, or use a hub that holds more.",
    source="the maker's limit",
    check=check,
)
