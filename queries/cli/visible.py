"""Names as a terminal can show them."""


def visible(text: str) -> str:
    """The text with line breaks, other control characters and undecodable bytes written as escapes.

    A file's name may hold anything; shown raw it could break a table, or command the terminal.
    """
    return "".join(letter if letter.isprintable() else _escaped(letter) for letter in text)


def _escaped(letter: str) -> str:
    if letter in "\u00a0\u202f\u2009":  # spaces that break no line
        return letter
    if 0xDC80 <= ord(letter) <= 0xDCFF:  # a byte that was no text (PEP 383)
        return f"\\x{ord(letter) - 0xDC00:02x}"
    return letter.encode("unicode_escape").decode("ascii")
