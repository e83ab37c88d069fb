"""The cautions that stand beside an answer about work that can hurt someone."""

from dataclasses import replace

import pandas as pd

from journal.questions.asked import Asked
from journal.questions.model import Answer
from journal.studies.cautions import cautions_for

# a caution stands beside an answer that is mostly about such work, not beside a list of a season
_SHARE = 0.5


def with_cautions(asked: Asked, answer: Answer) -> Answer:
    """The answer with the cautions on the entries that it rests on, the last of its caveats.

    A search of the prose is not about the work that it finds words of.
    """
    if not answer.evidence or any(part.kind == "prose" for part in asked.parts):
        return answer
    events = asked.diary.events
    lines = pd.MultiIndex.from_tuples([(each.file, each.line) for each in answer.evidence])
    mine = pd.MultiIndex.from_arrays([events["file"], events["line"]]).isin(lines)
    said = [caution.text for caution in cautions_for(events[mine], _SHARE)]
    new = tuple(text for text in said if text not in answer.caveats)
    return replace(answer, caveats=(*answer.caveats, *new)) if new else answer
