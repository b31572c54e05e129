"""What things cost: prices as one pays them, in one currency."""

from typing import Annotated

from pydantic import AfterValidator

from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.rules import Characters, Number

Price = Annotated[float, AfterValidator(Number(0, 100_000))]


class Prices(Table):
    """Prices for the shopping list; what has none is listed without a cost."""

    currency: Annotated[str, AfterValidator(Characters(1, 5))] | None = about(
        "sign of the currency (default: £, or $ where words are us)", '"€"'
    )
    fondant: Price | None = about("price of a pack of fondant", "9.5")
    modelling_paste: Price | None = about(
        "price of a pack of modelling paste bought ready-made (default: it is made from fondant"
        " and gum powder)",
        "12.0",
    )
    batter: Price | None = about("price of the ingredients of 1 kg of batter", "4.5")
    filling: Price | None = about("price of 1 kg of filling", "6.0")
    coating: Price | None = about("price of 1 kg of buttercream or ganache", "6.0")
    almond_paste: Price | None = about("price of 1 kg of almond paste (marzipan)", "9.0")
    icing: Price | None = about("price of 1 kg of royal icing", "3.0")
    board: Price | None = about("price of a board", "1.2")
    drum: Price | None = about("price of the drum", "4.0")
    dowel: Price | None = about("price of a dowel", "0.3")
    pillar: Price | None = about("price of a pillar", "2.5")
    spacer: Price | None = about("price of a spacer", "3.5")
    ribbon: Price | None = about("price of 1 m of ribbon", "0.8")
    wire: Price | None = about("price of a wire for flowers", "0.1")
    holder: Price | None = about("price of a food-safe holder for a stem", "0.6")
    hour: Price | None = about("price of an hour of work", "18.0")
