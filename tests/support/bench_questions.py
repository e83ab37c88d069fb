"""What an answer costs: whole runs of `haulm ask` beside `python -c "import pandas"`.

On a diary of 20,000 entries that was read before, so that the cache has it and the plants' books.
Run by `make bench`, or with a folder of your own; nothing is asserted, the figures are printed.
"""

import sys
import tempfile
import time
from datetime import date
from functools import partial
from pathlib import Path

from bench import Cost, haulm, in_turn, of_process, write_diary

from journal.diary import read
from journal.questions.answer import names_of
from journal.questions.lexer import question_parser, tokens
from journal.questions.periods import Clock
from journal.questions.read import read_parts

TODAY = date(2026, 11, 25)
# of entries alone, of the weather, and last of the plant ledger
QUESTIONS = (
    "When did I last sow leeks?",
    "How many kilos of potatoes did we pick in 2024?",
    "Which bed took the most time in 2024?",
    "How much rain fell in July 2024?",
    "What was in Long 1 in 2024?",
)
MOST_TIMES, MOST_MS, AGAIN = 3.0, 20.0, 50


def whole_runs(folder: Path) -> None:
    """Each question as a process of its own, beside the import."""
    with tempfile.TemporaryDirectory() as aside:
        cache = Path(aside)
        asks = [partial(of_process, haulm(folder, "ask", text), cache) for text in QUESTIONS]
        unkept = asks[-1]()
        imports, *answers = in_turn(partial(of_process, ["-c", "import pandas"]), *asks)
    print(f"import pandas             {imports}")
    for text, cost in zip(QUESTIONS, answers, strict=True):
        print(f"haulm ask, warm           {cost}  {text}\n{_ratios(cost, imports)}")
    print(f"(each to be at most {MOST_TIMES:g} times the import)")
    print(f"the same, nothing kept    {unkept}  {QUESTIONS[-1]}\n")


def _ratios(cost: Cost, imports: Cost) -> str:
    return (
        f"ratio {cost.work / imports.work:35.2f}  ({cost.clock / imports.clock:.2f} by the clock)"
    )


def reading(folder: Path) -> None:
    """The parser made, the names gathered, and a question read, in this process."""
    started = time.process_time()
    question_parser()
    print(f"{_ms(started):8.1f} ms  making the parser of questions")
    diary = read(folder, TODAY)
    names = diary.events.shape[0]
    started = time.process_time()
    known = names_of(diary)
    print(f"{_ms(started):8.1f} ms  gathering the names of {names:,} events")
    started = time.process_time()
    for text in QUESTIONS:
        read_parts(tokens(text, known), Clock(TODAY))
    print(f"{_ms(started, len(QUESTIONS)):8.1f} ms  reading a question for the first time")
    started = time.process_time()
    for text in QUESTIONS * AGAIN:
        read_parts(tokens(text, known), Clock(TODAY))
    each = _ms(started, len(QUESTIONS) * AGAIN)
    print(f"{each:8.2f} ms  reading a question  (to be under {MOST_MS:g} ms)")


def _ms(since: float, times: int = 1) -> float:
    return (time.process_time() - since) * 1000 / times


def main(folder: Path | None) -> None:
    """Measures a diary of one's own, or a made-up one."""
    with tempfile.TemporaryDirectory() as aside:
        if folder is None:
            folder = Path(aside)
            write_diary(folder)
        whole_runs(folder)
        reading(folder)


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else None)
