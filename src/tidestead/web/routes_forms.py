"""Routes that are still to come."""

from __future__ import annotations

from fastapi import APIRouter

router = APIRouter()
