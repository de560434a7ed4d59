"""Who published the numbers and formulas of this room: titles as they are cited."""

from __future__ import annotations

from handsfree.words import worded

ARMY = "Pharmacology Math for the Practical Nurse, MD0904 ed. 100, US Army Medical Department"
ARMY_DROPS = f"{ARMY}, page 123"
ARMY_RATE = f"{ARMY}, page 125"
ARMY_BURN = "Wound Care, MD0576, US Army Medical Department, page 62"
HAND_OUT = "IV formula hand-out with worked answers, author unknown"
FORMULA_LIST = "Need-to-know math formulas, author unknown"
PRACTICE_EXAM = "Dosage calculation practice exam with answers, author unknown"
WORKED_EXAM = "Dosage exam answers with working, author unknown"
REVIEW = "Drug calculation review, author unknown"
CARDS = "Student cards: time tape, infusion time, drops in 15 s"
OPEN_RN = "Nursing Skills, section 5.16 IV Completion Time, Open RN"
DOSAGE_BOOK = "Pharmacology for Nurses, ch. 2 Dosage Calculations, OpenStax"
FLUID_BOOK = "Pharmacology for Nurses, chapter on fluids and electrolytes, OpenStax"
CRITICAL_DOSAGE = "Dosage Calculation in Critical Care Settings, Southern Adventist University"
CRITICAL_CARE = "Critical Care Calculations, nursing dosage course page"
THREAD = "nurses' forum thread on rounding rules"
DROP_SET = "ISO 8536-4:2020 clause 7.8, as quoted on a standards-seller page"
CANNULAS = "emergency department handbook, IV cannula page, South Australia"
PAEDIATRICS = "Core paediatrics, Fluids & Electrolytes p. 4, University of Texas Medical Branch"
PRESCRIBING = "IV fluid prescribing, quick reference, open paediatric education site, UK"
SEPSIS_PATHWAY = "sepsis algorithm fluid page, US children's hospital"
SEPSIS_REVIEW = "review of fluid bolus therapy in paediatric sepsis, 2018, on ACCM/PALS 2017"
BURN_PODCAST = "Burn fluid, past and present ABA guidance, flight-care podcast notes"
BURN_SUMMARY = "ABLS 2010 burn numbers, one-page summary (second hand)"
BURN_UK = "Major trauma: burns, fluids, RCEM Learning"
RULE_OF_TEN = 'PJ Medical Operations Handbook, 8th ed., p. 33, burn "rule of ten"'

LOCAL = worded("local policy")
MEMORY = worded("from memory")
PRACTICE = worded("common practice, no source")
ARITHMETIC = worded("arithmetic")

BY_EYE = worded("what an eye can count, {source}", source=MEMORY)
NO_NEWBORNS = worded("not meant for newborns, {source}", source=MEMORY)
MOST_AND_LEAST = worded("most: {most}; least: {least}", most=CANNULAS, least=LOCAL)
FLUID_PAGE = worded("a page on maintenance fluid, title not known")
SEPSIS_CAMPAIGN = worded("Surviving Sepsis Campaign 2021, no. 5, a weak recommendation")
MANY_HOSPITALS = worded("many hospital policies, {source}", source=MEMORY)
WHOLE_DROPS = worded("{source}: part of a drop cannot be counted", source=DOSAGE_BOOK)
THREE_FIGURES = worded("{source}; three figures: {other}", source=CRITICAL_CARE, other=LOCAL)
