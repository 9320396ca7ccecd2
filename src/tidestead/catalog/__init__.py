"""Materials, fittings, grades and limits: every row with its source, and how that is known."""

from tidestead.catalog.rows import YOURS_MARK, Datum, Row, Table, table

__all__ = ["YOURS_MARK", "Datum", "Row", "Table", "table"]
