"""The ruler print as a file for the lab."""

import io
from pathlib import Path

from PIL import Image

from indexer.errors import PrintError
from indexer.facts.pictures import DECODE_ERRORS
from queries.made_files.folder import named_troubles
from queries.made_files.jpeg import jpeg_bytes
from queries.made_files.writing import write_verified
from queries.print_settings import Lab
from queries.prints.calibration import ruler_print
from queries.prints.most_pixels import check_pixels

FILE_NAME = "ruler-print.jpg"
#: Stands inside the file, so that no other picture is ever written over.
_MARK = b"Weeksheaf ruler print"


def write_ruler(lab: Lab, folder: Path) -> Path:
    """The one print of the lab's size, in the folder; one made before is replaced. Raises PrintError, FolderError."""
    check_pixels(lab)
    path = folder / FILE_NAME
    width, height = lab.pixels
    data = jpeg_bytes(ruler_print(width, height, lab.dpi, lab.unit), dpi=lab.dpi, comment=_MARK)
    with named_troubles(folder):
        if path.is_symlink() or (path.exists() and not _is_ours(path)):
            raise PrintError(f"{path} is there already and is no ruler print; choose another folder")
        folder.mkdir(parents=True, exist_ok=True)
        write_verified([data], folder, FILE_NAME, "ruler", over=True)
    return path


def _is_ours(path: Path) -> bool:
    try:
        with Image.open(io.BytesIO(path.read_bytes())) as there:
            return there.info.get("comment") == _MARK
    except DECODE_ERRORS:
        return False
