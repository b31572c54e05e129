"""What things cost: prices as one pays them, in one currency."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated

from pydantic import BeforeValidator, ValidationInfo
from pydantic_core import PydanticCustomError

from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.rules import Characters, Number, broken, quoted
from templates_gen.terms import CURRENCIES, UK
from templates_gen.units import GRAMS_PER_POUND, METRES_PER_YARD

POUND, YARD = GRAMS_PER_POUND / 1000, METRES_PER_YARD
KILOGRAMS = {"kg": 1.0, "lb": POUND, "pound": POUND, "oz": POUND / 16, "ounce": POUND / 16}
METRES = {"m": 1.0, "yd": YARD, "yard": YARD, "ft": YARD / 3, "foot": YARD / 3}
"""What a price may be for, in kilograms and in metres."""
_PRICE = re.compile(
    r"(?P<before>[^\d\s.,+-]*)\s*(?P<number>[+-]?(?:\d{1,3}(?:,\d{3})+(?:\.\d*)?|\d+(?:[.,]\d*)?))"
    r"\s*(?P<after>[^\d\s/]*)\s*(?:(?:/|per|a|an)\s*(?P<amount>[a-z]+))?",
    re.IGNORECASE,
)
_THOUSANDS = re.compile(r",(?=\d{3})")


@dataclass(frozen=True, slots=True, eq=False)
class _Price:
    """A number, or a text with the sign of the currency, and with one of the ``amounts``.

    A price without an amount is for the first of them.
    """

    amounts: Mapping[str, float]

    def __call__(self, value: object, info: ValidationInfo) -> object:
        """Return the price of the first amount, or raise where a text is not a price."""
        if not isinstance(value, str):
            return value
        sign = info.data.get("currency") or CURRENCIES[(info.context or {}).get("words", UK)]
        found = _PRICE.fullmatch(value.strip())
        if found is None:
            raise self._broken(value, sign)
        if signs := {found["before"], found["after"]} - {"", sign}:
            raise broken(
                quoted(value),
                f"a price in {sign}, with its sign or without",
                f'write it in {sign}, or set what you pay in: currency = "{signs.pop()}"',
            )
        amount = (found["amount"] or next(iter(self.amounts), "")).lower()
        if found["amount"] and amount not in self.amounts:
            raise self._broken(value, sign)
        number = float(_THOUSANDS.sub("", found["number"]).replace(",", "."))
        return number / self.amounts.get(amount, 1.0)

    def _broken(self, value: str, sign: str) -> PydanticCustomError:
        others = "".join(f", or {sign}4.50 per {amount}" for amount in list(self.amounts)[1:2])
        return broken(quoted(value), f"a number, such as 4.50 or {sign}4.50{others}")


_Bounds = Number(0, 100_000)
Price = Annotated[float, BeforeValidator(_Price({})), _Bounds]
PriceOfKilogram = Annotated[float, BeforeValidator(_Price(KILOGRAMS)), _Bounds]
PriceOfMetre = Annotated[float, BeforeValidator(_Price(METRES)), _Bounds]


class Prices(Table):
    """Prices for the shopping list; what has none is listed without a cost.

    A price is a number, or a text with the sign of the currency; one for 1 kg or 1 m may be given
    for 1 lb or 1 yd: "$2.80 per lb", "$0.75 per yd".
    """

    currency: Annotated[str, Characters(1, 5)] | None = about(
        "sign of the currency (default: £, or $ where words are us)", '"€"'
    )
    fondant: Price | None = about("price of a pack of fondant", "9.5")
    modelling_paste: Price | None = about(
        "price of a pack of modelling paste bought ready-made (default: it is made from fondant"
        " and gum powder)",
        "12.0",
    )
    batter: PriceOfKilogram | None = about(
        "price of the ingredients of 1 kg of batter, or of 1 lb: “2.00 per lb”", "4.5"
    )
    filling: PriceOfKilogram | None = about(
        "price of 1 kg of filling, or of 1 lb: “2.75 per lb”", "6.0"
    )
    coating: PriceOfKilogram | None = about(
        "price of 1 kg of buttercream or ganache, or of 1 lb: “2.75 per lb”", "6.0"
    )
    almond_paste: PriceOfKilogram | None = about(
        "price of 1 kg of almond paste (marzipan), or of 1 lb: “4.00 per lb”", "9.0"
    )
    icing: PriceOfKilogram | None = about(
        "price of 1 kg of royal icing, or of 1 lb: “1.50 per lb”", "3.0"
    )
    board: Price | None = about("price of a board", "1.2")
    drum: Price | None = about("price of the drum", "4.0")
    dowel: Price | None = about("price of a dowel", "0.3")
    pillar: Price | None = about("price of a pillar", "2.5")
    spacer: Price | None = about("price of a spacer", "3.5")
    ribbon: PriceOfMetre | None = about("price of 1 m of ribbon, or of 1 yd: “0.75 per yd”", "0.8")
    wire: Price | None = about("price of a wire for flowers", "0.1")
    holder: Price | None = about("price of a food-safe holder for a stem", "0.6")
    wafer_paper: Price | None = about("price of a sheet of wafer paper", "0.5")
    hour: Price | None = about("price of an hour of work", "18.0")
