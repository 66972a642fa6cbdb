"""The repository keeps its own promises: the laws and arrows of the house, held with Python's own `ast`."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
MODULES = sorted([*ROOT.glob("indexer/**/*.py"), *ROOT.glob("queries/**/*.py")])
TOP_LEVEL = {
    "README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml", "indexer", "queries", "tests", "sample_library"
}  # fmt: skip

#: Each room with the rooms it may import from, besides itself. A module belongs to the longest name that fits.
ARROWS: dict[str, set[str]] = {
    "indexer.errors": set(),
    "indexer.facts": {"indexer.errors"},
    "indexer.interrupts": set(),
    "indexer.alike": set(),
    "indexer.dating": {"indexer.facts"},
    "indexer.store": {"indexer.alike", "indexer.dating", "indexer.errors", "indexer.facts", "indexer.interrupts"},
    "indexer": {"indexer.alike", "indexer.errors", "indexer.facts", "indexer.interrupts", "indexer.store"},
    "queries.weeks": {"indexer.dating", "indexer.errors"},
    "queries.lengths": set(),
    "queries.print_settings": {"indexer.errors", "queries.lengths", "queries.sleeves"},
    "queries.settings": {
        "indexer.dating", "indexer.errors", "indexer.facts", "queries.print_settings", "queries.weeks"
    },
    "queries.album_days": set(),
    "queries.membership": set(),
    "queries.lived_order": set(),
    "queries.photos": {"queries.lived_order", "queries.membership", "queries.weeks"},
    "queries.alike": {"queries.photos", "queries.weeks"},
    "queries.week_log": {"indexer.errors", "queries.weeks"},
    "queries.notes": {"indexer.errors", "queries.weeks"},
    "queries.orders": {"indexer.errors", "queries.week_log", "queries.weeks"},
    "queries.finished": {"queries.album_days", "queries.photos", "queries.week_log", "queries.weeks"},
    "queries.week_page": {
        "queries.finished", "queries.notes", "queries.orders", "queries.photos", "queries.settings", "queries.week_log",
        "queries.weeks",
    },
    "queries.progress": {
        "queries.album_days", "queries.finished", "queries.settings", "queries.week_log", "queries.weeks"
    },
    "queries.devices": set(),
    "queries.evidence": {"queries.photos"},
    "queries.told_times": {"indexer.errors"},
    "queries.shifts": {"indexer.errors", "queries.told_times"},
    "queries.cameras": {"indexer.dating", "indexer.errors", "indexer.facts", "indexer.store"},
    "queries.behind": {"indexer.dating", "indexer.store", "queries.cameras", "queries.photos"},
    "queries.week_moves": {"queries.week_log", "queries.weeks"},
    "queries.suggestions": {
        "indexer.dating", "indexer.errors", "indexer.facts", "queries.cameras", "queries.week_log",
        "queries.week_moves", "queries.weeks",
    },
    "queries.naming": {"indexer.errors", "indexer.facts", "indexer.store", "queries.photos", "queries.pull"},
    "queries.made_files": {"indexer.errors", "indexer.facts"},
    "queries.originals": {"indexer.facts", "queries.made_files", "queries.photos"},
    "queries.pull": {
        "indexer.errors", "indexer.facts", "queries.made_files", "queries.originals", "queries.photos", "queries.weeks"
    },
    "queries.screenshots": set(),
    "queries.looks": {"queries.photos", "queries.screenshots"},
    "queries.sleeves": {"indexer.errors"},
    "queries.shortlist": {"queries.looks", "queries.photos", "queries.weeks"},
    "queries.fitting": {"indexer.errors", "queries.sleeves"},
    "queries.cropping": {"indexer.facts"},
    "queries.cards": {"indexer.errors", "queries.lengths"},
    "queries.cutting": {"indexer.errors", "queries.lengths"},
    "queries.spread": {
        "indexer.errors", "queries.cropping", "queries.fitting", "queries.looks", "queries.photos", "queries.pull",
        "queries.shortlist", "queries.sleeves", "queries.week_log", "queries.weeks",
    },
    "queries.prints": {
        "indexer.errors", "indexer.facts", "indexer.interrupts", "indexer.store", "queries.cards", "queries.cropping",
        "queries.cutting", "queries.fitting", "queries.lengths", "queries.looks", "queries.made_files", "queries.notes",
        "queries.orders", "queries.originals", "queries.photos", "queries.print_settings", "queries.spread",
        "queries.weeks",
    },
    "queries.cli": {
        "indexer", "indexer.errors", "indexer.facts", "indexer.store", "queries.devices", "queries.evidence",
        "queries.naming", "queries.photos", "queries.progress", "queries.pull", "queries.settings", "queries.weeks",
        "queries.alike", "queries.finished", "queries.looks", "queries.membership", "queries.shortlist",
        "queries.week_log", "queries.behind", "queries.cameras", "queries.shifts", "queries.suggestions",
        "queries.told_times", "queries.week_moves", "queries.sleeves",
        "queries.cropping", "queries.fitting", "queries.spread", "queries.notes", "queries.orders", "queries.lengths",
        "queries.made_files", "queries.prints", "queries.week_page",
    },
    "queries": set(),
}  # fmt: skip

#: The modules that decide: pure functions of values.
PURE = {
    "indexer.dating.agreement", "indexer.dating.album_weeks", "indexer.dating.bounds", "indexer.dating.corrected",
    "indexer.dating.judging",
    "indexer.dating.moments", "indexer.dating.numbers", "indexer.dating.offsets", "indexer.dating.order",
    "indexer.dating.own", "indexer.dating.shots", "indexer.dating.twins", "indexer.dating.unset_clock",
    "indexer.dating.values", "indexer.dating.vouching", "indexer.dating.words",
    "indexer.facts.changes", "indexer.facts.codes", "indexer.facts.file_names",
    "indexer.facts.records", "indexer.facts.fingerprint", "indexer.facts.sharpness", "indexer.facts.subjects",
    "indexer.facts.dates", "indexer.facts.exif_dates", "indexer.facts.file_numbers", "indexer.facts.folder_names",
    "indexer.facts.iptc", "indexer.facts.sidecars",
    "indexer.facts.bars",
    "indexer.alike.bits", "indexer.alike.bursts", "indexer.alike.burst_score", "indexer.alike.coefficients",
    "indexer.alike.copies", "indexer.alike.copy_score", "indexer.alike.doubts", "indexer.alike.edits",
    "indexer.alike.found_again", "indexer.alike.keepers",
    "indexer.alike.likeness", "indexer.alike.near", "indexer.alike.near_parts", "indexer.alike.near_plan",
    "indexer.alike.mark_score", "indexer.alike.scenes", "indexer.alike.sets", "indexer.alike.signals",
    "indexer.alike.surfaces", "indexer.alike.values",
    "indexer.dating.clock.factory", "indexer.dating.clock.findings", "indexer.dating.clock.inquiry",
    "indexer.dating.clock.journeys", "indexer.dating.clock.lived", "indexer.dating.clock.parts",
    "indexer.dating.clock.rolls",
    "indexer.dating.clock.satellites", "indexer.dating.clock.scenes", "indexer.dating.clock.seconds",
    "indexer.dating.clock.shifts", "indexer.dating.clock.spans", "indexer.dating.clock.suggestions",
    "indexer.dating.clock.trust", "indexer.dating.clock.voting", "indexer.dating.clock.wording",
    "indexer.dating.clock.zone",
    "queries.lengths", "queries.print_settings", "queries.weeks", "queries.screenshots", "queries.lived_order",
    "queries.shifts", "queries.told_times",
    "queries.shortlist.choosing", "queries.shortlist.occasions",
    "queries.shortlist.quality", "queries.shortlist.reasons", "queries.shortlist.resemblance",
    "queries.shortlist.score", "queries.shortlist.terms", "queries.shortlist.values", "queries.shortlist.weights",
    "queries.sleeves.by_rule", "queries.sleeves.drawing_text", "queries.sleeves.notation", "queries.sleeves.sizes",
    "queries.sleeves.values",
    "queries.fitting.asking", "queries.fitting.assigning", "queries.fitting.balance", "queries.fitting.bounds",
    "queries.fitting.collages", "queries.fitting.explaining", "queries.fitting.kept", "queries.fitting.order",
    "queries.fitting.planning", "queries.fitting.programme", "queries.fitting.resolution", "queries.fitting.slots",
    "queries.fitting.solving", "queries.fitting.table", "queries.fitting.values", "queries.fitting.weights",
    "queries.fitting.worth",
    "queries.spread.asking", "queries.spread.canvas", "queries.spread.faces", "queries.spread.faces_of_week",
    "queries.spread.notes", "queries.spread.plan_words", "queries.spread.text", "queries.spread.values",
    "queries.cropping.heads", "queries.cropping.positions", "queries.cropping.values", "queries.cropping.windows",
    "queries.cutting.arranging", "queries.cutting.choosing", "queries.cutting.columns", "queries.cutting.cuts",
    "queries.cutting.knapsack", "queries.cutting.patterns", "queries.cutting.placing", "queries.cutting.sharing",
    "queries.cutting.spaces", "queries.cutting.steps", "queries.cutting.trees", "queries.cutting.values",
    "queries.prints.guide_notes", "queries.prints.order", "queries.prints.order_file", "queries.prints.risks",
    "queries.prints.marks", "queries.prints.most_pixels", "queries.prints.pieces", "queries.prints.values",
    "queries.prints.windows",
    "queries.cards.breaking", "queries.cards.flowing", "queries.cards.frames", "queries.cards.setting",
    "queries.cards.sheets", "queries.cards.values", "queries.cards.words",
    "queries.orders.naming", "queries.orders.order_text", "queries.orders.printed", "queries.orders.values",
    "queries.orders.weeks",
    "queries.made_files.sealed", "queries.made_files.values",
    "queries.pull.plan", "queries.pull.names", "queries.pull.selection", "queries.pull.sheet_cells",
    "queries.pull.sheet_layout", "queries.pull.sheet_values",
}  # fmt: skip
IMPURE_IMPORTS = {"os", "sqlite3", "io", "time", "random", "subprocess", "shutil", "socket"}

_WRITES = re.compile(
    r"^\s*(?:INSERT\s+(?:OR\s+\w+\s+)?INTO|UPDATE\s+\w+\s+SET|DELETE\s+FROM|REPLACE\s+INTO|DROP\s|CREATE\s|ALTER\s|VACUUM)",
    re.IGNORECASE | re.MULTILINE,
)


def name_of(path: Path) -> str:
    parts = path.relative_to(ROOT).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def room_of(module: str) -> str:
    return max((room for room in ARROWS if module == room or module.startswith(room + ".")), key=len)


def tree_of(path: Path) -> ast.Module:
    return ast.parse(path.read_text("utf-8"))


def imports_of(path: Path) -> Iterator[str]:
    """The modules that a file imports, as far as the text says; `from package import module` names the module."""
    names = {name_of(item) for item in MODULES}
    for node in ast.walk(tree_of(path)):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            assert node.level == 0, f"{path}: relative import"
            for alias in node.names:
                inner = f"{node.module}.{alias.name}"
                yield inner if inner in names else node.module


def test_nothing_else_stands_at_the_top_level() -> None:
    """The top level is the design's, dotfiles aside."""
    found = {item.name for item in ROOT.iterdir() if not item.name.startswith(".")}
    assert found - {"build", "dist"} <= TOP_LEVEL
    assert found >= TOP_LEVEL


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_a_module_imports_only_to_the_right(path: Path) -> None:
    """Arrows go from the command line to the facts and never back."""
    room = room_of(name_of(path))
    ours = [module for module in imports_of(path) if module.split(".")[0] in ("indexer", "queries")]
    wrong = [module for module in ours if room_of(module) not in ARROWS[room] | {room}]
    assert not wrong


