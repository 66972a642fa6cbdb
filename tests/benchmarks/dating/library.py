"""The whole library of a seed: what was done to which photo, and what is true. Pure."""

from random import Random

from tests.benchmarks.dating import cameras, clocks, folders, messages, papers
from tests.benchmarks.dating.ledger import Ledger
from tests.benchmarks.dating.plain import Maker, plain
from tests.benchmarks.dating.values import Photo
from tests.benchmarks.dating.world import Extent, happen

#: What is done to photos, and to how many of about 950. Those that need rare frames come first.
FAULTS: tuple[tuple[Maker, int], ...] = (
    (cameras.blank_other_weeks, 4),
    (cameras.blank_two, 2),
    (cameras.blank_same_week, 8),
    (messages.utc_name_abroad, 4),
    (messages.utc_name_at_home, 8),
    (messages.epoch_name, 4),
    (messages.sent_the_next_week, 12),
    (messages.sent_from_here, 24),
    (messages.sent_of_wrong_clocks, 6),
    (messages.sent_of_a_view_seen_often, 4),
    (messages.received, 8),
    (messages.received_near_midnight, 4),
    (messages.stripped_original_here, 8),
    (messages.cut_for_printing, 4),
    (messages.stripped_alone, 4),
    (messages.only_file_time, 3),
    (papers.scans_of_a_day, 3),
    (papers.scans_of_a_month, 6),
    (papers.scans_of_a_year, 4),
    (papers.scans_of_no_day, 3),
    (papers.edits_dated, 8),
    (papers.edits_of_what_is_here, 4),
    (papers.edits_alone, 3),
    (papers.sidecar_alone, 4),
    (papers.sidecar_agrees, 4),
    (papers.sidecar_contradicts, 4),
    (papers.xmp_alone, 4),
    (papers.iptc_alone, 4),
    (papers.iptc_newer, 2),
    (folders.dated_folder, 6),
    (folders.folder_of_the_first_day, 4),
    (folders.month_folder, 3),
    (folders.copied_today, 10),
    (folders.lies_twice, 8),
    (folders.screenshots, 14),
    (folders.guests, 10),
)


def library_of(seed: int, extent: Extent) -> list[Photo]:
    """All photos of the library, by path."""
    random = Random(f"faults {seed}")
    world = happen(seed, extent)
    ledger = Ledger(random, world, clocks.clocks_of(random, world))
    photos: list[Photo] = []
    for make, count in FAULTS:
        photos += make(ledger, max(1, round(count * extent.faults)))
    photos += [plain(frame, ledger) for frame in ledger.left()]
    return sorted(messages.numbered(photos), key=lambda photo: photo.path)
