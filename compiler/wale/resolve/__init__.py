"""The resolve phase: names looked up, units in cm and g, defaults noted as assumptions."""

from wale.resolve.spec import resolve

__all__ = ["resolve"]
