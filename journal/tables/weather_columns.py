"""Columns of the studies of weather and water."""

from journal.tables.column import Column, Table, day, figure, flag, whole, word

_YEAR = whole("year", "calendar year", always=True)
_DATE = day("date", "the day")
_PLACE = word("place", "the ground, by the name that it has today", always=True)
_CROP = word("crop", "crop name, lower case and singular", always=True)
_TANK = word("tank", "the tank", always=True)


def _range(name: str, what: str) -> tuple[Column, ...]:
    """A sum since New Year, what it lacks, and its range over earlier years to the same day."""
    return (
        figure(f"{name}_to_date", f"{what} since 1 January, of the days read", always=True),
        whole(f"{name}_unread", "days since 1 January that were not read", always=True),
        figure(f"{name}_low", "least of the earlier years that are well read, to this day"),
        figure(f"{name}_mean", "their mean"),
        figure(f"{name}_high", "most of them"),
        whole(f"{name}_years", "how many earlier years are well read", always=True),
        whole(f"{name}_lacking", "days not read in the one of them read worst", always=True),
    )


_CLIMATE_DAYS = Table(
    "climate_days",
    "one row a day of every year with a reading, to today",
    (
        _YEAR,
        _DATE,
        figure("t_min_c", "lowest temperature in C; empty where not read, as every figure here"),
        figure("t_max_c", "highest temperature in C"),
        figure("rain_mm", "rain in mm"),
        figure("degree_days", "degree days above 10 C, simple averaging"),
        flag("frost", "true for a minimum below 0 C; empty where not read", always=False),
        *_range("rain", "rain in mm"),
        *_range("degree_days", "degree days"),
    ),
    key=("date",),
)

_CLIMATE_MONTHS = Table(
    "climate_months",
    "one row a month with a reading",
    (
        _YEAR,
        whole("month", "month of the year, 1 to 12", always=True),
        figure("rain_mm", "rain in mm, of the days read"),
        whole("rain_days", "days with 1.0 mm or more"),
        figure("t_min_mean_c", "mean of the days' lowest temperatures, in C"),
        figure("t_max_mean_c", "mean of the days' highest temperatures, in C"),
        figure("t_mean_c", "mean of the middles of the days' extremes, in C"),
        figure("coldest_c", "lowest temperature, in C"),
        figure("hottest_c", "highest temperature, in C"),
        whole("frost_days", "days with a minimum below 0 C"),
        figure("degree_days", "degree days above 10 C, simple averaging"),
        whole("rain_read", "days on which rain was read", always=True),
        whole("temperature_read", "days on which both extremes were read", always=True),
        whole("days", "days of the month", always=True),
    ),
    key=("year", "month"),
)

_CLIMATE_GAPS = Table(
    "climate_gaps",
    "one row a year and variable: what was not read",
    (
        _YEAR,
        word("variable", "rain, t_min or t_max", always=True),
        whole("days", "days of the year, of the open one to today", always=True),
        whole("days_read", "days with a reading", always=True),
        whole("days_unread", "days without one", always=True),
        whole("longest_gap", "most days on end without one", always=True),
        day("begins", "first day of the longest gap"),
        day("ends", "last day of the longest gap"),
    ),
    key=("year", "variable"),
)

_SPELLS = Table(
    "spells",
    "one row a dry spell, absolute drought or partial drought (British Rainfall)",
    (
        word("spell", "dry spell, absolute drought or partial drought", always=True),
        day("begins", "first day"),
        day("ends", "last day"),
        whole("days", "days, both counted", always=True),
        figure("rain_mm", "rain of all of them, in mm", always=True),
        flag("at_least", "true where the day before or after was not read"),
    ),
    key=("spell", "begins"),
)

_DEGREE_DAYS = Table(
    "degree_days",
    "one row a year, base and method",
    (
        word("crop", "the crop whose published base it is; empty for the usual base"),
        _YEAR,
        word("method", "how a day is reckoned", always=True),
        figure("base_c", "temperature that is counted above, in C", always=True),
        figure("cutoff_c", "temperature that is counted up to, in C; empty for none"),
        figure("degree_days", "sum of the days read, in C days"),
        whole("days_read", "days with both extremes", always=True),
        word("source", "who published the base"),
    ),
    key=("crop", "year", "method"),
)

_GROWING_SEASON = Table(
    "growing_season",
    "one row a year: the growing season by ETCCDI",
    (
        whole("year", "year in which the season's year begins", always=True),
        day("begins", "first day of the first six days on end above 5 C"),
        day("ends", "first day, not counted, of the first six below 5 C after midyear"),
        whole("days", "days from the first to the last; empty where one was not read"),
        whole("unread", "days of it without a mean", always=True),
    ),
    key=("year",),
)

_MET_FILE = Table(
    "met_file",
    "one row a met file and variable, beside the diary's own readings",
    (
        word("source", "the met file", always=True),
        word("variable", "t_min, t_max, rain and so on", always=True),
        whole("days_read", "days that the file has", always=True),
        whole("days_used", "days on which the file's reading counts", always=True),
        whole("days_both", "days that the diary has too; there its own counts", always=True),
        figure("mean_difference", "mean of file less diary, in the variable's unit"),
        figure("largest_difference", "the largest of them by size, with its sign"),
        day("date", "the day of the largest"),
    ),
    key=("source", "variable"),
)

_ET0 = Table(
    "et0",
    "one row a day: reference evapotranspiration by FAO-56",
    (
        _YEAR,
        _DATE,
        figure("et0_mm", "mm of the day; empty where a temperature was not read"),
        word("method", "penman-monteith or hargreaves; empty where there is no figure"),
        figure("most_mm", "what the sun above the air could evaporate, in mm", always=True),
    ),
    key=("date",),
)

