"""JSON with a seal over it, so that a change by hand is seen. Pure."""

import hashlib
import json
from collections.abc import Mapping
from typing import Any

MADE_BY = "weeksheaf"


def sealed_text(body: Mapping[str, object]) -> str:
    """The body as JSON with its seal. Path bytes that are no Unicode are lone surrogates, so all beyond ASCII is
    escaped."""
    return json.dumps({**body, "seal": _seal(body)}, indent=2, ensure_ascii=True) + "\n"


def body_of(data: bytes) -> dict[str, Any] | str:
    """The body of a file of ours, its seal still in it, or in words why it is none."""
    try:
        body = json.loads(data.decode())
    except (ValueError, RecursionError):
        return "it is no JSON that can be read"
    if not isinstance(body, dict) or body.get("made_by") != MADE_BY:
        return "it was not made by weeksheaf"
    return body


def is_sealed(body: Mapping[str, object]) -> bool:
    """Whether the seal holds: nothing was changed by hand."""
    try:
        return body.get("seal") == _seal({name: value for name, value in body.items() if name != "seal"})
    except RecursionError:  # just so deep that it can be read and not be written
        return False


def _seal(body: Mapping[str, object]) -> str:
    """SHA-256 over canonical JSON: sorted names, no spaces, ASCII."""
    canonical = json.dumps(body, sort_keys=True, separators=(",", ":"), ensure_ascii=True)
    return hashlib.sha256(canonical.encode()).hexdigest()
