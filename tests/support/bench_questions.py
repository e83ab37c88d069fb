"""How long a question takes: importing pandas, making the parser, reading, answering.

Run it as `python tests/support/bench_questions.py`; nothing is asserted, the figures are printed.
"""

import subprocess
import sys
import time
from datetime import date
from pathlib import Path

from journal.diary import read
from journal.questions.answer import ask, names_of
from journal.questions.lexer import question_parser, tokens
from journal.questions.periods import Clock
from journal.questions.read import read_parts

SAMPLE = Path(__file__).parent.parent.parent / "sample_journal"
TODAY = date(2026, 3, 1)
QUESTIONS = (
    "When did potatoes go in last year?",
    "How many kilos of courgettes did we pick in July 2025?",
    "Which bed took the most time?",
    "How much rain have we had since the broad beans went in?",
)


def milliseconds(since: float, times: int = 1) -> str:
    return f"{(time.perf_counter() - since) * 1000 / times:8.1f} ms"


def main(folder: Path) -> None:
    started = time.perf_counter()
    subprocess.run([sys.executable, "-c", "import pandas"], check=True)
    print(milliseconds(started), "python -c 'import pandas'")
    started = time.perf_counter()
    question_parser()
    print(milliseconds(started), "making the parser of questions")
    diary = read(folder, TODAY)
    started = time.perf_counter()
    names = names_of(diary)
    print(milliseconds(started), f"gathering the names of {len(diary.events):,} events")
    tokens(QUESTIONS[0], names)
    started = time.perf_counter()
    for _ in range(50):
        for question in QUESTIONS:
            read_parts(tokens(question, names), Clock(TODAY))
    print(milliseconds(started, 50 * len(QUESTIONS)), "reading a question")
    for question in QUESTIONS:
        started = time.perf_counter()
        ask(diary, question)
        first = milliseconds(started)
        started = time.perf_counter()
        ask(diary, question)
        print(first, "then", milliseconds(started), question)


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else SAMPLE)
