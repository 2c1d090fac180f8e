"""Workbooks for tests, put together member by member as the format asks, without a package that writes them."""

import io
import zipfile
from collections.abc import Mapping, Sequence
from xml.sax.saxutils import escape

TYPES = """<?xml version="1.0" encoding="UTF-8"?>
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">
<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>
<Default Extension="xml" ContentType="application/xml"/>
<Override PartName="/xl/workbook.xml"
 ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/></Types>"""
RELATIONS = """<?xml version="1.0" encoding="UTF-8"?>
<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">
<Relationship Id="rId1" Target="xl/workbook.xml"
 Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument"/></Relationships>"""
STYLES = """<?xml version="1.0" encoding="UTF-8"?>
<styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">
<cellXfs count="2"><xf numFmtId="0"/><xf numFmtId="14" applyNumberFormat="1"/></cellXfs></styleSheet>"""
MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
LINKS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"


class Day(float):
    """A cell that a spreadsheet shows as a date: days since 1899-12-30."""


Cell = str | float | None


def sheet_xml(rows: Sequence[Sequence[Cell]]) -> str:
    body = "".join(
        f'<row r="{line}">{"".join(_cell(line, at, cell) for at, cell in enumerate(cells))}</row>'
        for line, cells in enumerate(rows, start=1)
    )
    return f'<?xml version="1.0" encoding="UTF-8"?><worksheet xmlns="{MAIN}"><sheetData>{body}</sheetData></worksheet>'


def _cell(line: int, at: int, cell: Cell) -> str:
    reference = f"{chr(ord('A') + at)}{line}"
    if cell is None:
        return ""
    if isinstance(cell, str):
        return f'<c r="{reference}" t="inlineStr"><is><t>{escape(cell)}</t></is></c>'
    style = ' s="1"' if isinstance(cell, Day) else ""
    return f'<c r="{reference}"{style}><v>{float(cell)!r}</v></c>'


def workbook(sheets: Mapping[str, Sequence[Sequence[Cell]] | str], extra: Mapping[str, bytes] | None = None) -> bytes:
    """An XLSX of the sheets, each given by its rows or as XML, and further members."""
    names = list(sheets)
    entries = "".join(
        f'<sheet name="{escape(name)}" sheetId="{at}" r:id="rId{at}"/>' for at, name in enumerate(names, start=1)
    )
    targets = "".join(
        f'<Relationship Id="rId{at}" Type="{LINKS}/worksheet" Target="worksheets/sheet{at}.xml"/>'
        for at, _name in enumerate(names, start=1)
    )
    styles = f'<Relationship Id="rIdS" Type="{LINKS}/styles" Target="styles.xml"/>'
    members: dict[str, str | bytes] = {
        "[Content_Types].xml": TYPES,
        "_rels/.rels": RELATIONS,
        "xl/workbook.xml": f'<?xml version="1.0" encoding="UTF-8"?><workbook xmlns="{MAIN}" xmlns:r="{LINKS}">'
        f"<sheets>{entries}</sheets></workbook>",
        "xl/_rels/workbook.xml.rels": '<?xml version="1.0" encoding="UTF-8"?><Relationships '
        f'xmlns="http://schemas.openxmlformats.org/package/2006/relationships">{targets}{styles}</Relationships>',
        "xl/styles.xml": STYLES,
        **(extra or {}),
    }
    for at, rows in enumerate(sheets.values(), start=1):
        members[f"xl/worksheets/sheet{at}.xml"] = rows if isinstance(rows, str) else sheet_xml(rows)
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in members.items():
            archive.writestr(name, content)
    return out.getvalue()
