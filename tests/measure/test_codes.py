"""Bar codes and QR codes on a picture."""

from __future__ import annotations

import cv2
import numpy as np

from counter.measure import measure_bytes


def test_a_code_in_the_picture_is_read(catalogue):
    import zxingcpp

    drawn = np.asarray(zxingcpp.create_barcode("4006381333931", zxingcpp.BarcodeFormat.EAN13).to_image(scale=3))
    image = np.full((700, 900), 255, np.uint8)
    image[100 : 100 + drawn.shape[0], 100 : 100 + drawn.shape[1]] = drawn
    told = measure_bytes(catalogue, cv2.imencode(".png", image)[1].tobytes())
    assert told.codes == ("4006381333931",)
