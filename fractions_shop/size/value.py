"""What an expression can come to: a size, a size with limits, or an angle."""

from __future__ import annotations

from typing import Annotated

from fractions_shop.size.limits import Limits
from fractions_shop.size.quantity import Angle, Quantity

Value = Quantity | Limits | Angle
#: A size in a result that need not be a length, as any other Quantity there is; `size` is its name in
#: the JSON Schema of answers.
AnyPower = Annotated[Quantity, "size"]
