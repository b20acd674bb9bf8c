"""STEP: every body as a named solid under one assembly named after the room, the same bytes every time."""

from __future__ import annotations

import io
import itertools
import re
from typing import Any

from generator.solids.kernel import kernel
from generator.solids.records import Bodies

HEADER_TIME = "2000-01-01T00:00:00"
"""A fixed time: the file says what was built, not when."""
NOT_ASCII = re.compile(r"[^\x00-\x7f]+")
INSTANCE = re.compile(rb"(NEXT_ASSEMBLY_USAGE_OCCURRENCE)\(\s*'\d+',(.*?;\n)", re.DOTALL)
"""One use of a part: its number, then the rest, which wraps where the number's length puts it."""


def step_bytes(bodies: Bodies) -> bytes:
    """An AP214 STEP file in mm: one named solid per body, in the order of `bodies`, uncoloured.

    Colours are left out because the kernel orders coloured parts by memory address.
    """
    from OCP.STEPCAFControl import STEPCAFControl_Writer

    document = _document(bodies)
    stream = io.BytesIO()
    writer = STEPCAFControl_Writer()
    writer.SetColorMode(False)
    writer.SetLayerMode(False)
    writer.SetNameMode(True)
    writer.Transfer(document)
    _name_solids(writer, bodies)
    writer.WriteStream(stream)
    return _without_counters(stream.getvalue(), bodies.room)


def _document(bodies: Bodies) -> object:
    """The bodies as parts of one assembly, each named by its id."""
    kernel()
    from OCP.TCollection import TCollection_ExtendedString
    from OCP.TDataStd import TDataStd_Name
    from OCP.TDocStd import TDocStd_Document
    from OCP.TopLoc import TopLoc_Location
    from OCP.XCAFDoc import XCAFDoc_DocumentTool

    document = TDocStd_Document(TCollection_ExtendedString("BinXCAF"))
    tool = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    room = tool.NewShape()
    TDataStd_Name.Set_s(room, TCollection_ExtendedString(bodies.room, True))
    for body in bodies.parts:
        part = tool.AddShape(body.shape.wrapped, False)
        TDataStd_Name.Set_s(part, TCollection_ExtendedString(body.id, True))
        instance = tool.AddComponent(room, part, TopLoc_Location())
        TDataStd_Name.Set_s(instance, TCollection_ExtendedString(body.id, True))
    tool.UpdateAssemblies()
    return document


def _name_solids(writer: Any, bodies: Bodies) -> None:
    """The ids on the solids too: some readers look only there, others only at the parts."""
    from OCP.STEPConstruct import STEPConstruct
    from OCP.TCollection import TCollection_HAsciiString

    finder = writer.Writer().WS().TransferWriter().FinderProcess()
    for body in bodies.parts:
        for solid in body.shape.Solids():
            STEPConstruct.FindEntity_s(finder, solid.wrapped).SetName(TCollection_HAsciiString(body.id))


def _without_counters(data: bytes, name: str) -> bytes:
    """The file with a fixed header, instances counted from 1 (the kernel counts over the whole process), in ASCII."""
    quoted = name.replace("\\", "\\\\").replace("'", "''")
    head = f"FILE_NAME('{quoted}','{HEADER_TIME}',(''),(''),'boardwright','boardwright','');"
    data = re.sub(rb"FILE_NAME\(.*?\);", lambda _: head.encode(), data, count=1, flags=re.DOTALL)
    numbers = itertools.count(1)
    data = INSTANCE.sub(lambda m: b"%s('%d',%s" % (m[1], next(numbers), re.sub(rb"\n *", b"", m[2])), data)
    return NOT_ASCII.sub(_escaped, data.decode()).encode()


def _escaped(letters: re.Match[str]) -> str:
    r"""Letters that plain ASCII lacks, as STEP writes them: \X2\ and four hexadecimal digits for each."""
    return f"\\X2\\{letters[0].encode('utf-16-be').hex().upper()}\\X0\\"
