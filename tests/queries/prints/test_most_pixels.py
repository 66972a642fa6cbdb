"""How many pixels a print may have."""

import pytest

from indexer.errors import PrintError
from queries.print_settings import Lab, lab_of
from queries.prints.most_pixels import MOST_PIXELS, check_pixels


@pytest.mark.parametrize(("size", "dpi"), [("6x4in", "1200"), ("12x12in", "600"), ("30x20in", "300")])
def test_what_labs_print_can_be_drawn(size: str, dpi: str) -> None:
    """Nothing that a lab is likely to take is refused."""
    check_pixels(lab_of(size, dpi, "0"))


@pytest.mark.parametrize(("size", "dpi"), [("12x12in", "1200"), ("44x44in", "300"), ("1000x1000mm", "1200")])
def test_what_is_too_large_says_what_goes(size: str, dpi: str) -> None:
    """The dots per inch in the error are few enough, and hardly fewer than need be."""
    lab = lab_of(size, dpi, "0")
    with pytest.raises(PrintError, match=r"print\.size at print\.dpi makes \d+ x \d+ pixels, more") as error:
        check_pixels(lab)
    goes = int(str(error.value).rpartition(" ")[2])
    check_pixels(Lab(lab.width, lab.height, goes))
    with pytest.raises(PrintError):
        check_pixels(Lab(lab.width, lab.height, goes + 1))
    assert MOST_PIXELS < 89_478_485  # where Pillow begins to warn of a picture
