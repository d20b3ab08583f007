"""What is asked, what an answer may be, and what stands in for one."""

from __future__ import annotations

import pytest

from rigmint.library.catalogue import Catalogue
from rigmint.start.answers import PLACES, Answers, Refusal
from rigmint.start.draft_rig import draft_rig
from rigmint.start.questions import QUESTIONS, build_answers, read_answer

BY_KEY = {question.key: question for question in QUESTIONS}


@pytest.fixture(scope="module")
def catalogue() -> Catalogue:
    """The installed one."""
    return Catalogue(())


def answer(catalogue: Catalogue, **said: str) -> Answers:
    """What is said, and defaults for the rest."""
    given: dict[str, str] = {}
    for question in QUESTIONS:
        if question.is_due(given):
            given[question.key] = read_answer(question, said.get(question.key) or question.default(given))
    given.setdefault("lens_by", "hand_unit")
    return build_answers(given, said.get("region", "eu"), catalogue)


def test_there_are_eight_questions() -> None:
    assert sorted({question.number for question in QUESTIONS}) == [1, 2, 3, 4, 5, 6, 7, 8]


@pytest.mark.parametrize("camera", ["12v", "24v", "small"])
@pytest.mark.parametrize("people", ["1", "2", "3", "4", "5"])
@pytest.mark.parametrize("on", PLACES)
def test_defaults_make_sense_together(catalogue: Catalogue, on: str, people: str, camera: str) -> None:
    draft = draft_rig(answer(catalogue, on=on, people=people, camera=camera), catalogue)

    assert "camera" in draft.items


@pytest.mark.parametrize(
    ("key", "text", "read"),
    [
        ("on", "Vehicle", "vehicle"),
        ("on", "tri", "tripod"),
        ("lens_by", "hand-unit", "hand_unit"),
        ("lens", "iris, focus", "focus,iris"),
        ("lens", "f i", "focus,iris"),
        ("lens", "focus+zoom", "focus,zoom"),
        ("lens", "None", "none"),
        ("picture", "", "none"),
        ("format", " 1080p25 ", "1080p25"),
    ],
)
def test_answers_may_be_cut_short_and_joined(key: str, text: str, read: str) -> None:
    assert read_answer(BY_KEY[key], text) == read


@pytest.mark.parametrize(
    ("key", "text", "says"),
    [
        ("on", "boat", "`boat` is none of the answers to `What is it on`: hand, tripod, vehicle, crane, overhead"),
        ("on", "c", "`c` may mean several to `What is it on`"),
        ("on", "", "`` is none of the answers"),
        ("lens", "focus,shutter", "`shutter` is none of the answers"),
    ],
)
def test_what_is_no_answer_is_refused(key: str, text: str, says: str) -> None:
    with pytest.raises(Refusal) as caught:
        read_answer(BY_KEY[key], text)

    assert says in str(caught.value)


@pytest.mark.parametrize(
    ("said", "says"),
    [
        ({"people": "0"}, "`0` is no number of people"),
        ({"people": "two"}, "`two` is no number of people"),
        ({"people": "99999999999999999999"}, "is no number of people"),
        ({"format": "4k"}, "does not give `4k`: say 1080p25, 1080p50, 2160p25"),
        ({"hours": "30"}, "`30` is too much"),
        ({"hours": "5 kg"}, "a duration is due here"),
        ({"distance": "-3 m"}, "`-3 m` is too little"),
        ({"distance": "1e400"}, "1e400"),
        ({"distance": "nan"}, "`nan` is not a length"),
        ({"record": "none"}, "Something has to start the camera"),
        ({"region": "mars"}, "`mars` is no radio region"),
    ],
)
def test_numbers_and_formats_that_cannot_be(catalogue: Catalogue, said: dict[str, str], says: str) -> None:
    with pytest.raises(Refusal) as caught:
        answer(catalogue, **said)

    assert says in str(caught.value)


@pytest.mark.parametrize(
    ("said", "says"),
    [
        ({"power": "vehicle"}, "takes no power from a vehicle"),
        ({"on": "cable", "power": "mains"}, "No mains reaches a rig on a cable"),
        ({"on": "tripod", "head": "follow"}, "Follow mode follows the hands"),
        ({"camera": "small", "head": "wheels"}, "listens to a joystick and not to wheels"),
        ({"head": "stick", "people": "3"}, "too heavy to carry"),
        ({"people": "4", "head": "wheels", "picture": "none"}, "needs a picture of it"),
        ({"camera": "small", "lens": "zoom"}, "none for zoom"),
        ({"lens_by": "dial", "head": "follow"}, "turns one ring, and focus and iris are 2"),
        ({"lens_by": "desk", "head": "follow"}, "no desk where no head is operated from afar"),
        ({"people": "4", "head": "wheels", "lens_by": "desk"}, "Over the picture link a desk has one ring"),
        ({"on": "tripod", "head": "stick", "lens_by": "desk"}, "no control for iris"),
        ({"record": "desk"}, "No desk is there to record from"),
        ({"lens": "none", "record": "hand_unit", "picture": "operator"}, "No hand unit is there"),
        ({"on": "crane", "record": "camera"}, "Nobody stands at a camera"),
        ({"people": "1", "lens_by": "hand_unit"}, "1 person is too few for these answers, which need 2"),
        ({"people": "2", "head": "wheels"}, "one who carries, since the operator works the head from afar"),
        ({"people": "2", "picture": "operator,first_ac,director"}, "a director who looks at picture"),
        ({"distance": "400 m"}, "400 m is further than generic/motor-driver-three reaches in region eu"),
        ({"camera": "small", "format": "2160p25", "picture": "director"}, "takes up to 1080 lines"),
    ],
)  # fmt: skip
def test_answers_that_make_no_sense_together(catalogue: Catalogue, said: dict[str, str], says: str) -> None:
    with pytest.raises(Refusal) as caught:
        draft_rig(answer(catalogue, **said), catalogue)

    assert says in str(caught.value)


def test_one_person_with_free_hands_holds_the_hand_unit(catalogue: Catalogue) -> None:
    said = {"on": "tripod", "people": "1", "head": "none", "lens_by": "hand_unit", "record": "hand_unit"}
    draft = draft_rig(answer(catalogue, **said), catalogue)

    assert draft.crew == {"operator": ["monitor", "hand"]} or draft.crew == {"operator": ["camera", "hand", "monitor"]}
    assert draft.who["focus"] == ["operator"]
