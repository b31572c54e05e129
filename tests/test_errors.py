"""Problems: collected of several parts, each at its key in the whole."""

import pytest

from templates_gen.errors import CakeError, Problem, all_problems


def refuse_parts(*parts: tuple[str, ...]) -> None:
    """Refuse the given keys of toppers, part by part."""
    with all_problems() as problems:
        for index, keys in enumerate(parts):
            with problems.at("topper", index):
                if keys:
                    raise CakeError([Problem((key,), "found", "allowed", "") for key in keys])


def refuse_twice() -> None:
    """Refuse the same key twice."""
    with all_problems() as problems:
        for _ in range(2):
            with problems.at("tier", 0):
                raise CakeError([Problem(("depth",), "found", "allowed", "")])


def test_every_part_is_tried_and_its_keys_lie_within_its_own() -> None:
    """What several parts refuse is raised at once, each problem at its key in the whole."""
    with pytest.raises(CakeError) as caught:
        refuse_parts((), ("size",), (), ("size", "file"))
    keys = [problem.key for problem in caught.value.problems]
    assert keys == [("topper", 1, "size"), ("topper", 3, "size"), ("topper", 3, "file")]
    refuse_parts((), ())


def test_the_same_problem_is_reported_once() -> None:
    """What two parts find alike is one problem."""
    with pytest.raises(CakeError) as caught:
        refuse_twice()
    assert [problem.key for problem in caught.value.problems] == [("tier", 0, "depth")]


def test_other_errors_are_not_collected() -> None:
    """What is no problem of a cake passes through at once."""
    with pytest.raises(ZeroDivisionError), all_problems() as problems, problems.at("tier", 0):
        _ = 1 / 0
