"""Published tables that ship with the package (`tables/*.csv`), read when first asked for."""

from __future__ import annotations

from functools import cache


@cache
def rows_of(name: str) -> tuple[dict[str, str], ...]:
    """Give the rows of `tables/NAME.csv` in file order, header words as keys.

    Raises:
        FileNotFoundError: no such table is shipped; a caller's bug.
    """
    import csv
    import pkgutil

    data = pkgutil.get_data("wale", f"tables/{name}.csv") or b""
    return tuple(csv.DictReader(data.decode("utf-8").splitlines()))


@cache
def sources() -> dict[str, str]:
    """Give the full text of each source by the short key that the tables use."""
    return {row["key"]: row["text"] for row in rows_of("sources")}
