"""One line of a table of exposure."""

from __future__ import annotations

from pydantic import Field

from counter.catalogue import Model


class UvRow(Model):
    """The exposure at one distance, or at one irradiance."""

    where: str
    distance_m: float | None = None
    irradiance_w_m2: float
    effective_w_m2: float | None = None
    time_to_limit_s: float
    says: str
    valid: bool = Field(True, description="whether the formula may be relied on there")
