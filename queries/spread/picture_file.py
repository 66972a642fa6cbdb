"""The file that a drawn spread is written to."""

import io
import os
import uuid
from pathlib import Path

from PIL import Image, PngImagePlugin

from indexer.errors import PlanError

#: Stands inside the files we make, so that no other picture is ever written over.
_MARK = "Weeksheaf spread"
_FORMATS = {".png": "PNG", ".jpg": "JPEG", ".jpeg": "JPEG"}


def save_spread(drawn: Image.Image, file: Path, dpi: int) -> None:
    """Write a PNG or JPEG, as the file's ending says: under another name first, then renamed.

    A spread that was drawn before is replaced. Raises PlanError for another ending, for a file of another making, and
    for a place that cannot be written.
    """
    format_name = format_of(file)
    temporary = file.with_name(f".{file.stem}-{uuid.uuid4().hex[:8]}.part")
    try:
        _write(picture_bytes(drawn, format_name, dpi), temporary)
        temporary.replace(file)
    except OSError as error:
        raise PlanError(f"{file} cannot be written ({error.strerror or error}); choose another place") from error
    finally:
        temporary.unlink(missing_ok=True)


def format_of(file: Path) -> str:
    """ "PNG" or "JPEG", by the ending. Raises PlanError for any other, and for a file of another making."""
    if file.suffix.lower() not in _FORMATS:
        raise PlanError(f"a spread is drawn as .png or .jpg: {file.name} ends otherwise; say {file.stem}.png")
    if file.is_symlink() or (file.exists() and not _is_ours(file)):
        raise PlanError(f"{file} is there already and is no spread drawn by this tool; choose another name")
    return _FORMATS[file.suffix.lower()]


def picture_bytes(drawn: Image.Image, format_name: str, dpi: int) -> bytes:
    """The drawn spread as a PNG or JPEG, marked as ours."""
    out = io.BytesIO()
    if format_name == "PNG":
        mark = PngImagePlugin.PngInfo()
        mark.add_text("Software", _MARK)
        drawn.save(out, "PNG", pnginfo=mark, dpi=(dpi, dpi))
    else:
        drawn.save(out, "JPEG", quality=90, subsampling=0, comment=_MARK, dpi=(dpi, dpi))
    return out.getvalue()


def _write(data: bytes, temporary: Path) -> None:
    with temporary.open("xb") as out:
        out.write(data)
        out.flush()
        os.fsync(out.fileno())


def _is_ours(file: Path) -> bool:
    try:
        with Image.open(file) as there:
            said = there.info.get("Software") if there.format == "PNG" else there.info.get("comment")
    except (OSError, SyntaxError, ValueError):
        return False
    return said in (_MARK, _MARK.encode())
