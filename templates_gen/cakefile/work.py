"""When the cake must be ready, and at what hours someone works on it."""

from datetime import date, datetime
from typing import Annotated

from pydantic import PlainValidator, StrictInt, ValidationInfo, field_validator

from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.rules import Count, OneOfNumbers, broken, quoted

EXAMPLE = "2027-06-19 14:00"
WHEN = f"a day and an hour, such as {EXAMPLE}"

FIRST_YEAR, LAST_YEAR = 2000, 2199
MEALS = (0, 15, 30, 45, 60, 90)
"""Minutes of a break that can be chosen."""
SHORTEST_DAY = 3
"""Hours of work in a day at the least."""


def _read_when(value: object) -> datetime:
    """Return a local day and hour, or raise."""
    found = value
    if isinstance(value, str):
        try:
            found = datetime.fromisoformat(value.strip())
        except ValueError:
            raise broken(quoted(value), WHEN) from None
        if len(value.strip()) <= len("2027-06-19"):
            found = found.date()
    if not isinstance(found, datetime):
        lacks = isinstance(found, date)
        raise broken(
            f"the day {found} without an hour" if lacks else quoted(value),
            WHEN,
            f"write the hour too: ready = {found} 14:00:00" if lacks else "",
        )
    if found.tzinfo is not None:
        raise broken(f"{found}", f"{WHEN}, by your own clock", "leave out what follows the hour")
    if not FIRST_YEAR <= found.year <= LAST_YEAR:
        raise broken(f"the year {found.year}", f"a year from {FIRST_YEAR} to {LAST_YEAR}")
    return found


class Work(Table):
    """The day of the cake, and the hours of work."""

    ready: Annotated[datetime, PlainValidator(_read_when)] | None = about(
        "day and time when the cake must be ready; without it only durations are given",
        "2027-06-19 14:00:00",
    )
    spare_days: Annotated[StrictInt, Count(0, 14)] = about(
        "days between the end of the work in the kitchen and that day; 0: finished on the day",
        "2",
        1,
    )
    travel: Annotated[StrictInt, Count(0, 1440)] = about(
        "minutes on the road to where the cake is set up; 0: it stays where it is made", "45", 0
    )
    setup: Annotated[StrictInt, Count(0, 600)] = about(
        "minutes to set the cake up and finish it there", "60", 30
    )
    round_to: Annotated[StrictInt, OneOfNumbers((5, 15))] = about(
        "times are rounded to 5 or 15 minutes", "5", 15
    )
    day_starts: Annotated[StrictInt, Count(0, 23)] = about("the hour you start work", "9", 8)
    day_ends: Annotated[StrictInt, Count(1, 24)] = about("the hour you stop work", "18", 20)

    meal_at: Annotated[StrictInt, Count(0, 23)] = about(
        "the hour at which you stop for a meal", "12", 13
    )
    meal: Annotated[StrictInt, OneOfNumbers(MEALS)] = about(
        "minutes of that break; 0: none", "45", 30
    )

    stretch: Annotated[StrictInt, Count(30, 150)] = about(
        "minutes of one stretch of work at the most; what takes longer is parted", "90", 150
    )
    together: Annotated[StrictInt, Count(0, 14)] = about(
        "days sooner than needed that a step is done with others of its kind, at the most", "1", 2
    )
    alarm: Annotated[StrictInt, Count(0, 1440)] = about(
        "minutes before a step at which the calendar rings", "30", 15
    )

    @property
    def meal_hours(self) -> tuple[float, float] | None:
        """From when to when there is a break, in hours; a short day has none."""
        starts, ends = float(self.meal_at), self.meal_at + self.meal / 60
        before, after = starts - self.day_starts, self.day_ends - ends
        if not self.meal or min(before, after) <= 0 or max(before, after) < SHORTEST_DAY:
            return None
        return starts, ends

    @field_validator("day_ends", mode="after")
    @classmethod
    def _long_enough(cls, ends: int, info: ValidationInfo) -> int:
        starts = info.data.get("day_starts")
        if starts is not None and ends < starts + SHORTEST_DAY:
            raise broken(
                f"a day of work from {starts} to {ends}",
                f"{SHORTEST_DAY} hours of work or more",
                "write hours from 0 to 24, such as 8 and 20",
            )
        return ends
