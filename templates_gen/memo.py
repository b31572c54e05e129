"""Values kept between edits by what they were made from: the one place where anything is reused."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from functools import partial
from itertools import islice
from typing import Any, ParamSpec, TypeVar

P = ParamSpec("P")
T = TypeVar("T")
_MISSING = object()


class Memo:
    """Keeps the ``most`` values that were used last. Keys are compared by value.

    ``before`` is called before anything is made. It may raise, to end work that nobody waits for
    any more; what is kept by then serves the next.
    """

    def __init__(self, most: int, before: Callable[[], None] = lambda: None) -> None:
        self.before = before
        self._most = most
        self._kept: dict[Hashable, Any] = {}  # the latest last

    def __contains__(self, key: Hashable) -> bool:
        """Tell whether the value of a key is at hand."""
        return key in self._kept

    def get(self, key: Hashable, make: Callable[[], T]) -> T:
        """Return the value of a key, made if it is not at hand. What raises is not kept."""
        if not self._most:
            return make()
        made: T = self._kept.pop(key, _MISSING)
        if made is _MISSING:
            self.before()
            made = make()
        self._kept[key] = made
        if len(self._kept) > self._most:
            self.forget(1)
        return made

    def of(self, make: Callable[P, T], *args: P.args, **kwargs: P.kwargs) -> T:
        """Return what a function makes of some values, and keep it under them."""
        return self.get((make, *args, *kwargs.items()), partial(make, *args, **kwargs))

    def forget(self, count: int) -> int:
        """Forget values, those that were not used for longest first; return how many it did."""
        oldest = list(islice(self._kept, count))
        for key in oldest:
            del self._kept[key]
        return len(oldest)


NOTHING_KEPT = Memo(0)
"""For one run, in which nothing is needed twice."""
