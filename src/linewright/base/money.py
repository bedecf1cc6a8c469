# SPDX-License-Identifier: Apache-2.0
"""Money: an exact decimal and its ISO 4217 currency, whole smallest units in any sum."""

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

# Digits after the point, where they are not two. [ISO 4217, "minor unit"]
_DIGITS = {
    "BHD": 3, "CLP": 0, "ISK": 0, "JOD": 3, "JPY": 0, "KRW": 0, "KWD": 3, "OMR": 3, "PYG": 0,
    "TND": 3, "UGX": 0, "VND": 0, "XAF": 0, "XOF": 0,
}  # fmt: skip


def digits(currency: str) -> int:
    """Tell how many digits a currency has after the point.

    Parameters
    ----------
    currency : str
        Three letters of ISO 4217.

    Returns
    -------
    int
        The number of digits.
    """
    return _DIGITS.get(currency, 2)


@dataclass(frozen=True, slots=True, order=True)
class Money:
    """An amount of one currency, in whole smallest units (cents, pence, yen).

    ``minor`` is that whole number; ``currency`` three letters of ISO 4217. Amounts of two
    currencies are never added: convert one first, at a rate that somebody typed.
    """

    currency: str
    minor: int

    @classmethod
    def of(cls, amount: Decimal | int | str, currency: str) -> "Money":
        """Read an amount as people write it, rounded half up to the smallest unit.

        Parameters
        ----------
        amount : Decimal, int or str
            The amount in the currency's own unit, such as ``"12.50"``.
        currency : str
            Three letters of ISO 4217.

        Returns
        -------
        Money
            The same amount in whole smallest units.

        Raises
        ------
        ValueError
            If the currency is not three capital letters or the amount is not finite.

        Examples
        --------
        >>> str(Money.of("12.5", "GBP"))
        '12.50 GBP'
        """
        if not (len(currency) == 3 and currency.isascii() and currency.isupper()):
            raise ValueError(
                f'currency "{currency}" is not three capital letters of ISO 4217, such as EUR'
            )
        exact = Decimal(amount)
        if not exact.is_finite():
            raise ValueError(f'amount "{amount}" is not a number')
        shifted = exact.scaleb(digits(currency)).to_integral_value(ROUND_HALF_UP)
        return cls(currency, int(shifted))

    @property
    def amount(self) -> Decimal:
        """The amount in the currency's own unit."""
        return Decimal(self.minor).scaleb(-digits(self.currency))

    def converted(self, rate: Decimal, currency: str) -> "Money":
        """Express in another currency; ``rate`` is how much of it one unit of this buys."""
        return Money.of(self.amount * rate, currency)

    def times(self, count: int) -> "Money":
        """Multiply by a whole count."""
        return Money(self.currency, self.minor * count)

    def __add__(self, other: "Money") -> "Money":
        """Add an amount of the same currency."""
        if other.currency != self.currency:
            raise ValueError(f"{self} and {other} are of two currencies: convert one first")
        return Money(self.currency, self.minor + other.minor)

    def __sub__(self, other: "Money") -> "Money":
        """Take away an amount of the same currency."""
        return self + Money(other.currency, -other.minor)

    def __str__(self) -> str:
        """Write the amount with all its digits and the currency after it."""
        return f"{self.amount:,.{digits(self.currency)}f} {self.currency}"
