"""Which frames of a world are left to have something done to them: each is given out once. Pure."""

from collections import Counter
from collections.abc import Callable, Collection, Sequence
from random import Random

from tests.benchmarks.dating.clocks import Clocks, fault_of
from tests.benchmarks.dating.household import HARBOUR, HOME
from tests.benchmarks.dating.values import Mark, View
from tests.benchmarks.dating.world import Frame, World

Fits = Callable[[Frame], bool]


class Ledger:
    """The frames of a world. `take` gives frames out to be changed; `lend` gives them out to be copied, and they stay
    in the library as they are."""

    def __init__(self, random: Random, world: World, clocks: Clocks) -> None:
        self.random, self.world, self.clocks = random, world, clocks
        self._free = [frame for frame in world.frames if not _bounds_battery(frame, world)]
        self._taken: set[Frame] = set()
        self._seen = Counter(frame.view.scene for frame in world.frames)
        self._scenes = 50_000 + world.frames[0].view.scene // 100_000 * 100_000

    def left(self) -> list[Frame]:
        """Those that were not taken, in the order of time."""
        return [frame for frame in self.world.frames if frame not in self._taken]

    def take(self, count: int, fits: Fits) -> list[Frame]:
        """So many free frames that fit, by chance; fewer where there are not so many."""
        taken = self.lend(count, fits)
        self._taken.update(taken)
        return taken

    def lend(self, count: int, fits: Fits, *, again: bool = False) -> list[Frame]:
        """The same, but what is lent stays where it is; `again` for views that are seen again and again."""
        fitting = [frame for frame in self._free if frame.is_again == again and fits(frame)]
        lent = sorted(self.random.sample(fitting, min(count, len(fitting))), key=lambda frame: frame.utc)
        self._free = [frame for frame in self._free if frame not in lent]
        return lent

    def keep(self, frames: Collection[Frame]) -> None:
        """These are evidence for another photo: nothing is done to them any more."""
        self._free = [frame for frame in self._free if frame not in frames]

    def is_free(self, frame: Frame) -> bool:
        """Whether it was neither given out nor kept, and shows nothing that is seen again and again."""
        return frame in self._free and not frame.is_again

    def new_view(self, eye: str = "", change: str = "") -> View:
        """A scene that nobody else saw."""
        self._scenes += 1
        return View(self._scenes, eye, 0, change)

    def is_right(self, frame: Frame) -> bool:
        """Whether the clock of its device was right."""
        return not fault_of(frame, self.clocks)

    def is_alone(self, frame: Frame) -> bool:
        """Whether nothing else in the library shows what it shows."""
        return self._seen[frame.view.scene] == 1

    def may_be(self, frame: Frame, mark: Mark) -> bool:
        """What is to be open must show what nothing else shows."""
        return mark != "open" or self.is_alone(frame)

    def own_run(self, frame: Frame) -> Sequence[Frame]:
        """All frames of its device, in the order in which it took them."""
        return [other for other in self.world.frames if other.device == frame.device]


def _bounds_battery(frame: Frame, world: World) -> bool:
    """Whether it stands before, in or after the second empty battery: numbers on either side tell the week."""
    return frame.device == HARBOUR and frame.week == world.battery_week


def at_home(frame: Frame) -> bool:
    return frame.zone == HOME


def by_phone(frame: Frame) -> bool:
    return frame.device.is_phone
