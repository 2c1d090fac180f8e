"""QR codes for screens: black on white in every theme, since readers of phones want it so (ISO/IEC 18004)."""

import segno

QUIET = 4
"""So many light modules all round it (ISO/IEC 18004)."""


def qr_image(address: str) -> str:
    """The code of the address as an image's address of its own ("data:…"), with its quiet zone."""
    code = segno.make(address, error="m", micro=False)
    return str(code.svg_data_uri(border=QUIET, dark="#000", light="#fff", omitsize=True))
