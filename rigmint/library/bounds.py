"""What a keyword of JSON Schema asks, in a sentence: those that bound a value, a list or a mapping."""

from __future__ import annotations

from typing import Any

_SENTENCES = {
    "minimum": "{found} is out of bounds: it must be at least {wanted}",
    "maximum": "{found} is out of bounds: it must be at most {wanted}",
    "exclusiveMinimum": "{found} is out of bounds: it must be above {wanted}",
    "exclusiveMaximum": "{found} is out of bounds: it must be below {wanted}",
    "multipleOf": "{found} must be a multiple of {wanted}",
    "pattern": "{found} is not written as it should be here",
    "propertyNames": "{found} is not written as it should be here",
    "minLength": "{found} is too short: at least {wanted} characters are due",
    "maxLength": "{found} is too long: at most {wanted} characters may stand here",
    "minItems": "at least {wanted} must be stated",
    "minProperties": "at least {wanted} must be stated",
    "maxItems": "at most {wanted} may be stated",
    "maxProperties": "at most {wanted} may be stated",
    "uniqueItems": "an entry stands here twice",
    "contains": "no entry is such as must be here",
    "minContains": "at least {wanted} such entries must be here",
    "maxContains": "at most {wanted} such entries may be here",
    "not": "{found} is what must not stand here",
    "unevaluatedProperties": "a key stands here that may not",
    "unevaluatedItems": "an entry stands here that may not",
    "items": "more entries stand here than may",
}


def say_bound(keyword: str, wanted: Any, found: str) -> str:
    """The sentence for a keyword that is breached. `found` is how the value is shown."""
    if keyword == "dependentRequired":
        pairs = "; ".join(f"`{key}` needs {' and '.join(f'`{one}`' for one in also)}" for key, also in wanted.items())
        return f"a key is missing that another one needs: {pairs}"
    if keyword not in _SENTENCES:
        return f"{found} may not stand here"
    return _SENTENCES[keyword].format(found=found, wanted=wanted)
