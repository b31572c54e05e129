"""Values kept between edits."""

from __future__ import annotations

import pytest

from templates_gen.memo import Memo


def test_the_latest_used_are_kept() -> None:
    """Of more than there is room for, what was not used for longest is made again."""
    memo, made = Memo(3), list[int]()

    def get(number: int) -> int:
        return memo.get(number, lambda: made.append(number) or number)  # type: ignore[func-returns-value]

    for number in (1, 2, 3, 1, 4):
        assert get(number) == number
    assert made == [1, 2, 3, 4]
    assert [number in memo for number in (1, 2, 3, 4)] == [True, False, True, True]


def test_some_are_forgotten_to_save_memory() -> None:
    """The oldest go first; it says how many there were to forget."""
    memo = Memo(10)
    for number in range(5):
        memo.get(number, lambda: "kept")
    assert memo.forget(3) == 3
    assert [number for number in range(5) if number in memo] == [3, 4]
    assert memo.forget(3) == 2
    assert memo.forget(3) == 0


def test_what_fails_is_not_kept() -> None:
    """It is tried again."""
    memo = Memo(10)
    with pytest.raises(ZeroDivisionError):
        memo.get("key", lambda: 1 // 0)
    assert "key" not in memo
