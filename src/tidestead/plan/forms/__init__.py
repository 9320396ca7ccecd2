"""The plan as forms: every part grouped as a builder thinks, each value with its reading back and its faults.

Forms follow from the model: a key that a later subject adds appears without a change here.
"""

from tidestead.plan.forms.draft import Draft
from tidestead.plan.forms.naming import words_of_key, words_of_keys
from tidestead.plan.forms.saying import said
from tidestead.plan.forms.shapes import Addable, Choice, Field, Form, Group, Sheet
from tidestead.plan.forms.sheet import blank_form, field_at, form_at, sheet_of
from tidestead.plan.forms.typing_in import edit_typed, part_typed

__all__ = [
    "Addable",
    "Choice",
    "Draft",
    "Field",
    "Form",
    "Group",
    "Sheet",
    "blank_form",
    "edit_typed",
    "field_at",
    "form_at",
    "part_typed",
    "said",
    "sheet_of",
    "words_of_key",
    "words_of_keys",
]
