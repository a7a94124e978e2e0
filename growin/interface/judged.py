"""The verdict, the forecast and the decisions as programs read them; worked out as for the pages."""

from dataclasses import dataclass
from datetime import date, datetime
from typing import Annotated

from django.http import Http404

from greens.models import Club, Green
from growin import models as kept
from growin.agronomy import verdict as agronomy
from growin.agronomy.criteria import BAR
from growin.agronomy.rules import MET, NOT_KNOWN, NOT_MET
from growin.agronomy.verdict import NOT_READY, READY
from growin.evidence import verdict_of
from growin.evidence.readiness import sentence
from growin.interface.programme import newest_rebuild
from growin.interface.schema import OneOf
from growin.queries import decision as decisions
from growin.queries import forecast as forecasts
from growin.queries.listed import Piece, by_number


@dataclass(frozen=True)
class Finding:
    """What one criterion comes to. Only bars decide; others are watched."""

    criterion: str
    words: str
    is_bar: bool
    state: Annotated[str, OneOf((MET, NOT_MET, NOT_KNOWN))]
    sentences: list[str]
    settles: Annotated[list[str], "What would settle it, where it is not known."]
    read_on: Annotated[date | None, "Day of the oldest reading in use."]
    is_stale: bool


@dataclass(frozen=True)
class Verdict:
    """Whether a green may open, as of the club's today: the worst bar decides."""

    green_id: int
    rebuild_id: int
    as_of: date
    state: Annotated[str, OneOf((READY, NOT_READY, NOT_KNOWN))]
    sentence: str
    next_inspection_on: date
    findings: list[Finding]


@dataclass(frozen=True)
class Forecast:
    """The newest: by which days the last bar is likely to be met; null beyond its horizon."""

    green_id: int
    rebuild_id: int
    as_of: date
    is_stale: Annotated[bool, "Whether the record or the day has moved on since; a new one is on its way."]
    ready_by_1_in_10: date | None
    ready_by_1_in_2: date | None
    ready_by_9_in_10: date | None
    chance_within_season: Annotated[float, "From 0 to 1, before growth next stops."]
    holding_back: Annotated[dict[str, float], "By criterion, the share of cases in which it is met last."]
    refused: Annotated[str, "Why none could be worked out; empty where one was."]


@dataclass(frozen=True)
class Decision:
    """An opening or a closing, with the verdict as it stood. The one made last counts from its day on."""

    id: int
    green_id: int
    rebuild_id: int
    pattern: Annotated[str, OneOf(tuple(kept.Pattern.values))]
    made_on: date
    made_at: datetime
    from_day: date
    verdict: Annotated[str, "As it stood on the day it was made."]
    is_against_verdict: bool
    reason: str
    stop_rule: str
    meeting_on: date | None
    present: str
    entered_by: str
    digest: Annotated[str, "SHA-256 of the evidence that was kept with it."]


def verdict_on(club: Club, green: Green) -> Verdict:
    rebuild, today = newest_rebuild(club, green), club.local_today()
    found = verdict_of(rebuild, today)
    return Verdict(
        green_id=green.pk,
        rebuild_id=rebuild.pk,
        as_of=today,
        state=found.state,
        sentence=sentence(found),
        next_inspection_on=found.next_inspection,
        findings=[finding(one) for one in found.findings],
    )


def finding(one: agronomy.Finding) -> Finding:
    return Finding(
        criterion=one.criterion,
        words=one.words,
        is_bar=one.kind == BAR,
        state=one.state,
        sentences=list(one.sentences),
        settles=list(one.settles),
        read_on=one.on,
        is_stale=one.stale,
    )


def forecast_of(club: Club, green: Green) -> Forecast:
    rebuild = newest_rebuild(club, green)
    row = forecasts.kept(rebuild)
    if row is None:
        raise Http404(f"No forecast of {green} has been worked out yet.")
    return Forecast(
        green_id=green.pk,
        rebuild_id=rebuild.pk,
        as_of=row.as_of,
        is_stale=forecasts.is_stale(row, club),
        ready_by_1_in_10=row.p10,
        ready_by_1_in_2=row.p50,
        ready_by_9_in_10=row.p90,
        chance_within_season=row.within_season,
        holding_back=row.told.get("holding_back", {}),
        refused=row.refused,
    )


def decisions_of(club: Club, cursor=None, limit=None) -> Piece:
    piece = by_number(decisions.all_of(club), cursor, limit)
    return Piece([decision(row) for row in piece.rows], piece.next)


def decision(row: kept.Decision) -> Decision:
    return Decision(
        id=row.pk,
        green_id=row.establishment.green_id,
        rebuild_id=row.establishment_id,
        pattern=row.pattern,
        made_on=row.made_on,
        made_at=row.made_at,
        from_day=row.from_day,
        verdict=row.verdict,
        is_against_verdict=row.is_against_verdict,
        reason=row.reason,
        stop_rule=row.stop_rule,
        meeting_on=row.meeting_on,
        present=row.present,
        entered_by=row.by.name,
        digest=row.digest,
    )
