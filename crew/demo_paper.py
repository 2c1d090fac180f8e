"""How the demo takes in a show's paperwork: it accepts it as it reads."""

from datetime import datetime

from shows.actions import accept_paperwork, receive_paperwork
from shows.core.numbering.statement import reads_as_statement
from shows.core.paperwork import read_paperwork
from shows.models import Engagement
from shows.reading import taken
from venue.history import Actor


def take_in(engagement: Engagement, content: bytes, file_name: str, actor: Actor, now: datetime) -> None:
    """The paperwork, a CSV file, received and accepted at that instant."""
    row = receive_paperwork(
        actor=actor, engagement=engagement, content=content, media="csv", at=now, file_name=file_name
    )
    read = read_paperwork(content, reads_as_statement=reads_as_statement)
    accept_paperwork(
        actor=actor,
        paperwork=row,
        spots=taken(read).facts,
        statement_read=read.statement or "",
        at=now,
        seen=row.version,
    )
