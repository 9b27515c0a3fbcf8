"""Arrays as the calls take them."""

import numpy as np
import numpy.typing as npt


def plain(column: npt.ArrayLike) -> list[float]:
    """One number or many, as a list."""
    values: list[float] = np.atleast_1d(np.asarray(column, dtype=np.float64)).tolist()
    return values
