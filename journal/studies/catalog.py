"""Every study by the name that `haulm table` knows it by, and what each left blank."""

from collections.abc import Callable

import pandas as pd

from journal.diary import Diary
from journal.studies.ahead import ahead, ahead_notes, ahead_years
from journal.studies.beds import beds
from journal.studies.beside import beside
from journal.studies.books import books, books_notes
from journal.studies.climate import climate, climate_gaps, climate_notes
from journal.studies.climate_days import climate_days, climate_months
from journal.studies.cumulative import cumulative
from journal.studies.degree_days import degree_days
from journal.studies.et0 import et0
from journal.studies.feeding import feeding, feeding_last, feeding_notes
from journal.studies.ground import ground, ground_notes
from journal.studies.ground_next import ground_next
from journal.studies.growing_season import growing_season
from journal.studies.harvest import harvest, harvest_notes
from journal.studies.heaps import heaps, heaps_log, heaps_notes, heaps_past
from journal.studies.intentions import intentions
from journal.studies.labour import labour, labour_notes, labour_worth
from journal.studies.lives import lives
from journal.studies.manure_interval import manure_interval, manure_notes
from journal.studies.met_file import met_file, met_file_notes
from journal.studies.money import money, money_notes
from journal.studies.money_worth import money_worth, money_worth_notes, money_years
from journal.studies.nitrogen_limits import feeding_limits
from journal.studies.notes import Note
from journal.studies.occupancy import occupancy
from journal.studies.plan import plan
from journal.studies.plants import batches, plant_events, plants, plants_notes, unplaced
from journal.studies.rain_store import rain_store, rain_store_notes
from journal.studies.rain_store_now import rain_store_now, rain_store_years
from journal.studies.season_shift import season_shift, shift_notes
from journal.studies.seed import seed, seed_notes
from journal.studies.spells import spells
from journal.studies.standing import standing
from journal.studies.structures import structures, structures_notes
from journal.studies.survival import survival
from journal.studies.verdicts import verdicts
from journal.studies.water_need import water_need, water_notes, water_now
from journal.studies.water_need_years import water_need_years
from journal.studies.years import years, years_notes

STUDIES: dict[str, Callable[[Diary], pd.DataFrame]] = {
    "harvest": harvest,
    "labour": labour,
    "labour worth": labour_worth,
    "years": years,
    "ground": ground,
    "ground next": ground_next,
    "beside": beside,
    "cumulative": cumulative,
    "occupancy": occupancy,
    "beds": beds,
    "plan": plan,
    "verdicts": verdicts,
    "manure_interval": manure_interval,
    "feeding": feeding,
    "feeding last": feeding_last,
    "feeding limits": feeding_limits,
    "heaps": heaps,
    "heaps past": heaps_past,
    "heaps log": heaps_log,
    "structures": structures,
    "money": money,
    "money worth": money_worth,
    "money years": money_years,
    "seed": seed,
    "books": books,
    "plants": plants,
    "plants batches": batches,
    "plants events": plant_events,
    "plants unplaced": unplaced,
    "plants lives": lives,
    "plants survival": survival,
    "standing": standing,
    "ahead": ahead,
    "ahead years": ahead_years,
    "intentions": intentions,
    "climate": climate,
    "climate_days": climate_days,
    "climate_months": climate_months,
    "climate_gaps": climate_gaps,
    "spells": spells,
    "degree_days": degree_days,
    "growing_season": growing_season,
    "met_file": met_file,
    "et0": et0,
    "water_need": water_need,
    "water_now": water_now,
    "water_need_years": water_need_years,
    "rain_store": rain_store,
    "rain_store_now": rain_store_now,
    "rain_store_years": rain_store_years,
    "season_shift": season_shift,
}

NOTES: dict[str, Callable[[Diary], list[Note]]] = {
    "harvest": harvest_notes,
    "labour": labour_notes,
    "years": years_notes,
    "ground": ground_notes,
    "manure_interval": manure_notes,
    "feeding": feeding_notes,
    "heaps": heaps_notes,
    "structures": structures_notes,
    "money": money_notes,
    "money worth": money_worth_notes,
    "seed": seed_notes,
    "books": books_notes,
    "plants": plants_notes,
    "ahead": ahead_notes,
    "climate": climate_notes,
    "met_file": met_file_notes,
    "water_need": water_notes,
    "rain_store": rain_store_notes,
    "season_shift": shift_notes,
}
