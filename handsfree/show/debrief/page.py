"""The debrief page: one HTML file that asks nothing of a network."""

from __future__ import annotations

import base64
import hashlib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from handsfree.say.wording_keys import called
from handsfree.say.wording_written import no_sound
from handsfree.show.debrief.run import Run
from handsfree.show.debrief.tables import measure_rows, step_phases
from handsfree.show.debrief.timeline import Timeline, timeline
from handsfree.show.debrief.tones import sign, tone
from handsfree.show.debrief.tracks import Recording, Track, tracks_of
from handsfree.show.debrief.trend import trends
from handsfree.words import LANGUAGE, in_script, worded


@dataclass(frozen=True, slots=True)
class View:
    """A run with what the page works out of it. key: its name on the page."""

    key: str
    run: Run
    tracks: tuple[Track, ...]
    timeline: Timeline
    notices: tuple[str, ...]

    @property
    def name(self) -> str:
        """What to call the run where several stand side by side."""
        return f"{self.run.trainee or self.run.line or worded('Run')}, {self.run.began:%d %b %H:%M}"


def page(
    runs: Sequence[Run], recordings: Mapping[str, Recording], earlier: Sequence[Run] = ()
) -> Iterator[str]:
    """The page of one run, or of several side by side, piece by piece.

    recordings: the sound files that could be read, by their path; the page tells which are missing.
    earlier: runs that are shown in the trend alone.
    """
    longest_s = max(run.length_s for run in runs)
    views = [_view(f"run{n}", run, recordings, longest_s) for n, run in enumerate(runs, 1)]
    environment = _environment()
    style, script = (_source(environment, name) for name in ("page.css", "page.js"))
    template = environment.get_template("page.html.j2")
    yield from template.generate(
        views=views,
        trends=list(trends((*earlier, *runs))),
        language=LANGUAGE,
        words=in_script(script),
        style=Markup(style),
        script=Markup(script),
        style_hash=_hash(style),
        script_hash=_hash(script),
        tracks={view.key: _told(view) for view in views},
        sounds=[Markup(base64.b64encode(one.ogg).decode()) for one in recordings.values()],
    )


def clock(seconds: float) -> str:
    """Seconds as "02:10", or "1:02:10" from an hour on."""
    minutes, left = divmod(int(seconds), 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02}:{left:02}" if hours else f"{minutes:02}:{left:02}"


def _view(key: str, run: Run, recordings: Mapping[str, Recording], longest_s: float) -> View:
    tracks = tracks_of(run, recordings)
    missing = [sound.file for sound in run.sounds if sound.file not in recordings]
    lost = [no_sound(file) for file in missing]
    return View(key, run, tracks, timeline(run, tracks, longest_s), (*run.notices, *lost))


def _told(view: View) -> list[dict[str, object]]:
    """What the player needs to know of a run's sound."""
    return [
        {"sound": track.number, "at": track.at_s, "until": track.until_s, "anchors": track.anchors}
        for track in view.tracks
    ]


def _source(environment: Environment, name: str) -> str:
    """A file beside the templates, as it is."""
    assert environment.loader is not None
    return environment.loader.get_source(environment, name)[0]


def _hash(text: str) -> str:
    """How a content security policy names an inline text (W3C, Content Security Policy Level 3)."""
    return base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()


def _environment() -> Environment:
    environment = Environment(
        loader=PackageLoader("handsfree.show.debrief"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters |= {
        "clock": clock,
        "plain": "{:g}".format,
        "tone": tone,
        "sign": sign,
        "called": called,
    }
    environment.globals |= {"measure_rows": measure_rows, "step_phases": step_phases, "worded": worded}
    return environment
