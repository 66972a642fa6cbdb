"""What else is to be known of a print in the cutting guide: what was shrunk, and what the lab may take. Pure."""

from collections.abc import Mapping, Sequence

from queries.cutting.steps import Unit, in_words, told_names
from queries.cutting.values import Laid, Print, Trim

_EDGES = ("left", "top", "right", "bottom")

#: A hair below this share is not worth a word.
_LEAST_SHARE = 0.0005


def notes_of(printed: Print, names: Mapping[str, str], unit: Unit) -> tuple[str, ...]:
    return (*_shrunk(printed), *_at_risk(printed.laid, names, unit))


def edge_note(trim: Trim, unit: Unit) -> tuple[str, ...]:
    """What the lab may take of prints that are not cut; nothing where it takes nothing."""
    return (f"The lab may take up to {listed(_takes(trim, unit))} of each.",) if trim != Trim() else ()


def listed(words: Sequence[str]) -> str:
    """a; a and b; a, b and c."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def counted(count: int, word: str) -> str:
    return f"{count} {word}" if count == 1 else f"{count} {word}s"


def _shrunk(printed: Print) -> tuple[str, ...]:
    shares = ((1 - printed.scale_x, "narrower"), (1 - printed.scale_y, "shorter"))
    words = [f"{100 * share:.1f} % {word}" for share, word in shares if share > _LEAST_SHARE]
    if not words:
        return ()
    return (f"Its pieces are {listed(words)} than planned, so that all of them stays on the print.",)


def _at_risk(laid: Sequence[Laid], names: Mapping[str, str], unit: Unit) -> tuple[str, ...]:
    risks: dict[Trim, list[str]] = {}
    for item, name in zip(laid, told_names([names[item.piece] for item in laid]), strict=True):
        if item.at_risk != Trim():
            risks.setdefault(item.at_risk, []).append(name)
    return tuple(
        f"{listed(pieces)}: the lab may take up to {listed(_takes(trim, unit))}." for trim, pieces in risks.items()
    )


def _takes(trim: Trim, unit: Unit) -> list[str]:
    """Equal lengths told once: "1/16 in at the left, top and right"."""
    lengths: dict[int, list[str]] = {}
    for edge, length in zip(_EDGES, (trim.left, trim.top, trim.right, trim.bottom), strict=True):
        if length:
            lengths.setdefault(length, []).append(edge)
    return [f"{in_words(length, unit)} at the {listed(edges)}" for length, edges in lengths.items()]
