"""The table of events, in whatever database."""

from __future__ import annotations

from sqlalchemy import Column, Integer, MetaData, String, Table, Text

METADATA = MetaData()

EVENTS = Table(
    "events",
    METADATA,
    Column("session", String(255), primary_key=True),
    Column("seq", Integer, primary_key=True, autoincrement=False),
    Column("at", String(27), nullable=False),
    Column("type", String(64), nullable=False),
    Column("v", Integer, nullable=False),
    Column("body", Text, nullable=False),
    Column("chain", String(64), nullable=False),
)
"""body: canonical JSON. chain: link of the row, 64 hex digits. at: RFC 3339 with microseconds and Z."""
