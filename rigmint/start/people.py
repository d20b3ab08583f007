"""Who is there: the roles that the answers ask for, and who has two of them where there are few people."""

from __future__ import annotations

from rigmint.start.answers import Answers, Refusal

OPERATOR = "operator"
FIRST_AC = "first_ac"
DIRECTOR = "director"
CARRIER = "carrier"


def find_roles(answers: Answers) -> tuple[str, ...]:
    """The persons of the rig, the operator first. Raises Refusal where there are fewer people than the answers need."""
    roles = [OPERATOR]
    if answers.on == "hand" and answers.is_remote:
        roles.append(CARRIER)
    if FIRST_AC in answers.picture or _needs_puller(answers):
        roles.append(FIRST_AC)
    if DIRECTOR in answers.picture:
        roles.append(DIRECTOR)
    if len(roles) > answers.people:
        raise Refusal(_say_too_few(answers, roles))
    return tuple(roles)


def find_puller(answers: Answers) -> str:
    """Who holds the hand unit: the first AC, or an operator who has the hands free and nobody beside."""
    return FIRST_AC if FIRST_AC in find_roles(answers) else OPERATOR


def _needs_puller(answers: Answers) -> bool:
    """Whether the hand unit is in hands of its own: always, but for one person whose hands are free."""
    if answers.lens_by != "hand_unit":
        return False
    has_free_hands = answers.head == "none" and answers.on != "hand"
    return not (has_free_hands and answers.people <= 1 + (DIRECTOR in answers.picture))


def _say_too_few(answers: Answers, roles: list[str]) -> str:
    jobs = {
        OPERATOR: "the operator",
        CARRIER: "one who carries, since the operator works the head from afar",
        FIRST_AC: "a first AC" + (" at the hand unit" if answers.lens_by == "hand_unit" else " who looks at picture"),
        DIRECTOR: "a director who looks at picture",
    }
    due = "; ".join(jobs[role] for role in roles)
    there = "1 person is" if answers.people == 1 else f"{answers.people} people are"
    return (
        f"{there} too few for these answers, which need {len(roles)}: {due}. Say `--people {len(roles)}`, or give what"
        " one of them does to somebody else (`--lens-by`, `--head`, `--picture`)."
    )
