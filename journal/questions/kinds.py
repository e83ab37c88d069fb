"""The kinds of question, in the order in which they are tried: the first that fits answers."""

from collections.abc import Callable

from journal.questions.ages import answer_age, answer_life
from journal.questions.amounts import answer_amount
from journal.questions.asked import Asked
from journal.questions.beds import answer_seed, answer_thirsty, answer_where_next
from journal.questions.beside_books import answer_books
from journal.questions.between import answer_between, answer_without
from journal.questions.blame import answer_blame
from journal.questions.blamed import answer_killer
from journal.questions.company import answer_given_to, answer_helped
from journal.questions.compare import answer_compare
from journal.questions.counts import answer_alive, answer_came_up, answer_in_store
from journal.questions.days import answer_days
from journal.questions.distinct import answer_how_many_kinds, answer_size
from journal.questions.due import answer_due, answer_forgotten, answer_undone
from journal.questions.dug_in import answer_manure_wait, answer_nutrients
from journal.questions.habits import answer_habits
from journal.questions.heaps import (
    answer_bay,
    answer_bay_ready,
    answer_heat,
    answer_tank,
    answer_tank_lasts,
)
from journal.questions.how_long import answer_how_long
from journal.questions.how_often import answer_how_often
from journal.questions.limits import answer_limit
from journal.questions.listing import answer_list
from journal.questions.marks import answer_marks
from journal.questions.model import Answer
from journal.questions.money import answer_money, answer_worth
from journal.questions.now import answer_empty, answer_ready_now, answer_worn
from journal.questions.outlook import answer_ready, answer_usual
from journal.questions.prose import answer_prose
from journal.questions.quotients import answer_average_yield, answer_per_kilo
from journal.questions.reckoned import answer_degree_days, answer_growing_season
from journal.questions.ripest import answer_first_of, answer_up_best
from journal.questions.safe_yet import answer_safe, answer_too_late
from journal.questions.seed_old import answer_seed_too_old
from journal.questions.stood_for import answer_stood_for
from journal.questions.usual_frost import answer_usual_frost
from journal.questions.weather import answer_weather
from journal.questions.weather_yes import answer_weather_yes
from journal.questions.when import answer_when
from journal.questions.where import answer_what_stood, answer_where_done, answer_where_stood
from journal.questions.which import answer_which
from journal.questions.worth import answer_most_earned, answer_most_worth
from journal.questions.yes_no import answer_yes_no

KINDS: tuple[Callable[[Asked], Answer], ...] = (
    answer_prose,
    answer_too_late,
    answer_safe,
    answer_where_next,
    answer_thirsty,
    answer_seed,
    answer_seed_too_old,
    answer_books,
    answer_most_worth,
    answer_most_earned,
    answer_bay_ready,
    answer_tank_lasts,
    answer_undone,
    answer_due,
    answer_forgotten,
    answer_habits,
    answer_usual_frost,
    answer_degree_days,
    answer_growing_season,
    answer_nutrients,
    answer_manure_wait,
    answer_limit,
    answer_weather_yes,
    answer_per_kilo,
    answer_average_yield,
    answer_ready_now,
    answer_empty,
    answer_worn,
    answer_ready,
    answer_usual,
    answer_compare,
    answer_bay,
    answer_heat,
    answer_tank,
    answer_weather,
    answer_helped,
    answer_given_to,
    answer_marks,
    answer_blame,
    answer_killer,
    answer_money,
    answer_worth,
    answer_in_store,
    answer_how_many_kinds,
    answer_size,
    answer_came_up,
    answer_alive,
    answer_up_best,
    answer_first_of,
    answer_which,
    answer_how_often,
    answer_when,
    answer_without,
    answer_between,
    answer_stood_for,
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