@pytest.mark.parametrize("path", [path for path in MODULES if name_of(path) in PURE], ids=name_of)
def test_a_deciding_module_touches_nothing(path: Path) -> None:
    """What decides imports neither disk, database nor clock (os for path separators is the one leave)."""
    allowed = {"os"} if name_of(path) in ("indexer.facts.changes", "indexer.facts.sidecars") else set()
    assert not {module.split(".")[0] for module in imports_of(path)} & (IMPURE_IMPORTS - allowed)


@pytest.mark.parametrize("path", [p for p in MODULES if not name_of(p).startswith("indexer.store")], ids=name_of)
def test_only_the_store_writes(path: Path) -> None:
    """No module outside the store holds a statement that changes the database."""
    texts = [node.value for node in ast.walk(tree_of(path)) if isinstance(node, ast.Constant)]
    assert not [text for text in texts if isinstance(text, str) and _WRITES.search(text)]


def test_queries_open_the_index_for_reading_only() -> None:
    """Nothing in queries makes a database connection of its own."""
    wrong = [path for path in MODULES if name_of(path).startswith("queries") and "sqlite3.connect" in path.read_text()]
    assert not wrong


def test_the_catch_all_stands_at_one_line() -> None:
    """One `except Exception` in the project: the fence around the metadata reader; re-raising clean-ups aside."""
    found = [
        name_of(path)
        for path in MODULES
        for node in ast.walk(tree_of(path))
        if isinstance(node, ast.ExceptHandler)
        and (node.type is None or ast.unparse(node.type) in ("Exception", "BaseException"))
        and not (isinstance(node.body[-1], ast.Raise) and node.body[-1].exc is None)
    ]
    assert found == ["indexer.facts.metadata"]


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_a_module_is_one_room(path: Path) -> None:
    """A module has a docstring that says what it is for, and no more than 300 lines."""
    text = path.read_text("utf-8")
    assert not text.strip() or ast.get_docstring(ast.parse(text))
    assert len(text.splitlines()) <= 300


def test_the_median_module_is_short() -> None:
    """The median module is under 100 lines."""
    lengths = sorted(len(path.read_text("utf-8").splitlines()) for path in MODULES)
    assert lengths[len(lengths) // 2] < 100
