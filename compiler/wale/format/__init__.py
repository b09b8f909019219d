"""The one layout of a file, with its two promises: the same model, and nothing left to change.

See `docs/format.md` for what the layout is.
"""

from wale.format.laid import Laid, format_source

__all__ = ["Laid", "format_source"]
