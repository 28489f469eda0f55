"""From a card's corners to where the camera stood, and so to millimetres on any level above the card.

Frame: millimetres, origin at the card's middle, x along its long side, z toward the camera; pixels as in the picture.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from counter.measure._card import CARD_MM

if TYPE_CHECKING:
    from counter.measure._card import Floats

# How long telephone lenses are, over the picture's longer side, as chances run: about 24 to 40 mm on a 35 mm film.
LENS, LENS_SPREAD = 0.86, 0.18
LENSES = 31
CORNER_PX = 0.4  # how far off a corner is found, standard deviation
WORST_PX = 2.5  # a quadrilateral that misses a card's shape by more on the mean is none


class View(NamedTuple):
    """The camera: `matrix` (3 x 4) takes (x, y, z, 1) in millimetres to pixels; `eye` is its place."""

    matrix: Floats
    eye: Floats
    error_px: float

    def pixels(self, points: Floats, level_mm: float = 0.0) -> Floats:
        """Return where points of a level fall in the picture."""
        import numpy as np

        at = np.column_stack([points, np.full(len(points), level_mm), np.ones(len(points))])
        seen = at @ self.matrix.T
        return np.asarray(seen[:, :2] / seen[:, 2:])

    def homography(self, level_mm: float = 0.0) -> Floats:
        """Return the 3 x 3 matrix from millimetres on a level to pixels."""
        import numpy as np

        columns = [self.matrix[:, 0], self.matrix[:, 1], self.matrix[:, 2] * level_mm + self.matrix[:, 3]]
        return np.column_stack(columns)

    def millimetres(self, pixels: Floats, level_mm: float = 0.0) -> Floats:
        """Return where pixels lie on a level."""
        import numpy as np

        at = np.column_stack([pixels, np.ones(len(pixels))]) @ np.linalg.inv(self.homography(level_mm)).T
        return np.asarray(at[:, :2] / at[:, 2:])

    def lean(self, point: Floats) -> Floats:
        """Return by how many millimetres what stands one millimetre high at a point seems to lean away."""
        import numpy as np

        return np.asarray((point - self.eye[:2]) / self.eye[2])

    @property
    def tilt_deg(self) -> float:
        """How far from straight above the camera's own axis stands, degrees."""
        import numpy as np

        axis = self.matrix[2, :3] / np.linalg.norm(self.matrix[2, :3])
        return float(np.degrees(np.arccos(min(abs(axis[2]), 1.0))))


def view_of(corners: Floats, size: tuple[int, int]) -> View | None:
    """Return the camera that sees a card's corners there; None where no camera sees a card so.

    `size` is the picture's width and height. The lens is not known: of the likely ones the one that fits best, its
    likelihood weighed in, so that a picture from straight above, which tells nothing of the lens, takes the usual.
    """
    import cv2
    import numpy as np

    half_w, half_h = CARD_MM[0] / 2, CARD_MM[1] / 2
    card = np.array([(-half_w, half_h), (half_w, half_h), (half_w, -half_h), (-half_w, -half_h)])
    if _turns_left(corners):
        corners = corners[[1, 0, 3, 2]]  # seen from above the corners go clockwise in a picture, y down
    solid = np.column_stack([card, np.zeros(4)])
    best: tuple[float, View] | None = None
    to_picture, _ = cv2.findHomography(card, corners)
    for log_lens in np.linspace(-2.5 * LENS_SPREAD, 2.5 * LENS_SPREAD, LENSES):
        view = _view(_inner(LENS * float(np.exp(log_lens)), size), np.asarray(to_picture), solid, corners)
        if view is not None:
            cost = 4 * (view.error_px / CORNER_PX) ** 2 + (log_lens / LENS_SPREAD) ** 2
            if best is None or cost < best[0]:
                best = (cost, view)
    return best[1] if best is not None and best[1].error_px <= WORST_PX * max(size) / 1600 else None


def _turns_left(corners: Floats) -> bool:
    one, other = corners[1] - corners[0], corners[2] - corners[1]
    return bool(one[0] * other[1] - one[1] * other[0] < 0)


def _inner(lens: float, size: tuple[int, int]) -> Floats:
    import numpy as np

    focal = lens * max(size)
    return np.array([[focal, 0, size[0] / 2], [0, focal, size[1] / 2], [0, 0, 1.0]])


def _view(inner: Floats, to_picture: Floats, solid: Floats, corners: Floats) -> View | None:
    """Return the camera with this lens that sees the card's plane so: its homography taken apart, then refined.

    Not OpenCV's own solver for planes: seen from exactly above it divides nothing by nothing.
    """
    import cv2
    import numpy as np

    columns = np.linalg.solve(inner, to_picture)
    columns /= np.sqrt(np.linalg.norm(columns[:, 0]) * np.linalg.norm(columns[:, 1])) * np.sign(columns[2, 2])
    across, up, move = columns.T
    u, _, v = np.linalg.svd(np.column_stack([across, up, np.cross(across, up)]))
    turn, move = cv2.solvePnPRefineLM(solid, corners, inner, np.zeros(4), cv2.Rodrigues(u @ v)[0], move.reshape(3, 1))
    rotation = cv2.Rodrigues(turn)[0]
    eye = (-rotation.T @ move).ravel()
    if not eye[2] > 0:
        return None
    view = View(inner @ np.column_stack([rotation, move]), eye, 0.0)
    miss = view.pixels(solid[:, :2]) - corners
    return view._replace(error_px=float(np.sqrt((miss**2).sum(1).mean())))
