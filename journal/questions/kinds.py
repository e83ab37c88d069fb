"""The kinds of question, in the order in which they are tried: the first that fits answers."""

from collections.abc import Callable

from journal.questions.ages import answer_age, answer_life
from journal.questions.amounts import answer_amount
from journal.questions.asked import Asked
from journal.questions.beds import answer_seed, answer_thirsty, answer_where_next
from journal.questions.between import answer_between, answer_without
from journal.questions.compare import answer_compare
from journal.questions.counts import answer_alive, answer_came_up, answer_in_store
from journal.questions.days import answer_days
from journal.questions.due import answer_due, answer_forgotten
from journal.questions.heaps import answer_bay, answer_heat, answer_tank
from journal.questions.how_long import answer_how_long
from journal.questions.how_often import answer_how_often
from journal.questions.listing import answer_list
from journal.questions.model import Answer
from journal.questions.money import answer_money, answer_worth
from journal.questions.outlook import answer_ready, answer_usual
from journal.questions.prose import answer_prose
from journal.questions.safe_yet import answer_safe, answer_too_late
from journal.questions.weather import answer_weather
from journal.questions.when import answer_when
from journal.questions.where import answer_what_stood, answer_where_done, answer_where_stood
from journal.questions.which import answer_which
from journal.questions.yes_no import answer_yes_no

KINDS: tuple[Callable[[Asked], Answer], ...] = (
    answer_prose,
    answer_too_late,
    answer_safe,
    answer_where_next,
    answer_thirsty,
    answer_seed,
    answer_due,
    answer_forgotten,
    answer_ready,
    answer_usual,
    answer_compare,
    answer_bay,
    answer_heat,
    answer_tank,
    answer_weather,
    answer_money,
    answer_worth,
    answer_in_store,
    answer_came_up,
    answer_alive,
    answer_which,
    answer_how_often,
    answer_when,
    answer_without,
    answer_between,
    answer_life,
    answer_age,
    answer_how_long,
    answer_amount,
    answer_list,
    answer_days,
    answer_where_done,
    answer_where_stood,
    answer_what_stood,
    answer_yes_no,
)
