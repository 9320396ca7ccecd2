"""Plain words for keys and tables: labels made from the key, meanings from the schema."""

from __future__ import annotations

import re
from functools import cache
from inspect import cleandoc
from typing import Any

from pydantic import BaseModel

from tidestead.plan.model import Plan
from tidestead.plan.schema import json_schema

_LISTED = re.compile(r"[,:]? (?:such as )?\[[^\]]*\]")
_CATALOGUED = re.compile(r'[Aa] catalogue name, such as "[^"]*"(?: or "[^"]*")*')
_SPELT = {
    "uvc": "UV-C",
    "ph": "pH",
    "pvgis": "PVGIS",
    "tidestead": "Layout of the file",
    "show": "Units shown",
    "of": "Of what",
    "sold": "Sold as",
    "book": "Price book",
}
"""Keys whose words are not those of the key."""


def label_of(key: str) -> str:
    """A key in plain words: `bed_thickness` is "Bed thickness"."""
    words = key.replace("_", " ")
    return _SPELT.get(key, words[:1].upper() + words[1:])


@cache
def kind_of_part(model: type[BaseModel]) -> str:
    """What one of a table's named parts is called: `WaterFan` is "Water fan"."""
    return re.sub(r"(?<=[a-z])(?=[A-Z])", " ", model.__name__).capitalize()


@cache
def told_of_part(model: type[BaseModel]) -> str:
    """What a table is for, from the words that stand under its class."""
    return _plain(" ".join(cleandoc(model.__doc__ or "").split()))


def told_of(model: type[BaseModel], key: str) -> str:
    """What a key means, from the words that stand under it."""
    properties = _described().get(model.__name__, {}).get("properties", {})
    return _plain(str(properties.get(key, {}).get("description", "")))


def _plain(words: str) -> str:
    """Words without what means something in a source or in the file only: marks round keys, brackets of lists."""
    words = _LISTED.sub("", words.replace("`", ""))
    return _CATALOGUED.sub("A name of the catalogue", words)


@cache
def _described() -> dict[str, Any]:
    schema = json_schema()
    return {**schema["$defs"], Plan.__name__: schema}
