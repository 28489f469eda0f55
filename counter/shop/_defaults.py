"""What holds where a shop has set nothing. No database here: the window knows it before any store is open."""

from __future__ import annotations

from typing import Any

DEFAULTS: dict[str, Any] = {
    "shop_name": "",
    "shop_address": "",
    "place": None,  # never chosen; "" is chosen: none
    "sales weigh": True,
    "names_asked": True,
    "names_kept_days": 730,  # 0: until somebody forgets them by hand
    "rate_per_kwh": 0.15,
}
