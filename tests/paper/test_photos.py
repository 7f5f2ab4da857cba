"""Small pictures on sheets: in the PDF as they came, in the SVG, as pixels, and painted by Qt."""

import base64
import io
import re

import pypdf
from PIL import Image

from composer.paper.primitives import Document, Page, Photo, moved
from composer.paper.raster import to_picture
from composer.paper.svg import to_svg


def jpeg() -> bytes:
    """Left half black, right half white."""
    image = Image.new("RGB", (60, 40), "white")
    image.paste((0, 0, 0), (0, 0, 30, 40))
    made = io.BytesIO()
    image.save(made, "JPEG", quality=95)
    return made.getvalue()


PHOTO = Photo(20.0, 30.0, 60.0, 40.0, jpeg())
PAGE = Page((100.0, 100.0), (PHOTO,), "1")


def test_the_pdf_holds_the_very_jpeg_at_its_place() -> None:
    from composer.paper.pdf import to_pdf

    data = to_pdf(Document("photos", [PAGE]))
    page = pypdf.PdfReader(io.BytesIO(data)).pages[0]
    (image,) = page.images
    assert image.image is not None
    assert image.image.size == (60, 40)
    assert PHOTO.jpeg in data
    stream = page.get_contents()
    assert stream is not None
    # 60 mm = 170.0787 pt, 40 mm = 113.3858, at 20 and 30 mm (a point is 127/360 mm).
    *_, numbers = re.findall(rb"([\d.]+) 0 0 ([\d.]+) ([\d.]+) ([\d.]+) cm", stream.get_data())
    assert [round(float(part) * 25.4 / 72, 2) for part in numbers] == [60, 40, 20, 30]
    assert to_pdf(Document("photos", [PAGE])) == data


def test_the_svg_carries_it_inside() -> None:
    text = to_svg((100, 100), "photos", [PHOTO])
    found = re.search(r'<image x="20" y="30" width="60" height="40"[^>]*base64,([^"]+)"', text)
    assert found is not None
    assert base64.b64decode(found[1]) == PHOTO.jpeg


def test_as_pixels() -> None:
    pixels = to_picture((100, 100), [PHOTO], 2.0)
    # 2 pixels a mm, y from above: the photo lies from 40 to 160 across and 60 to 140 down.
    assert pixels.getpixel((60, 100)) == 0
    assert pixels.getpixel((140, 100)) == 255
    assert pixels.getbbox() is not None
    dark = pixels.point([255] * 128 + [0] * 128).getbbox()
    assert dark == (40, 60, 100, 140)


def test_it_moves_with_its_sheet() -> None:
    (there,) = moved([PHOTO], 5, -5)
    assert isinstance(there, Photo)
    assert (there.left, there.bottom, there.width) == (25, 25, 60)
