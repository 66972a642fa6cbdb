"""A note as the person told it -> words that can be set. Pure.

No word is lost or changed. What is no word and has no letter in the font (emoji and other pictures) is left out and
told; a word that the font cannot write is refused by name.
"""

import re
import unicodedata
from collections.abc import Callable, Sequence

from indexer.errors import PrintError
from queries.cards.breaking import Word

#: White space at which a line may break: all but the no-break spaces (UAX #14, class GL).
_BREAKING_SPACE = re.compile(r"[^\S\u00a0\u202f]+")
_PARAGRAPHS = re.compile(r"\n(?:[^\S\n]*\n)+")
#: Letters that look the same and are in more fonts: narrow no-break space, no-break hyphen.
_SAME = str.maketrans({"\u202f": "\u00a0", "\u2011": "-"})
#: Kinds of characters (Unicode's general categories) that are pictures, not writing: symbols, modifiers, private use.
_PICTURES = {"So", "Sk", "Co", "Cn", "Cs"}
_KEYCAP = "\u20e3"

HasLetter = Callable[[str], bool]


def words_of(text: str, has_letter: HasLetter) -> tuple[tuple[tuple[Word, ...], ...], ...]:
    """Paragraphs of lines of words; a line is where the person began one. Raises PrintError for a word without letters
    in the font."""
    return tuple(
        lines
        for paragraph in _PARAGRAPHS.split(_usual(text))
        if (lines := tuple(words for line in paragraph.split("\n") if (words := _words(line, has_letter))))
    )


def pictures_in(texts: Sequence[str], has_letter: HasLetter) -> tuple[str, ...]:
    """The emoji and other pictures that the cards leave out, each once, as they come."""
    return tuple(dict.fromkeys(sign for text in texts for sign in _usual(text) if _is_left_out(sign, has_letter)))


def _usual(text: str) -> str:
    """Accents joined to their letters (NFC), line ends alike, what cannot be seen taken out."""
    lines = text.replace("\r\n", "\n").replace("\r", "\n").replace("\u2028", "\n").replace("\u2029", "\n\n")
    joined = unicodedata.normalize("NFC", lines).translate(_SAME)
    return "".join(sign for sign in joined if sign in "\n\t" or not _is_unseen(sign))


def _is_unseen(sign: str) -> bool:
    """Marks of direction, joiners, soft hyphens, control characters, variation selectors and the keycap's box."""
    return (
        unicodedata.category(sign) in ("Cf", "Cc") or sign == _KEYCAP or 0xFE00 <= ord(sign) <= 0xFE0F
    ) and not sign.isspace()


def _is_left_out(sign: str, has_letter: HasLetter) -> bool:
    return not sign.isspace() and unicodedata.category(sign) in _PICTURES and not has_letter(sign)


def _words(line: str, has_letter: HasLetter) -> tuple[Word, ...]:
    words = []
    for told in _BREAKING_SPACE.split(line):
        word = "".join(sign for sign in told if not _is_left_out(sign, has_letter))
        lacking = [sign for sign in word if not has_letter(sign) and not sign.isspace()]
        if lacking:
            raise PrintError(
                f"the font of the cards has no {lacking[0]!r}, which stands in {word!r}: write the word with other"
                " letters, or leave lined cards to write on with --handwritten"
            )
        if word.strip():
            words.append(Word(word))
    return tuple(words)
