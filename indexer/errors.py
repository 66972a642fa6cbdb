"""The few exceptions that a person can meet. Each message is one line: it names the thing and the way out."""


class WeeksheafError(Exception):
    """A known error; its text is shown to the person as it stands."""


class NoIndexError(WeeksheafError):
    """The command needs an index and there is none."""


class IndexFileError(WeeksheafError):
    """The index cannot be opened, read or written: another kind of file, a newer version, locked, disk full."""


class FolderError(WeeksheafError):
    """A folder that was named cannot be used, or held photos and is now empty or out of reach."""


class ReaderError(WeeksheafError):
    """The processes that read photos cannot be started."""


class UnknownPhotoError(WeeksheafError):
    """No photo, or more than one, answers to what was given."""


class WeekError(WeeksheafError):
    """A week that does not parse or does not exist."""


class WordError(WeeksheafError):
    """What was told cannot be taken as it stands: a state, a wait, a setting, a backup."""


class PullError(WeeksheafError):
    """The working folder cannot be made where it was asked for."""


class PrintError(WeeksheafError):
    """Prints cannot be made as asked: no plan, a pocket larger than the paper, a photo gone, too many words."""


class PlanError(WeeksheafError):
    """What was asked of a spread cannot be met: an unknown pocket, two wishes that contradict each other."""