_WATER = (
    _YEAR,
    _DATE,
    _PLACE,
    word("kind", "bed or pot", always=True),
    _CROP,
    word("stage", "initial, development, middle, late or after", always=True),
    figure("et0_mm", "reference evapotranspiration, mm"),
    word("method", "how that was reckoned"),
    figure("kc", "crop coefficient (FAO-56, 1998)", always=True),
    figure("crop_mm", "what the crop would use, mm"),
    figure("rain_mm", "rain, mm; empty where not read"),
    figure("watered_mm", "water and liquid feed given, mm; empty where not measured"),
    figure("depletion_mm", "what the root zone lacks at the day's end, mm; empty for a range"),
    figure("depletion_low_mm", "the least that it can lack, mm", always=True),
    figure("depletion_high_mm", "the most that it can lack, mm", always=True),
    figure("readily_mm", "readily available water: beyond it the crop thirsts, mm", always=True),
    figure("total_mm", "total available water of the root zone, mm", always=True),
    word("state", "enough, may need water or needs water", always=True),
    figure("area_m2", "area of the place in m2"),
    figure("past_l", "litres past readily available water, at least"),
    figure("fill_l", "litres that fill the root zone, at least"),
)
_WATER_NEED = Table(
    "water_need", "one row a day, place and crop", _WATER, key=("date", "place", "crop")
)
_WATER_NOW = Table(
    "water_now",
    "one row a place, on the last day whose weather was read whole",
    (*_WATER, word("crops", "all crops there that can be reckoned", always=True)),
    key=("place",),
)

_WATER_NEED_YEARS = Table(
    "water_need_years",
    "one row a year, place and crop, the thirstiest first",
    (
        _YEAR,
        _PLACE,
        _CROP,
        whole("days", "days reckoned", always=True),
        whole("days_thirsty", "days surely past readily available water", always=True),
        day("first", "the first of them"),
        figure("most_past_l", "litres past it on the worst day, at least"),
        figure("watered_l", "litres given, of the waterings that were measured"),
    ),
    key=("year", "place", "crop"),
)

_RAIN_STORE = Table(
    "rain_store",
    "one row a day and tank",
    (
        _YEAR,
        _DATE,
        _TANK,
        figure("rain_mm", "rain, mm; empty where not read"),
        figure("in_l", "litres from its roofs and filled in"),
        figure("drawn_l", "litres drawn from it; empty where not measured"),
        figure("unsaid_l", "litres of that day's waterings that say no source"),
        figure("overflow_l", "litres that ran over; empty where not certain"),
        figure("level_l", "litres in it at the day's end; empty for a range"),
        figure("level_low_l", "the least that can be in it", always=True),
        figure("level_high_l", "the most that can be in it", always=True),
        figure("read_l", "the level as read"),
        figure("off_l", "how far the reading lay outside what was reckoned"),
        figure("volume_l", "litres that it holds", always=True),
    ),
    key=("date", "tank"),
)

_RAIN_STORE_NOW = Table(
    "rain_store_now",
    "one row a tank, today",
    (
        _TANK,
        _DATE,
        figure("level_l", "litres in it; empty for a range"),
        figure("level_low_l", "the least that can be in it", always=True),
        figure("level_high_l", "the most that can be in it", always=True),
        figure("volume_l", "litres that it holds", always=True),
        whole("summer", "year of the last summer that has ended", always=True),
        figure("use_low_l", "litres a day drawn from it in that summer"),
        figure("use_high_l", "the same with waterings that say no source"),
        figure("days_low", "days that the least lasts at the greater use"),
        figure("days_high", "days that the most lasts at the lesser use"),
    ),
    key=("tank",),
)

_RAIN_STORE_YEARS = Table(
    "rain_store_years",
    "one row a year and tank",
    (
        _YEAR,
        _TANK,
        figure("in_l", "litres from its roofs and filled in, of the days read"),
        figure("drawn_l", "litres drawn from it"),
        figure("unsaid_l", "litres of waterings that say no source"),
        figure("overflow_l", "litres that surely ran over"),
        whole("days", "days reckoned", always=True),
        whole("uncertain_days", "days whose overflow is not certain", always=True),
    ),
    key=("year", "tank"),
)

_SEASON_SHIFT = Table(
    "season_shift",
    "one row a crop, cultivar and year with a first picking",
    (
        _CROP,
        word("cultivar", "cultivar without quotes; empty for the whole crop"),
        _YEAR,
        day("date", "day of the first picking"),
        figure("base_c", "temperature that degree days count above, in C", always=True),
        word("source", "who published the base; empty for the usual 10 C"),
        figure("degree_days_low", "degree days of the season so far, at least"),
        figure("degree_days_high", "the same, at most"),
        whole("unread", "days of the season so far that were not read", always=True),
        day("before", "day of the first picking of the year before"),
        whole("change_days", "days later than it"),
        figure("change_low", "degree days later than it, at least"),
        figure("change_high", "the same, at most"),
        figure("mean_change_days", "days later than the mean of all earlier years"),
        figure("mean_change_low", "degree days later than their mean, at least"),
        figure("mean_change_high", "the same, at most"),
        whole("years_before", "how many earlier years have the degree days", always=True),
    ),
    key=("crop", "cultivar", "year"),
)

WEATHER_TABLES = (
    _CLIMATE_DAYS,
    _CLIMATE_MONTHS,
    _CLIMATE_GAPS,
    _SPELLS,
    _DEGREE_DAYS,
    _GROWING_SEASON,
    _MET_FILE,
    _ET0,
    _WATER_NEED,
    _WATER_NOW,
    _WATER_NEED_YEARS,
    _RAIN_STORE,
    _RAIN_STORE_NOW,
    _RAIN_STORE_YEARS,
    _SEASON_SHIFT,
)
