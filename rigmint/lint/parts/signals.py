"""Signals inside a part: controls that reach nothing, passes that lead nowhere, ports that nothing leads to."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint.lint.parts.hint import Hint, PartView
from rigmint.lint.wording import say_list
from rigmint.rig.choice import Choice
from rigmint.rig.device import Pass
from rigmint.rig.part import Part


def check_controls(view: PartView) -> Iterator[Hint]:
    """Each axis of a control reaches something under some setting."""
    part = view.part
    for name, control in part.controls.items():
        stuck = _list_stuck(view, name)
        if not stuck:
            continue
        setting = control.axis.setting
        chosen = f" when {setting} is {say_list(stuck, joint='or')}" if setting is not None else ""
        yield Hint(
            "part:control-nowhere",
            f"{name} acts on {say_list(stuck, joint='or')}{chosen}, and that leads from it to no mover and no port or"
            " radio that carries it.",
            f"Write `passes: [{{from: {name}, to: ..., axes: [{', '.join(stuck)}]}}]`, to a mover of that axis or to"
            " what speaks a protocol that carries it.",
            ("controls", name),
            name,
        )


def check_passes(view: PartView) -> Iterator[Hint]:
    """Each source and target of a pass have something in common that the pass hands on, and each axis or flow that it
    names goes some way."""
    part = view.part
    for one in part.passes:
        path = ("passes", one.index)
        going: set[str] = set()
        for source in one.sources:
            for target in one.targets:
                found = _find_going(view, one, source, target)
                going |= found
                if not found:
                    yield Hint(
                        "part:pass-nowhere",
                        f"Nothing goes from {source} to {target}: {_say_ends(view, one, source, target)}.",
                        "Correct `axes:` or `carries:`, what the ends speak, or take the way out.",
                        path,
                        source,
                    )
        named = [word for word in _list_named(part, one) if word not in going]
        if named and going:
            yield Hint(
                "part:pass-nowhere",
                f"The way from {say_list(one.sources)} to {say_list(one.targets)} is for {say_list(named)} too, which"
                " no protocol or mover at its ends carries.",
                f"Take {say_list(named)} out, or add the protocol that carries it.",
                path,
                one.sources[0],
            )


def check_mute(view: PartView) -> Iterator[Hint]:
    """What speaks has a way in the part, to it or from it. Where a control that it could carry leads nowhere, that is
    the same gap, told of the control."""
    part = view.part
    stuck = {axis for control in part.controls for axis in _list_stuck(view, control)}
    used = {name for one in part.passes for name in (*one.sources, *one.targets)}
    for name, spoken in view.protocols_of().items():
        carried = view.carried_by(spoken)
        if carried and name not in used and not carried & stuck:
            what = "radios" if name in part.radios else "ports"
            yield Hint(
                "part:mute-port",
                f"{name} speaks {say_list([view.protocol(one).name for one in spoken])}, and no way in the part leads"
                " to it or from it.",
                f"Write `passes:` from or to {name}.",
                (what, name),
                name,
            )


def _list_stuck(view: PartView, control: str) -> list[str]:
    """The axes of a control that lead nowhere."""
    axes = list_words(view.part, view.part.controls[control].axis)
    return [axis for axis in axes if not any(_leads(view, one, control, axis) for one in view.part.passes)]


def list_words(part: Part, choice: Choice) -> tuple[str, ...]:
    """Every word that a choice may come to."""
    if choice.setting is None:
        return choice.words
    setting = part.settings.get(choice.setting)
    return tuple(word for word in setting.values if word != "none") if setting is not None else ()


def _leads(view: PartView, one: Pass, source: str, axis: str) -> bool:
    """Whether a pass takes an axis from a source to a target that holds or carries it."""
    return source in one.sources and any(axis in _find_going(view, one, source, target) for target in one.targets)


def _find_going(view: PartView, one: Pass, source: str, target: str) -> frozenset[str]:
    """What a pass hands on between two of its ends."""
    ends = _find_carried(view, source) & _find_carried(view, target)
    named = _list_named(view.part, one)
    return ends & frozenset(named) if one.axes is not None or one.carries is not None else ends


def _list_named(part: Part, one: Pass) -> tuple[str, ...]:
    axes = list_words(part, one.axes) if one.axes is not None else ()
    return (*axes, *(one.carries or ()))


def _find_carried(view: PartView, name: str) -> frozenset[str]:
    """The axes and flows that a port, radio, control, mover, maker or display of a part can have."""
    part = view.part
    if name in part.controls:
        return frozenset(list_words(part, part.controls[name].axis))
    if name in part.moves:
        return frozenset(list_words(part, part.moves[name].axis))
    if name in part.makes:
        return frozenset(part.makes[name].flows)
    if name in part.shows:
        return view.tokens.flows
    return view.carried_by(view.protocols_of().get(name, ()))


def _say_ends(view: PartView, one: Pass, source: str, target: str) -> str:
    named = _list_named(view.part, one)
    have, take = _find_carried(view, source), _find_carried(view, target)
    wanted = [word for word in named if word not in have] if named else []
    if wanted:
        return f"{source} has no {say_list(wanted, joint='or')}"
    refused = [word for word in (named or sorted(have)) if word not in take]
    return f"{target} takes no {say_list(refused, joint='or')}" if refused else f"{source} carries nothing"
