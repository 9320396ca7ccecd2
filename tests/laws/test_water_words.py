"""What the answer on water says: what is taken unsaid, advice that does something, prices that are not there."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.laws.salt_systems import CYCLING, KEPT, TANK, asked, sections, setting
from tests.laws.water_life import found
from tidestead.core.units import parse, show
from tidestead.plan import loads
from tidestead.plan.forms.echoes import told
from tidestead.plan.model import Plan
from tidestead.plan.outline import spot
from tidestead.plan.water_fields import ClockTime
from tidestead.studies import water
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.inputs import Inputs
from tidestead.studies.water.filling import filling_of
from tidestead.studies.water.filling_told import told_of
from tidestead.studies.water.setting import setting_of
from tidestead.studies.water.setting_told import setting_assumed
from tidestead.studies.water.wording import percent

# What is taken unsaid
