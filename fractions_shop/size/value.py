"""What an expression can come to: a size, a size with limits, or an angle."""

from __future__ import annotations

from fractions_shop.size.limits import Limits
from fractions_shop.size.quantity import Angle, Quantity

Value = Quantity | Limits | Angle
