"""Times as a person reads them in a reason. Pure."""

#: English whatever the machine's language, so strftime("%b") will not do.
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def day_words(when: str) -> str:
    """ "30 Mar 2026", "Mar 2026" or "2026" of a time of any precision."""
    year, month, day = when[:4], when[5:7], when[8:10]
    parts = (day.lstrip("0"), MONTHS[int(month) - 1] if month else "", year.lstrip("0"))
    return " ".join(part for part in parts if part)


def moment_words(when: str) -> str:
    """ "30 Mar 2026 09:15"; the day alone where no clock time is known."""
    clock = when[11:16]
    return f"{day_words(when)} {clock}" if clock else day_words(when)
